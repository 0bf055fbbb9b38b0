/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

static double survive_weibull(double t, const void *context)
{
    const struct spt_weibull *w = context;
    return exp(-pow(t / w->scale, w->shape));
}

/* T/scale and the cost against no plan: values of ours from the first-order condition. */
Test(replacement, optima_of_weibull_lives)
{
    static const struct {
        double shape, ratio, age, cost;
    } rows[] = {
        {1.5, 2, 2.17464, .99844}, {1.5, 5, 0.67549, .89034}, {1.5, 20, 0.22612, .61172},
        {2, 2, 1.09080, .96669},   {2, 10, 0.33645, .53671},  {2.5, 5, 0.49305, .61435},
        {2.5, 20, .26238, .28322}, {3, 2, 0.81034, .87957},   {3, 10, 0.38246, .35267},
        {4, 2, 0.76611, .81514},   {4, 20, 0.36410, .16625},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_weibull w = {rows[i].shape, 2385.0};
        const struct spt_replacement_costs costs = {70, 70 * rows[i].ratio};
        struct spt_replacement exact, general;
        cr_assert_eq(spt_replacement_weibull(&w, &costs, &exact), SPT_OK);
        cr_assert_eq(spt_replacement_optimum(survive_weibull, &w, &costs, &general), SPT_OK);
        cr_expect(near(exact.age / 2385.0, rows[i].age, 0, 5.1e-6), "%g %g: %.7f", rows[i].shape,
                  rows[i].ratio, exact.age / 2385.0);
        cr_expect(near(exact.cost_rate / exact.cost_rate_none, rows[i].cost, 0, 5.1e-6));
        cr_expect(near(general.age, exact.age, 2e-5, 0), "%.9g %.9g", general.age, exact.age);
        cr_expect(near(general.cost_rate, exact.cost_rate, 1e-10, 0));
        cr_expect(near(general.mean_life, 2385.0 * tgamma(1 + 1 / rows[i].shape), 1e-9, 0));
    }
}

Test(replacement, no_finite_optimum_without_wear_out)
{
    static const double shapes[] = {1.0, 0.7, 0.5};
    const struct spt_replacement_costs costs = {1, 5};
    for (size_t i = 0; i < 3; i++) {
        const struct spt_weibull w = {shapes[i], 1000};
        struct spt_replacement plan;
        cr_expect_eq(spt_replacement_weibull(&w, &costs, &plan), SPT_NOT_APPLICABLE);
        cr_expect(isinf(plan.age));
        cr_expect(near(plan.mean_life, 1000 * tgamma(1 + 1 / shapes[i]), 1e-8, 0), "%.9g",
                  plan.mean_life);
        cr_expect_eq(spt_replacement_optimum(survive_weibull, &w, &costs, &plan),
                     SPT_NOT_APPLICABLE);
    }
}

Test(replacement, no_plan_where_failure_costs_no_more_than_a_planned_change)
{
    const struct spt_weibull w = {2.5, 1000};
    const struct spt_replacement_costs costs = {5, 5};
    struct spt_replacement plan;
    cr_expect_eq(spt_replacement_weibull(&w, &costs, &plan), SPT_NOT_APPLICABLE);
}

Test(replacement, no_age_near_the_optimum_is_cheaper)
{
    const struct spt_weibull w = {1.8, 7300};
    const struct spt_replacement_costs costs = {120, 1900};
    struct spt_replacement best, other;
    static const double factors[] = {0.2, 0.5, 0.9, 0.99, 1.01, 1.1, 2.0, 5.0};

    cr_assert_eq(spt_replacement_weibull(&w, &costs, &best), SPT_OK);
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++) {
        cr_assert_eq(spt_replacement_at(survive_weibull, &w, &costs, best.age * factors[i], &other),
                     SPT_OK);
        cr_expect_gt(other.cost_rate, best.cost_rate, "factor %g", factors[i]);
    }
}

static double survive_nothing_sensible(double t, const void *context)
{
    (void)context;
    return 1.5 - t;
}

Test(replacement, bad_arguments_are_refused_with_nan)
{
    const struct spt_weibull w = {2.5, 1000};
    const struct spt_replacement_costs good = {1, 5}, bad = {0, 5};
    struct spt_replacement plan;

    cr_expect_eq(spt_replacement_weibull(&w, &bad, &plan), SPT_BAD_ARGUMENT);
    cr_expect(isnan(plan.age));
    cr_expect_eq(spt_replacement_optimum(NULL, NULL, &good, &plan), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_replacement_optimum(survive_nothing_sensible, NULL, &good, &plan),
                 SPT_BAD_ARGUMENT);
    cr_expect(isnan(plan.age));
    cr_expect_eq(spt_replacement_at(survive_weibull, &w, &good, -1, &plan), SPT_BAD_ARGUMENT);
}

Test(replacement, a_fleet_counts_its_failures_with_and_without_a_plan)
{
    const struct spt_weibull w = {2.5, 1000};
    const struct spt_replacement_costs costs = {1, 5};
    const struct spt_replacement_fleet fleet = {40, 2385};
    struct spt_replacement plan;
    struct spt_replacement_year year;

    cr_assert_eq(spt_replacement_weibull(&w, &costs, &plan), SPT_OK);
    cr_assert_eq(spt_replacement_yearly(&plan, &costs, &fleet, &year), SPT_OK);
    /* every cycle ends once, in a failure or a planned change */
    cr_expect(near((year.failures + year.planned) * plan.mean_cycle, 40.0 * 2385.0, 1e-12, 0));
    cr_expect(near(year.failures_none, 40.0 * 2385.0 / (1000 * tgamma(1.4)), 1e-9, 0));
    cr_expect(near(year.cost, 40.0 * 2385.0 * plan.cost_rate, 1e-12, 0));
    cr_expect_lt(year.failures, year.failures_none);
    cr_expect_lt(year.cost, year.cost_none);
    cr_expect_eq(
        spt_replacement_yearly(&plan, &costs, &(struct spt_replacement_fleet){0, 1}, &year),
        SPT_BAD_ARGUMENT);
    cr_expect(isnan(year.failures));
}

/* With a constant failure rate a plan changes nothing but the number of planned changes. */
Test(replacement, an_exponential_life_fails_as_often_with_any_plan)
{
    const struct spt_weibull w = {1.0, 1000};
    const struct spt_replacement_costs costs = {1, 5};
    const struct spt_replacement_fleet fleet = {1, 1};
    struct spt_replacement plan;
    struct spt_replacement_year year;

    cr_assert_eq(spt_replacement_at(survive_weibull, &w, &costs, 345.6, &plan), SPT_OK);
    cr_assert_eq(spt_replacement_yearly(&plan, &costs, &fleet, &year), SPT_OK);
    cr_expect(near(year.failures, year.failures_none, 1e-9, 0));
}

/* Nobody reaches such an age, so it is the same as none: the mean life is scale Gamma(1 + 1/shape).
 */
Test(replacement, an_age_that_nobody_reaches_has_the_mean_life_as_its_cycle)
{
    static const double ages[] = {1e5, 1e7, 1e9, 1e20}, shapes[] = {0.8, 1, 2.5};
    for (int i = 0; i < 4; i++)
        for (int j = 0; j < 3; j++) {
            const struct spt_weibull w = {shapes[j], 238.5};
            const struct spt_replacement_costs costs = {1, 10};
            double mean_life = 238.5 * tgamma(1 + 1 / shapes[j]);
            struct spt_replacement plan;
            cr_assert_eq(spt_replacement_at(survive_weibull, &w, &costs, ages[i], &plan), SPT_OK);
            cr_expect(near(plan.mean_cycle, mean_life, 1e-9, 0), "%g, %g: %.12g", shapes[j],
                      ages[i], plan.mean_cycle);
            cr_expect(near(plan.cost_rate, 10 / mean_life, 1e-9, 0));
        }
}
