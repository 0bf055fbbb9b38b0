/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/life.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

/* (31/3)/(10/9) and (31/3)/(9/8): the exponents of a_ISO from those of the fatigue theory. */
#define BALL_POWER 9.3
#define ROLLER_POWER 9.185

/* (limit - A(kappa))^outer x^inner, taken back out of a_ISO */
static double find_term(bool ball, double kappa, double x)
{
    double power = ball ? BALL_POWER : ROLLER_POWER;
    return 1.0 - pow(spt_life_factor_value(ball, kappa, x) / 0.1, -1.0 / power);
}

Test(life_property, a1_falls_with_reliability_towards_its_floor)
{
    double last = 1.0 + 1e-9, a1;
    for (double s = 90.0; s <= 99.95; s += 0.05) {
        cr_assert_eq(spt_life_reliability_factor(s, &a1), SPT_OK);
        cr_expect_lt(a1, last, "%g %%", s);
        cr_expect_gt(a1, SPT_WEIBULL_FLOOR);
        last = a1;
    }
    cr_assert_eq(spt_life_reliability_factor(90.0 + 1e-9, &a1), SPT_OK);
    cr_expect(near(a1, 1.0, 1e-9, 0));
}

Test(life_property, a_iso_is_a_tenth_at_kappa_0_1_for_any_load)
{
    for (double x = 0.01; x < 2.0; x *= 1.7) {
        cr_expect(near(spt_life_factor_value(true, 0.1, x), 0.1, 0.02, 0), "ball, x %g", x);
        cr_expect(near(spt_life_factor_value(false, 0.1, x), 0.1, 1e-12, 0), "roller, x %g", x);
    }
}

/* The limits 2.5671 and 1.5859 are A and B at kappa 0.1, to their last digit. */
Test(life_property, a_iso_leaves_a_tenth_just_above_kappa_0_1)
{
    double low = find_term(true, 0.1, 0.3), high = find_term(true, 0.11, 0.3);
    cr_expect(low >= 0.0 && low < 0.02 * high, "%g %g", low, high);
    /* A 1 % thinner coefficient would move the leaving point: B is 1.5859 within 1e-4 at 0.1 */
    cr_expect_gt(spt_life_factor_value(false, 0.1002, 0.3), 0.1);
}

Test(life_property, a_iso_is_continuous_at_kappa_0_4_and_1)
{
    for (double x = 0.03; x < 0.3; x += 0.04)
        for (int ball = 0; ball < 2; ball++) {
            double below = find_term(ball, 0.4 - 1e-12, x), above = find_term(ball, 0.4, x);
            cr_expect(near(below, above, 4e-4, 0), "ball %d x %g: %g %g", ball, x, below, above);
            below = find_term(ball, 1.0 - 1e-12, x);
            above = find_term(ball, 1.0, x);
            cr_expect(near(below, above, 1e-10, 0), "ball %d x %g: %g %g", ball, x, below, above);
        }
}

/* 2.5671/1.5859 = 2.2649/1.3993 = 1.9987/1.2348: at every kappa the balls' inner difference is one
 * number times the rollers'. */
Test(life_property, balls_and_rollers_share_their_constants)
{
    for (double kappa = 0.25; kappa <= 4.0; kappa *= 1.21) {
        double ball = pow(find_term(true, kappa, 1e-3) * 10.0, 1 / 0.83);
        double roller = find_term(false, kappa, 1e-3) / pow(1e-3, 0.4);
        cr_expect(near(ball / roller, 1.6187, 2e-3, 0), "kappa %g: %.6f", kappa, ball / roller);
    }
}

Test(life_property, a_iso_never_falls_with_kappa_or_x)
{
    unsigned long long state = 20070215;
    for (int i = 0; i < 4000; i++) {
        bool ball = i % 2 == 0;
        double kappa = random_between(&state, 0.1, 4.0), x = random_between(&state, 0.0, 3.0);
        double more_kappa = fmin(kappa * random_between(&state, 1.0, 2.0), 4.0);
        double more_x = x * random_between(&state, 1.0, 2.0);
        double a = spt_life_factor_value(ball, kappa, x);
        /* 4e-4: the step that the rounded constants leave at kappa 0.4, see above */
        cr_expect_leq(a, spt_life_factor_value(ball, more_kappa, x) * 1.01, "%g %g", kappa, x);
        cr_expect_leq(a, spt_life_factor_value(ball, kappa, more_x), "%g %g", kappa, x);
        cr_expect(a >= 0.1 && a <= SPT_LIFE_FACTOR_MAX);
    }
}

Test(life_property, a_iso_grows_with_kappa_within_each_range)
{
    const double ends[] = {0.101, 0.3999, 0.4, 0.9999, 1.0, 4.0};
    for (int range = 0; range < 3; range++)
        for (int ball = 0; ball < 2; ball++)
            for (double k = ends[2 * range]; k * 1.01 <= ends[2 * range + 1]; k *= 1.01)
                cr_expect_gt(spt_life_factor_value(ball, k * 1.01, 0.02),
                             spt_life_factor_value(ball, k, 0.02), "kappa %g", k);
}

Test(life_property, the_factor_and_its_kernel_agree)
{
    unsigned long long state = 77;
    for (int i = 0; i < 2000; i++) {
        struct spt_life_factor_inputs in = {(enum spt_bearing_type)(i % SPT_BEARING_TYPE_COUNT),
                                            random_between(&state, 0, 1),
                                            random_between(&state, 10, 1e4),
                                            random_between(&state, 10, 1e5),
                                            random_between(&state, 0.1, 6),
                                            false};
        struct spt_life_factor out;
        cr_assert_eq(spt_life_factor(&in, &out), SPT_OK);
        cr_expect_eq(out.a_iso, spt_life_factor_value(spt_bearing_is_ball(in.type),
                                                      out.viscosity_ratio, out.x));
    }
}

Test(life_property, half_the_load_gives_8_or_10_08_times_the_life)
{
    double one, half;
    cr_assert_eq(spt_life_basic(SPT_THRUST_BALL, 41234.0, 2385.0, &one), SPT_OK);
    cr_assert_eq(spt_life_basic(SPT_THRUST_BALL, 41234.0, 1192.5, &half), SPT_OK);
    cr_expect(near(half / one, 8.0, 1e-13, 0));
    cr_assert_eq(spt_life_basic(SPT_NEEDLE_ROLLER, 41234.0, 2385.0, &one), SPT_OK);
    cr_assert_eq(spt_life_basic(SPT_NEEDLE_ROLLER, 41234.0, 1192.5, &half), SPT_OK);
    cr_expect(near(half / one, pow(2.0, 10.0 / 3.0), 1e-13, 0));
}

Test(life_property, a_system_survives_its_life_at_90_percent)
{
    unsigned long long state = 4321;
    const double slopes[] = {10.0 / 9.0, 9.0 / 8.0, 1.5};
    for (int i = 0; i < 300; i++) {
        double lives[5], slope = slopes[i % 3], least = (double)INFINITY, survival = 1.0;
        int n = 2 + i % 4;
        for (int j = 0; j < n; j++) {
            lives[j] = random_between(&state, 100, 1e5);
            least = fmin(least, lives[j]);
        }
        double system = spt_life_system(lives, n, slope);
        cr_expect_lt(system, least);
        for (int j = 0; j < n; j++)
            survival *= pow(0.9, pow(system / lives[j], slope));
        cr_expect(near(survival, 0.9, 1e-12, 0), "%.15g", survival);
    }
}

Test(life_property, equal_lives_shrink_by_n_to_the_minus_1_over_e)
{
    const double lives[] = {2385.0, 2385.0, 2385.0, 2385.0};
    for (int n = 1; n <= 4; n++)
        cr_expect(near(spt_life_system(lives, n, 1.5), 2385.0 * pow(n, -1 / 1.5), 1e-13, 0));
}
