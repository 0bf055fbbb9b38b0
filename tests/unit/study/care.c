/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "support/schedule_case.h"

/* The tasks of a plan as a set of 1 << enum spt_care. */
static unsigned tasks_of(const struct spt_case *question)
{
    static struct spt_schedule plan;
    struct spt_schedule_inputs inputs = schedule_inputs(question);
    unsigned set = 0;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    for (int i = 0; i < plan.care_count; i++)
        set |= 1u << plan.care[i].care;
    return set;
}

#define SET(care) (1u << SPT_CARE_##care)

Test(care, only_tasks_that_apply_are_listed)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_condition *state = &schedule_phase.condition;
    cr_expect_eq(tasks_of(&question), SET(LOOK));
    question.vehicle_hub = true;
    question.yearly_use_h = 300;
    cr_expect_eq(tasks_of(&question),
                 SET(LOOK) | SET(OPEN) | SET(END_PLAY) | SET(TURN) | SET(LAY_UP));
    question.lubricant.greased_for_life = true;
    cr_expect_eq(tasks_of(&question), SET(END_PLAY) | SET(TURN) | SET(LAY_UP));
    question = schedule_case(SPT_LUBRICATION_GREASE);
    state->sealing = (struct spt_sealing){true, SPT_SEAL_LABYRINTH, -1,          SPT_PLACE_SAND,
                                          -1,   (double)NAN,        (double)NAN, false};
    state->water_ppm = 300;
    cr_expect_eq(tasks_of(&question), SET(LOOK) | SET(PURGE_SEAL) | SET(FREE_WATER));
    question = schedule_case(SPT_LUBRICATION_CIRCULATING);
    cr_expect_eq(tasks_of(&question), SET(SAMPLE));
    state->sealing = (struct spt_sealing){true, -1,          SPT_BREATHER_FILTER, -1,
                                          -1,   (double)NAN, (double)NAN,         false};
    state->filtered = true;
    state->filter =
        (struct spt_filter){SPT_FILTER_FULL_FLOW, (double)NAN, 4e4, 200, 6, 0, (double)NAN};
    cr_expect_eq(tasks_of(&question), SET(SAMPLE) | SET(BREATHER) | SET(FILTER));
}
