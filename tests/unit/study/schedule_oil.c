/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

static struct spt_schedule plan;

static const struct spt_oil_change *change_oil(const struct spt_case *question)
{
    struct spt_schedule_inputs inputs = schedule_inputs(question);
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    return &plan.oil;
}

/* Two phases that turn, in gear oil; worked out by hand from 8000 h halved per 15 K above 50 degC
 * and 2.5 oxidation lives: 1/(0.7/5040 + 0.3/1260), 1/(0.9/5040 + 0.1/299.9). */
Test(schedule_oil, life_is_summed_over_the_phases)
{
    static const struct {
        double share, cool_c, hot_c, want_h;
    } rows[] = {{.7, 60, 90, 2652.5}, {.9, 60, 110, 1991.4}, {1, 75, 75, 2520}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
        struct spt_phase phases[2] = {schedule_phase, schedule_phase};
        phases[0].time_share = rows[i].share;
        phases[0].temperature_c = rows[i].cool_c;
        phases[1].time_share = 1 - rows[i].share;
        phases[1].temperature_c = rows[i].hot_c;
        question.bearings[0].phases = phases;
        question.bearings[0].phase_count = 2;
        const struct spt_oil_change *oil = change_oil(&question);
        cr_expect(near(oil->life_h, rows[i].want_h, 1e-3, 0), "%zu: %g", i, oil->life_h);
        cr_expect_eq(oil->hottest_c, rows[i].share < 1 ? rows[i].hot_c : rows[i].cool_c);
    }
}

/* Standing oil does not age by its heat, but the calendar runs. */
Test(schedule_oil, standing_adds_nothing_but_the_calendar)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_phase phases[2] = {schedule_phase, schedule_phase};
    const double alone_h = change_oil(&question)->life_h;
    phases[0].time_share = phases[1].time_share = 0.5;
    phases[1].speed_rpm = 0;
    phases[1].temperature_c = 110;
    question.bearings[0].phases = phases;
    question.bearings[0].phase_count = 2;
    question.yearly_use_h = 400;
    const struct spt_oil_change *oil = change_oil(&question);
    cr_expect(near(oil->life_h, 2 * alone_h, 1e-12, 0));
    cr_expect_eq(oil->months, 12);
    cr_expect(oil->calendar);
    cr_expect_eq(oil->every_days, 365);
    cr_expect(near(oil->kept_h, 400, 2e-3, 0), "%g", oil->kept_h);
}

/* Rules of this tool: 6, 12 or 24 months. */
Test(schedule_oil, calendar_goes_by_breather_dirt_and_samples)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_sealing *sealing = &schedule_phase.condition.sealing;
    cr_expect_eq(change_oil(&question)->months, 12);
    *sealing =
        (struct spt_sealing){true, -1, SPT_BREATHER_OPEN, -1, -1, (double)NAN, (double)NAN, false};
    cr_expect_eq(change_oil(&question)->months, 6);
    sealing->breather = SPT_BREATHER_DRYING;
    cr_expect_eq(change_oil(&question)->months, 12);
    question.lubricant.sampled = true;
    cr_expect_eq(change_oil(&question)->months, 24);
    sealing->breather = -1;
    sealing->wet = SPT_WET_RAIN;
    cr_expect_eq(change_oil(&question)->months, 6);
    question.lubricant.base_oil = SPT_BASE_OIL_PAO;
    cr_expect_eq(change_oil(&question)->months, 24);
}

Test(schedule_oil, circulating_oil_lasts_longer_only_where_it_is_sampled)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_CIRCULATING);
    schedule_phase.temperature_c = 60;
    cr_expect(near(change_oil(&question)->life_h, 5040, 1e-3, 0));
    question.lubricant.sampled = true;
    cr_expect(near(change_oil(&question)->life_h, 15119, 1e-3, 0), "%g", plan.oil.life_h);
    question.lubricant.oil_life_stated = true; /* plain oil oxidises first */
    question.lubricant.oil_life = SPT_INHIBITION_NONE;
    cr_expect_lt(change_oil(&question)->life_h, 15000);
}

Test(schedule_oil, hotter_never_lasts_longer)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    double last_h = (double)INFINITY, last_kept_h = (double)INFINITY;
    for (double c = 31.5; c < 150; c += 7.3) {
        schedule_phase.temperature_c = c;
        const struct spt_oil_change *oil = change_oil(&question);
        cr_expect_leq(oil->life_h, last_h);
        if (!isnan(oil->kept_h))
            cr_expect_leq(oil->kept_h, last_kept_h);
        cr_expect(isnan(oil->every_h) || oil->every_h <= oil->life_h);
        last_h = oil->life_h;
        last_kept_h = oil->kept_h;
    }
}

Test(schedule_oil, a_shorter_interval_of_the_service_is_kept_and_a_new_gear_unit_comes_early)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_service service = {.regrease_every_h = (double)NAN,
                                  .oil_change_every_h = 700,
                                  .until_h = (double)NAN,
                                  .new_gearbox = true};
    inputs.service = &service;
    question.yearly_use_h = (double)NAN;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    const struct spt_schedule_task *task = schedule_task(&plan, SPT_TASK_OIL_CHANGE);
    cr_expect_eq(task->governor, SPT_GOVERNOR_STATED);
    cr_expect_eq(task->every_h, 700);
    cr_expect_eq(spt_schedule_first_h(task), 500);
    service.oil_change_every_h = 1e5;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    task = schedule_task(&plan, SPT_TASK_OIL_CHANGE);
    cr_expect_eq(task->governor, SPT_GOVERNOR_OIL_LIFE);
    cr_expect_eq(task->every_h, plan.oil.every_h);
    cr_expect_eq(plan.stated_oil_change_h, 1e5);
}

Test(schedule_oil, without_a_filter_dirt_sets_the_interval)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    schedule_phase.condition.filtered = true;
    schedule_phase.condition.filter =
        (struct spt_filter){.place = SPT_FILTER_NONE, .ingress_per_min = 1e3, .volume_ml = 1e5};
    question.yearly_use_h = (double)NAN;
    const struct spt_oil_change *oil = change_oil(&question);
    /* two numbers above -/13/10: (320 - 80) particles a ml, 1e5 ml, 1000 a minute */
    cr_expect(near(oil->fill_h, 1e5 * (320 - 80) / 1e3 / 60, 1e-12, 0), "%g", oil->fill_h);
    cr_expect_eq(oil->every_h, 400);
    cr_expect_eq(schedule_task(&plan, SPT_TASK_OIL_CHANGE)->governor, SPT_GOVERNOR_OIL_DIRT);
}
