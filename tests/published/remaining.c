/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/fit.h"
#include "spalltime/statistics.h"
#include "support/near.h"

/* Conditional reliability R(T + t)/R(T) of a Weibull law, as in the textbooks (such as Abernethy,
 * The New Weibull Handbook, from memory). */
Test(remaining_weibull, life_is_where_the_conditional_reliability_falls_to_the_share)
{
    static const struct {
        double shape, scale, age, survival;
    } rows[] = {{1.5, 1000, 300, 0.9},
                {0.7, 2385, 4000, 0.5},
                {3.2, 870, 1200, 0.99},
                {1.62, 643e3, 508e3, 0.9},
                {2, 1000, 1e-9, 0.9}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const struct spt_weibull law = {rows[i].shape, rows[i].scale};
        double left, before, after;
        cr_assert_eq(spt_weibull_remaining(&law, rows[i].age, rows[i].survival, &left), SPT_OK);
        cr_assert_eq(spt_weibull_survival(&law, rows[i].age, &before), SPT_OK);
        cr_assert_eq(spt_weibull_survival(&law, rows[i].age + left, &after), SPT_OK);
        cr_expect(near(after / before, rows[i].survival, 1e-12, 0), "row %zu", i);
    }
}

/* Shape 1 is the exponential law, which has no memory: t = scale ln(1/R) at any age. */
Test(remaining_weibull, exponential_law_has_no_memory)
{
    const struct spt_weibull law = {1, 2385};
    for (double age = 0; age < 2e4; age = 3 * age + 17) {
        double left;
        cr_assert_eq(spt_weibull_remaining(&law, age, 0.9, &left), SPT_OK);
        cr_expect(near(left, -2385 * log(0.9), 1e-12, 0));
    }
}

Test(remaining_weibull, life_of_a_new_unit_is_the_quantile_and_falls_with_age_above_slope_1)
{
    const struct spt_weibull law = {1.8, 5000};
    double quantile, left, before;
    cr_assert_eq(spt_weibull_quantile(&law, 0.1, &quantile), SPT_OK);
    cr_assert_eq(spt_weibull_remaining(&law, 0, 0.9, &left), SPT_OK);
    cr_expect(near(left, quantile, 1e-14, 0));
    for (double age = 10; age < 5e4; age *= 2) {
        before = left;
        cr_assert_eq(spt_weibull_remaining(&law, age, 0.9, &left), SPT_OK);
        cr_expect_lt(left, before);
    }
    cr_expect_eq(spt_weibull_remaining(&law, -1, 0.9, &left), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_weibull_remaining(&law, 1, 1, &left), SPT_BAD_ARGUMENT);
    cr_expect(isnan(left));
}

Test(remaining_weibull, units_still_running_are_listed_oldest_first_by_the_fitted_law)
{
    static const double times[] = {100, 250, 250, 400, 90, 250};
    static const int counts[] = {1, 2, 3, 1, 4, 1};
    static const bool failed[] = {true, false, false, true, false, true};
    const struct spt_weibull_data data = {6, times, counts, failed, NULL, NULL};
    struct spt_fit fit = {.basis = SPT_FIT_LIKELIHOOD};
    struct spt_fit_running units[6];
    double left;
    fit.slope.estimate = 1.7;
    fit.scale.estimate = 333;
    cr_assert_eq(spt_fit_running(&data, &fit, units), 2);
    cr_expect_eq(units[0].age, 250);
    cr_expect_eq(units[0].count, 5);
    cr_expect_eq(units[1].age, 90);
    cr_assert_eq(spt_weibull_remaining(&(struct spt_weibull){1.7, 333}, 250, 0.5, &left), SPT_OK);
    cr_expect_eq(units[0].left_50, left);
    fit.basis = SPT_FIT_ASSUMED_SLOPE;
    fit.assumed.scale_estimate = (double)NAN;
    cr_expect_eq(spt_fit_running(&data, &fit, units), 0);
}

Test(remaining_weibull, spent_share_refuses_bad_arguments)
{
    const double some[] = {0.2}, none[] = {0}, bad[] = {-1};
    cr_expect(isnan(spt_survival_spent(NULL, some, 1, 0.05, 0.9)));
    cr_expect(isnan(spt_survival_spent(some, some, 0, 0.05, 0.9)));
    cr_expect(isnan(spt_survival_spent(bad, some, 1, 0.05, 0.9)));
    cr_expect(isnan(spt_survival_spent(some, some, 1, 1, 0.9)));
    cr_expect(isnan(spt_survival_spent(some, some, 1, 0.05, 1)));
    cr_expect_eq(spt_survival_spent(some, none, 1, 0.05, 0.9), 0);
}
