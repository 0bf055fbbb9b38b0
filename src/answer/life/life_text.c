/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/hub.h"
#include "answer/life/life.h"
#include "sentence/causes.h"
#include "sentence/findings.h"
#include "sentence/sentence.h"
#include "words/words.h"

#define BAR_WIDTH 20
#define OVERDUE_SURVIVAL 0.99 /* survival of the grease at the end of its interval */
#define SMALL_LOSS 1.1        /* a loss by a smaller factor is not drawn as bars */

static void write_inputs(const struct spt_text *text, const struct spt_assessment *assessment)
{
    const struct spt_lubricant *oil = &assessment->question->lubricant;
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing *part = &assessment->bearings[i].bearing_case->bearing;
        spt_text_wrapf(text, "bearing    ",
                       "%s (%s %.6g x %.6g x %.6g mm), C %.4g kN, C0 %.4g kN, C_u %.3g kN",
                       part->name, spt_bearing_type_name(part->type), part->bore_mm,
                       part->outside_diameter_mm, part->width_mm, part->dynamic_load_rating_n / 1e3,
                       part->static_load_rating_n / 1e3, part->fatigue_load_limit_n / 1e3);
    }
    spt_text_wrapf(text, "lubricant  ", "%s (%s), %.4g mm2/s at 40 degC, %.3g mm2/s at 100 degC%s",
                   oil->name, spt_word(&spt_lubrication_words, (int)oil->kind),
                   oil->viscosity_40_mm2_s, oil->viscosity_100_mm2_s,
                   oil->ep_additive ? ", EP additive" : "");
    spt_history_text(text, assessment->question);
}

static void write_phase_row(const struct spt_text *text, const struct spt_phase_result *result)
{
    char cell[SPT_HOURS_LENGTH];
    spt_text_fit(text, result->phase->name, 17);
    fprintf(text->out, " %5.1f", 100 * result->phase->time_share);
    fprintf(text->out, " %5s", spt_text_cell(result->phase->speed_rpm, cell));
    fprintf(text->out, " %5s", spt_text_cell(result->dynamic.load_n / 1e3, cell));
    fprintf(text->out, " %4s", spt_text_number(round(result->temperature_c), cell));
    fprintf(text->out, " %5s", spt_text_cell(result->effective_viscosity_ratio, cell));
    fprintf(text->out, " %5s", spt_text_cell(result->contamination_factor, cell));
    fprintf(text->out, " %5s", spt_text_cell(result->factor.a_iso, cell));
    fprintf(text->out, " %5s", spt_text_cell(result->water_factor, cell));
    fprintf(text->out, " %9s", spt_text_hours(result->modified_rating_life_h, cell));
    if (isnan(result->damage_share))
        fputs("     -\n", text->out);
    else
        fprintf(text->out, " %5.1f\n", 100 * result->damage_share);
}

/* Writes the relubrication interval with its uncertainty, and the state of grease older than
 * that. */
static void write_grease(const struct spt_text *text, const struct spt_bearing_result *bearing)
{
    char middle[SPT_HOURS_LENGTH], low[SPT_HOURS_LENGTH], high[SPT_HOURS_LENGTH];
    double interval_h = bearing->grease_interval_h;
    if (isnan(interval_h))
        return;
    spt_text_wrapf(text, "", "Relubrication interval for this duty: about %s (%s to %s).",
                   spt_text_life(interval_h, middle), spt_text_hours(interval_h / 2, low),
                   spt_text_life(interval_h * 2, high));
    double survival = 1;
    for (int i = 0; i < bearing->phase_count; i++)
        survival = fmin(survival, bearing->phases[i].grease.survival);
    if (survival < OVERDUE_SURVIVAL)
        spt_text_wrapf(
            text, "",
            "Of bearings with grease this old, about %.0f %% still have grease that works%s.",
            100 * survival, isnan(bearing->modified_rating_life_h) ? "" : "; the life is theirs");
}

static void write_phases(const struct spt_text *text, const struct spt_bearing_result *bearing,
                         bool of_hub)
{
    fputs("phase              time speed     P temp kappa   e_C a_ISO   a_w      life  cost\n"
          "                      %   rpm    kN degC                              h     %\n",
          text->out);
    for (int i = 0; i < bearing->phase_count; i++)
        write_phase_row(text, &bearing->phases[i]);
    char basic[SPT_HOURS_LENGTH], modified[SPT_HOURS_LENGTH], speed[SPT_HOURS_LENGTH];
    spt_text_wrapf(
        text, "",
        "Whole duty: %s; the basic rating life (90 %%) alone %s %s (mean speed %s rpm, mean "
        "load %.4g kN).",
        spt_text_life(bearing->modified_rating_life_h, modified),
        isinf(bearing->basic_rating_life_h) ? "has" : "would be",
        spt_text_life(bearing->basic_rating_life_h, basic),
        spt_text_amount(bearing->mean_speed_rpm, speed), bearing->mean_equivalent_load_n / 1e3);
    spt_text_wrapf(
        text, "",
        "kappa: oil film, 1 is enough, less is thin. e_C: dirt, 1 clean, 0 filthy. a_ISO: "
        "what film and dirt make of the life. a_w: water, 1 dry.%s",
        of_hub ? " The factor of the setting, which the life has as well, stands below." : "");
    write_grease(text, bearing);
}

static void write_cause(const struct spt_text *text, const struct spt_bearing_result *bearing,
                        int cause, double whole)
{
    char life[SPT_HOURS_LENGTH], bar[BAR_WIDTH + 1];
    const struct spt_cause_share *share = &bearing->loss.causes[cause];
    double part = share->log_life_share / whole;
    bool drawn = whole < -log(SMALL_LOSS);
    int marks = drawn ? (int)round(fmin(fmax(part, 0), 1) * BAR_WIDTH) : 0;
    for (int i = 0; i < BAR_WIDTH; i++)
        bar[i] = i < marks ? '#' : ' ';
    bar[BAR_WIDTH] = 0;
    spt_text_fit(text, spt_cause_name((enum spt_cause)cause), 12);
    if (isnan(part))
        fprintf(text->out, "    -   ");
    else
        fprintf(text->out, "%5.1f %%", fabs(part) < 5e-4 ? 0.0 : 100 * part);
    fprintf(text->out, " %s  %11s", isnan(part) ? bar + 1 : bar,
            spt_text_life(share->life_if_cured_h, life));
    double gain = spt_causes_gain(bearing, cause);
    if (gain > 0)
        fprintf(text->out, "  x %s", spt_text_ratio(gain, life));
    fputc('\n', text->out);
}

void spt_life_loss_text(const struct spt_text *text, const struct spt_bearing_result *bearing,
                        bool with_cures)
{
    char life[SPT_HOURS_LENGTH];
    const struct spt_loss *loss = &bearing->loss;
    int order[SPT_CAUSE_COUNT];
    int count = spt_causes_by_gain(loss, order);
    if (!count) {
        spt_text_wrap(text, "", spt_causes_none(bearing));
        return;
    }
    spt_text_wrapf(
        text, "",
        "With all of this put right from new the fatigue life would be %s. Share of the "
        "loss (of its logarithm), and the life with only this put right, the best single "
        "remedy first:",
        spt_text_life(loss->reference_life_h, life));
    for (int i = 0; i < count; i++)
        write_cause(text, bearing, order[i], spt_causes_whole(loss));
    if (spt_share_footnote(loss))
        spt_text_wrap(text, "", spt_share_footnote(loss));
    for (int i = 0; with_cures && i < count; i++)
        spt_text_wrapf(text, i ? "                 " : "put right means: ", "%s: %s",
                       spt_cause_name((enum spt_cause)order[i]),
                       spt_cure((enum spt_cause)order[i]));
}

static void say_verdict(void *context, const char *who, const char *sentence)
{
    spt_text_wrapf(context, "", "%s%s%s", who ? who : "", who ? ": " : "", sentence);
}

static void say_flag(void *context, const char *who, const char *sentence)
{
    spt_text_wrapf(context, "- ", "%s%s%s", who ? who : "", who ? ": " : "", sentence);
}

static int count_notes(const struct spt_assessment *assessment)
{
    int count = assessment->notes.count;
    for (int i = 0; i < assessment->bearing_count; i++) {
        count += assessment->bearings[i].notes.count;
        for (int j = 0; j < assessment->bearings[i].phase_count; j++)
            count += assessment->bearings[i].phases[j].notes.count;
    }
    return count;
}

void spt_life_flags_text(const struct spt_text *text, const struct spt_assessment *assessment)
{
    struct spt_text copy = *text;
    if (!count_notes(assessment))
        return;
    spt_text_heading(text, "FLAGS");
    const struct spt_finding_sink sink = {say_flag, &copy};
    spt_findings_flags(assessment, &sink);
}

void spt_life_text(const struct spt_text *text, const struct spt_assessment *assessment, bool quiet)
{
    struct spt_text copy = *text;
    bool two = assessment->bearing_count > 1;
    spt_text_wrap(text, "", assessment->question->title);
    spt_text_heading(text, "VERDICT");
    const struct spt_finding_sink verdict = {say_verdict, &copy};
    spt_findings_verdict(assessment, &verdict);
    spt_text_heading(text, "INPUTS");
    write_inputs(text, assessment);
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        spt_text_heading(text, "PHASES");
        if (two)
            spt_text_wrap(text, "", bearing->bearing_case->bearing.name);
        write_phases(text, bearing, assessment->question->hub);
        spt_text_heading(text, "WHERE THE LIFE GOES");
        spt_life_loss_text(text, bearing, true);
    }
    if (assessment->hub)
        spt_hub_text(text, assessment->hub);
    if (!quiet)
        spt_life_flags_text(text, assessment);
}
