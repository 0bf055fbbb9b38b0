/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

/* The same quantity by two roads of this library. */
Test(survival_property, quantile_of_the_law_is_l10_times_the_reliability_factor)
{
    for (double percent = 90.0; percent < 99.95; percent += 0.385) {
        const struct spt_life_law law = spt_survival_iso_law(2385.0);
        double a1, life;
        cr_assert_eq(spt_life_reliability_factor(percent, &a1), SPT_OK);
        cr_assert_eq(spt_survival_quantile(&law, percent / 100.0, &life), SPT_OK);
        cr_expect(near(life, 2385.0 * a1, 1e-10, 0), "%g %%", percent);
    }
}

Test(survival_property, system_life_is_that_of_two_parameter_laws_in_series)
{
    const double lives[] = {2385, 4100, 3333};
    const double slopes[] = {10.0 / 9.0, 9.0 / 8.0, 1.5};
    for (int k = 0; k < 3; k++) {
        struct spt_life_law laws[3];
        for (int i = 0; i < 3; i++)
            laws[i] = (struct spt_life_law){lives[i], slopes[k], 0.0};
        const struct spt_survival_system system = {3, laws, 0, NULL};
        double life;
        cr_assert_eq(spt_survival_life(&system, 0.9, &life), SPT_OK);
        cr_expect(near(life, spt_life_system(lives, 3, slopes[k]), 1e-11, 0));
    }
}

Test(survival_property, grease_never_renewed_survives_as_its_state_says)
{
    const struct spt_grease_plan plan = {2385, (double)INFINITY};
    for (double tau = 0.0; tau < 8.0; tau += 0.385) {
        struct spt_grease_state state;
        double survival;
        cr_assert_eq(spt_grease_state(tau, &state), SPT_OK);
        cr_assert_eq(spt_regreasing_survival(&plan, 2385 * tau, &survival), SPT_OK);
        cr_expect(near(survival, state.survival, 1e-12, 0), "tau %g", tau);
    }
}

/* More time means less survival; more regreasing means more. */
Test(survival_property, survival_falls_with_time_and_rises_with_regreasing)
{
    const struct spt_life_law law = {20000, 1.5, 0.05};
    const double periods[] = {500, 1500, 3000, 9000, (double)INFINITY};
    double above[60];
    for (int k = 0; k < 5; k++) {
        const struct spt_grease_plan plan = {3000, periods[k]};
        const struct spt_survival_system system = {1, &law, 1, &plan};
        double before = 1.0;
        for (int i = 0; i < 60; i++) {
            double survival;
            cr_assert_eq(spt_survival_of_system(&system, 385.0 * i, &survival), SPT_OK);
            cr_expect_leq(survival, before);
            if (k > 0)
                cr_expect_leq(survival, above[i] + 1e-15, "period %g at %d", periods[k], i);
            before = above[i] = survival;
        }
    }
}

/* Rows in series reach their life with the very reliability that the life of each is given for. */
Test(survival_property, lives_in_series_meet_the_reliability)
{
    for (int i = 0; i < 400; i++) {
        double percent = 90 + 9.95 * spt_random_uniform(9, (uint64_t)i, 0), a1;
        double lives[4], least = (double)INFINITY;
        struct spt_life_law laws[4];
        int n = 2 + i % 3;
        cr_assert_eq(spt_life_reliability_factor(percent, &a1), SPT_OK);
        for (int j = 0; j < n; j++) {
            lives[j] = pow(10, 2 + 4 * spt_random_uniform(9, (uint64_t)i, 1 + (uint32_t)j));
            laws[j] = spt_survival_iso_law(lives[j] / a1);
            least = fmin(least, lives[j]);
        }
        double life = spt_survival_series(lives, n, percent), survival, again;
        const struct spt_survival_system system = {n, laws, 0, NULL};
        cr_expect(life <= least && life > 0);
        cr_assert_eq(spt_survival_of_system(&system, life, &survival), SPT_OK);
        cr_expect(near(1 - survival, 1 - percent / 100, 1e-11, 0), "%d: %.15g", i, survival);
        cr_assert_eq(spt_survival_life(&system, percent / 100, &again), SPT_OK);
        cr_expect(near(life, again, 1e-11, 0), "%d", i);
    }
}

Test(survival_property, series_of_ends_and_bad_input)
{
    const double endless = (double)INFINITY, none = (double)NAN;
    cr_expect_eq(spt_survival_series((const double[]){1234.5, endless}, 2, 97), 1234.5);
    cr_expect(isinf(spt_survival_series((const double[]){endless, endless}, 2, 97)));
    cr_expect_eq(spt_survival_series((const double[]){0, 1234.5}, 2, 97), 0);
    cr_expect_eq(spt_survival_series((const double[]){1234.5}, 1, 97), 1234.5);
    cr_expect(isnan(spt_survival_series((const double[]){1234.5, none}, 2, 97)));
    cr_expect(isnan(spt_survival_series((const double[]){1234.5, -1}, 2, 97)));
    cr_expect(isnan(spt_survival_series((const double[]){1234.5, 100}, 0, 97)));
    cr_expect(isnan(spt_survival_series((const double[]){1234.5, 100}, 2, 80)));
    cr_expect(isnan(spt_survival_series((const double[]){1234.5, 100}, 2, none)));
    /* twenty times as long: never before the least life of the law, so it costs nothing at all */
    cr_expect(near(spt_survival_series((const double[]){100, 2001}, 2, 90), 100, 1e-15, 0));
    cr_expect_lt(spt_survival_series((const double[]){100, 1999}, 2, 90), 100);
}
