/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

static struct spt_schedule plan;

static const struct spt_schedule_task *replace(const struct spt_case *question)
{
    struct spt_schedule_inputs inputs = schedule_inputs(question);
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    return schedule_task(&plan, SPT_TASK_REPLACE);
}

/* S_g = exp(-0.01005 tau^2.366) is 0.9 at 2.7 intervals. */
Test(schedule_life_grease, bearing_is_replaced_with_its_grease)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    question.lubricant.greased_for_life = true;
    question.yearly_use_h = (double)NAN;
    schedule_phase.radial_load_n = 300; /* fatigue comes later */
    const struct spt_schedule_task *task = replace(&question);
    cr_expect_eq(task->governor, SPT_GOVERNOR_LIFE_GREASE);
    cr_expect(near(task->every_h, 2.7 * plan.bearings[0].interval_h, 1e-3, 0), "%g", task->every_h);
    cr_expect_null(schedule_task(&plan, SPT_TASK_REGREASE));
    cr_expect_eq(plan.greasing.state, SPT_GREASING_NONE);
    cr_expect_eq(plan.grease_count, 1);
    cr_expect(isinf(plan.grease[0].period_h));
}

Test(schedule_life_grease, fatigue_ten_years_or_a_stated_age_may_come_first)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    question.lubricant.greased_for_life = true;
    question.yearly_use_h = 100;
    cr_expect_eq(replace(&question)->governor, SPT_GOVERNOR_LIFE_AGE);
    cr_expect_eq(plan.replace_h, 1000);
    question.age_limit_h = 12 * SPT_YEAR_H;
    cr_expect_eq(replace(&question)->governor, SPT_GOVERNOR_AGE_LIMIT);
    cr_expect(near(plan.replace_h, 1200, 1e-3, 0), "%g", plan.replace_h);
    question.age_limit_h = question.yearly_use_h = (double)NAN;
    schedule_phase.radial_load_n = 14000;
    cr_expect_eq(replace(&question)->governor, SPT_GOVERNOR_FATIGUE);
}
