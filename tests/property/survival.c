/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/survival.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/grease.h"
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
