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

/* A drift that changes nothing yet. */
static struct spt_service make_service(double from_h, double to_h)
{
    const double none = (double)NAN;
    struct spt_service service = {
        .regrease_every_h = none, .oil_change_every_h = none, .until_h = none, .drift_count = 1};
    service.drifts[0] = (struct spt_drift){.name = "d",
                                           .from_h = from_h,
                                           .to_h = to_h,
                                           .water_from_ppm = none,
                                           .water_to_ppm = none,
                                           .class_from = -1,
                                           .class_to = -1,
                                           .load_from = none,
                                           .load_to = none,
                                           .rise_from_k = none,
                                           .rise_to_k = none};
    return service;
}

Test(schedule, oil_without_drifts_leaves_inspection_and_replacement_by_fatigue)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    question.yearly_use_h = (double)NAN;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect_eq(plan.task_count, 3);
    cr_expect(isnan(find_task(&plan, SPT_TASK_OIL_CHANGE)->every_h));
    cr_expect_eq(find_task(&plan, SPT_TASK_OIL_CHANGE)->governor, SPT_GOVERNOR_NO_LIMIT);
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
    /* by hand, half of the failures: (-ln 0.9/2/(0.01005 x 40))^(1/1.366) = 0.131045^0.732064 =
     * 0.22589 */
    cr_expect(near(task->every_h / t_f, 0.22589, 1e-4, 0), "%.6f", task->every_h / t_f);
    cr_expect_eq(task->governor, SPT_GOVERNOR_RELIABILITY);
    /* grease and fatigue share the allowed 10 % */
    cr_expect(near(plan.survival_fatigue * plan.survival_grease, 0.9, 1e-9, 0));
    cr_expect_lt(plan.survival_fatigue, plan.survival_grease);
    cr_expect_eq(find_task(&plan, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_FATIGUE);

    phase.radial_load_n = 1100; /* fatigue later, the grease as before */
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect_gt(plan.survival_fatigue, plan.survival_grease);
    cr_expect_eq(find_task(&plan, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_GREASE);
}

/* Both bearings at one visit. Two greases of one interval, half of the failures: by hand
 * (-ln 0.9/2/(0.01005 x 40 x 2))^(1/1.366) = 0.0655225^0.732064 = 0.13600. */
Test(schedule, the_greases_of_all_bearings_share_one_visit_and_half_of_the_failures)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    question.target_life_h = 9000;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    double t_f = plan.bearings[0].interval_h;
    question.bearing_count = 2;
    question.bearings[1] = question.bearings[0];
    question.target_life_h = 40 * t_f;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    int count = 0;
    for (int i = 0; i < plan.task_count; i++)
        count += plan.tasks[i].task == SPT_TASK_REGREASE;
    cr_expect_eq(count, 1);
    const struct spt_schedule_task *task = find_task(&plan, SPT_TASK_REGREASE);
    cr_expect_eq(task->bearing, -1);
    cr_expect(near(task->quantity_g, 2 * 7.2, 1e-12, 0));
    cr_expect(near(task->every_h / t_f, 0.13600, 1e-4, 0), "%.6f", task->every_h / t_f);
    /* a whole number of periods in the target life is not asked for: sqrt(0.9) but for that */
    cr_expect(near(plan.at_target_life.grease, sqrt(0.9), 1e-4, 0), "%.6f",
              plan.at_target_life.grease);
    question.bearings[1].bearing.bore_mm = 65; /* a shorter interval of its own */
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_assert_lt(plan.bearings[1].interval_h, 0.9 * t_f);
    cr_expect_lt(plan.regrease_h, 0.13600 * t_f);
    cr_expect_eq(plan.bearings[0].regrease_h, plan.bearings[1].regrease_h);
    cr_expect(near(plan.at_target_life.grease, sqrt(0.9), 1e-4, 0), "%.6f",
              plan.at_target_life.grease);
    question.target_life_h = 1; /* the interval itself governs: the shorter one */
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect_eq(plan.regrease_h, plan.bearings[1].interval_h);
}

Test(schedule, a_target_is_missed_where_fewer_are_left_than_wanted)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect_not(plan.misses_target, "no target");
    question.target_life_h = 1.02 * plan.replace_h;
    for (int i = 0; i < 2; i++) {
        struct spt_schedule_point point;
        cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
        cr_assert_eq(spt_schedule_survival(&plan, question.target_life_h, &point), SPT_OK);
        cr_expect_eq(plan.at_target_life.combined, point.combined);
        cr_expect_eq(plan.misses_target, point.combined < 0.9);
        cr_expect_eq(plan.misses_target, plan.replace_h < question.target_life_h);
        cr_expect_eq(plan.misses_target, i == 0, "%d: %g", i, point.combined);
        question.target_life_h *= 0.5;
    }
}

Test(schedule, the_life_with_the_greases_governs_the_inspection_where_it_is_shorter)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    struct spt_schedule_intervals intervals;
    question.yearly_use_h = (double)NAN;
    phase.radial_load_n = 1100;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    const struct spt_schedule_task *task = find_task(&plan, SPT_TASK_INSPECT);
    struct spt_schedule_point point;
    cr_assert_eq(spt_schedule_survival(&plan, task->every_h, &point), SPT_OK);
    cr_expect_eq(task->governor, SPT_GOVERNOR_GREASED_99);
    cr_expect(near(point.combined, 0.99, 1e-9, 0), "%.9g", point.combined);
    cr_expect_lt(task->every_h, plan.fatigue_lives.l1_h);
    /* greases of 3 h: nobody inspects every 3 h */
    plan.bearings[0].interval_h = plan.bearings[0].renewed_h = 3;
    cr_assert_eq(spt_schedule_intervals(&plan, 1, &intervals), SPT_OK);
    cr_expect_eq(intervals.inspect_h, SPT_SCHEDULE_PRACTICAL_H);
    /* but fatigue is never inspected later for that */
    double factor = 7 / plan.fatigue_lives.l1_h;
    cr_assert_eq(spt_schedule_intervals(&plan, factor, &intervals), SPT_OK);
    cr_expect(near(intervals.inspect_h, 7, 1e-9, 0), "%g", intervals.inspect_h);
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

static struct spt_schedule_entry entries[SPT_SCHEDULE_ENTRIES_MAX];

/* Every task comes no later than its interval after the time before, up to the replacement. */
static void check_intervals(const struct spt_schedule *plan, int count)
{
    for (int i = 0; i < plan->task_count; i++) {
        double last_h = 0, every_h = plan->tasks[i].every_h;
        int number = 0;
        for (int j = 0; j < count; j++) {
            if (entries[j].task != i)
                continue;
            cr_expect_eq(entries[j].number, ++number);
            cr_expect_leq(entries[j].at_h, last_h + every_h * (1 + 1e-12));
            cr_expect_geq(entries[j].at_h, last_h + every_h * (1 - SPT_SCHEDULE_VISIT_WITHIN));
            cr_expect(near(entries[j].due_h, last_h + every_h, 1e-12, 0));
            last_h = entries[j].at_h;
        }
        cr_expect_geq(last_h + every_h, entries[count - 1].at_h);
    }
}

Test(schedule, the_calendar_is_in_order_and_ends_with_the_replacement)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    bool cut;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_assert_gt(count, 5);
    cr_expect_not(cut);
    check_intervals(&plan, count);
    for (int i = 1; i < count; i++) {
        bool together = entries[i].visit == entries[i - 1].visit;
        cr_expect(together ? entries[i].at_h == entries[i - 1].at_h
                           : entries[i].at_h > entries[i - 1].at_h &&
                                 entries[i].visit == entries[i - 1].visit + 1);
    }
    cr_expect_eq(plan.tasks[entries[count - 1].task].task, SPT_TASK_REPLACE);
    cr_expect_eq(spt_schedule_calendar(&plan, entries, 3, &cut), 3);
    cr_expect(cut);
}

/* A plan of intervals alone. */
static struct spt_schedule plan_of(const struct spt_case *question,
                                   const struct spt_schedule_task *tasks, int count)
{
    struct spt_schedule plan = {.question = question, .replace_h = (double)NAN};
    for (int i = 0; i < count; i++)
        plan.tasks[plan.task_count++] = tasks[i];
    return plan;
}

Test(schedule, what_falls_due_close_together_is_one_visit)
{
    static const struct spt_schedule_task tasks[] = {
        {SPT_TASK_REGREASE, 0, 1000, SPT_GOVERNOR_GREASE_LIFE, 7.3, 0},
        {SPT_TASK_REGREASE, 1, 1149, SPT_GOVERNOR_GREASE_LIFE, 5.1, 0},
        {SPT_TASK_INSPECT, -1, 1237, SPT_GOVERNOR_LIFE_99, (double)NAN, 0},
        {SPT_TASK_REPLACE, -1, 2270, SPT_GOVERNOR_FATIGUE, (double)NAN, 0}};
    /* by hand: 1149 - 1000 is within 15 % of 1149, 1237 - 1000 not of 1237 (185.55); the row that
     * came sooner is due again at 2000, and both before the inspection of 2474, which is behind
     * the replacement; that is due within 2 % of 2270 (45.4) after nothing */
    static const struct {
        int task, visit;
        double at_h;
    } want[] = {{0, 1, 1000}, {1, 1, 1000}, {2, 2, 1237}, {0, 3, 2000}, {1, 3, 2000}, {3, 4, 2270}};
    const struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule plan = plan_of(&question, tasks, 4);
    bool cut;
    plan.replace_h = 2270;
    int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_assert_eq(count, 6, "%d", count);
    for (int i = 0; i < count; i++)
        cr_expect(entries[i].task == want[i].task && entries[i].visit == want[i].visit &&
                      near(entries[i].at_h, want[i].at_h, 1e-12, 0),
                  "%d: task %d, visit %d at %g h", i, entries[i].task, entries[i].visit,
                  entries[i].at_h);
    check_intervals(&plan, count);
    plan.replace_h = plan.tasks[3].every_h = 2031; /* within 2 % after the visit at 2000 */
    count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_assert_eq(count, 4, "%d", count);
    cr_expect_eq(entries[3].task, 3);
    cr_expect(near(entries[3].at_h, 2000, 1e-12, 0));
    cr_expect(near(entries[3].due_h, 2031, 1e-12, 0));
}

Test(schedule, repacking_takes_the_place_of_a_regreasing_close_by)
{
    static const struct spt_schedule_task tasks[] = {
        {SPT_TASK_REPACK, -1, 3010, SPT_GOVERNOR_WATER, (double)NAN, 0},
        {SPT_TASK_REGREASE, 0, 1500, SPT_GOVERNOR_GREASE_LIFE, 7.3, 0}};
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    question.target_life_h = 7000;
    struct spt_schedule plan = plan_of(&question, tasks, 2);
    bool cut;
    int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    /* regrease at 1500; at 3000 the repacking, due 10 h later, instead; regrease at 4500, repack at
     * 6000 */
    static const int want[] = {1, 0, 1, 0};
    cr_assert_eq(count, 4, "%d", count);
    for (int i = 0; i < count; i++)
        cr_expect(entries[i].task == want[i] && near(entries[i].at_h, 1500 * (i + 1), 1e-12, 0),
                  "%d: task %d at %g h", i, entries[i].task, entries[i].at_h);
}

Test(schedule, the_age_of_the_present_grease_brings_the_first_regreasing_forward)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    bool cut;
    question.target_life_h = 9000;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    double t_f = plan.bearings[0].interval_h;
    question.target_life_h = 30 * t_f; /* whose regreasing is shorter than t_f */
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    double every_h = plan.regrease_h;
    static const double spent[] = {0, 0.62, 1, 1.7}, left[] = {1, 0.38, 0, 0};
    for (int i = 0; i < 4; i++) {
        phase.condition.grease_age_h = spent[i] * every_h;
        cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
        cr_assert(near(plan.regrease_h, every_h, 1e-12, 0), "the interval stays");
        const struct spt_schedule_task *task = find_task(&plan, SPT_TASK_REGREASE);
        cr_expect(near(spt_schedule_first_h(task), left[i] * every_h, 1e-12, 1e-9), "%d", i);
        cr_expect_eq(spt_schedule_is_overdue(task), left[i] <= 0, "%d", i);
        int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
        double at_h = left[i] * every_h;
        for (int j = 0, number = 0; j < count && number < 2; j++)
            if (&plan.tasks[entries[j].task] == task) {
                cr_expect_eq(entries[j].number, ++number);
                cr_expect(near(entries[j].due_h, at_h, 1e-9, 1e-9), "%d: %g", i, entries[j].due_h);
                at_h = entries[j].at_h + every_h;
            }
        cr_expect(left[i] > 0 || (entries[0].at_h <= 0 && &plan.tasks[entries[0].task] == task));
    }
}

/* A water limit that comes sooner than the regreasing: repacking renews the grease. */
Test(schedule, the_age_of_the_present_grease_brings_the_first_repacking_forward)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    question.target_life_h = 9000;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    double t_f = plan.regrease_h;
    struct spt_service service = make_service(0, t_f);
    service.drifts[0].water_from_ppm = 100;
    service.drifts[0].water_to_ppm = 500;
    inputs.service = &service;
    inputs.limits.water_ppm = 300; /* after half of it */
    static const double ages[] = {0, 0.3, 0.8, 1.2}, first[] = {0.5, 0.5, 0.2, 0};
    for (int i = 0; i < 4; i++) {
        phase.condition.grease_age_h = ages[i] * t_f;
        cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
        const struct spt_schedule_task *task = find_task(&plan, SPT_TASK_REPACK);
        cr_expect(plan.repacking_renews);
        cr_expect(near(task->every_h, 0.5 * t_f, 1e-12, 0));
        cr_expect(near(spt_schedule_first_h(task), first[i] * t_f, 1e-9, 1e-9), "%d", i);
    }
}

Test(schedule, nothing_is_planned_further_ahead_than_a_hundred_years)
{
    static const struct spt_schedule_task tasks[] = {
        {SPT_TASK_REGREASE, 0, 119.25, SPT_GOVERNOR_GREASE_LIFE, 7.3, 0},
        {SPT_TASK_REPLACE, -1, 1e9, SPT_GOVERNOR_FATIGUE, (double)NAN, 0}};
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    question.yearly_use_h = 23.85;
    struct spt_schedule plan = plan_of(&question, tasks, 2);
    bool cut;
    plan.replace_h = 1e9;
    int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_expect_eq(count, 19, "every 5 years, the last after 95: %d", count);
    cr_expect(near(spt_schedule_planned_h(&question), 2385, 1e-12, 0));
    question.yearly_use_h = (double)NAN;
    cr_expect(near(spt_schedule_planned_h(&question), 876600, 1e-12, 0)); /* 100 x 24 x 365.25 */
}

/* A load so light that no machine lives to see its end: no task is asked for more often because of
 * it, and there is an answer. */
Test(schedule, a_life_beyond_any_machine_does_not_shorten_the_regreasing)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    phase.radial_load_n = 0.0137;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect_gt(plan.bearings[0].l10_h, 1e15);
    cr_expect(near(plan.horizon_h, 100 * 2385, 1e-12, 0));
    phase.radial_load_n = 0;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect_eq(find_task(&plan, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_GREASE);
}

/* With one bearing in oil, inspection and replacement go by one life. */
Test(schedule, intervals_scale_with_the_fatigue_life_until_the_year_or_the_age_comes_first)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    struct spt_schedule_intervals intervals;
    question.yearly_use_h = (double)NAN;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_assert_eq(spt_schedule_intervals(&plan, 0.373, &intervals), SPT_OK);
    cr_expect(near(intervals.inspect_h, 0.373 * plan.fatigue_lives.l1_h, 1e-9, 0));
    cr_expect(near(intervals.replace_h, 0.373 * plan.replace_h, 1e-9, 0));
    double longest_h = plan.replace_h;
    question.yearly_use_h = 0.5 * plan.fatigue_lives.l1_h;
    question.age_limit_h = 3 * 24 * 365.25; /* three years' running */
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_assert_eq(spt_schedule_intervals(&plan, 2.73, &intervals), SPT_OK);
    cr_expect(near(intervals.inspect_h, question.yearly_use_h, 1e-12, 0));
    cr_expect(near(intervals.replace_h, 3 * question.yearly_use_h, 1e-12, 0));
    cr_assert_eq(spt_schedule_intervals(&plan, 0.137, &intervals), SPT_OK);
    cr_expect(near(intervals.inspect_h, 0.137 * plan.fatigue_lives.l1_h, 1e-9, 0));
    cr_expect(near(intervals.replace_h, 0.137 * longest_h, 1e-9, 0));
    cr_expect_eq(spt_schedule_intervals(&plan, 0, &intervals), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_schedule_intervals(&plan, (double)INFINITY, &intervals), SPT_BAD_ARGUMENT);
}

Test(schedule, a_task_without_an_interval_says_why)
{
    struct spt_case question = make_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    question.yearly_use_h = (double)NAN;
    phase.speed_rpm = 0; /* it never turns */
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    static const enum spt_task tasks[] = {SPT_TASK_REGREASE, SPT_TASK_INSPECT, SPT_TASK_REPLACE};
    static const enum spt_governor governors[] = {SPT_GOVERNOR_NO_INTERVAL, SPT_GOVERNOR_NO_WEAR,
                                                  SPT_GOVERNOR_NO_WEAR};
    for (int i = 0; i < 3; i++) {
        const struct spt_schedule_task *task = find_task(&plan, tasks[i]);
        cr_assert(task, "%d", i);
        cr_expect(isnan(task->every_h), "%d", i);
        cr_expect_eq(task->governor, governors[i], "%d", i);
    }
}

/* ---- under the drifts of a service ---------------------------------------------------------- */

static struct spt_phase moving[2];
static struct spt_phase_result moving_results[2];
static const struct spt_timeline_room moving_room = {moving, moving_results};

/* The case in oil with e_C = 0, whose a_ISO is 0.1 at any load and film: L10 goes by the cube of
 * the load exactly. */
static struct spt_case make_cubic(struct spt_schedule_inputs *inputs)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    phase.condition.contamination_factor = 0;
    *inputs = inputs_of(&question);
    inputs->timeline_room = &moving_room;
    return question;
}

/* Multiple of L10 that a share survives, slope 1.5, least life `floor`: the law behind a1. */
static double quantile(double survival, double floor)
{
    return floor + (1 - floor) * pow(log(survival) / log(0.9), 1 / 1.5);
}

Test(schedule, a_drift_that_changes_nothing_leaves_every_number)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_service service = make_service(137, 6100);
    struct spt_schedule as_stated, followed;
    service.drifts[0].load_from = service.drifts[0].load_to = 1;
    service.drifts[0].water_from_ppm = service.drifts[0].water_to_ppm = 100;
    inputs.costs = (struct spt_replacement_costs){300, 9000};
    cr_assert_eq(spt_schedule(&inputs, results, &as_stated), SPT_OK);
    cr_expect_not(as_stated.followed);
    inputs.service = &service;
    inputs.timeline_room = &moving_room;
    cr_assert_eq(spt_schedule(&inputs, results, &followed), SPT_OK);
    cr_assert(followed.followed);
    cr_expect(isinf(followed.path.stopped_h));
    cr_expect(near(followed.fatigue_lives.l1_h, as_stated.fatigue_lives.l1_h, 1e-9, 0));
    cr_expect(near(followed.fatigue_lives.l50_h, as_stated.fatigue_lives.l50_h, 1e-9, 0));
    cr_expect(near(followed.replace_h, as_stated.replace_h, 1e-9, 0));
    cr_expect(near(followed.at_target.year.failures, as_stated.at_target.year.failures, 1e-7, 0));
    cr_expect(near(followed.run_to_failure.plan.mean_life, as_stated.run_to_failure.plan.mean_life,
                   1e-7, 0));
    cr_expect(
        near(followed.at_optimum.plan.cost_rate, as_stated.at_optimum.plan.cost_rate, 1e-7, 0));
    cr_expect_eq(followed.task_count, as_stated.task_count);
    for (int i = 0; i < followed.task_count; i++)
        cr_expect_eq(followed.tasks[i].governor, as_stated.tasks[i].governor);
}

/* The load grows from 1 to 1 + g over T hours: D(t) = T/(4 g L0) [(1 + g t/T)^4 - 1], by hand. */
Test(schedule, a_load_that_grows_evenly_gives_the_closed_form)
{
    static const double floors[] = {SPT_WEIBULL_FLOOR, 0}, survivals[] = {0.5, 0.9, 0.95, 0.99};
    for (int f = 0; f < 2; f++) {
        struct spt_schedule_inputs inputs;
        struct spt_case question = make_cubic(&inputs);
        struct spt_schedule plan;
        inputs.question = &question;
        inputs.floor = floors[f];
        double l0_h = 0.1 * pow(29500.0 / 2900, 3) * 1e6 / (60 * 1237);
        double growth = 1.37, until_h = 6 * l0_h;
        struct spt_service service = make_service(0, until_h);
        service.drifts[0].load_from = 1;
        service.drifts[0].load_to = 1 + growth;
        inputs.service = &service;
        cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
        cr_expect(near(plan.bearings[0].l10_h, l0_h, 1e-9, 0), "%g", plan.bearings[0].l10_h);
        const double got[] = {plan.fatigue_lives.l50_h, plan.fatigue_lives.l10_h,
                              plan.fatigue_lives.l5_h, plan.fatigue_lives.l1_h};
        for (int i = 0; i < 4; i++) {
            double damage = quantile(survivals[i], floors[f]);
            double life_h =
                until_h / growth * (pow(1 + 4 * growth * l0_h * damage / until_h, 0.25) - 1);
            cr_assert_lt(life_h, until_h);
            cr_expect(near(got[i], life_h, 1e-5, 0), "%g: %.9g instead of %.9g", survivals[i],
                      got[i], life_h);
        }
        cr_expect(near(plan.replace_h, got[1], 1e-9, 0));
        struct spt_schedule_point point;
        cr_assert_eq(spt_schedule_survival(&plan, got[3], &point), SPT_OK);
        cr_expect(near(point.combined, 0.99, 1e-9, 0));
    }
}

/* From one moment on the load is twice as high, the damage eight times as fast; and it goes on so
 * far behind the last point that was followed. */
Test(schedule, a_sudden_load_counts_from_its_moment)
{
    struct spt_schedule_inputs inputs;
    struct spt_case question = make_cubic(&inputs);
    struct spt_schedule plan;
    double l0_h = 0.1 * pow(29500.0 / 2900, 3) * 1e6 / (60 * 1237), at_h = 0.613 * l0_h;
    struct spt_service service = make_service(at_h, at_h);
    inputs.question = &question;
    service.drifts[0].load_from = service.drifts[0].load_to = 2;
    inputs.service = &service;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    static const double survivals[] = {0.5, 0.9, 0.99};
    const double got[] = {plan.fatigue_lives.l50_h, plan.fatigue_lives.l10_h,
                          plan.fatigue_lives.l1_h};
    for (int i = 0; i < 3; i++) {
        double damage = quantile(survivals[i], SPT_WEIBULL_FLOOR);
        double life_h = damage <= 0.613 ? damage * l0_h : at_h + (damage - 0.613) * l0_h / 8;
        cr_expect(near(got[i], life_h, 1e-4, 0), "%g: %.9g, %.9g", survivals[i], got[i], life_h);
    }
    cr_expect(near(plan.stated_fatigue_lives.l10_h, l0_h, 1e-9, 0));
    struct spt_schedule_point late;
    double damage = 0.613 + 8 * (40 - 0.613);
    cr_assert_eq(spt_schedule_survival(&plan, 40 * l0_h, &late), SPT_OK);
    cr_expect(near(log(late.fatigue), log(0.9) * pow((damage - 0.05) / 0.95, 1.5), 1e-5, 0));
}

/* 1/L of the case with so much water, by the assessment itself. */
static double rate_with_water(const struct spt_case *question, double water_ppm)
{
    struct spt_case wet = *question;
    struct spt_phase phase_then = question->bearings[0].phases[0];
    struct spt_bearing_result bearing;
    phase_then.condition.water_ppm = fmax(phase_then.condition.water_ppm, water_ppm);
    wet.bearings[0].phases = &phase_then;
    cr_assert_eq(spt_assess_bearing(&wet, 0, 0, results, &bearing), SPT_OK);
    return 1 / bearing.modified_rating_life_h;
}

/* Damage at a time with water that grows evenly and starts again every `period_h`, by Simpson's
 * rule over each period (2000 steps, so that the kink at 100 ppm does not matter). */
static double damage_with_water(const struct spt_case *question, const struct spt_drift *drift,
                                double period_h, double t_h)
{
    double sum = 0;
    for (double from_h = 0; from_h < t_h; from_h += period_h) {
        double length_h = fmin(period_h, t_h - from_h);
        for (int i = 0; i <= 2000; i++) {
            double part = length_h * i / 2000 / drift->to_h;
            double water_ppm =
                drift->water_from_ppm + part * (drift->water_to_ppm - drift->water_from_ppm);
            double weight = i == 0 || i == 2000 ? 1 : i % 2 ? 4 : 2;
            sum += weight * length_h / 6000 * rate_with_water(question, water_ppm);
        }
    }
    return sum;
}

Test(schedule, water_between_oil_changes_gives_the_integral)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    double l0_h = 1 / rate_with_water(&question, 0);
    struct spt_service service = make_service(0, 0.9 * l0_h);
    service.drifts[0].water_from_ppm = 50;
    service.drifts[0].water_to_ppm = 850;
    inputs.service = &service;
    inputs.timeline_room = &moving_room;
    inputs.limits.water_ppm = 370; /* reached after 320/800 of the drift */
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_assert(plan.followed);
    cr_expect(near(plan.followed_change_h, 0.36 * l0_h, 1e-9, 0));
    const double lives_h[] = {plan.fatigue_lives.l50_h, plan.fatigue_lives.l10_h,
                              plan.fatigue_lives.l1_h};
    static const double survivals[] = {0.5, 0.9, 0.99};
    for (int i = 0; i < 3; i++) {
        double damage =
            damage_with_water(&question, &service.drifts[0], plan.followed_change_h, lives_h[i]);
        cr_expect(near(damage, quantile(survivals[i], SPT_WEIBULL_FLOOR), 1e-3, 0), "%g: %.6g",
                  survivals[i], damage);
    }
    cr_expect_lt(plan.fatigue_lives.l10_h, 0.95 * l0_h);
    /* failures in a year with the replacement: N t F(T)/integral of R, by the midpoints */
    double mean_h = 0, step_h = plan.replace_h / 4000;
    for (int i = 0; i < 4000; i++) {
        struct spt_schedule_point point;
        cr_assert_eq(spt_schedule_survival(&plan, (i + 0.5) * step_h, &point), SPT_OK);
        mean_h += step_h * point.fatigue; /* whose times are checked above */
    }
    cr_expect(near(plan.at_target.year.failures, 2385 * 0.1 / mean_h, 1e-5, 0));
}

Test(schedule, nothing_survives_a_film_that_goes)
{
    struct spt_case question = make_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = inputs_of(&question);
    struct spt_schedule plan;
    struct spt_service service = make_service(0, 4000);
    service.drifts[0].rise_from_k = 0;
    service.drifts[0].rise_to_k = 235;
    phase.speed_rpm = 150;
    inputs.service = &service;
    inputs.timeline_room = &moving_room;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_assert(plan.followed);
    double stopped_h = plan.path.stopped_h;
    cr_assert(stopped_h > 0 && stopped_h < 4000, "%g", stopped_h);
    struct spt_schedule_point before, behind;
    cr_assert_eq(spt_schedule_survival(&plan, 0.99 * stopped_h, &before), SPT_OK);
    cr_assert_eq(spt_schedule_survival(&plan, 1.01 * stopped_h, &behind), SPT_OK);
    cr_expect_gt(before.fatigue, 0.9);
    cr_expect_eq(behind.fatigue, 0);
    cr_expect(near(plan.replace_h, stopped_h, 1e-9, 0));
    cr_expect_eq(find_task(&plan, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_LIFE_ENDS);
    cr_expect(near(plan.fatigue_lives.l50_h, stopped_h, 1e-9, 0));
}

/* Two rows: the machine needs both, so it comes sooner than either; each by itself as if it were a
 * machine of one. */
Test(schedule, each_bearing_by_itself_is_a_machine_of_one)
{
    struct spt_case pair = make_case(SPT_LUBRICATION_GREASE), one = pair;
    struct spt_schedule_inputs inputs = inputs_of(&pair), alone = inputs_of(&one);
    struct spt_schedule both, single;
    pair.bearing_count = 2;
    pair.bearings[1] = pair.bearings[0];
    pair.bearings[1].bearing.dynamic_load_rating_n = 22000;
    pair.target_life_h = one.target_life_h = 15000; /* so that the regreasing is the same */
    cr_assert_eq(spt_schedule(&inputs, results, &both), SPT_OK);
    for (int i = 0; i < 2; i++) {
        one.bearings[0] = pair.bearings[i];
        cr_assert_eq(spt_schedule(&alone, results, &single), SPT_OK);
        const struct spt_bearing_schedule *row = &both.bearings[i];
        cr_expect(near(row->replace_h, single.replace_h, 1e-9, 0), "%d", i);
        cr_expect(near(row->inspect_h, single.combined_lives.l1_h, 1e-9, 0), "%d", i);
        cr_expect_eq(row->replace_governor, find_task(&single, SPT_TASK_REPLACE)->governor);
        cr_expect_lt(both.replace_h, row->replace_h);
    }
}

/* A load that grows under a service: half the life is the same time with damage counted twice. */
Test(schedule, intervals_under_a_drift_scale_the_damage)
{
    struct spt_schedule_inputs inputs;
    struct spt_case question = make_cubic(&inputs);
    struct spt_schedule plan;
    struct spt_schedule_intervals intervals;
    double l0_h = 0.1 * pow(29500.0 / 2900, 3) * 1e6 / (60 * 1237), until_h = 6 * l0_h;
    struct spt_service service = make_service(0, until_h);
    service.drifts[0].load_from = 1;
    service.drifts[0].load_to = 2.37;
    inputs.question = &question;
    inputs.service = &service;
    question.yearly_use_h = (double)NAN;
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_assert_eq(spt_schedule_intervals(&plan, 0.5, &intervals), SPT_OK);
    /* D(t) = T/(4 g L0) [(1 + g t/T)^4 - 1] = 0.5, by hand */
    double want_h = until_h / 1.37 * (pow(1 + 4 * 1.37 * l0_h * 0.5 / until_h, 0.25) - 1);
    cr_expect(near(intervals.replace_h, want_h, 1e-5, 0), "%g", intervals.replace_h);
}
