/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

static struct spt_schedule_entry entries[SPT_SCHEDULE_ENTRIES_MAX];

/* Every task comes no later than its interval after the time before, up to the replacement. */
static void check_intervals(const struct spt_schedule *plan, int count)
{
    for (int i = 0; i < plan->task_count; i++) {
        double last_h = 0, every_h = plan->tasks[i].kept_h;
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

Test(schedule_calendar, the_calendar_is_in_order_and_ends_with_the_replacement)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule plan;
    bool cut;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
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
    for (int i = 0; i < count; i++) {
        plan.tasks[plan.task_count] = tasks[i];
        plan.tasks[plan.task_count++].kept_h = tasks[i].every_h;
    }
    return plan;
}

Test(schedule_calendar, what_falls_due_close_together_is_one_visit)
{
    static const struct spt_schedule_task tasks[] = {
        {SPT_TASK_REGREASE, 0, 1000, SPT_GOVERNOR_GREASE_LIFE, 7.3, 0, 0},
        {SPT_TASK_REGREASE, 1, 1149, SPT_GOVERNOR_GREASE_LIFE, 5.1, 0, 0},
        {SPT_TASK_INSPECT, -1, 1237, SPT_GOVERNOR_LIFE_99, (double)NAN, 0, 0},
        {SPT_TASK_REPLACE, -1, 2270, SPT_GOVERNOR_FATIGUE, (double)NAN, 0, 0}};
    /* by hand: 1149 - 1000 is within 15 % of 1149, 1237 - 1000 not of 1237 (185.55); the row that
     * came sooner is due again at 2000, and both before the inspection of 2474, which is behind
     * the replacement; that is due within 2 % of 2270 (45.4) after nothing */
    static const struct {
        int task, visit;
        double at_h;
    } want[] = {{0, 1, 1000}, {1, 1, 1000}, {2, 2, 1237}, {0, 3, 2000}, {1, 3, 2000}, {3, 4, 2270}};
    const struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
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
    plan.replace_h = plan.tasks[3].every_h = plan.tasks[3].kept_h =
        2031; /* within 2 % after the visit at 2000 */
    count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_assert_eq(count, 4, "%d", count);
    cr_expect_eq(entries[3].task, 3);
    cr_expect(near(entries[3].at_h, 2000, 1e-12, 0));
    cr_expect(near(entries[3].due_h, 2031, 1e-12, 0));
}

/* By hand: t - 1000 = 0.15 t at 1176.5, t - 1000 = 0.02 t at 1020.4. */
Test(schedule_calendar, visits_are_shared_up_to_their_share_of_the_interval)
{
    static const struct {
        enum spt_task task;
        double every_h, at_h;
    } rows[] = {{SPT_TASK_INSPECT, 1176, 1000},
                {SPT_TASK_INSPECT, 1177, 1177},
                {SPT_TASK_REPLACE, 1020, 1000},
                {SPT_TASK_REPLACE, 1020.5, 1020.5}};
    const struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_schedule_task tasks[] = {
            {SPT_TASK_REGREASE, 0, 1000, SPT_GOVERNOR_GREASE_LIFE, 7.3, 0, 0},
            {rows[i].task, -1, rows[i].every_h, SPT_GOVERNOR_FATIGUE, (double)NAN, 0, 0}};
        struct spt_schedule plan = plan_of(&question, tasks, 2);
        bool cut;
        plan.replace_h = rows[i].task == SPT_TASK_REPLACE ? rows[i].every_h : 1e5;
        int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut), at = 0;
        while (at < count && entries[at].task != 1)
            at++;
        cr_assert_lt(at, count);
        cr_expect(near(entries[at].at_h, rows[i].at_h, 1e-12, 0), "row %zu: %g", i,
                  entries[at].at_h);
    }
}

/* Of what is due more often than can be kept only what is overdue now stands in the calendar;
 * seldom used, the same hours can be kept: 30 h of 1000 h a year are 11 days. */
Test(schedule_calendar, what_cannot_be_kept_is_left_out)
{
    static const struct {
        double yearly_h, every_h, spent_h;
        int want;
    } rows[] = {{(double)NAN, 30, 0, 0}, {(double)NAN, 30, 40, 1}, {(double)NAN, 51, 0, 13},
                {8766, 30, 0, 0},        {8766, 49, 10, 0},        {1000, 30, 0, 23},
                {1000, 19.3, 0, 36},     {1000, 19, 0, 0}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_schedule_task tasks[] = {
            {SPT_TASK_REPACK, 0, rows[i].every_h, SPT_GOVERNOR_WATER, 7.3, rows[i].spent_h, 0}};
        struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
        question.yearly_use_h = rows[i].yearly_h;
        question.target_life_h = 700;
        struct spt_schedule plan = plan_of(&question, tasks, 1);
        bool cut;
        int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
        cr_expect_eq(count, rows[i].want, "row %zu: %d", i, count);
        cr_expect_eq(spt_schedule_is_impractical(&question, &plan.tasks[0]), rows[i].want < 2);
    }
}

Test(schedule_calendar, repacking_takes_the_place_of_a_regreasing_close_by)
{
    static const struct spt_schedule_task tasks[] = {
        {SPT_TASK_REPACK, -1, 3010, SPT_GOVERNOR_WATER, (double)NAN, 0, 0},
        {SPT_TASK_REGREASE, 0, 1500, SPT_GOVERNOR_GREASE_LIFE, 7.3, 0, 0}};
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
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

/* Without a life nobody knows how soon to look, so it is looked at before it runs on, once. */
Test(schedule_calendar, a_bearing_without_a_life_is_inspected_at_once)
{
    static const struct spt_schedule_task tasks[] = {
        {SPT_TASK_REGREASE, 0, 1500, SPT_GOVERNOR_GREASE_LIFE, 7.3, 0, 0},
        {SPT_TASK_INSPECT, -1, (double)NAN, SPT_GOVERNOR_NO_LIFE, (double)NAN, 0, 0}};
    static const struct spt_schedule_task late[] = {
        {SPT_TASK_REGREASE, 0, 1500, SPT_GOVERNOR_GREASE_LIFE, 7.3, 1700, 0},
        {SPT_TASK_INSPECT, -1, (double)NAN, SPT_GOVERNOR_NO_LIFE, (double)NAN, 0, 0}};
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    question.target_life_h = 4000;
    struct spt_schedule plan = plan_of(&question, tasks, 2);
    bool cut;
    int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_expect_eq(spt_schedule_first_h(&tasks[1]), 0);
    cr_expect(spt_schedule_is_overdue(&tasks[1]));
    cr_assert_eq(count, 3, "%d", count);
    cr_expect(entries[0].task == 1 && entries[0].at_h == 0 && !cut);
    for (int i = 1; i < count; i++)
        cr_expect(entries[i].task == 0 && near(entries[i].at_h, 1500 * i, 1e-12, 0), "%d", i);
    /* at one visit with grease that is overdue */
    plan = plan_of(&question, late, 2);
    count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_assert_geq(count, 2);
    cr_expect(entries[0].task == 0 && entries[1].task == 1 && entries[1].at_h == 0);
    cr_expect_eq(entries[0].visit, entries[1].visit);
}

/* Ten years of use where neither a replacement nor a target ends it; without hours a year, now. */
Test(schedule_calendar, a_calendar_without_an_end_shows_some_years)
{
    static const struct spt_schedule_task tasks[] = {
        {SPT_TASK_REGREASE, 0, 1500, SPT_GOVERNOR_GREASE_LIFE, 7.3, 1500, 0}};
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    bool cut;
    question.target_life_h = (double)NAN;
    question.yearly_use_h = 450;
    struct spt_schedule plan = plan_of(&question, tasks, 1);
    cr_expect_eq(spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut), 3);
    question.yearly_use_h = (double)NAN;
    cr_expect_eq(spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut), 1);
    cr_expect_eq(entries[0].at_h, 0);
}

Test(schedule_calendar, the_age_of_the_present_grease_brings_the_first_regreasing_forward)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule plan;
    bool cut;
    double t_f = schedule_grease_h(&inputs);
    question.target_life_h = 30 * t_f; /* whose regreasing is shorter than t_f */
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    double every_h = plan.regrease_h;
    static const double spent[] = {0, 0.62, 1, 1.7}, left[] = {1, 0.38, 0, 0};
    for (int i = 0; i < 4; i++) {
        schedule_phase.condition.grease_age_h = spent[i] * every_h;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
        cr_assert(near(plan.regrease_h, every_h, 1e-12, 0), "the interval stays");
        const struct spt_schedule_task *task = schedule_task(&plan, SPT_TASK_REGREASE);
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
Test(schedule_calendar, the_age_of_the_present_grease_brings_the_first_repacking_forward)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule plan;
    double t_f = schedule_grease_h(&inputs);
    question.yearly_use_h = (double)NAN; /* no rule of the calendar */
    struct spt_service service = schedule_drift_service(0, t_f);
    service.drifts[0].water_from_ppm = 100;
    service.drifts[0].water_to_ppm = 500;
    inputs.service = &service;
    inputs.limits.water_ppm = 300; /* after half of it */
    static const double ages[] = {0, 0.3, 0.8, 1.2};
    for (int i = 0; i < 4; i++) {
        schedule_phase.condition.grease_age_h = ages[i] * t_f;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
        const struct spt_schedule_task *task = schedule_task(&plan, SPT_TASK_REPACK);
        cr_expect(plan.repacking_renews);
        cr_expect(near(task->every_h, 0.5 * t_f, 1e-12, 0));
        const double due_h = spt_regreasing_first(plan.regrease_h, ages[i] * t_f);
        cr_expect(near(spt_schedule_first_h(task), fmin(0.5 * t_f, due_h), 1e-9, 1e-9), "%d", i);
        cr_expect_eq(due_h<0.5 * t_f, i> 1, "%d: sooner where the grease is old", i);
    }
}

Test(schedule_calendar, nothing_is_planned_further_ahead_than_a_hundred_years)
{
    static const struct spt_schedule_task tasks[] = {
        {SPT_TASK_REGREASE, 0, 119.25, SPT_GOVERNOR_GREASE_LIFE, 7.3, 0, 0},
        {SPT_TASK_REPLACE, -1, 1e9, SPT_GOVERNOR_FATIGUE, (double)NAN, 0, 0}};
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
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
Test(schedule_calendar, a_life_beyond_any_machine_does_not_shorten_the_regreasing)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule plan;
    schedule_phase.radial_load_n = 0.0137;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_expect_gt(plan.bearings[0].l10_h, 1e15);
    cr_expect_eq(plan.regrease_h, plan.greasing.kept_h);
    schedule_phase.radial_load_n = 0;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_expect_eq(schedule_task(&plan, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_NO_WEAR);
}

/* With one bearing in oil, inspection and replacement go by one life. */
Test(schedule_calendar, intervals_scale_with_the_fatigue_life_until_the_year_or_the_age_comes_first)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule plan;
    struct spt_schedule_intervals intervals;
    question.yearly_use_h = (double)NAN;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_assert_eq(spt_schedule_intervals(&plan, 0.373, &intervals), SPT_OK);
    cr_expect(near(intervals.inspect_h, 0.373 * plan.fatigue_lives.l1_h, 1e-9, 0));
    cr_expect(near(intervals.replace_h, 0.373 * plan.replace_h, 1e-9, 0));
    double longest_h = plan.replace_h;
    question.yearly_use_h = 0.5 * plan.fatigue_lives.l1_h;
    question.age_limit_h = 3 * 24 * 365.25; /* three years' running */
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_assert_eq(spt_schedule_intervals(&plan, 2.73, &intervals), SPT_OK);
    cr_expect(near(intervals.inspect_h, question.yearly_use_h, 1e-12, 0));
    cr_expect(near(intervals.replace_h, 3 * question.yearly_use_h, 1e-12, 0));
    cr_assert_eq(spt_schedule_intervals(&plan, 0.137, &intervals), SPT_OK);
    cr_expect(near(intervals.inspect_h, 0.137 * plan.fatigue_lives.l1_h, 1e-9, 0));
    cr_expect(near(intervals.replace_h, 0.137 * longest_h, 1e-9, 0));
    cr_expect_eq(spt_schedule_intervals(&plan, 0, &intervals), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_schedule_intervals(&plan, (double)INFINITY, &intervals), SPT_BAD_ARGUMENT);
}

Test(schedule_calendar, a_task_without_an_interval_says_why)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule plan;
    question.yearly_use_h = (double)NAN;
    schedule_phase.speed_rpm = 0; /* it never turns */
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    static const enum spt_task tasks[] = {SPT_TASK_REGREASE, SPT_TASK_INSPECT, SPT_TASK_REPLACE};
    static const enum spt_governor governors[] = {SPT_GOVERNOR_NO_INTERVAL, SPT_GOVERNOR_NO_WEAR,
                                                  SPT_GOVERNOR_NO_WEAR};
    for (int i = 0; i < 3; i++) {
        const struct spt_schedule_task *task = schedule_task(&plan, tasks[i]);
        cr_assert(task, "%d", i);
        cr_expect(isnan(task->every_h), "%d", i);
        cr_expect_eq(task->governor, governors[i], "%d", i);
    }
}

/* ---- under the drifts of a service ---------------------------------------------------------- */
