/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/compare.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/field/spread.h"
#include "answer/life/compare_flags.h"
#include "answer/life/explain.h"
#include "answer/life/hub.h"
#include "answer/life/inputs.h"
#include "answer/life/life.h"
#include "answer/life/loss.h"
#include "answer/life/phases.h"
#include "answer/life/sheet.h"
#include "base/quotient.h"
#include "chart/figure.h"
#include "sentence/findings.h"
#include "sentence/greasing.h"
#include "sentence/life_status.h"
#include "sentence/notes.h"
#include "sentence/sentence.h"

#define BAR_WIDTH 46
#define NAME_WIDTH 33
#define KEY_LENGTH 64

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
static const struct spt_phase_result *costliest_phase(const struct spt_bearing_result *bearing)
{
    if (bearing->worst_phase >= 0)
        return &bearing->phases[bearing->worst_phase];
    for (int i = 0; i < bearing->phase_count; i++)
        if (isnan(bearing->phases[i].modified_rating_life_h))
            return &bearing->phases[i];
    return &bearing->phases[0];
}

/* A bearing and one of its phases, whose film and contamination are shown. */
struct shown_phase {
    const struct spt_bearing_result *bearing;
    const struct spt_phase_result *phase;
    bool as_base; /* the phase with the name of the one shown for the base, not that with most
                     damage in this case */
};

static struct shown_phase costliest(const struct spt_assessment *assessment)
{
    const struct spt_bearing_result *bearing = weakest(assessment);
    return (struct shown_phase){bearing, costliest_phase(bearing), false};
}

/* The phase shown for a case: the one with the name of the phase with most damage in the base, else
 * its own. Of two bearings the one with the same index is shown. */
static struct shown_phase find_shown(const struct spt_compared *cases, int i)
{
    const struct spt_assessment *base = &cases[0].assessment, *assessment = &cases[i].assessment;
    struct shown_phase of_base = costliest(base), own = costliest(assessment);
    if (assessment->bearing_count == base->bearing_count)
        own.bearing = &assessment->bearings[of_base.bearing - base->bearings];
    for (int j = 0; j < own.bearing->phase_count; j++)
        if (!strcmp(own.bearing->phases[j].phase->name, of_base.phase->phase->name))
            return (struct shown_phase){own.bearing, &own.bearing->phases[j], true};
    return costliest(assessment);
}

static double ratio_to_base(const struct spt_compared *cases, int i)
{
    return spt_quotient(cases[i].assessment.modified_rating_life_h,
                        cases[0].assessment.modified_rating_life_h);
}

/* A case; numbers that are not known are NaN. `shown_` are those of the phase that all cases are
 * compared in. */
struct case_row {
    const char *name, *note, *life_status, *mark, *costliest, *shown_bearing, *shown_phase, *codes;
    double life_h, ratio, basic_h;
    double effective_viscosity_ratio, contamination_factor, a_iso, water_factor;
    double grease_interval_h, regrease_every_h;
    const char *regrease_days;      /* calendar time of the greasing, as words */
    double shares[SPT_CAUSE_COUNT]; /* of the loss of the weakest bearing, logarithms */
    double shown_viscosity_ratio, shown_contamination_factor, shown_a_iso, shown_water_factor;
    double band_p5_h, band_p95_h;
};

#define AT(member) .at = offsetof(struct case_row, member)
static const struct spt_column first_columns[] = {
    {.head = "case",
     .key = "case",
     .only = SPT_ONLY_CSV,
     .kind = SPT_WORDS,
     .width = NAME_WIDTH,
     AT(name)},
    {.key = "name", .only = SPT_ONLY_JSON, .kind = SPT_WORDS, AT(name)},
    {.key = "note", .only = SPT_ONLY_JSON, .kind = SPT_WORDS, AT(note)},
    {.key = "basic_rating_life_h", .only = SPT_ONLY_JSON, .kind = SPT_HOURS, AT(basic_h)},
    {.head = "life h",
     .key = "modified_rating_life_h",
     .kind = SPT_HOURS,
     .width = 9,
     .gap = 1,
     AT(life_h)},
    {.head = "", .kind = SPT_MARK, .width = 1, AT(mark)},
    {.key = "life_status", .only = SPT_ONLY_JSON, .kind = SPT_WORDS, AT(life_status)},
    {.head = "ratio",
     .key = "ratio_to_base",
     .kind = SPT_RATIO,
     .endless = "-",
     .width = 7,
     AT(ratio)},
    {.head = "basic life h",
     .key = "basic_rating_life_h",
     .only = SPT_ONLY_CSV,
     .kind = SPT_HOURS,
     .extra = true,
     .width = 12,
     .gap = 1,
     AT(basic_h)},
    {.key = "costliest_phase", .kind = SPT_WORDS, AT(costliest)},
    {.key = "effective_viscosity_ratio", .kind = SPT_NUMBER, AT(effective_viscosity_ratio)},
    {.key = "contamination_factor", .kind = SPT_NUMBER, AT(contamination_factor)},
    {.key = "life_modification_factor", .kind = SPT_NUMBER, AT(a_iso)},
    {.key = "water_factor", .kind = SPT_NUMBER, AT(water_factor)},
    {.key = "grease_interval_h", .kind = SPT_HOURS, AT(grease_interval_h)},
    {.key = "regrease_every_h", .kind = SPT_HOURS, AT(regrease_every_h)},
};
static const struct spt_column last_columns[] = {
    {.key = "shown_bearing", .only = SPT_ONLY_CSV, .kind = SPT_WORDS, AT(shown_bearing)},
    {.key = "shown_phase", .only = SPT_ONLY_CSV, .kind = SPT_WORDS, AT(shown_phase)},
    {.head = "kappa",
     .key = "shown_effective_viscosity_ratio",
     .only = SPT_ONLY_CSV,
     .kind = SPT_NUMBER,
     .width = 5,
     .gap = 1,
     AT(shown_viscosity_ratio)},
    {.head = "e_C",
     .key = "shown_contamination_factor",
     .only = SPT_ONLY_CSV,
     .kind = SPT_NUMBER,
     .width = 7,
     .gap = 1,
     AT(shown_contamination_factor)},
    {.head = "a_ISO",
     .key = "shown_life_modification_factor",
     .only = SPT_ONLY_CSV,
     .kind = SPT_NUMBER,
     .width = 5,
     .gap = 1,
     AT(shown_a_iso)},
    {.head = "a_w",
     .key = "shown_water_factor",
     .only = SPT_ONLY_CSV,
     .kind = SPT_NUMBER,
     .width = 5,
     .gap = 1,
     AT(shown_water_factor)},
    {.key = "warnings", .only = SPT_ONLY_CSV, .kind = SPT_WORDS, AT(codes)},
};
static const struct spt_column band_columns[] = {
    {.key = "band_p5_h", .only = SPT_ONLY_CSV, .kind = SPT_HOURS, AT(band_p5_h)},
    {.key = "band_p95_h", .only = SPT_ONLY_CSV, .kind = SPT_HOURS, AT(band_p95_h)},
};
#undef AT
#define COUNT_OF(array) (int)(sizeof(array) / sizeof(array)[0])
#define COLUMNS_MAX                                                                                \
    (COUNT_OF(first_columns) + SPT_CAUSE_COUNT + COUNT_OF(last_columns) + COUNT_OF(band_columns))

/* The share of the loss of one cause. */
static struct spt_column share_column(struct spt_page *page, int cause)
{
    char key[KEY_LENGTH];
    snprintf(key, sizeof key, "log_life_share_%s", spt_cause_name((enum spt_cause)cause));
    for (char *at = key; *at; at++)
        if (*at == ' ')
            *at = '_';
    return (struct spt_column){.key = spt_page_words(page, "%s", key),
                               .only = SPT_ONLY_CSV,
                               .kind = SPT_NUMBER,
                               .at = offsetof(struct case_row, shares) +
                                     (size_t)cause * sizeof(double)};
}

/* Lists the columns of the cases. Result: their number. */
static int list_columns(struct spt_page *page, bool with_band, struct spt_column *columns)
{
    int count = COUNT_OF(first_columns);
    memcpy(columns, first_columns, sizeof first_columns);
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        columns[count++] = share_column(page, i);
    memcpy(columns + count, last_columns, sizeof last_columns);
    count += COUNT_OF(last_columns);
    if (!with_band)
        return count;
    memcpy(columns + count, band_columns, sizeof band_columns);
    return count + COUNT_OF(band_columns);
}

static void put_shares(struct case_row *row, const struct spt_assessment *assessment)
{
    const struct spt_loss *loss = &weakest(assessment)->loss;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        row->shares[i] = loss->causes[i].applies ? loss->causes[i].log_life_share : 0;
}

static struct case_row case_row(struct spt_page *page, const struct spt_compared *cases, int i)
{
    const struct spt_assessment *assessment = &cases[i].assessment;
    const struct shown_phase shown = find_shown(cases, i);
    const struct spt_phase_result *phase = costliest(assessment).phase;
    const struct spt_band *band = assessment->spread ? &assessment->spread->system : NULL;
    struct case_row row = {
        .name = cases[i].name,
        .note = cases[i].note,
        .life_h = assessment->modified_rating_life_h,
        .life_status = spt_life_status_name(spt_life_status(assessment->modified_rating_life_h)),
        .mark = spt_compare_in_doubt(&cases[i]) ? "!" : "",
        .ratio = ratio_to_base(cases, i),
        .basic_h = assessment->basic_rating_life_h,
        .costliest = phase->phase->name,
        .effective_viscosity_ratio = phase->effective_viscosity_ratio,
        .contamination_factor = phase->contamination_factor,
        .a_iso = phase->factor.a_iso,
        .water_factor = phase->water_factor,
        .grease_interval_h = assessment->greasing.interval_h,
        .regrease_every_h = assessment->greasing.every_h,
        .shown_bearing = shown.bearing->bearing_case->bearing.name,
        .shown_phase = shown.phase->phase->name,
        .shown_viscosity_ratio = shown.phase->effective_viscosity_ratio,
        .shown_contamination_factor = shown.phase->contamination_factor,
        .shown_a_iso = shown.phase->factor.a_iso,
        .shown_water_factor = shown.phase->water_factor,
        .codes = spt_page_codes(page, &cases[i].notes, NULL),
        .band_p5_h = band ? band->p5_h : (double)NAN,
        .band_p95_h = band ? band->p95_h : (double)NAN,
    };
    put_shares(&row, assessment);
    return row;
}

static bool any_band(const struct spt_compared *cases, int count)
{
    for (int i = 0; i < count; i++)
        if (cases[i].assessment.spread)
            return true;
    return false;
}

void spt_compare_table(struct spt_page *page, const struct spt_compared *cases, int count)
{
    struct spt_column *columns = spt_page_allocate(page, (size_t)COLUMNS_MAX * sizeof *columns);
    struct case_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    struct spt_table table = {.caption = "Side by side",
                              .columns = columns,
                              .rows = rows,
                              .row_size = sizeof *rows,
                              .row_count = count,
                              .is_data = true};
    for (int i = 0; rows && i < count; i++)
        rows[i] = case_row(page, cases, i);
    if (columns)
        table.column_count = list_columns(page, any_band(cases, count), columns);
    spt_page_table(page, "cases", &table);
}

/* The greasing of each case, where any is greased. */
static void show_greasing(struct spt_page *page, const struct spt_compared *cases, int count)
{
    static const struct spt_column columns[] = {
        {.head = "greasing of",
         .kind = SPT_WORDS,
         .width = NAME_WIDTH,
         .at = offsetof(struct case_row, name)},
        {.head = "interval h",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .none = "-",
         .at = offsetof(struct case_row, grease_interval_h)},
        {.head = "every h",
         .kind = SPT_HOURS,
         .width = 9,
         .gap = 1,
         .none = "-",
         .at = offsetof(struct case_row, regrease_every_h)},
        {.head = "or",
         .kind = SPT_DAY,
         .width = 10,
         .gap = 1,
         .at = offsetof(struct case_row, regrease_days)},
    };
    struct case_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    bool any = false;
    for (int i = 0; rows && i < count; i++) {
        const struct spt_greasing *greasing = &cases[i].assessment.greasing;
        char span[SPT_SPAN_LENGTH] = "-";
        if (!isnan(greasing->kept_h))
            spt_greasing_span_of(greasing, span);
        rows[i] = (struct case_row){.name = cases[i].name,
                                    .grease_interval_h = greasing->interval_h,
                                    .regrease_every_h = greasing->every_h,
                                    .regrease_days = spt_page_words(page, "%s", span)};
        any = any || greasing->state != SPT_GREASING_NONE;
    }
    if (!any)
        return;
    spt_page_open(page, "Greasing");
    spt_page_table(page, "greasing", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    spt_page_close(page);
}

/* Whether the cases reach what is wanted of them; silent where nothing is. */
static void judge_cases(struct spt_page *page, const struct spt_compared *cases, int count)
{
    int wanted = 0, missed = 0;
    bool doubt = false;
    const char *names = "";
    for (int i = 0; i < count; i++) {
        const struct spt_assessment *assessment = &cases[i].assessment;
        const enum spt_verdict verdict = spt_findings_judge(assessment);
        wanted += verdict != SPT_UNJUDGED;
        doubt = doubt || verdict == SPT_DOUBTFUL;
        if (verdict == SPT_MISSED)
            names = spt_page_words(page, "%s%s%s (%s h)", names, missed++ ? "; " : "",
                                   spt_page_name(page, cases[i].name),
                                   spt_page_hours(page, assessment->question->target_life_h));
    }
    if (missed)
        spt_page_judge(page, SPT_MISSED, "Target MISSED by %d of %d: %s.", missed, wanted, names);
    else if (wanted)
        spt_page_judge(page, doubt ? SPT_DOUBTFUL : SPT_MET, "Every case meets its target.");
}

/* Explains which phase the columns of the table show, and what "!" means. */
static void say_legend(struct spt_page *page, const struct spt_compared *cases, int count)
{
    const struct shown_phase of_base = costliest(&cases[0].assessment);
    const bool two = cases[0].assessment.bearing_count > 1;
    bool others = false, doubt = false;
    for (int i = 0; i < count; i++) {
        others = others || !find_shown(cases, i).as_base;
        doubt = doubt || spt_compare_in_doubt(&cases[i]);
    }
    spt_page_say(page, SPT_BODY, "", "kappa, e_C, a_ISO and a_w are those of \"%s\"%s%s, %s%s.",
                 spt_page_name(page, of_base.phase->phase->name), two ? " of " : "",
                 two ? spt_page_name(page, of_base.bearing->bearing_case->bearing.name) : "",
                 of_base.bearing->worst_phase >= 0 ? "the phase that costs the first case most"
                                                   : "a phase of the first case",
                 others ? "; a case without such a phase shows its own costliest" : "");
    if (doubt)
        spt_page_say(page, SPT_BODY, "",
                     "!: fatigue may not be what ends it, or the figure is in doubt: see the "
                     "flags.");
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

/* Bars of the lives on a log scale. */
struct bars {
    const struct spt_compared *cases;
    int count;
    double low, high;
};

static void write_bars(const struct spt_text *text, const void *subject)
{
    const struct bars *bars = subject;
    const struct spt_compared *cases = bars->cases;
    const double low = bars->low, high = bars->high;
    char left[SPT_HOURS_LENGTH], right[SPT_HOURS_LENGTH];
    fprintf(text->out, "%*s %-*s%*s\n", NAME_WIDTH, "", BAR_WIDTH / 2, spt_text_stated(low, left),
            BAR_WIDTH / 2, spt_text_stated(high, right));
    for (int i = 0; i < bars->count; i++) {
        double life_h = cases[i].assessment.modified_rating_life_h;
        spt_text_fit(text, cases[i].name, NAME_WIDTH);
        fputc(' ', text->out);
        if (isnan(life_h))
            fputs("no life can be stated", text->out);
        else
            spt_text_bar(text, isinf(life_h) ? 1 : fmax(log(life_h / low), 1e-9),
                         isinf(life_h) ? 1 : log(high / low), BAR_WIDTH);
        fputc('\n', text->out);
    }
}

/* The cases as a report, of which there are charts. */
static const struct spt_report *report_of(struct spt_page *page, const struct spt_compared *cases,
                                          int count)
{
    struct spt_report *report = spt_page_allocate(page, sizeof *report);
    struct spt_report_case *parts = spt_page_allocate(page, (size_t)count * sizeof *parts);
    if (!report || !parts)
        return NULL;
    for (int i = 0; i < count; i++)
        parts[i] =
            (struct spt_report_case){.name = cases[i].name, .assessment = &cases[i].assessment};
    *report = (struct spt_report){.case_count = count, .cases = parts};
    return report;
}

static void show_bars(struct spt_page *page, const struct spt_compared *cases, int count)
{
    struct bars *bars = spt_page_allocate(page, sizeof *bars);
    if (!bars || !find_decades(cases, count, &bars->low, &bars->high))
        return;
    const struct spt_report *report = report_of(page, cases, count);
    bars->cases = cases;
    bars->count = count;
    spt_page_open(page, "Life in hours on a log scale");
    spt_page_picture(page, &(struct spt_picture){.subject = bars, .text = write_bars});
    if (report)
        spt_figures_page(page, report, SPT_CHART_OF_CASES, 0, 0);
    spt_page_close(page);
}

struct band_row {
    const char *name;
    double p5_h, p50_h, p95_h;
    int samples;
};

/* The life of each case with its band, where there is a section `uncertainty`. */
static void show_bands(struct spt_page *page, const struct spt_compared *cases, int count)
{
    static const struct spt_column columns[] = {
        {.head = "life in h of",
         .kind = SPT_WORDS,
         .width = NAME_WIDTH,
         .at = offsetof(struct band_row, name)},
        {.head = "5 %",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct band_row, p5_h)},
        {.head = "50 %",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct band_row, p50_h)},
        {.head = "95 %",
         .kind = SPT_HOURS,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct band_row, p95_h)},
        {.head = "samples",
         .kind = SPT_COUNT,
         .width = 8,
         .gap = 1,
         .at = offsetof(struct band_row, samples)},
    };
    struct band_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    int used = 0;
    for (int i = 0; rows && i < count; i++) {
        const struct spt_uncertainty_result *spread = cases[i].assessment.spread;
        if (spread)
            rows[used++] =
                (struct band_row){cases[i].name, spread->system.p5_h, spread->system.p50_h,
                                  spread->system.p95_h, spread->samples};
    }
    spt_page_open(page, "Bands by the section `uncertainty`");
    spt_page_table(page, "bands", &(struct spt_table){SPT_TABLE_OF(columns, rows, used)});
    if (used)
        spt_page_say(page, SPT_BODY, "",
                     "Cases of one scenario share what is drawn, so bands that overlap may still "
                     "keep their order.");
    for (int i = 0; i < count; i++)
        if (cases[i].assessment.spread)
            spt_spread_unmoved_page(page, cases[i].name, cases[i].assessment.question,
                                    cases[i].assessment.spread);
    spt_page_close(page);
}

static void show_case(struct spt_page *page, const struct spt_compared *compared)
{
    const struct spt_assessment *assessment = &compared->assessment;
    spt_page_open(page, "%s", spt_page_name(page, compared->name));
    if (compared->note)
        spt_page_say(page, SPT_BODY, "", "%s", spt_page_name(page, compared->note));
    for (int i = 0; i < assessment->bearing_count; i++) {
        if (assessment->bearing_count > 1)
            spt_page_say(page, SPT_BODY, "", "%s:",
                         spt_page_name(page, assessment->bearings[i].bearing_case->bearing.name));
        spt_page_loss(page, &assessment->bearings[i], false);
    }
    spt_page_close(page);
}

static bool applies_somewhere(const struct spt_compared *cases, int count, int cause)
{
    for (int i = 0; i < count; i++)
        for (int b = 0; b < cases[i].assessment.bearing_count; b++)
            if (cases[i].assessment.bearings[b].loss.causes[cause].applies)
                return true;
    return false;
}

static void say_cures(struct spt_page *page, const struct spt_compared *cases, int count)
{
    spt_page_open(page, "What put right means");
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        if (applies_somewhere(cases, count, i))
            spt_page_say(page, SPT_BODY, "- ", "%s: %s", spt_cause_name((enum spt_cause)i),
                         spt_cure((enum spt_cause)i));
    spt_page_close(page);
}

static void keep_contacts(struct spt_page *page, const struct spt_compared *cases, int count)
{
    for (int i = 0; i < count; i++)
        if (cases[i].assessment.hub)
            spt_page_contacts(page, spt_page_words(page, "contacts %d", i), cases[i].assessment.hub,
                              false);
}

void spt_compare_page(struct spt_page *page, const struct spt_compared *cases, int count,
                      bool explain)
{
    spt_compare_table(page, cases, count);
    judge_cases(page, cases, count);
    say_legend(page, cases, count);
    show_bars(page, cases, count);
    show_greasing(page, cases, count);
    show_bands(page, cases, count);
    for (int i = 0; i < count; i++)
        show_case(page, &cases[i]);
    say_cures(page, cases, count);
    spt_compare_flags(page, cases, count, explain ? ~SPT_EFFECTS_ASSUMED : SPT_EFFECTS_ALL);
    keep_contacts(page, cases, count);
    for (int i = 0; explain && i < count; i++) {
        spt_page_open(page, "%s", spt_page_name(page, cases[i].name));
        spt_page_inputs(page, &cases[i].assessment);
        spt_page_assumptions(page, &cases[i].assessment);
        spt_explain_assessment_page(page, &cases[i].assessment);
        spt_page_close(page);
    }
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
    const struct shown_phase shown = find_shown(cases, i);
    spt_json_open(json, "shown_phase", '{');
    spt_json_text(json, "bearing", shown.bearing->bearing_case->bearing.name);
    spt_json_text(json, "name", shown.phase->phase->name);
    spt_json_number(json, "effective_viscosity_ratio", shown.phase->effective_viscosity_ratio);
    spt_json_number(json, "contamination_factor", shown.phase->contamination_factor);
    spt_json_number(json, "life_modification_factor", shown.phase->factor.a_iso);
    spt_json_number(json, "water_factor", shown.phase->water_factor);
    spt_json_close(json, '}');
}

static void write_case(struct spt_json *json, const struct spt_page *page,
                       const struct spt_compared *cases, int i)
{
    char id[KEY_LENGTH];
    const struct spt_assessment *assessment = &cases[i].assessment;
    spt_table_json_row(spt_page_find(page, "cases"), i, json);
    if (assessment->spread) {
        spt_band_json(json, &assessment->spread->system);
        spt_json_number(json, "samples", assessment->spread->samples);
    }
    write_shown(json, cases, i);
    write_causes(json, assessment);
    snprintf(id, sizeof id, "contacts %d", i);
    if (assessment->hub)
        spt_hub_json(json, spt_page_find(page, id), assessment->hub);
    spt_json_notes(json, &cases[i].notes);
}

static void write_workings(struct spt_json *json, const struct spt_compared *cases, int count)
{
    spt_json_open(json, "workings", '[');
    for (int i = 0; i < count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", cases[i].name);
        spt_explain_json(json, &cases[i].assessment);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_compare_json(struct spt_json *json, const struct spt_page *page,
                      const struct spt_compared *cases, int count, bool explain)
{
    spt_json_open(json, "cases", '[');
    for (int i = 0; i < count; i++) {
        spt_json_open(json, NULL, '{');
        write_case(json, page, cases, i);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    if (explain)
        write_workings(json, cases, count);
}
