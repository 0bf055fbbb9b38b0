/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/cost.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"
#include "support/schedule_case.h"

static const double prices[] = {1.01, 2, 7, 40, 300, 5000}; /* of a failure over a change */

/* The greasing interval depends on no price, target or reliability, to the last digit. */
Test(cost_property, no_price_moves_the_greasing)
{
    static struct spt_schedule plain, paid;
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plain), SPT_OK);
    for (size_t i = 0; i < sizeof prices / sizeof *prices; i++) {
        inputs.costs = (struct spt_replacement_costs){1, prices[i]};
        question.target_life_h = 1e3 * prices[i];
        question.reliability_percent = 90 + (double)i;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &paid), SPT_OK);
        cr_expect_eq(paid.greasing.interval_h, plain.greasing.interval_h);
        cr_expect_eq(paid.greasing.every_h, plain.greasing.every_h);
        cr_expect_eq(paid.greasing.kept_h, plain.greasing.kept_h);
    }
}

/* The age of replacement never moves for the grease alone, but that more of its failures make the
 * cheapest age later; the dearer a failure, the sooner. */
Test(cost_property, grease_that_fails_more_never_makes_a_replacement_sooner)
{
    static struct spt_schedule plan;
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    for (size_t i = 0; i < sizeof prices / sizeof *prices; i++) {
        double before_h = 0, plain_h = 0;
        inputs.costs = (struct spt_replacement_costs){1, prices[i]};
        for (int dust = 0; dust < SPT_DUST_COUNT; dust++) {
            schedule_phase.condition.surroundings.dust = (enum spt_dust)dust;
            cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
            plain_h = dust ? plain_h : plan.reliable_h;
            cr_expect(near(plan.reliable_h, plain_h, 1e-9, 0), "dust %d: %g h", dust,
                      plan.reliable_h);
            /* kept hours are rounded, so that the rate of failures may fall a little with dust */
            cr_expect_geq(plan.replace_h, before_h * 0.99, "1 to %g, dust %d: %g h", prices[i],
                          dust, plan.replace_h);
            before_h = plan.replace_h;
        }
    }
}

/* A year costs no less with more units, dearer parts or grease that lasts half as long. */
Test(cost_property, a_year_costs_more_with_each_price)
{
    static struct spt_schedule plan;
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_costs costs = {.planned = 100,
                              .failure = 700,
                              .visit = 20,
                              .downtime = 5,
                              .job_h = 0.2,
                              .wage_per_h = 40,
                              .grease = 1,
                              .investment = 50,
                              .years = 4,
                              .interest = 0.03};
    double *const members[] = {&costs.planned,  &costs.failure,    &costs.visit,
                               &costs.downtime, &costs.job_h,      &costs.wage_per_h,
                               &costs.grease,   &costs.investment, &costs.interest};
    struct spt_money before, after;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_assert_eq(spt_cost_plan(&plan, &costs, &before), SPT_OK);
    cr_expect(before.low.cost <= before.middle.cost && before.middle.cost <= before.high.cost);
    cr_expect(near(before.middle.cost,
                   before.middle.attendance + before.middle.greasing + before.middle.replacement +
                       before.middle.capital,
                   1e-12, 0));
    for (size_t i = 0; i < sizeof members / sizeof *members; i++) {
        const double kept = *members[i];
        *members[i] *= 1.7;
        cr_assert_eq(spt_cost_plan(&plan, &costs, &after), SPT_OK);
        cr_expect_gt(after.middle.cost, before.middle.cost, "price %zu", i);
        *members[i] = kept;
    }
    question.units = 3; /* visits are for all units at once */
    cr_assert_eq(spt_cost_plan(&plan, &costs, &after), SPT_OK);
    cr_expect(near(after.middle.failures, 3 * before.middle.failures, 1e-12, 0));
    cr_expect(near(after.middle.cost - after.middle.attendance,
                   3 * (before.middle.cost - before.middle.attendance), 1e-12, 0));
    cr_expect_eq(after.middle.attendance, before.middle.attendance);
}

/* The greases of all units of a machine have to last: 1 - p = (1 - p of one)^u. */
Test(cost_property, each_unit_has_its_grease)
{
    static struct spt_schedule one, four;
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &one), SPT_OK);
    question.units = 4;
    question.fleet = 12;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &four), SPT_OK);
    cr_expect(near(1 - four.grease_risk.share, pow(1 - one.grease_risk.share, 4), 1e-12, 0));
    cr_expect_eq(four.replace_h, one.replace_h);
    cr_expect(near(four.at_target.year.failures, 48 * one.at_target.year.failures, 1e-12, 0));
}
