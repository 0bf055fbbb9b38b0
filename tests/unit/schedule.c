/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/schedule.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/viscosity.h"
#include "support/near.h"
#include "support/plain.h"

static struct spt_phase phase;
static struct spt_phase_result results[2];

/* One greased ball bearing under one load. */
static struct spt_case make_case(enum spt_lubrication kind)
{
    struct spt_case question = {
        .title = "bench",
        .bearing_count = 1,
        .reliability_percent = 90,
        .target_life_h = (double)NAN,
        .reference_load_n = (double)NAN,
        .yearly_use_h = 2385,
        .age_limit_h = (double)NAN,
    };
    phase = (struct spt_phase){
        .name = "run",
        .time_share = 1,
        .speed_rpm = 1237,
        .radial_load_n = 2900,
        .equivalent_load_n = (double)NAN,
        .temperature_c = 61,
        .setting_factor = 1,
        .cured_setting_factor = 1,
        .condition = {.cleanliness = spt_cleanliness_first(kind),
                      .contamination_factor = (double)NAN,
                      .water_ppm = 100},
    };
    if (kind == SPT_LUBRICATION_GREASE)
        phase.condition.cleanliness = SPT_CLEANLINESS_GREASE_NORMAL;
    question.bearings[0] =
        (struct spt_bearing_case){plain_bearing(SPT_DEEP_GROOVE_BALL), &phase, 1};
    struct spt_bearing *bearing = &question.bearings[0].bearing;
    bearing->bore_mm = 40;
    bearing->outside_diameter_mm = 80;
    bearing->width_mm = 18;
    bearing->pitch_diameter_mm = 60;
    bearing->dynamic_load_rating_n = 29500;
    bearing->static_load_rating_n = 18000;
    bearing->fatigue_load_limit_n = 820;
    question.lubricant = (struct spt_lubricant){.kind = kind, .density_g_cm3 = (double)NAN};
    cr_assert_eq(spt_viscosity_line(40, 105, 100, 11.3, &question.lubricant.line), SPT_OK);
    return question;
}

static struct spt_schedule_inputs inputs_of(const struct spt_case *question)
{
    return (struct spt_schedule_inputs){
        .question = question,
        .limits = {(double)NAN, -1},
        .costs = {(double)NAN, (double)NAN},
        .floor = SPT_WEIBULL_FLOOR,
    };
}

static const struct spt_schedule_task *find_task(const struct spt_schedule *schedule,
                                                 enum spt_task task)
{
    for (int i = 0; i < schedule->task_count; i++)
        if (schedule->tasks[i].task == task)
            return &schedule->tasks[i];
    return NULL;
}

Test(schedule, oil_without_drifts_leaves_inspection_and_replacement_by_fatigue)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    question.yearly_use_h = (double)NAN;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect_eq(plan.task_count, 2);
    double l10_h = plan.bearings[0].l10_h;
    /* a1 of 99 % is 0.25 in ISO 281:2007 table 12; the formula behind it by hand:
     * (0.0100503/0.1053605)^(2/3) = 0.20877, x 0.95 = 0.19833, + 0.05 = 0.24833 */
    cr_expect(near(find_task(&plan, SPT_TASK_INSPECT)->every_h, 0.24833 * l10_h, 5e-5, 0));
    cr_expect_eq(find_task(&plan, SPT_TASK_INSPECT)->governor, SPT_GOVERNOR_LIFE_99);
    cr_expect(near(find_task(&plan, SPT_TASK_REPLACE)->every_h, l10_h, 1e-9, 0));
    cr_expect_eq(find_task(&plan, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_FATIGUE);
    cr_expect(near(plan.survival_fatigue, 0.9, 1e-9, 0));
    cr_expect_eq(plan.survival_grease, 1);
    cr_expect(isnan(plan.run_to_failure.year.failures), "no yearly hours, no year");
}

Test(schedule, regreasing_follows_the_interval_or_the_target_reliability)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    question.target_life_h = 9000; /* short: the interval itself governs */
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    const struct spt_schedule_task *task = find_task(&plan, SPT_TASK_REGREASE);
    double t_f = plan.bearings[0].interval_h;
    cr_assert(t_f > 0);
    cr_expect(near(task->every_h, t_f, 1e-12, 0));
    cr_expect_eq(task->governor, SPT_GOVERNOR_GREASE_LIFE);
    /* 0.005 D B = 0.005 x 80 x 18 */
    cr_expect(near(task->quantity_g, 7.2, 1e-12, 0));

    question.target_life_h = 40 * t_f;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    task = find_task(&plan, SPT_TASK_REGREASE);
    /* by hand: (-ln 0.9/(0.01005 x 40))^(1/1.366) = 0.262091^0.732064 = 0.37521 */
    cr_expect(near(task->every_h / t_f, 0.37521, 1e-4, 0), "%.6f", task->every_h / t_f);
    cr_expect_eq(task->governor, SPT_GOVERNOR_RELIABILITY);
    /* grease and fatigue share the allowed 10 % */
    cr_expect(near(plan.survival_fatigue * plan.survival_grease, 0.9, 1e-9, 0));
    cr_expect_eq(find_task(&plan, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_GREASE);
}

Test(schedule, the_year_and_the_age_limit_bound_what_life_would_allow)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    question.yearly_use_h = 238.5;
    question.age_limit_h = 7.5 * 24 * 365.25;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect(near(find_task(&plan, SPT_TASK_INSPECT)->every_h, 238.5, 1e-12, 0));
    cr_expect_eq(find_task(&plan, SPT_TASK_INSPECT)->governor, SPT_GOVERNOR_YEAR);
    cr_expect(near(plan.replace_h, 7.5 * 238.5, 1e-12, 0));
    cr_expect_eq(find_task(&plan, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_AGE_LIMIT);
    cr_expect(near(spt_schedule_days(&question, 238.5), 365.25, 1e-12, 0));
}

Test(schedule, limits_are_reached_where_the_drift_crosses_them)
{
    const double none = (double)NAN;
    static const struct {
        double from_h, to_h, water_from, water_to;
        int class_from, class_to;
        double limit_ppm;
        int limit_class;
        double time_h; /* by hand */
        enum spt_governor governor;
    } cases[] = {
        /* 100 to 500 ppm in 8000 h: 300 ppm at half of it */
        {0, 8000, 100, 500, -1, -1, 300, -1, 4000, SPT_GOVERNOR_WATER},
        {1000, 9000, 100, 500, -1, -1, 300, -1, 5000, SPT_GOVERNOR_WATER},
        {1000, 9000, 100, 500, -1, -1, 500, -1, 9000, SPT_GOVERNOR_WATER},
        {1000, 9000, 350, 500, -1, -1, 300, -1, 1000, SPT_GOVERNOR_WATER},
        {1000, 9000, 100, 500, -1, -1, 501, -1, (double)INFINITY, SPT_GOVERNOR_WATER},
        {0, 9000, 350, 500, -1, -1, 300, -1, 0, SPT_GOVERNOR_LIMIT_PASSED},
        /* normal, slight, severe for 3000 h each: dirtier than slight after 6000 h */
        {0, 9000, (double)NAN, (double)NAN, SPT_CLEANLINESS_GREASE_NORMAL,
         SPT_CLEANLINESS_GREASE_SEVERE, (double)NAN, SPT_CLEANLINESS_GREASE_SLIGHT, 6000,
         SPT_GOVERNOR_CLEANLINESS},
        {0, 9000, (double)NAN, (double)NAN, SPT_CLEANLINESS_GREASE_NORMAL,
         SPT_CLEANLINESS_GREASE_SEVERE, (double)NAN, SPT_CLEANLINESS_GREASE_SEVERE,
         (double)INFINITY, SPT_GOVERNOR_CLEANLINESS},
        /* both: the water comes first */
        {0, 9000, 100, 1000, SPT_CLEANLINESS_GREASE_NORMAL, SPT_CLEANLINESS_GREASE_SEVERE, 550,
         SPT_CLEANLINESS_GREASE_SLIGHT, 4500, SPT_GOVERNOR_WATER},
    };
    const struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++) {
        struct spt_service service = {.drift_count = 1};
        service.drifts[0] = (struct spt_drift){.name = "d",
                                               .from_h = cases[i].from_h,
                                               .to_h = cases[i].to_h,
                                               .water_from_ppm = cases[i].water_from,
                                               .water_to_ppm = cases[i].water_to,
                                               .class_from = cases[i].class_from,
                                               .class_to = cases[i].class_to,
                                               .load_from = none,
                                               .load_to = none,
                                               .rise_from_k = none,
                                               .rise_to_k = none};
        if (isnan(cases[i].water_from))
            service.drifts[0].water_from_ppm = service.drifts[0].water_to_ppm = none;
        const struct spt_service_limits limits = {cases[i].limit_ppm, cases[i].limit_class};
        enum spt_governor governor;
        double time_h = spt_schedule_limit_time(&question, &service, &limits, &governor);
        cr_expect(time_h == cases[i].time_h || near(time_h, cases[i].time_h, 1e-12, 0),
                  "case %zu: %g", i, time_h);
        if (isfinite(time_h))
            cr_expect_eq(governor, cases[i].governor, "case %zu", i);
    }
}

Test(schedule, a_start_beyond_the_limit_is_no_interval)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    inputs.limits.water_ppm = 90;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    const struct spt_schedule_task *task = find_task(&plan, SPT_TASK_REPACK);
    cr_assert(task);
    cr_expect(isnan(task->every_h));
    cr_expect_eq(task->governor, SPT_GOVERNOR_LIMIT_PASSED);
    cr_expect(find_task(&plan, SPT_TASK_REGREASE), "regreasing goes on");
}

Test(schedule, a_steady_failure_rate_has_no_cheapest_age)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    question.fleet = 17;
    inputs.costs = (struct spt_replacement_costs){300, 300};
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect_not(plan.optimum_found, "a failure that costs no more than a change");
    /* mean of the three-parameter law: L10 (0.05 + 0.95 Gamma(1 + 1/1.5)/0.1053605^(1/1.5)) =
     * L10 (0.05 + 0.95 x 0.902745/0.223054) = 3.89447 L10, by hand */
    cr_expect(near(plan.run_to_failure.plan.mean_life, 3.89447 * plan.bearings[0].l10_h, 5e-6, 0),
              "%.6f", plan.run_to_failure.plan.mean_life / plan.bearings[0].l10_h);
    cr_expect(near(plan.run_to_failure.year.failures,
                   17 * 2385 / plan.run_to_failure.plan.mean_life, 1e-9, 0));
    cr_expect(near(plan.run_to_failure.year.cost,
                   300 * 17 * 2385 / plan.run_to_failure.plan.mean_life, 1e-9, 0));
    cr_expect_lt(plan.at_target.year.failures, plan.run_to_failure.year.failures);

    inputs.costs.failure = 9000;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect(plan.optimum_found);
    cr_expect_lt(plan.at_optimum.year.cost, plan.run_to_failure.year.cost);
    cr_expect_leq(plan.at_optimum.year.cost, plan.at_target.year.cost);
}

Test(schedule, two_parameter_lives_fail_earlier)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule three, two;
    cr_assert_eq(spt_schedule(&inputs, results, &three), SPT_OK);
    inputs.floor = 0;
    cr_assert_eq(spt_schedule(&inputs, results, &two), SPT_OK);
    /* (0.0100503/0.1053605)^(2/3), as above */
    cr_expect(near(two.fatigue_lives.l1_h, 0.20877 * two.bearings[0].l10_h, 5e-5, 0));
    cr_expect(near(two.fatigue_lives.l10_h, three.fatigue_lives.l10_h, 1e-9, 0));
    cr_expect_lt(two.fatigue_lives.l1_h, three.fatigue_lives.l1_h);
}

Test(schedule, the_calendar_is_in_order_and_ends_with_the_replacement)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    static struct spt_schedule_entry entries[SPT_SCHEDULE_ENTRIES_MAX];
    bool cut;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_assert_gt(count, 5);
    cr_expect_not(cut);
    int expected = 1;
    for (int i = 0; i < plan.task_count; i++)
        if (plan.tasks[i].task != SPT_TASK_REPLACE)
            expected += (int)ceil(plan.replace_h / plan.tasks[i].every_h) - 1;
    cr_expect_eq(count, expected);
    for (int i = 0; i < count; i++) {
        const struct spt_schedule_task *task = &plan.tasks[entries[i].task];
        cr_expect(near(entries[i].at_h, entries[i].number * task->every_h, 1e-12, 0));
        cr_expect(i == 0 || entries[i].at_h >= entries[i - 1].at_h);
    }
    cr_expect_eq(plan.tasks[entries[count - 1].task].task, SPT_TASK_REPLACE);
    cr_expect_eq(spt_schedule_calendar(&plan, entries, 3, &cut), 3);
    cr_expect(cut);
}
