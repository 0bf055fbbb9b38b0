/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Oil, water and dirt move the way they must: what is harsher never comes out milder. */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "spalltime/seal.h"
#include "spalltime/service.h"
#include "support/near.h"
#include "support/schedule_case.h"

/* Hours of an oil that works partly at another temperature. */
static double life_of(double share, double cool_c, double hot_c)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
    static struct spt_phase phases[2];
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    static struct spt_schedule plan;
    phases[0] = phases[1] = schedule_phase;
    phases[0].time_share = 1 - share;
    phases[1].time_share = share;
    phases[0].temperature_c = cool_c;
    phases[1].temperature_c = hot_c;
    question.bearings[0].phases = phases;
    question.bearings[0].phase_count = 2;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    return plan.oil.life_h;
}

Test(oil_property, hotter_oil_never_lasts_longer)
{
    for (int kind = 0; kind < 4; kind++) {
        const struct spt_oil oil = {.base = kind & 1 ? SPT_BASE_OIL_PAO : SPT_BASE_OIL_MINERAL,
                                    .circulating = kind & 2};
        double last_h = (double)INFINITY;
        for (double t = -20; t <= 180; t += 2.385) {
            double hours;
            cr_assert_eq(spt_oil_life(&oil, t, &hours), SPT_OK);
            cr_expect(hours > 0 && hours <= last_h, "kind %d, %g degC: %g h", kind, t, hours);
            last_h = hours;
        }
    }
}

Test(oil_property, a_larger_hot_share_or_a_hotter_one_never_lasts_longer)
{
    for (double hot_c = 62; hot_c < 118; hot_c += 11.7) {
        double last_h = (double)INFINITY;
        for (double share = 0.05; share < 1; share += 0.1) {
            const double hours = life_of(share, 60, hot_c);
            cr_expect(hours < last_h, "%g of the time at %g degC: %g h", share, hot_c, hours);
            cr_expect(life_of(share, 60, hot_c + 2.4) <= hours);
            last_h = hours;
        }
    }
}

Test(oil_property, a_colder_standstill_never_has_less_free_water)
{
    for (double ppm = 20; ppm < 3e4; ppm *= 1.7) {
        double last_ppm = (double)INFINITY;
        for (double t = -30; t < 90; t += 2.385) {
            double free_ppm;
            cr_assert_eq(spt_water_free(SPT_SOLUBILITY_ADDITIVATED, ppm, t, &free_ppm), SPT_OK);
            cr_expect(free_ppm >= 0 && free_ppm <= ppm && free_ppm <= last_ppm,
                      "%g ppm at %g degC: %g", ppm, t, free_ppm);
            last_ppm = free_ppm;
        }
    }
}

/* Twice the row of the code, 1 more for the rows of an oil bath; oil dirtier than the last class is
 * beyond all of them. */
static int dirt_of(const struct spt_filter *filter)
{
    struct spt_filter_class kept;
    const enum spt_status status = spt_filter_class(filter, &kept);
    cr_assert(status == SPT_OK || status == SPT_NOT_APPLICABLE);
    if (status)
        return SPT_CLEANLINESS_COUNT;
    return kept.condition < SPT_CLEANLINESS_BATH_13_10
               ? 2 * (int)kept.condition
               : 2 * ((int)kept.condition - (int)SPT_CLEANLINESS_BATH_13_10) + 1;
}

Test(oil_property, more_ingress_or_less_flow_or_beta_never_earns_a_cleaner_class)
{
    static const enum spt_filter_place places[] = {SPT_FILTER_FULL_FLOW, SPT_FILTER_OFF_LINE};
    unsigned long long seed = 2385;
    for (int i = 0; i < 4000; i++) {
        const struct spt_filter in = {.place = places[i % 2],
                                      .ingress_per_min = exp(random_between(&seed, 8, 24)),
                                      .flow_ml_min = exp(random_between(&seed, 6, 12)),
                                      .beta = exp(random_between(&seed, 0.5, 7)),
                                      .beta_size_um = random_between(&seed, 3, 50),
                                      .bypass_share = i % 3 ? random_between(&seed, 0, 0.5) : 0,
                                      .volume_ml = 1e5};
        struct spt_filter dirty = in, slow = in, coarse = in;
        dirty.ingress_per_min *= 3;
        slow.flow_ml_min /= 3;
        coarse.beta = 1 + (in.beta - 1) / 3;
        const int as_is = dirt_of(&in);
        cr_expect_geq(dirt_of(&dirty), as_is, "case %d", i);
        cr_expect_geq(dirt_of(&slow), as_is, "case %d", i);
        cr_expect_geq(dirt_of(&coarse), as_is, "case %d", i);
    }
}

/* p rises with the interval kept, the hours and the units, and falls with the grease life; it is a
 * share. Machines that fail on their own add up: the expected failures are the sum of -ln(1 - p).
 */
Test(grease_risk_property, risk_is_a_share_that_rises_with_period_and_hours)
{
    unsigned long long seed = 2385;
    for (int i = 0; i < 2000; i++) {
        const struct spt_grease_plan plan = {exp(random_between(&seed, 3, 10)),
                                             exp(random_between(&seed, 2, 9))};
        const struct spt_grease_plan later = {plan.interval_h, 1.3 * plan.period_h},
                                     weaker = {plan.interval_h / 1.3, plan.period_h};
        const double hours = exp(random_between(&seed, 3, 9));
        double share, other, twice;
        cr_assert_eq(spt_regreasing_risk(&plan, hours, &share), SPT_OK);
        cr_expect(share >= 0 && share <= 1);
        cr_assert_eq(spt_regreasing_risk(&later, hours, &other), SPT_OK);
        cr_expect(other >= share);
        cr_assert_eq(spt_regreasing_risk(&weaker, hours, &other), SPT_OK);
        cr_expect(other >= share);
        cr_assert_eq(spt_regreasing_risk(&plan, 2 * hours, &twice), SPT_OK);
        cr_expect(twice >= share);
        if (twice < 0.999)
            cr_expect(near(log1p(-twice), 2 * log1p(-share), 1e-9, 1e-12));
    }
}
