/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/reach.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/hub_case.h"
#include "support/near.h"

static struct spt_reach reach_of(const struct spt_case *question, double share_of_life)
{
    struct spt_phase phases[1];
    struct spt_phase_result results[1];
    const struct spt_reach_workspace workspace = {phases, results, NULL};
    struct spt_assessment assessment;
    struct spt_reach reach;
    cr_assert_eq(spt_assess(question, results, &assessment), SPT_OK);
    cr_assert_eq(
        spt_reach(question, share_of_life * assessment.modified_rating_life_h, &workspace, &reach),
        SPT_OK);
    for (int i = 0; i < SPT_LEVER_COUNT; i++) {
        const struct spt_lever_result *lever = &reach.levers[i];
        double life_h = 0;
        if (lever->outcome != SPT_LEVER_REACHES || i == SPT_LEVER_GRADE)
            continue;
        cr_assert_eq(spt_reach_life(question, (enum spt_lever)i, lever->value,
                                    reach.reached_already, &workspace, &life_h),
                     SPT_OK);
        cr_expect(near(life_h, lever->life_h, 1e-12, 0), "%s", spt_lever_name((enum spt_lever)i));
        cr_expect(life_h >= reach.target_h * (1 - 2e-9), "%s: %g of %g",
                  spt_lever_name((enum spt_lever)i), life_h, reach.target_h);
    }
    return reach;
}

/* Twice the life by the load alone: L goes at least with P^-10/3, more with a_ISO. */
Test(reach_property, a_remedy_reaches_its_target_and_not_more)
{
    const struct spt_case question = hub_case();
    struct spt_reach reach = reach_of(&question, 2.0);
    cr_expect(!reach.reached_already);
    double load = reach.levers[SPT_LEVER_LOAD].value;
    cr_expect(load < 1 && load > pow(2, -0.3), "%g", load);
    cr_expect(near(reach.levers[SPT_LEVER_LOAD].life_h, reach.target_h, 1e-8, 0));
    cr_expect(near(reach.levers[SPT_LEVER_RATING].value, 1 / load, 1e-6, 0), "%g",
              reach.levers[SPT_LEVER_RATING].value);
    cr_expect(reach.levers[SPT_LEVER_TEMPERATURE].value < 0);
}

/* What may slip when half the life is enough. */
Test(reach_property, what_slips_still_keeps_the_target)
{
    const struct spt_case question = hub_case();
    struct spt_reach reach = reach_of(&question, 0.5);
    cr_expect(reach.reached_already);
    cr_expect(reach.levers[SPT_LEVER_LOAD].value > 1);
    cr_expect(reach.levers[SPT_LEVER_RATING].value < 1);
    cr_expect(reach.levers[SPT_LEVER_TEMPERATURE].value > 0);
    cr_expect(reach.levers[SPT_LEVER_WATER].value > 140);
    cr_expect(reach.levers[SPT_LEVER_REGREASING].value > 0);
    cr_expect(reach.levers[SPT_LEVER_CLEANLINESS].value >= SPT_CLEANLINESS_GREASE_NORMAL);
    cr_expect(reach.levers[SPT_LEVER_GRADE].life_h >= reach.target_h);
}

Test(reach_property, a_target_beyond_every_lever_is_said_to_be_so)
{
    const struct spt_case question = hub_case();
    struct spt_reach reach = reach_of(&question, 1e9);
    cr_expect_eq(reach.levers[SPT_LEVER_CLEANLINESS].outcome, SPT_LEVER_CANNOT);
    cr_expect_eq(reach.levers[SPT_LEVER_WATER].outcome, SPT_LEVER_CANNOT);
    cr_expect_eq(reach.levers[SPT_LEVER_GRADE].outcome, SPT_LEVER_CANNOT);
    cr_expect(!reach.pair_found);
}

Test(reach_property, oil_has_no_regreasing_and_a_given_factor_no_class)
{
    const struct spt_case question = oil_case();
    struct spt_reach reach = reach_of(&question, 1.5);
    cr_expect_eq(reach.levers[SPT_LEVER_REGREASING].outcome, SPT_LEVER_NOT_HERE);
    cr_expect_eq(reach.levers[SPT_LEVER_CLEANLINESS].outcome, SPT_LEVER_REACHES);
    struct spt_phase given = question.bearings[0].phases[0];
    struct spt_case stated = question;
    given.condition.contamination_factor = 0.37;
    stated.bearings[0].phases = &given;
    reach = reach_of(&stated, 1.5);
    cr_expect_eq(reach.levers[SPT_LEVER_CLEANLINESS].outcome, SPT_LEVER_NOT_HERE);
}

Test(reach_property, a_pair_is_sought_where_neither_alone_reaches)
{
    const struct spt_case question = hub_case();
    for (double share = 1.5; share < 200; share *= 1.5) {
        struct spt_reach reach = reach_of(&question, share);
        if (!reach.pair_found)
            continue;
        cr_expect(reach.pair_life_h >= reach.target_h);
        cr_expect(reach.pair_cleanliness < SPT_CLEANLINESS_GREASE_NORMAL);
        cr_expect_neq(reach.levers[SPT_LEVER_CLEANLINESS].outcome, SPT_LEVER_REACHES);
        cr_expect_neq(reach.levers[SPT_LEVER_GRADE].outcome, SPT_LEVER_REACHES);
        return;
    }
    cr_assert(false, "no share of the life needed a pair");
}

Test(reach_property, a_target_that_is_no_time_is_refused)
{
    const struct spt_case question = hub_case();
    struct spt_phase phases[1];
    struct spt_phase_result results[1];
    const struct spt_reach_workspace workspace = {phases, results, NULL};
    struct spt_reach reach;
    cr_expect_eq(spt_reach(&question, 0, &workspace, &reach), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_reach(&question, (double)INFINITY, &workspace, &reach), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_reach(&question, (double)NAN, &workspace, &reach), SPT_BAD_ARGUMENT);
    cr_expect_str_eq(spt_lever_name(SPT_LEVER_COUNT), "unknown");
}
