/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/compare.h"

#include <math.h>
#include <string.h>

#include "answer/field/spread.h"
#include "answer/life/compare_flags.h"
#include "answer/life/hub.h"
#include "answer/life/life.h"
#include "base/quotient.h"
#include "format/csv.h"
#include "sentence/sentence.h"

#define BAR_WIDTH 46

/* The bearing with the shortest life; one without a life counts as the shortest. */
static const struct spt_bearing_result *weakest(const struct spt_assessment *assessment)
{
    const struct spt_bearing_result *worst = &assessment->bearings[0];
    for (int i = 1; i < assessment->bearing_count && !isnan(worst->modified_rating_life_h); i++)
        if (!(assessment->bearings[i].modified_rating_life_h >= worst->modified_rating_life_h))
            worst = &assessment->bearings[i];
    return worst;
}

/* The phase of a bearing with most damage; where there is no life, the first phase without one. */
static const struct spt_phase_result *telling_phase(const struct spt_bearing_result *bearing)
{
    if (bearing->worst_phase >= 0)
        return &bearing->phases[bearing->worst_phase];
    for (int i = 0; i < bearing->phase_count; i++)
        if (isnan(bearing->phases[i].modified_rating_life_h))
            return &bearing->phases[i];
    return &bearing->phases[0];
}

/* A bearing and one of its phases, whose film and contamination are shown. */
struct shown {
    const struct spt_bearing_result *bearing;
    const struct spt_phase_result *phase;
    bool as_base; /* the phase with the name of the one shown for the base, not that with most
                     damage in this case */
};

static struct shown telling(const struct spt_assessment *assessment)
{
    const struct spt_bearing_result *bearing = weakest(assessment);
    return (struct shown){bearing, telling_phase(bearing), false};
}

/* The phase shown for a case: the one with the name of the phase with most damage in the base, else
 * its own. Of two bearings the one with the same index is shown. */
static struct shown shown_phase(const struct spt_compared *cases, int i)
{
    const struct spt_assessment *base = &cases[0].assessment, *assessment = &cases[i].assessment;
    struct shown of_base = telling(base), own = telling(assessment);
    if (assessment->bearing_count == base->bearing_count)
        own.bearing = &assessment->bearings[of_base.bearing - base->bearings];
    for (int j = 0; j < own.bearing->phase_count; j++)
        if (!strcmp(own.bearing->phases[j].phase->name, of_base.phase->phase->name))
            return (struct shown){own.bearing, &own.bearing->phases[j], true};
    return telling(assessment);
}

static double ratio_to_base(const struct spt_compared *cases, int i)
{
    return spt_quotient(cases[i].assessment.modified_rating_life_h,
                        cases[0].assessment.modified_rating_life_h);
}

static void write_row(const struct spt_text *text, const struct spt_compared *cases, int i)
{
    char cell[SPT_HOURS_LENGTH];
    const struct spt_phase_result *phase = shown_phase(cases, i).phase;
    spt_text_fit(text, cases[i].name, 33);
    fprintf(text->out, " %9s", spt_text_hours(cases[i].assessment.modified_rating_life_h, cell));
    double ratio = ratio_to_base(cases, i);
    fputc(spt_compare_in_doubt(&cases[i]) ? '!' : ' ', text->out);
    fprintf(text->out, "%7s", isinf(ratio) ? "-" : spt_text_ratio(ratio, cell));
    fprintf(text->out, " %5s", spt_text_number(phase->effective_viscosity_ratio, cell));
    fprintf(text->out, " %7s", spt_text_number(phase->contamination_factor, cell));
    fprintf(text->out, " %5s", spt_text_number(phase->factor.a_iso, cell));
    fprintf(text->out, " %5s\n", spt_text_number(phase->water_factor, cell));
}

/* Explains which phase the columns of the table show, and what "!" means. */
static void write_legend(const struct spt_text *text, const struct spt_compared *cases, int count,
                         bool quiet)
{
    struct shown of_base = telling(&cases[0].assessment);
    bool two = cases[0].assessment.bearing_count > 1, others = false, doubt = false;
    for (int i = 0; i < count; i++) {
        others = others || !shown_phase(cases, i).as_base;
        doubt = doubt || spt_compare_in_doubt(&cases[i]);
    }
    spt_text_wrapf(text, "", "kappa, e_C, a_ISO and a_w are those of \"%s\"%s%s, %s%s.",
                   of_base.phase->phase->name, two ? " of " : "",
                   two ? of_base.bearing->bearing_case->bearing.name : "",
                   of_base.bearing->worst_phase >= 0 ? "the phase that costs the first case most"
                                                     : "a phase of the first case",
                   others ? "; a case without such a phase shows its own costliest" : "");
    if (doubt)
        spt_text_wrapf(text, "", "!: %s may not be what ends it, or the figure is in doubt: %s.",
                       "fatigue", quiet ? "run without --quiet for the flags" : "see the flags");
}

/* Shortest and longest finite life, widened to whole decades. */
static bool find_decades(const struct spt_compared *cases, int count, double *low, double *high)
{
    *low = (double)INFINITY;
    *high = 0;
    for (int i = 0; i < count; i++) {
        double life_h = cases[i].assessment.modified_rating_life_h;
        if (!isfinite(life_h) || life_h <= 0)
            continue;
        *low = fmin(*low, life_h);
        *high = fmax(*high, life_h);
    }
    if (!(*high > 0))
        return false;
    *low = pow(10, floor(log10(*low)));
    *high = fmax(pow(10, ceil(log10(*high))), *low * 10);
    return true;
}

static void write_bars(const struct spt_text *text, const struct spt_compared *cases, int count)
{
    double low, high;
    if (!find_decades(cases, count, &low, &high))
        return;
    char left[SPT_HOURS_LENGTH], right[SPT_HOURS_LENGTH];
    spt_text_heading(text, "LIFE IN HOURS ON A LOG SCALE");
    fprintf(text->out, "%33s %-*s%*s\n", "", BAR_WIDTH / 2, spt_text_stated(low, left),
            BAR_WIDTH / 2, spt_text_stated(high, right));
    for (int i = 0; i < count; i++) {
        double life_h = cases[i].assessment.modified_rating_life_h;
        spt_text_fit(text, cases[i].name, 33);
        fputc(' ', text->out);
        if (isnan(life_h))
            fputs("no life can be stated", text->out);
        else
            spt_text_bar(text, isinf(life_h) ? 1 : fmax(log(life_h / low), 1e-9),
                         isinf(life_h) ? 1 : log(high / low), BAR_WIDTH);
        fputc('\n', text->out);
    }
}

/* Writes the life of each case with its band, where there is a section `uncertainty`. */
static void write_bands(const struct spt_text *text, const struct spt_compared *cases, int count)
{
    bool headed = false;
    for (int i = 0; i < count; i++) {
        const struct spt_uncertainty_result *spread = cases[i].assessment.spread;
        char cell[SPT_HOURS_LENGTH];
        if (!spread)
            continue;
        if (!headed) {
            spt_text_heading(text, "BANDS BY THE SECTION uncertainty");
            fprintf(text->out, "%-33s %11s %11s %11s %8s\n", "life in h of", "5 %", "50 %", "95 %",
                    "samples");
        }
        headed = true;
        spt_text_fit(text, cases[i].name, 33);
        fprintf(text->out, " %11s", spt_text_hours(spread->system.p5_h, cell));
        fprintf(text->out, " %11s", spt_text_hours(spread->system.p50_h, cell));
        fprintf(text->out, " %11s %8d\n", spt_text_hours(spread->system.p95_h, cell),
                spread->samples);
    }
    if (headed)
        spt_text_wrap(text, "",
                      "Cases of one scenario share what is drawn, so bands that overlap may still "
                      "keep their order.");
    for (int i = 0; i < count; i++)
        if (cases[i].assessment.spread)
            spt_spread_unmoved_text(text, cases[i].name, cases[i].assessment.question,
                                    cases[i].assessment.spread);
}

static void write_changes(const struct spt_text *text, const struct spt_compared *compared)
{
    const struct spt_assessment *assessment = &compared->assessment;
    spt_text_heading(text, compared->name);
    if (compared->note)
        spt_text_wrap(text, "", compared->note);
    for (int i = 0; i < assessment->bearing_count; i++) {
        if (assessment->bearing_count > 1)
            spt_text_wrapf(text, "", "%s:", assessment->bearings[i].bearing_case->bearing.name);
        spt_life_loss_text(text, &assessment->bearings[i], false);
    }
}

static bool applies_somewhere(const struct spt_compared *cases, int count, int cause)
{
    for (int i = 0; i < count; i++)
        for (int b = 0; b < cases[i].assessment.bearing_count; b++)
            if (cases[i].assessment.bearings[b].loss.causes[cause].applies)
                return true;
    return false;
}

static void write_cures(const struct spt_text *text, const struct spt_compared *cases, int count)
{
    bool headed = false;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
        if (!applies_somewhere(cases, count, i))
            continue;
        if (!headed)
            spt_text_heading(text, "WHAT PUT RIGHT MEANS");
        headed = true;
        spt_text_wrapf(text, "- ", "%s: %s", spt_cause_name((enum spt_cause)i),
                       spt_cure((enum spt_cause)i));
    }
}

void spt_compare_text(const struct spt_text *text, const struct spt_compared *cases, int count,
                      bool quiet)
{
    fprintf(text->out, "%-33s %9s %7s %5s %7s %5s %5s\n", "case", "life h", "ratio", "kappa", "e_C",
            "a_ISO", "a_w");
    for (int i = 0; i < count; i++)
        write_row(text, cases, i);
    write_legend(text, cases, count, quiet);
    write_bars(text, cases, count);
    write_bands(text, cases, count);
    for (int i = 0; i < count; i++)
        write_changes(text, &cases[i]);
    write_cures(text, cases, count);
    if (!quiet)
        spt_compare_flags_text(text, cases, count);
}

static void write_causes(struct spt_json *json, const struct spt_assessment *assessment)
{
    spt_json_open(json, "bearings", '[');
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", bearing->bearing_case->bearing.name);
        spt_json_life(json, bearing->modified_rating_life_h);
        spt_life_loss_json(json, &bearing->loss);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

/* Writes the members about the shown phase. */
static void write_shown(struct spt_json *json, const struct spt_compared *cases, int i)
{
    struct shown shown = shown_phase(cases, i);
    spt_json_open(json, "shown_phase", '{');
    spt_json_text(json, "bearing", shown.bearing->bearing_case->bearing.name);
    spt_json_text(json, "name", shown.phase->phase->name);
    spt_json_number(json, "effective_viscosity_ratio", shown.phase->effective_viscosity_ratio);
    spt_json_number(json, "contamination_factor", shown.phase->contamination_factor);
    spt_json_number(json, "life_modification_factor", shown.phase->factor.a_iso);
    spt_json_number(json, "water_factor", shown.phase->water_factor);
    spt_json_close(json, '}');
}

void spt_compare_json(struct spt_json *json, const struct spt_compared *cases, int count)
{
    spt_json_open(json, "cases", '[');
    for (int i = 0; i < count; i++) {
        const struct spt_assessment *assessment = &cases[i].assessment;
        const struct spt_phase_result *phase = telling(assessment).phase;
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", cases[i].name);
        spt_json_text(json, "note", cases[i].note);
        spt_json_number(json, "basic_rating_life_h", assessment->basic_rating_life_h);
        spt_json_life(json, assessment->modified_rating_life_h);
        if (assessment->spread) {
            spt_band_json(json, &assessment->spread->system);
            spt_json_number(json, "samples", assessment->spread->samples);
        }
        spt_json_number(json, "ratio_to_base", ratio_to_base(cases, i));
        spt_json_text(json, "costliest_phase", phase->phase->name);
        spt_json_number(json, "effective_viscosity_ratio", phase->effective_viscosity_ratio);
        spt_json_number(json, "contamination_factor", phase->contamination_factor);
        spt_json_number(json, "life_modification_factor", phase->factor.a_iso);
        spt_json_number(json, "water_factor", phase->water_factor);
        write_shown(json, cases, i);
        write_causes(json, assessment);
        if (assessment->hub)
            spt_hub_json(json, assessment->hub);
        spt_json_notes(json, &cases[i].notes);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_csv_heads(struct spt_csv *csv, bool with_band)
{
    static const char *const heads[] = {"case",
                                        "modified_rating_life_h",
                                        "ratio_to_base",
                                        "basic_rating_life_h",
                                        "costliest_phase",
                                        "effective_viscosity_ratio",
                                        "contamination_factor",
                                        "life_modification_factor",
                                        "water_factor"};
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++)
        spt_csv_text(csv, heads[i]);
    for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
        char head[64];
        snprintf(head, sizeof head, "log_life_share_%s", spt_cause_name((enum spt_cause)i));
        for (char *at = head; *at; at++)
            if (*at == ' ')
                *at = '_';
        spt_csv_text(csv, head);
    }
    static const char *const more[] = {"shown_bearing",
                                       "shown_phase",
                                       "shown_effective_viscosity_ratio",
                                       "shown_contamination_factor",
                                       "shown_life_modification_factor",
                                       "shown_water_factor",
                                       "warnings"};
    for (size_t i = 0; i < sizeof more / sizeof *more; i++)
        spt_csv_text(csv, more[i]);
    if (with_band)
        spt_csv_band_heads(csv);
    spt_csv_end(csv);
}

static void write_csv_shown(struct spt_csv *csv, const struct spt_compared *cases, int i)
{
    struct shown shown = shown_phase(cases, i);
    spt_csv_text(csv, shown.bearing->bearing_case->bearing.name);
    spt_csv_text(csv, shown.phase->phase->name);
    spt_csv_number(csv, shown.phase->effective_viscosity_ratio);
    spt_csv_number(csv, shown.phase->contamination_factor);
    spt_csv_number(csv, shown.phase->factor.a_iso);
    spt_csv_number(csv, shown.phase->water_factor);
}

void spt_compare_csv(FILE *out, const struct spt_compared *cases, int count)
{
    struct spt_csv csv = {out, false};
    bool with_band = false;
    for (int i = 0; i < count; i++)
        with_band = with_band || cases[i].assessment.spread;
    write_csv_heads(&csv, with_band);
    for (int i = 0; i < count; i++) {
        const struct spt_assessment *assessment = &cases[i].assessment;
        const struct spt_phase_result *phase = telling(assessment).phase;
        spt_csv_text(&csv, cases[i].name);
        spt_csv_number(&csv, assessment->modified_rating_life_h);
        spt_csv_number(&csv, ratio_to_base(cases, i));
        spt_csv_number(&csv, assessment->basic_rating_life_h);
        spt_csv_text(&csv, phase->phase->name);
        spt_csv_number(&csv, phase->effective_viscosity_ratio);
        spt_csv_number(&csv, phase->contamination_factor);
        spt_csv_number(&csv, phase->factor.a_iso);
        spt_csv_number(&csv, phase->water_factor);
        const struct spt_loss *loss = &weakest(assessment)->loss;
        for (int j = 0; j < SPT_CAUSE_COUNT; j++)
            spt_csv_number(&csv, loss->causes[j].applies ? loss->causes[j].log_life_share : 0);
        write_csv_shown(&csv, cases, i);
        spt_life_codes_csv(&csv, &cases[i].notes, NULL);
        if (with_band)
            spt_csv_band(&csv, assessment->spread ? &assessment->spread->system : NULL);
        spt_csv_end(&csv);
    }
}
