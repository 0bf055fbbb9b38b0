/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

/* ISO 281:2007 equations for nu_1, constants from memory; the numbers are our own recomputation. */
Test(film, reference_viscosity_by_speed_and_size)
{
    static const struct {
        double speed, pitch, nu1, tolerance;
    } rows[] = {
        {100, 100, 98.449, 5e-4},   {500, 100, 25.886, 5e-4},     {1000, 100, 14.230, 5e-4},
        {1500, 65, 14.412, 5e-4},   {3000, 50, 11.619, 5e-4},     {500, 60, 33.4189, 6e-5},
        {800, 60, 22.6242, 6e-5},   {999.999, 50, 20.5934, 6e-5}, {1000, 50, 20.1246, 6e-5},
        {1500, 100, 11.6190, 6e-5}, {3000, 35, 13.8873, 6e-5},    {10, 200, 470.649, 6e-4},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double nu1;
        cr_assert_eq(spt_film_reference_viscosity(rows[i].speed, rows[i].pitch, &nu1), SPT_OK);
        cr_expect(near(nu1, rows[i].nu1, 0.0, rows[i].tolerance),
                  "ours: n %g D_pw %g gives %.5f want %g", rows[i].speed, rows[i].pitch, nu1,
                  rows[i].nu1);
    }
}

/* Exponent from memory; recomputed by us. */
Test(film, density_factor)
{
    double factor;
    cr_assert_eq(spt_film_density_factor(0.85, &factor), SPT_OK);
    cr_expect(near(factor, 0.9626, 0.0, 5e-5), "%.5f", factor);
    cr_assert_eq(spt_film_density_factor(0.92, &factor), SPT_OK);
    cr_expect(near(factor, 1.0279, 0.0, 5e-5), "%.5f", factor);
    cr_assert_eq(spt_film_density_factor(0.89, &factor), SPT_OK);
    cr_expect(near(factor, 1.0, 1e-12, 0.0), "%.5f", factor);
}

/* kappa = Lambda^1.3, ISO 281:2007 9.3.3.3 from memory; recomputed by us: Lambda 0.5 gives 0.406.
 */
Test(film, effective_ratio_goes_with_the_power_1_3)
{
    double got;
    cr_assert_eq(spt_film_effective_ratio(1.0, 0.5, &got), SPT_OK);
    cr_expect(near(got, 0.406, 0.0, 5e-4), "%.5f", got);
    cr_assert_eq(spt_film_effective_ratio(2.385, 0.811, &got), SPT_OK);
    cr_expect(near(got, 2.385 * 0.762, 0.0, 2e-3), "%.5f", got);
    cr_assert_eq(spt_film_effective_ratio(2.385, 0.0, &got), SPT_OK);
    cr_expect_eq(got, 0.0);
    cr_assert_eq(spt_film_effective_ratio(2.385, 1.0, &got), SPT_OK);
    cr_expect_eq(got, 2.385);
}

Test(film, ratio_is_a_quotient_and_not_limited)
{
    double kappa;
    cr_assert_eq(spt_film_viscosity_ratio(37.67, 14.412, 0.9626, &kappa), SPT_OK);
    cr_expect(near(kappa, 37.67 / 14.412 * 0.9626, 1e-14, 0.0));
    cr_assert_eq(spt_film_viscosity_ratio(200.0, 10.0, 1.0, &kappa), SPT_OK);
    cr_expect(near(kappa, 20.0, 1e-14, 0.0));
}

Test(film, refuses_what_is_not_positive)
{
    static const double bad[] = {0.0, -2.385, (double)NAN, (double)INFINITY};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        double out[7];
        cr_expect_eq(spt_film_reference_viscosity(bad[i], 65.0, &out[0]), SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_film_reference_viscosity(420.0, bad[i], &out[1]), SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_film_density_factor(bad[i], &out[2]), SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_film_viscosity_ratio(bad[i], 14.0, 1.0, &out[3]), SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_film_viscosity_ratio(14.0, bad[i], 1.0, &out[4]), SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_film_viscosity_ratio(14.0, 14.0, bad[i], &out[5]), SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_film_effective_ratio(bad[i], 0.5, &out[6]), SPT_BAD_ARGUMENT);
        for (int k = 0; k < 7; k++)
            cr_expect(isnan(out[k]), "output %d of row %zu", k, i);
    }
    double got;
    cr_expect_eq(spt_film_effective_ratio(1.5, 1.01, &got), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_film_effective_ratio(1.5, -0.01, &got), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_film_density_factor(0.60, &got), SPT_OK);
    cr_expect_eq(spt_film_density_factor(0.59, &got), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_film_density_factor(1.51, &got), SPT_BAD_ARGUMENT);
}
