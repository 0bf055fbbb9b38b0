/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The questions of ask.h that other suites do not ask: field data, rows, plans. The numbers are
 * ours. */
#include "spalltime/ask.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "support/beet.h"
#include "support/near.h"

static const double times[] = {900, 1500, 2100, 2600, 3000, 3000};
static const bool failed[] = {true, true, true, true, false, false};
static const int modes[] = {0, 1, 0, 0, -1, -1};

static struct spt_field_inputs field_question(void)
{
    struct spt_field_inputs asked = {.modes = modes, .mode_count = 2, .mode = -1};
    asked.inputs.data = (struct spt_weibull_data){6, times, NULL, failed, NULL, NULL};
    asked.inputs.confidence = 0.9;
    asked.inputs.assumed_slope = SPT_WEIBULL_SLOPE;
    asked.inputs.estimated_l10 = (double)NAN;
    return asked;
}

/* A failure by another mode is a bearing that ran until then. */
Test(ask, field_data_of_one_mode_count_the_other_failures_as_running)
{
    static const bool first_alone[] = {true, false, true, true, false, false};
    struct spt_arena arena = {0};
    struct spt_error error;
    struct spt_field_answer all, one, by_hand;
    struct spt_field_inputs asked = field_question();
    cr_assert_eq(spt_ask_fit(&asked, &arena, &all, &error), SPT_OK, "%s", error.text);
    asked.mode = 0;
    cr_assert_eq(spt_ask_fit(&asked, &arena, &one, &error), SPT_OK, "%s", error.text);
    cr_expect_eq(one.other_modes, 1);
    cr_expect_null(one.modes);
    asked = field_question();
    asked.modes = NULL;
    asked.mode_count = 0;
    asked.inputs.data.failed = first_alone;
    cr_assert_eq(spt_ask_fit(&asked, &arena, &by_hand, &error), SPT_OK, "%s", error.text);
    cr_expect_eq(one.fit.slope.estimate, by_hand.fit.slope.estimate);
    cr_expect_eq(one.fit.l10.estimate, by_hand.fit.l10.estimate);
    cr_assert(all.modes);
    cr_expect_eq(all.modes[0].l10.estimate, one.fit.l10.estimate);
    cr_expect_eq(all.fit.failures, 4);
    spt_arena_free(&arena);
}

Test(ask, field_data_without_rows_are_refused_with_a_reason)
{
    struct spt_arena arena = {0};
    struct spt_error error = {0};
    struct spt_field_answer answer;
    struct spt_field_inputs asked = field_question();
    asked.inputs.data.n = 0;
    cr_expect_eq(spt_ask_fit(&asked, &arena, &answer, &error), SPT_BAD_ARGUMENT);
    cr_expect_eq(error.status, SPT_BAD_ARGUMENT);
    cr_expect(*error.text && !error.of_case);
    spt_arena_free(&arena);
}

#define ROWS 2500 /* more than two blocks */

Test(ask, rows_are_what_a_life_with_their_numbers_is)
{
    static double speed_rpm[ROWS], water_ppm[ROWS], life_h[ROWS], kappa[ROWS];
    static unsigned char status[ROWS];
    static const enum spt_sweep_field fields[] = {SPT_SWEEP_WATER, SPT_SWEEP_SPEED};
    static const int values[] = {SPT_SWEEP_VISCOSITY_RATIO, SPT_SWEEP_MODIFIED_RATING_LIFE_H};
    const double *const columns[] = {water_ppm, speed_rpm};
    double *const results[] = {kappa, life_h};
    struct spt_arena arena = {0};
    struct spt_error error;
    struct beet beet;
    beet_prepare(&beet);
    for (int i = 0; i < ROWS; i++) {
        speed_rpm[i] = 100 + 0.385 * i;
        water_ppm[i] = 20 + (37 * i) % 800;
    }
    const struct spt_rows_inputs asked = {&beet.question, 2, fields, columns, ROWS, 2, values};
    cr_assert_eq(spt_ask_rows(&asked, &arena, results, status, &error), SPT_OK, "%s", error.text);
    for (int i = 0; i < ROWS; i += 499) {
        for (int j = 0; j < BEET_PHASES; j++) {
            beet.phases[j].speed_rpm = speed_rpm[i];
            beet.phases[j].condition.water_ppm = water_ppm[i];
        }
        cr_expect(near(life_h[i], beet_life_h(&beet), 1e-11, 0), "row %d", i);
        cr_expect_eq(status[i], SPT_SWEEP_OK);
        cr_expect(kappa[i] > 0);
    }
    spt_arena_free(&arena);
}

Test(ask, rows_with_fields_that_do_not_go_together_are_refused)
{
    static const enum spt_sweep_field both[] = {SPT_SWEEP_CLEANLINESS, SPT_SWEEP_CONTAMINATION};
    static const enum spt_sweep_field odd[] = {SPT_SWEEP_FIELD_COUNT};
    static const int values[] = {SPT_SWEEP_MODIFIED_RATING_LIFE_H}, beyond[] = {-1};
    const double one[] = {0.5};
    const double *const columns[] = {one, one};
    double life_h[1], *const results[] = {life_h};
    unsigned char status[1];
    struct spt_arena arena = {0};
    struct spt_error error;
    struct beet beet;
    beet_prepare(&beet);
    const struct spt_rows_inputs rows[] = {
        {&beet.question, 2, both, columns, 1, 1, values},
        {&beet.question, 1, odd, columns, 1, 1, values},
        {&beet.question, 1, both, columns, 1, 1, beyond},
        {&beet.question, -1, both, columns, 1, 1, values},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        cr_expect_eq(spt_ask_rows(&rows[i], &arena, results, status, &error), SPT_BAD_ARGUMENT,
                     "%zu", i);
    spt_arena_free(&arena);
}

Test(ask, a_setting_of_a_case_without_a_hub_does_not_apply)
{
    static struct spt_hub_curve curve;
    struct spt_arena arena = {0};
    struct spt_error error;
    struct beet beet;
    beet_prepare(&beet);
    cr_expect_eq(spt_ask_setting(&beet.question, &arena, &curve, &error), SPT_NOT_APPLICABLE);
    cr_expect_str_eq(error.place, beet.question.title);
    spt_arena_free(&arena);
}

static struct spt_plan_inputs plan_question(const struct beet *beet)
{
    return (struct spt_plan_inputs){
        .question = &beet->question,
        .limits = {(double)NAN, -1},
        .costs = {(double)NAN, (double)NAN},
        .floor = SPT_WEIBULL_FLOOR,
    };
}

Test(ask, a_plan_brings_its_dates_and_its_survival_and_no_band_that_was_not_asked_for)
{
    static struct spt_maintenance plan;
    struct spt_arena arena = {0};
    struct spt_error error;
    struct beet beet;
    beet_prepare(&beet);
    const struct spt_plan_inputs asked = plan_question(&beet);
    cr_assert_eq(spt_ask_schedule(&asked, &arena, &plan, &error), SPT_OK, "%s", error.text);
    cr_assert_gt(plan.entry_count, 1);
    cr_expect_not(plan.cut);
    for (int i = 1; i < plan.entry_count; i++)
        cr_expect_geq(plan.entries[i].at_h, plan.entries[i - 1].at_h, "entry %d", i);
    cr_assert_gt(plan.curve_count, 2);
    const struct spt_schedule_point *last = &plan.curve[plan.curve_count - 1];
    cr_expect_eq(plan.curve[0].combined, 1);
    cr_expect(near(last->t_h, plan.schedule.fatigue_lives.l50_h, 1e-12, 0));
    cr_expect(near(last->fatigue, 0.5, 1e-9, 0), "%g", last->fatigue);
    cr_expect_null(plan.spread);
    cr_expect(isnan(plan.low.replace_h) && isnan(plan.high.inspect_h));
    spt_arena_free(&arena);
}

/* A life that is some share of the stated one makes the intervals that the plan has with all lives
 * multiplied by this share. */
Test(ask, a_plan_with_uncertain_inputs_has_the_intervals_at_both_ends_of_the_band)
{
    static struct spt_maintenance plan;
    struct spt_schedule_intervals low, high;
    struct spt_uncertainty uncertainty = {.samples = 400, .seed = 7};
    uncertainty.inputs[SPT_UNCERTAIN_LOAD] = (struct spt_random_input){
        .spread = SPT_RANDOM_UNIFORM, .centre = 1, .low = 0.83, .high = 1.1};
    struct spt_arena arena = {0};
    struct spt_error error;
    struct beet beet;
    beet_prepare(&beet);
    struct spt_plan_inputs asked = plan_question(&beet);
    asked.uncertainty = &uncertainty;
    cr_assert_eq(spt_ask_schedule(&asked, &arena, &plan, &error), SPT_OK, "%s", error.text);
    cr_assert(plan.spread);
    const struct spt_band *band = &plan.spread->system;
    double life_h = beet_life_h(&beet);
    cr_assert_eq(spt_schedule_intervals(&plan.schedule, band->p5_h / life_h, &low), SPT_OK);
    cr_assert_eq(spt_schedule_intervals(&plan.schedule, band->p95_h / life_h, &high), SPT_OK);
    cr_expect(near(plan.low.replace_h, low.replace_h, 1e-12, 0));
    cr_expect(near(plan.low.inspect_h, low.inspect_h, 1e-12, 0));
    cr_expect(near(plan.high.replace_h, high.replace_h, 1e-12, 0));
    cr_expect(near(plan.high.inspect_h, high.inspect_h, 1e-12, 0));
    cr_expect_lt(plan.low.replace_h, plan.schedule.replace_h);
    cr_expect_gt(plan.high.replace_h, plan.schedule.replace_h);
    spt_arena_free(&arena);
}
