/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

static const struct spt_life_law two_parameter = {20000, 1.5, 0.0};

Test(survival, nothing_fails_before_the_least_life)
{
    const struct spt_life_law law = spt_survival_iso_law(20000);
    double survival, log_density;

    cr_assert_eq(spt_survival_fatigue(&law, 999, &survival), SPT_OK);
    cr_expect_eq(survival, 1.0);
    cr_assert_eq(spt_survival_log_density(&law, 999, &log_density), SPT_OK);
    cr_expect_eq(log_density, -(double)INFINITY);
    cr_assert_eq(spt_survival_fatigue(&law, 1100, &survival), SPT_OK);
    cr_expect_lt(survival, 1.0);
}

Test(survival, the_density_is_the_slope_of_the_survival)
{
    static const double times[] = {1500, 9876.5, 20000, 65432.1};
    const struct spt_life_law law = spt_survival_iso_law(20000);
    for (size_t i = 0; i < 4; i++) {
        double before, after, log_density;
        double step = 1e-4 * times[i];
        cr_assert_eq(spt_survival_fatigue(&law, times[i] - step, &before), SPT_OK);
        cr_assert_eq(spt_survival_fatigue(&law, times[i] + step, &after), SPT_OK);
        cr_assert_eq(spt_survival_log_density(&law, times[i], &log_density), SPT_OK);
        cr_expect(near(exp(log_density), (before - after) / (2 * step), 1e-5, 0), "%g", times[i]);
    }
}

Test(survival, the_logarithm_does_not_underflow)
{
    double log_survival;
    cr_assert_eq(spt_survival_log_fatigue(&two_parameter, 2e9, &log_survival), SPT_OK);
    cr_expect(near(log_survival, log(0.9) * pow(1e5, 1.5), 1e-12, 0));
}

Test(survival, a_system_lasts_shorter_than_its_parts_and_its_quantiles_come_back)
{
    const struct spt_life_law laws[] = {{20000, 1.5, 0.05}, {31000, 1.2, 0.0}};
    const struct spt_grease_plan grease[] = {{3000, 2000}, {4000, (double)INFINITY}};
    const struct spt_survival_system system = {2, laws, 2, grease};
    static const double shares[] = {0.5, 0.77, 0.9, 0.95, 0.99, 0.999};
    struct spt_survival_lives lives;

    for (size_t i = 0; i < sizeof shares / sizeof *shares; i++) {
        double life, survival;
        cr_assert_eq(spt_survival_life(&system, shares[i], &life), SPT_OK);
        cr_assert_eq(spt_survival_of_system(&system, life, &survival), SPT_OK);
        cr_expect(near(survival, shares[i], 1e-10, 0), "%g: %.12f", shares[i], survival);
    }
    cr_assert_eq(spt_survival_lives(&system, &lives), SPT_OK);
    cr_expect(lives.l1_h < lives.l5_h && lives.l5_h < lives.l10_h && lives.l10_h < lives.l50_h);
    cr_expect_lt(lives.l10_h, 20000);
}

/* Two-parameter laws of one slope in series have the closed form (sum L^-e)^(-1/e). */
Test(survival, bearings_in_series_meet_the_closed_form)
{
    static const double slopes[] = {10.0 / 9.0, 9.0 / 8.0, 1.5, 1.0};
    for (size_t i = 0; i < 4; i++) {
        double e = slopes[i];
        const struct spt_life_law laws[] = {{10000, e, 0}, {15000, e, 0}, {20000, e, 0}};
        const struct spt_survival_system system = {3, laws, 0, NULL};
        double want = pow(pow(10000, -e) + pow(15000, -e) + pow(20000, -e), -1 / e);
        double life;
        cr_assert_eq(spt_survival_life(&system, 0.9, &life), SPT_OK);
        cr_expect(near(life, want, 1e-11, 0), "%.9g %.9g", life, want);
    }
}

/* Values of ours from the equations with an unrounded slope; no outside authority. */
Test(survival, worn_grease_takes_its_share_of_the_system_life)
{
    static const struct {
        double period_h, survival;
    } rows[] = {{3000, 0.844}, {1500, 0.877}, {1000, 0.887}};
    struct spt_grease_plan grease = {3000, (double)INFINITY};
    const struct spt_survival_system system = {1, &two_parameter, 1, &grease};
    double life, survival;

    cr_assert_eq(spt_survival_life(&system, 0.9, &life), SPT_OK);
    cr_expect(near(life, 7292, 0, 1), "%.3f", life);
    for (size_t i = 0; i < 3; i++) {
        grease.period_h = rows[i].period_h;
        cr_assert_eq(spt_survival_of_system(&system, 20000, &survival), SPT_OK);
        cr_expect(near(survival, rows[i].survival, 0, 6e-4), "every %g h: %.5f", rows[i].period_h,
                  survival);
    }
}

Test(survival, out_of_range_is_refused_with_nan)
{
    const struct spt_life_law bad[] = {{0, 1.5, 0.05},
                                       {1000, -1, 0.05},
                                       {1000, 1.5, 1.0},
                                       {1000, 1.5, -0.1},
                                       {(double)NAN, 1.5, 0.05}};
    const struct spt_grease_plan never = {3000, 0};
    const struct spt_survival_system empty = {0, NULL, 0, NULL};
    const struct spt_survival_system bad_grease = {0, NULL, 1, &never};
    double x;

    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        cr_expect_eq(spt_survival_fatigue(&bad[i], 10, &x), SPT_BAD_ARGUMENT, "%zu", i);
        cr_expect_eq(spt_survival_quantile(&bad[i], 0.9, &x), SPT_BAD_ARGUMENT);
        cr_expect(isnan(x));
    }
    cr_expect_eq(spt_survival_quantile(&two_parameter, 1.0, &x), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_survival_life(&empty, 0.9, &x), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_survival_life(&bad_grease, 0.9, &x), SPT_BAD_ARGUMENT);
    cr_expect(isnan(x));
}
