/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "study/course/damage_path.h"
#include "study/course/run.h"
#include "support/near.h"
#include "support/schedule_case.h"

static struct spt_phase moving[2];
static struct spt_phase_result moving_results[2];
static const struct spt_timeline_workspace moving_workspace = {moving, moving_results};

/* The case in oil with e_C = 0, whose a_ISO is 0.1 at any load and film: L10 goes by the cube of
 * the load exactly. */
static struct spt_case make_cubic(struct spt_schedule_inputs *inputs)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    schedule_phase.condition.contamination_factor = 0;
    *inputs = schedule_inputs(&question);
    inputs->timeline_workspace = &moving_workspace;
    return question;
}

/* Multiple of L10 that a share survives, slope 1.5, least life `floor`: the law behind a1. */
static double quantile(double survival, double floor)
{
    return floor + (1 - floor) * pow(log(survival) / log(0.9), 1 / 1.5);
}

Test(schedule_service, a_drift_that_changes_nothing_leaves_every_number)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_service service = schedule_drift_service(137, 6100);
    struct spt_schedule as_stated, followed;
    service.drifts[0].load_from = service.drifts[0].load_to = 1;
    service.drifts[0].water_from_ppm = service.drifts[0].water_to_ppm = 100;
    inputs.costs = (struct spt_replacement_costs){300, 9000};
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &as_stated), SPT_OK);
    cr_expect_not(as_stated.followed);
    inputs.service = &service;
    inputs.timeline_workspace = &moving_workspace;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &followed), SPT_OK);
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

/* A limit that a drift reaches comes first, else the interval that is stated. */
Test(schedule_service, fresh_oil_comes_as_stated_where_no_limit_calls_for_it)
{
    static const enum spt_lubrication kinds[] = {SPT_LUBRICATION_OIL_BATH, SPT_LUBRICATION_GREASE};
    static const enum spt_task tasks[] = {SPT_TASK_OIL_CHANGE, SPT_TASK_REPACK};
    for (int i = 0; i < 2; i++) {
        struct spt_case question = schedule_case(kinds[i]);
        struct spt_schedule_inputs inputs = schedule_inputs(&question);
        struct spt_service service = schedule_drift_service(137, 6100);
        struct spt_schedule plan;
        service.oil_change_every_h = 2300;
        service.drifts[0].water_from_ppm = 100;
        service.drifts[0].water_to_ppm = 900;
        inputs.service = &service;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
        const struct spt_schedule_task *task = schedule_task(&plan, tasks[i]);
        cr_assert_not_null(task);
        cr_expect_eq(task->governor, SPT_GOVERNOR_STATED);
        cr_expect_eq(task->every_h, 2300);
        inputs.limits.water_ppm = 300;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
        task = schedule_task(&plan, tasks[i]);
        cr_expect_eq(task->governor, SPT_GOVERNOR_WATER);
    }
}

/* The load grows from 1 to 1 + g over T hours: D(t) = T/(4 g L0) [(1 + g t/T)^4 - 1], by hand. */
Test(schedule_service, a_load_that_grows_evenly_gives_the_closed_form)
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
        struct spt_service service = schedule_drift_service(0, until_h);
        service.drifts[0].load_from = 1;
        service.drifts[0].load_to = 1 + growth;
        inputs.service = &service;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
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
        /* the life is a root of the damage itself, the others of a curve through its points */
        double damage = quantile(0.9, floors[0]);
        double life_h =
            until_h / growth * (pow(1 + 4 * growth * l0_h * damage / until_h, 0.25) - 1);
        cr_expect(near(plan.life_h, life_h, 1e-9, 0), "%.12g", plan.life_h);
        cr_expect(near(plan.replace_h, got[1], 1e-5, 0), "%.12g", plan.replace_h);
        struct spt_schedule_point point;
        cr_assert_eq(spt_schedule_survival(&plan, got[3], &point), SPT_OK);
        cr_expect(near(point.combined, 0.99, 1e-9, 0));
    }
}

/* From one moment on the load is twice as high, the damage eight times as fast; and it goes on so
 * far behind the last point that was followed. */
Test(schedule_service, a_sudden_load_counts_from_its_moment)
{
    struct spt_schedule_inputs inputs;
    struct spt_case question = make_cubic(&inputs);
    struct spt_schedule plan;
    double l0_h = 0.1 * pow(29500.0 / 2900, 3) * 1e6 / (60 * 1237), at_h = 0.613 * l0_h;
    struct spt_service service = schedule_drift_service(at_h, at_h);
    inputs.question = &question;
    service.drifts[0].load_from = service.drifts[0].load_to = 2;
    inputs.service = &service;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
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
    cr_assert_eq(spt_assess_bearing(&wet, 0, 0, schedule_results, &bearing), SPT_OK);
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
        for (int i = 0; i <= 100; i++) {
            double part = length_h * i / 100 / drift->to_h;
            double water_ppm =
                drift->water_from_ppm + part * (drift->water_to_ppm - drift->water_from_ppm);
            double weight = i == 0 || i == 100 ? 1 : i % 2 ? 4 : 2;
            sum += weight * length_h / 300 * rate_with_water(question, water_ppm);
        }
    }
    return sum;
}

Test(schedule_service, water_between_oil_changes_gives_the_integral)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule plan;
    question.yearly_use_h = 8000;
    double l0_h = 1 / rate_with_water(&question, 0);
    struct spt_service service = schedule_drift_service(0, 4000);
    service.drifts[0].water_from_ppm = 50;
    service.drifts[0].water_to_ppm = 850;
    inputs.service = &service;
    inputs.timeline_workspace = &moving_workspace;
    inputs.limits.water_ppm = 370; /* reached after 320/800 of the drift */
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_assert(plan.followed);
    /* 73 days become two months */
    cr_expect(near(plan.followed_change_h, 8000.0 / 6, 1e-9, 0));
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
    struct spt_schedule_point end; /* the age is that of the exact run, the curve has steps */
    cr_assert_eq(spt_schedule_survival(&plan, plan.replace_h, &end), SPT_OK);
    cr_expect(near(end.fatigue, 0.9, 1e-3, 0), "%.6g", end.fatigue);
    cr_expect(near(plan.at_target.year.failures, 8000 * (1 - end.fatigue) / mean_h, 1e-5, 0));
}

Test(schedule_service, nothing_survives_a_film_that_goes)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule plan;
    struct spt_service service = schedule_drift_service(0, 4000);
    service.drifts[0].rise_from_k = 0;
    service.drifts[0].rise_to_k = 235;
    schedule_phase.speed_rpm = 150;
    inputs.service = &service;
    inputs.timeline_workspace = &moving_workspace;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_assert(plan.followed);
    double stopped_h = plan.path.stopped_h;
    cr_assert(stopped_h > 0 && stopped_h < 4000, "%g", stopped_h);
    struct spt_schedule_point before, behind;
    cr_assert_eq(spt_schedule_survival(&plan, 0.99 * stopped_h, &before), SPT_OK);
    cr_assert_eq(spt_schedule_survival(&plan, 1.01 * stopped_h, &behind), SPT_OK);
    cr_expect_gt(before.fatigue, 0.9);
    cr_expect_eq(behind.fatigue, 0);
    cr_expect(near(plan.replace_h, stopped_h, 1e-9, 0));
    cr_expect_eq(schedule_task(&plan, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_LIFE_ENDS);
    cr_expect(near(plan.fatigue_lives.l50_h, stopped_h, 1e-9, 0));
}

/* Two rows: the machine needs both, so it comes sooner than either; each by itself as if it were a
 * machine of one. */
Test(schedule_service, each_bearing_by_itself_is_a_machine_of_one)
{
    struct spt_case pair = schedule_case(SPT_LUBRICATION_GREASE), one = pair;
    struct spt_schedule_inputs inputs = schedule_inputs(&pair), alone = schedule_inputs(&one);
    struct spt_schedule both, single;
    pair.bearing_count = 2;
    pair.bearings[1] = pair.bearings[0];
    pair.bearings[1].bearing.dynamic_load_rating_n = 22000;
    pair.target_life_h = one.target_life_h = 15000; /* so that the regreasing is the same */
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &both), SPT_OK);
    for (int i = 0; i < 2; i++) {
        one.bearings[0] = pair.bearings[i];
        cr_assert_eq(spt_schedule(&alone, schedule_results, &single), SPT_OK);
        const struct spt_bearing_schedule *row = &both.bearings[i];
        cr_expect(near(row->replace_h, single.replace_h, 1e-9, 0), "%d", i);
        cr_expect(near(row->inspect_h, single.fatigue_lives.l1_h, 1e-9, 0), "%d", i);
        cr_expect_eq(row->replace_governor, schedule_task(&single, SPT_TASK_REPLACE)->governor);
        cr_expect_lt(both.replace_h, row->replace_h);
    }
}

/* A load that grows under a service: half the life is the same time with damage counted twice. */
Test(schedule_service, intervals_under_a_drift_scale_the_damage)
{
    struct spt_schedule_inputs inputs;
    struct spt_case question = make_cubic(&inputs);
    struct spt_schedule plan;
    struct spt_schedule_intervals intervals;
    double l0_h = 0.1 * pow(29500.0 / 2900, 3) * 1e6 / (60 * 1237), until_h = 6 * l0_h;
    struct spt_service service = schedule_drift_service(0, until_h);
    service.drifts[0].load_from = 1;
    service.drifts[0].load_to = 2.37;
    inputs.question = &question;
    inputs.service = &service;
    question.yearly_use_h = (double)NAN;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_assert_eq(spt_schedule_intervals(&plan, 0.5, &intervals), SPT_OK);
    /* D(t) = T/(4 g L0) [(1 + g t/T)^4 - 1] = 0.5, by hand */
    double want_h = until_h / 1.37 * (pow(1 + 4 * 1.37 * l0_h * 0.5 / until_h, 0.25) - 1);
    cr_expect(near(intervals.replace_h, want_h, 1e-5, 0), "%g", intervals.replace_h);
}

/* The plan renews a grease that is overdue at once, and the way through the drifts begins there. */
Test(schedule_service, the_age_of_the_present_grease_does_not_go_along)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_service service = schedule_drift_service(0, 3100);
    struct spt_schedule fresh, overdue;
    question.target_life_h = 23850;
    service.drifts[0].load_from = 1;
    service.drifts[0].load_to = 1.013;
    service.drifts[0].water_from_ppm = service.drifts[0].water_to_ppm = (double)NAN;
    inputs.service = &service;
    inputs.timeline_workspace = &moving_workspace;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &fresh), SPT_OK);
    schedule_phase.condition.grease_age_h = 3 * fresh.regrease_h;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &overdue), SPT_OK);
    cr_assert(overdue.followed && fresh.followed);
    cr_expect_eq(spt_schedule_first_h(&overdue.tasks[0]), 0);
    cr_expect(overdue.bearings[0].l10_h < fresh.bearings[0].l10_h);
    cr_expect(near(overdue.replace_h, fresh.replace_h, 1e-6, 0), "%g %g", overdue.replace_h,
              fresh.replace_h);
}

/* Water comes back every 20 h: nobody changes oil that often, so nothing may count on it. */
Test(schedule_service, what_cannot_be_kept_renews_nothing)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    inputs.timeline_workspace = &moving_workspace;
    struct spt_schedule plan, kept;
    question.yearly_use_h = (double)NAN;
    struct spt_service service = schedule_drift_service(0, 1000);
    service.drifts[0].water_from_ppm = 100;
    service.drifts[0].water_to_ppm = 1100;
    inputs.service = &service;
    inputs.limits.water_ppm = 120; /* after 20 h */
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    const struct spt_schedule_task *task = schedule_task(&plan, SPT_TASK_OIL_CHANGE);
    cr_expect(near(task->every_h, 20, 1e-9, 0));
    cr_assert(plan.followed && isnan(plan.followed_change_h));
    inputs.limits.water_ppm = 200; /* after 100 h, which can be kept */
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &kept), SPT_OK);
    cr_expect(near(kept.followed_change_h, 100, 1e-9, 0));
    cr_expect_gt(kept.replace_h, 1.2 * plan.replace_h, "%g, not more than %g", kept.replace_h,
                 plan.replace_h);
}

/* Grease of any age is renewed by the plan, so it has the same life as fresh grease has. */
Test(schedule_service, a_plan_lives_by_its_own_grease_not_by_the_age_of_the_present_one)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    inputs.timeline_workspace = &moving_workspace;
    static struct spt_schedule fresh, old;
    double t_f = schedule_grease_h(&inputs);
    static const double ages[] = {1.5, 9}; /* overdue; exhausted, without a life as it stands */
    schedule_phase.condition.grease_age_h = 1e-3;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &fresh), SPT_OK);
    cr_assert(fresh.followed && !fresh.service_followed);
    for (int i = 0; i < 2; i++) {
        schedule_phase.condition.grease_age_h = ages[i] * t_f;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &old), SPT_OK);
        cr_expect(old.life_known);
        cr_expect(near(old.replace_h, fresh.replace_h, 1e-6, 0), "%g: %.9g, not %.9g", ages[i],
                  old.replace_h, fresh.replace_h);
    }
}

/* Grease of any age: the plan regreases first when a timeline under the same interval does. */
Test(schedule_service, plan_and_timeline_count_the_first_regreasing_alike)
{
    static const double parts[] = {0, 0.3, 0.95, 1.8}; /* of the interval */
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        struct spt_schedule plan;
        schedule_phase.condition.grease_age_h = 0;
        double every_h = schedule_grease_h(&inputs);
        schedule_phase.condition.grease_age_h = parts[i] * every_h;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
        const struct spt_schedule_task *task = schedule_task(&plan, SPT_TASK_REGREASE);
        cr_assert(task);
        const struct spt_service service = {.regrease_every_h = task->kept_h,
                                            .oil_change_every_h = (double)NAN,
                                            .until_h = (double)NAN};
        struct spt_run_budget budget = spt_run_budget();
        const struct spt_run run = spt_run_start(&question, &service, NULL, &budget);
        double first_h = spt_schedule_first_h(task);
        double age_h = parts[i] * every_h;
        cr_expect(near(first_h, fmax(task->kept_h - age_h, 0), 1e-12, 1e-9), "%zu", i);
        cr_expect(near(spt_run_grease_age(&run, first_h, first_h), 0, 0, 1e-9 * every_h), "%zu", i);
        cr_expect_eq(spt_run_regreasings(&run, first_h), 1, "%zu", i);
        cr_expect_eq(spt_run_regreasings(&run, first_h + 2.5 * task->kept_h), 3, "%zu", i);
        if (first_h > 0)
            cr_expect_eq(spt_run_regreasings(&run, first_h * (1 - 1e-9)), 0, "%zu", i);
    }
    schedule_phase.condition.grease_age_h = 0;
}

/* Of more than two bearings the last ones count as well. */
Test(schedule_service, damage_goes_on_where_any_bearing_is_damaged)
{
    static struct spt_damage_path path = {.count = 2, .times_h = {0, 2385}};
    path.stopped_h = (double)INFINITY;
    cr_expect(spt_damage_path_ceases(&path) && !spt_damage_path_wears(&path));
    path.end_rate_1_h[SPT_BEARINGS_MAX - 1] = 2.385e-5;
    cr_expect(!spt_damage_path_ceases(&path) && spt_damage_path_wears(&path));
    path.end_rate_1_h[SPT_BEARINGS_MAX - 1] = 0;
    path.damage[1][2] = 0.2385;
    cr_expect(spt_damage_path_ceases(&path) && spt_damage_path_wears(&path));
}

/* Dents that stay count in the plan; the other bounds stand beside them. The two stages of
 * spt_timeline: clean-up after a dirty start. */
Test(schedule_service, goes_by_dents_that_stay)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_phase clean = schedule_phase;
    /* the event left out, then after it */
    struct spt_case cases[2] = {question, question};
    struct spt_schedule plan;
    cases[1].bearings[0].phases = &clean;
    schedule_phase.condition.cleanliness = SPT_CLEANLINESS_BATH_19_16;
    clean.condition.cleanliness = SPT_CLEANLINESS_BATH_15_12;
    double dirty_h, clean_h;
    cr_assert_eq(spt_case_life(&question, schedule_results, &dirty_h), SPT_OK);
    cr_assert_eq(spt_case_life(&cases[1], schedule_results, &clean_h), SPT_OK);
    const double at_h = 0.3 * dirty_h, left = 0.7;
    struct spt_service service = {.regrease_every_h = (double)NAN,
                                  .oil_change_every_h = (double)NAN,
                                  .until_h = (double)NAN,
                                  .event_count = 1,
                                  .events = {{"flushed", at_h, (double)NAN, false}},
                                  .cases = cases};
    inputs.service = &service;
    inputs.timeline_workspace = &moving_workspace;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_expect(near(plan.life_h, dirty_h, 1e-3, 0), "%.9g of %.9g", plan.life_h, dirty_h);
    cr_expect(near(plan.replace_h, dirty_h, 1e-3, 0));
    cr_expect(near(plan.dents.if_cured_h, at_h + left * clean_h, 1e-3, 0));
    cr_expect(near(plan.dents.half_credit_h, at_h + left * sqrt(clean_h * dirty_h), 1e-3, 0));
    service.events[0].new_bearing = true;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    struct spt_schedule_point point;
    cr_assert_eq(spt_schedule_survival(&plan, at_h + 0.5 * clean_h, &point), SPT_OK);
    const double hazards = pow((0.3 - 0.05) / 0.95, 1.5) + pow((0.5 - 0.05) / 0.95, 1.5);
    cr_expect(near(point.fatigue, pow(0.9, hazards), 1e-3, 0), "%.9g", point.fatigue);
}

/* Bearings that have run: replacement from now on, the target from new, yearly figures of new ones.
 */
Test(schedule_service, counts_the_hours_run)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule fresh, plan;
    struct spt_remaining remaining;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &fresh), SPT_OK);
    question.past.hours_run = 0.6 * fresh.replace_h;
    question.target_life_h = 0.5 * fresh.replace_h;
    cr_assert_eq(spt_remaining(&question, schedule_results, &remaining), SPT_OK);
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_expect(near(plan.replace_h, remaining.life_h, 1e-9, 0), "%.9g, not %.9g", plan.replace_h,
              remaining.life_h);
    cr_expect_geq(question.past.hours_run + plan.life_h, question.target_life_h);
    cr_expect_eq(plan.at_target_life.fatigue, 1);
    cr_expect(near(plan.at_target.year.failures, fresh.at_target.year.failures, 1e-6, 0));
    question.target_life_h = 1.01 * (question.past.hours_run + remaining.life_h);
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_expect_lt(question.past.hours_run + plan.life_h, question.target_life_h);
    inputs.timeline_workspace = &moving_workspace;
    struct spt_service service = schedule_drift_service(137, 6100);
    service.drifts[0].load_from = service.drifts[0].load_to = 1;
    inputs.service = &service;
    struct spt_schedule followed;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &followed), SPT_OK);
    cr_assert(followed.followed);
    cr_expect(near(followed.replace_h, remaining.life_h, 1e-3, 0));
}
