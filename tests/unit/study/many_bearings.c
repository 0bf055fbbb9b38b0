/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Machines of more than two bearings, as a gearbox has: every question, and every form of its
 * answer. The numbers are ours; the machine's life is held against the product of survivals. */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "answer/compare/compare.h"
#include "answer/field/spread.h"
#include "answer/life/explain.h"
#include "answer/life/life.h"
#include "answer/service/reach.h"
#include "answer/service/schedule.h"
#include "answer/service/timeline.h"
#include "sentence/findings.h"
#include "spalltime/ask.h"
#include "support/beet.h"
#include "support/near.h"

#define BEARINGS 5

static const char *const names[BEARINGS] = {"input drive end", "input fan end", "middle left",
                                            "middle right", "output"};
static const double load_factors[BEARINGS] = {1, 0.93, 1.07, 0.88, 0.71};

struct machine {
    struct beet beet;
    struct spt_case question;
    struct spt_phase phases[SPT_BEARINGS_MAX][BEET_PHASES];
    struct spt_arena arena;
    struct spt_error error;
};
static struct machine machine;

static void prepare(int count)
{
    beet_prepare(&machine.beet);
    machine.question = machine.beet.question;
    machine.question.bearing_count = count;
    machine.question.yearly_use_h = 900;
    for (int b = 0; b < count; b++) {
        machine.question.bearings[b] = machine.beet.question.bearings[0];
        machine.question.bearings[b].phases = machine.phases[b];
        machine.question.bearings[b].bearing.name = names[b % BEARINGS];
        for (int j = 0; j < BEET_PHASES; j++) {
            machine.phases[b][j] = machine.beet.phases[j];
            machine.phases[b][j].radial_load_n *= load_factors[b % BEARINGS];
            machine.phases[b][j].condition.grease_age_h = 0;
        }
    }
}

static struct spt_assessment assess(void)
{
    struct spt_assessment assessment;
    cr_assert_eq(spt_ask_life(&machine.question, &machine.arena, &assessment, &machine.error),
                 SPT_OK, "%s", machine.error.text);
    return assessment;
}

static void expect_names(const char *text, const char *what)
{
    for (int b = 0; b < BEARINGS; b++)
        cr_expect(strstr(text, names[b]), "%s leaves out %s", what, names[b]);
}

/* Survival of the machine at its life: each bearing by the law behind a1 of its own L10. */
Test(many_bearings, the_machine_reaches_its_life_with_the_reliability_asked_for)
{
    static const double reliabilities[] = {90, 95, 99};
    for (size_t i = 0; i < sizeof reliabilities / sizeof *reliabilities; i++) {
        prepare(BEARINGS);
        machine.question.reliability_percent = reliabilities[i];
        struct spt_assessment assessment = assess();
        double log_share = 0, one;
        for (int b = 0; b < BEARINGS; b++) {
            const struct spt_life_law law = spt_survival_iso_law(
                assessment.bearings[b].modified_rating_life_h / assessment.reliability_factor);
            cr_assert_eq(spt_survival_log_fatigue(&law, assessment.modified_rating_life_h, &one),
                         SPT_OK);
            log_share += one;
        }
        cr_expect(near(100 * exp(log_share), reliabilities[i], 1e-9, 0), "%.12g for %g",
                  100 * exp(log_share), reliabilities[i]);
        spt_arena_free(&machine.arena);
    }
}

Test(many_bearings, as_many_as_fit_and_no_more)
{
    prepare(SPT_BEARINGS_MAX);
    struct spt_assessment assessment = assess();
    cr_expect_eq(assessment.bearing_count, SPT_BEARINGS_MAX);
    cr_expect(assessment.modified_rating_life_h > 0);
    machine.question.bearing_count = SPT_BEARINGS_MAX + 1;
    cr_expect_eq(spt_ask_life(&machine.question, &machine.arena, &assessment, &machine.error),
                 SPT_BAD_ARGUMENT);
    spt_arena_free(&machine.arena);
}

Test(many_bearings, a_bearing_alone_is_what_it_is_among_others)
{
    prepare(BEARINGS);
    struct spt_assessment all = assess();
    for (int b = 0; b < BEARINGS; b++) {
        struct spt_case alone = machine.question;
        struct spt_assessment one;
        alone.bearing_count = 1;
        alone.bearings[0] = machine.question.bearings[b];
        cr_assert_eq(spt_ask_life(&alone, &machine.arena, &one, &machine.error), SPT_OK);
        cr_expect_eq(one.modified_rating_life_h, all.bearings[b].modified_rating_life_h);
        cr_expect(all.modified_rating_life_h < one.modified_rating_life_h);
    }
    spt_arena_free(&machine.arena);
}

static struct spt_page *page_of(const struct spt_assessment *assessment, bool explain)
{
    static struct spt_report_case part;
    static struct spt_report report;
    part.assessment = assessment;
    report = (struct spt_report){.case_count = 1, .cases = &part};
    struct spt_page *page = spt_page_new(&machine.arena, NULL);
    cr_assert(page);
    spt_life_page(page, &report, 0, explain);
    return page;
}

Test(many_bearings, every_form_of_a_life_names_each_of_them)
{
    char *made = NULL;
    size_t length = 0;
    prepare(BEARINGS);
    struct spt_assessment assessment = assess();
    for (int form = 0; form < 4; form++) {
        FILE *out = open_memstream(&made, &length);
        const struct spt_text text = {out, false, 0};
        struct spt_json json = spt_json_begin(out);
        struct spt_page *page = page_of(&assessment, form == 2);
        if (form == 0 || form == 2)
            spt_page_text(page, &text, false);
        if (form == 1)
            spt_page_csv(page, out);
        if (form == 3) {
            spt_json_open(&json, NULL, '{');
            spt_life_json(&json, page, &assessment);
            spt_json_close(&json, '}');
        }
        fclose(out);
        expect_names(made, "a life");
        cr_expect(!strstr(made, "both"), "%s", made);
        free(made);
    }
    spt_arena_free(&machine.arena);
}

Test(many_bearings, a_flag_of_all_is_said_once_for_all_bearings)
{
    char *made = NULL;
    size_t length = 0;
    prepare(BEARINGS);
    for (int b = 0; b < BEARINGS; b++)
        for (int j = 0; j < BEET_PHASES; j++)
            machine.phases[b][j].condition.water_ppm = 390;
    struct spt_assessment assessment = assess();
    FILE *out = open_memstream(&made, &length);
    const struct spt_text text = {out, false, 0};
    struct spt_page *page = spt_page_new(&machine.arena, NULL);
    spt_page_flags(page, &assessment);
    spt_page_text(page, &text, false);
    fclose(out);
    cr_expect(strstr(made, "all bearings"), "%s", made);
    free(made);
    spt_arena_free(&machine.arena);
}

Test(many_bearings, plan_timeline_reach_and_band_take_them_all)
{
    prepare(BEARINGS);
    struct spt_assessment assessment = assess();
    const struct spt_service service = {
        .until_h = 1e5, .regrease_every_h = 500, .oil_change_every_h = (double)NAN};
    struct spt_service_life life;
    cr_assert_eq(
        spt_ask_timeline(&machine.question, &service, &machine.arena, &life, &machine.error),
        SPT_OK, "%s", machine.error.text);
    struct spt_reach reach;
    cr_assert_eq(spt_ask_reach(&machine.question, 2 * assessment.modified_rating_life_h,
                               &machine.arena, &reach, &machine.error),
                 SPT_OK, "%s", machine.error.text);
    static struct spt_maintenance plan;
    const struct spt_plan_inputs asked = {
        .question = &machine.question,
        .limits = {(double)NAN, -1},
        .costs = {(double)NAN, (double)NAN},
        .floor = SPT_WEIBULL_FLOOR,
    };
    cr_assert_eq(spt_ask_schedule(&asked, &machine.arena, &plan, &machine.error), SPT_OK, "%s",
                 machine.error.text);
    cr_expect_eq(plan.schedule.bearing_count, BEARINGS);
    cr_expect(
        near(plan.schedule.stated_fatigue_lives.l10_h, assessment.modified_rating_life_h, 1e-9, 0),
        "%g and %g", plan.schedule.stated_fatigue_lives.l10_h, assessment.modified_rating_life_h);
    struct spt_spread_inputs spread = {.question = &machine.question, .threads = 2};
    spread.uncertainty.samples = 400;
    spread.uncertainty.seed = 7;
    spread.uncertainty.inputs[SPT_UNCERTAIN_LOAD] = (struct spt_random_input){
        .spread = SPT_RANDOM_UNIFORM, .centre = 1, .low = 0.9, .high = 1.1};
    struct spt_uncertainty_result result;
    cr_assert_eq(spt_ask_spread(&spread, &machine.arena, &result, &machine.error), SPT_OK, "%s",
                 machine.error.text);
    cr_expect(result.system.p5_h < assessment.modified_rating_life_h &&
              result.system.p95_h > assessment.modified_rating_life_h);
    for (int b = 0; b < BEARINGS; b++)
        cr_expect(result.bearings[b].p50_h > result.system.p50_h);
    spt_arena_free(&machine.arena);
}
