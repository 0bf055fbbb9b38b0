/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

/* A task with an interval and, of the first, hours that have passed. */
#define SPENT(what, of, hours, why, passed)                                                        \
    {                                                                                              \
        .task = what, .bearing = of, .every_h = hours, .governor = why, .quantity_g = 7.3,         \
        .spent_h = passed                                                                          \
    }
#define TASK(what, of, hours, why) SPENT(what, of, hours, why, 0)

static struct spt_schedule_entry entries[SPT_SCHEDULE_ENTRIES_MAX];

/* Every task comes no later than its interval after the time before, up to the replacement, and
 * after its first time at every so many visits. */
static void check_intervals(const struct spt_schedule *plan, int count)
{
    for (int i = 0; i < plan->task_count; i++) {
        double last_h = 0, own_h = plan->tasks[i].own_h;
        int number = 0;
        for (int j = 0; j < count; j++) {
            if (entries[j].task != i)
                continue;
            cr_expect_eq(entries[j].number, ++number);
            cr_expect_leq(entries[j].at_h, last_h + own_h * (1 + 1e-12));
            cr_expect(near(entries[j].due_h, last_h + own_h, 1e-12, 0));
            cr_expect(plan->tasks[i].task == SPT_TASK_REPLACE ||
                          near(entries[j].at_h - last_h, plan->tasks[i].kept_h, 1e-9, 0),
                      "task %d at %g h after %g h", i, entries[j].at_h, last_h);
            last_h = entries[j].at_h;
        }
        cr_expect_geq(last_h + own_h, entries[count - 1].at_h);
    }
}

Test(schedule_calendar, the_calendar_is_in_order_and_ends_with_the_replacement)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_schedule plan;
    bool cut;
    schedule_phase.radial_load_n = 4385; /* so that it comes within 30 years */
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_assert_eq(plan.replace_governor, SPT_GOVERNOR_FATIGUE);
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
        struct spt_schedule_task *task = &plan.tasks[plan.task_count++];
        *task = tasks[i];
        task->own_h = task->kept_h = task->raw_h = task->every_h;
    }
    spt_visits_align(&plan, (double)NAN);
    return plan;
}

Test(schedule_calendar, every_interval_is_a_multiple_of_the_shortest)
{
    static const struct spt_schedule_task tasks[] = {
        TASK(SPT_TASK_REGREASE, 0, 400, SPT_GOVERNOR_GREASE_LIFE),
        TASK(SPT_TASK_REPACK, -1, 1100, SPT_GOVERNOR_WATER),
        TASK(SPT_TASK_INSPECT, -1, 2000, SPT_GOVERNOR_LIFE_99),
        TASK(SPT_TASK_REPLACE, -1, 2270, SPT_GOVERNOR_FATIGUE)};
    /* by hand: 1100 becomes 2 x 400 and 2000 becomes 4 x 400; repacking takes the place of the
     * regreasing of its visit; 2270 is due within 2 % of it (45.4) after nothing */
    static const struct {
        int task, visit;
        double at_h;
    } want[] = {{0, 1, 400},  {1, 2, 800},  {0, 3, 1200}, {1, 4, 1600},
                {2, 4, 1600}, {0, 5, 2000}, {3, 6, 2270}};
    const struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule plan = plan_of(&question, tasks, 4);
    bool cut;
    plan.replace_h = 2270;
    int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_assert_eq(count, 7, "%d", count);
    for (int i = 0; i < count; i++)
        cr_expect(entries[i].task == want[i].task && entries[i].visit == want[i].visit &&
                      near(entries[i].at_h, want[i].at_h, 1e-12, 0),
                  "%d: task %d, visit %d at %g h", i, entries[i].task, entries[i].visit,
                  entries[i].at_h);
    plan.replace_h = plan.tasks[3].every_h = 2031; /* within 2 % after the visit at 2000 */
    count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
    cr_assert_eq(count, 6, "%d", count);
    cr_expect_eq(entries[5].task, 3);
    cr_expect(near(entries[5].at_h, 2000, 1e-12, 0));
    cr_expect(near(entries[5].due_h, 2031, 1e-12, 0));
}

/* By hand: t - 1000 = 0.02 t at 1020.4. */
Test(schedule_calendar, a_replacement_soon_after_a_visit_is_done_with_it)
{
    static const double rows[][2] = {{1020, 1000}, {1020.5, 1020.5}};
    const struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_schedule_task tasks[] = {
            TASK(SPT_TASK_REGREASE, 0, 1000, SPT_GOVERNOR_GREASE_LIFE),
            TASK(SPT_TASK_REPLACE, -1, rows[i][0], SPT_GOVERNOR_FATIGUE)};
        struct spt_schedule plan = plan_of(&question, tasks, 2);
        bool cut;
        plan.replace_h = rows[i][0];
        int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
        cr_expect_eq(entries[count - 1].task, 1);
        cr_expect(near(entries[count - 1].at_h, rows[i][1], 1e-12, 0), "row %zu: %g", i,
                  entries[count - 1].at_h);
    }
}

/* Grease of 250 h brings the first visit to 150 h; the inspection of 800 h keeps to the visits,
 * 550 h and then every second; what is overdue is done at once and all else counts from new. */
Test(schedule_calendar, old_grease_moves_the_visits_and_no_task_leaves_them)
{
    struct spt_schedule_task tasks[] = {TASK(SPT_TASK_REGREASE, 0, 400, SPT_GOVERNOR_GREASE_LIFE),
                                        TASK(SPT_TASK_INSPECT, -1, 800, SPT_GOVERNOR_LIFE_99)};
    static const struct {
        double spent_h, at_h[6];
        int task[6];
    } rows[] = {{250, {150, 550, 550, 950, 1350, 1350}, {0, 0, 1, 0, 0, 1}},
                {400, {0, 400, 800, 800, 1200, 1600}, {0, 0, 0, 1, 0, 0}}};
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    bool cut;
    question.target_life_h = 1700;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        tasks[0].spent_h = rows[i].spent_h;
        struct spt_schedule plan = plan_of(&question, tasks, 2);
        int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
        cr_assert_geq(count, 6);
        for (int j = 0; j < 6; j++)
            cr_expect(entries[j].task == rows[i].task[j] &&
                          near(entries[j].at_h, rows[i].at_h[j], 1e-12, 1e-9),
                      "row %zu, %d: task %d at %g h", i, j, entries[j].task, entries[j].at_h);
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
            SPENT(SPT_TASK_REPACK, 0, rows[i].every_h, SPT_GOVERNOR_WATER, rows[i].spent_h)};
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

/* Without a life nobody knows how soon to look, so it is looked at before it runs on, once. */
Test(schedule_calendar, a_bearing_without_a_life_is_inspected_at_once)
{
    static const struct spt_schedule_task tasks[] = {
        TASK(SPT_TASK_REGREASE, 0, 1500, SPT_GOVERNOR_GREASE_LIFE),
        TASK(SPT_TASK_INSPECT, -1, (double)NAN, SPT_GOVERNOR_NO_LIFE)};
    static const struct spt_schedule_task late[] = {
        SPENT(SPT_TASK_REGREASE, 0, 1500, SPT_GOVERNOR_GREASE_LIFE, 1700),
        TASK(SPT_TASK_INSPECT, -1, (double)NAN, SPT_GOVERNOR_NO_LIFE)};
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
        SPENT(SPT_TASK_REGREASE, 0, 1500, SPT_GOVERNOR_GREASE_LIFE, 1500)};
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
        cr_expect(near(task->raw_h, 0.5 * t_f, 1e-12, 0));
        const double due_h = spt_regreasing_first(plan.regrease_h, ages[i] * t_f);
        cr_expect(near(spt_schedule_first_h(task), fmin(task->every_h, due_h), 1e-9, 1e-9), "%d",
                  i);
        cr_expect_eq(due_h<task->every_h, i> 1, "%d: sooner where the grease is old", i);
    }
}

Test(schedule_calendar, nothing_is_planned_further_ahead_than_a_hundred_years)
{
    static const struct spt_schedule_task tasks[] = {
        TASK(SPT_TASK_REGREASE, 0, 119.25, SPT_GOVERNOR_GREASE_LIFE),
        TASK(SPT_TASK_REPLACE, -1, 1e9, SPT_GOVERNOR_FATIGUE)};
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
    const double factor = 4000 / plan.fatigue_lives.l1_h;
    cr_assert_eq(spt_schedule_intervals(&plan, factor, &intervals), SPT_OK);
    cr_expect(near(intervals.inspect_h, 4000, 1e-9, 0));
    cr_expect(near(intervals.replace_h, factor * plan.replace_h, 1e-9, 0));
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
    static const enum spt_task tasks[] = {SPT_TASK_REGREASE, SPT_TASK_REPLACE};
    static const enum spt_governor governors[] = {SPT_GOVERNOR_NO_INTERVAL, SPT_GOVERNOR_NO_WEAR};
    for (int i = 0; i < 2; i++) {
        const struct spt_schedule_task *task = schedule_task(&plan, tasks[i]);
        cr_assert(task, "%d", i);
        cr_expect(isnan(task->every_h), "%d", i);
        cr_expect_eq(task->governor, governors[i], "%d", i);
    }
}

/* ---- under the drifts of a service ---------------------------------------------------------- */
