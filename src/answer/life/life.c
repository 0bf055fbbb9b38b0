/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/life.h"

#include <math.h>

#include "answer/field/history.h"
#include "answer/life/explain.h"
#include "answer/life/hub.h"
#include "answer/life/inputs.h"
#include "answer/life/loss.h"
#include "answer/life/machine.h"
#include "answer/life/phases.h"
#include "answer/life/sheet.h"
#include "answer/service/greasing.h"
#include "answer/vehicle/vehicle.h"
#include "chart/figure.h"
#include "sentence/findings.h"
#include "sentence/sentence.h"
#include "words/words.h"

#define OVERDUE_SURVIVAL 0.99 /* survival of the grease at the end of its interval */

static void say_inputs(struct spt_page *page, const struct spt_assessment *assessment)
{
    const struct spt_lubricant *oil = &assessment->question->lubricant;
    spt_page_open(page, "Inputs");
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing *part = &assessment->bearings[i].bearing_case->bearing;
        spt_page_say(page, SPT_BODY, "bearing    ",
                     "%s (%s %.6g x %.6g x %.6g mm), C %.4g kN, C0 %.4g kN, C_u %.3g kN",
                     spt_page_name(page, part->name), spt_bearing_type_name(part->type),
                     part->bore_mm, part->outside_diameter_mm, part->width_mm,
                     part->dynamic_load_rating_n / 1e3, part->static_load_rating_n / 1e3,
                     part->fatigue_load_limit_n / 1e3);
    }
    spt_page_say(
        page, SPT_BODY, "lubricant  ", "%s (%s), %.4g mm2/s at 40 degC, %.3g mm2/s at 100 degC%s",
        spt_page_name(page, oil->name), spt_word(&spt_lubrication_words, (int)oil->kind),
        oil->viscosity_40_mm2_s, oil->viscosity_100_mm2_s, oil->ep_additive ? ", EP additive" : "");
    spt_history_page(page, assessment->question);
    spt_page_close(page);
}

/* The relubrication interval with its uncertainty, and the state of grease older than that. */
static void say_grease(struct spt_page *page, const struct spt_bearing_result *bearing)
{
    const struct spt_bearing *part = &bearing->bearing_case->bearing;
    const double interval_h = bearing->grease_interval_h;
    double survival = 1;
    bool estimated = false;
    if (isnan(interval_h))
        return;
    spt_page_say(page, SPT_BODY, "", "Greasing interval for this duty%s: about %s (%s to %s).",
                 part->outer_turns ? ", by n D as the outer ring turns" : "",
                 spt_page_life(page, interval_h), spt_page_hours(page, interval_h / 2),
                 spt_page_life(page, interval_h * 2));
    for (int i = 0; i < bearing->phase_count; i++)
        estimated = estimated || isnan(bearing->phases[i].phase->temperature_c);
    if (estimated)
        spt_page_say(page, SPT_BODY, "", "Estimated temperature: 10 K added for the grease.");
    for (int i = 0; i < bearing->phase_count; i++)
        survival = fmin(survival, bearing->phases[i].grease.survival);
    if (survival < OVERDUE_SURVIVAL)
        spt_page_say(
            page, SPT_BODY, "",
            "Of bearings with grease this old, about %.0f %% still have grease that works%s.",
            100 * survival, isnan(bearing->modified_rating_life_h) ? "" : "; the life is theirs");
}

static void say_whole_duty(struct spt_page *page, const struct spt_bearing_result *bearing,
                           bool of_hub)
{
    char speed[SPT_HOURS_LENGTH];
    spt_page_say(page, SPT_BODY, "",
                 "Whole duty: %s; the basic rating life (90 %%) alone %s %s (mean speed %s rpm, "
                 "mean load %.4g kN).",
                 spt_page_life(page, bearing->modified_rating_life_h),
                 isinf(bearing->basic_rating_life_h) ? "has" : "would be",
                 spt_page_life(page, bearing->basic_rating_life_h),
                 spt_text_amount(bearing->mean_speed_rpm, speed),
                 bearing->mean_equivalent_load_n / 1e3);
    spt_page_say(
        page, SPT_BODY, "",
        "kappa: oil film, 1 is enough, less is thin. e_C: dirt, 1 clean, 0 filthy. a_ISO: what "
        "film and dirt make of the life. a_w: water, 1 dry.%s",
        of_hub ? " The factor of the setting, which the life has as well, stands below." : "");
    say_grease(page, bearing);
}

static void show_bearing(struct spt_page *page, const struct spt_phase_table *phases,
                         const struct spt_report *report, int index, int bearing_index)
{
    const struct spt_assessment *assessment = report->cases[index].assessment;
    const struct spt_bearing_result *bearing = &assessment->bearings[bearing_index];
    spt_page_open(page, "Phases");
    if (assessment->bearing_count > 1)
        spt_page_say(page, SPT_BODY, "", "%s",
                     spt_page_name(page, bearing->bearing_case->bearing.name));
    spt_page_phases(page, phases, assessment, bearing_index);
    say_whole_duty(page, bearing, assessment->question->hub);
    spt_page_close(page);
    spt_page_open(page, "Where the life goes");
    spt_page_loss(page, bearing, true);
    spt_figures_page(page, report, SPT_CHART_OF_BEARING, index, bearing_index);
    spt_page_close(page);
}

static void say_stated(void *context, const char *who, const char *sentence)
{
    spt_page_say(context, SPT_BODY, "", "%s%s%s", who ? spt_page_name(context, who) : "",
                 who ? ": " : "", sentence);
}

static void say_condition(struct spt_page *page, const struct spt_assessment *assessment)
{
    const struct spt_finding_sink sink = {say_stated, page};
    spt_page_open(page, "Condition as stated");
    spt_findings_stated(assessment, &sink);
    spt_greasing_page(page, &assessment->greasing);
    spt_page_close(page);
}

void spt_life_page(struct spt_page *page, const struct spt_report *report, int index, bool explain)
{
    const struct spt_assessment *assessment = report->cases[index].assessment;
    const struct spt_phase_table phases = spt_phase_table_of(page, assessment);
    say_condition(page, assessment);
    if (explain) {
        spt_page_inputs(page, assessment);
        spt_page_assumptions(page, assessment);
    } else {
        say_inputs(page, assessment);
    }
    if (assessment->question->machine)
        spt_page_machine(page, assessment);
    if (assessment->question->vehicle)
        spt_page_vehicle(page, assessment);
    for (int i = 0; i < assessment->bearing_count; i++)
        show_bearing(page, &phases, report, index, i);
    if (assessment->hub)
        spt_page_hub(page, assessment->hub);
    spt_page_open(page, "Flags");
    spt_page_flags_of(page, assessment, explain ? ~SPT_EFFECTS_ASSUMED : SPT_EFFECTS_ALL);
    spt_page_close(page);
    spt_page_phase_data(page, &phases);
    if (explain)
        spt_explain_assessment_page(page, assessment);
}
