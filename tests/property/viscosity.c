/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

Test(viscosity_property, falls_as_the_oil_warms_and_meets_its_two_points)
{
    unsigned long long seed = 7;
    for (int i = 0; i < 500; i++) {
        double nu40 = random_between(&seed, 10.0, 1000.0);
        double nu100 = random_between(&seed, 2.0, 0.5 * nu40);
        double t = random_between(&seed, 0.0, 150.0);
        struct spt_walther line;
        double at_40, at_100, cool, warm;
        cr_assert_eq(spt_viscosity_line(40.0, nu40, 100.0, nu100, &line), SPT_OK);
        cr_assert_eq(spt_viscosity_at(&line, 40.0, &at_40), SPT_OK);
        cr_assert_eq(spt_viscosity_at(&line, 100.0, &at_100), SPT_OK);
        cr_assert_eq(spt_viscosity_at(&line, t, &cool), SPT_OK);
        cr_assert_eq(spt_viscosity_at(&line, t + 0.5, &warm), SPT_OK);
        cr_expect(near(at_40, nu40, 1e-10, 0.0) && near(at_100, nu100, 1e-10, 0.0), "%g %g", nu40,
                  nu100);
        cr_expect_gt(cool, warm, "%g %g at %g", nu40, nu100, t);
    }
}

Test(viscosity_property, index_comes_back_from_its_inverse)
{
    for (double nu40 = 32.0; nu40 <= 460.0; nu40 *= 1.07)
        for (double index = 0.0; index <= 160.0; index += 2.385) {
            double nu100, back;
            cr_assert_eq(spt_viscosity_100_from_index(nu40, index, &nu100), SPT_OK);
            cr_assert_eq(spt_viscosity_index(nu40, nu100, &back), SPT_OK);
            /* 0.1: the step where two quadratics of D2270 meet */
            cr_expect(near(back, index, 0.0, 0.1), "%g, %g gives %g", nu40, index, back);
        }
}

Test(viscosity_property, index_rises_with_nu100)
{
    for (double nu40 = 32.0; nu40 <= 460.0; nu40 *= 1.3)
        for (double nu100 = 4.0; nu100 < 0.2 * nu40; nu100 *= 1.05) {
            double low, high;
            cr_assert_eq(spt_viscosity_index(nu40, nu100, &low), SPT_OK);
            cr_assert_eq(spt_viscosity_index(nu40, 1.05 * nu100, &high), SPT_OK);
            cr_expect_gt(high, low, "%g %g", nu40, nu100);
        }
}

Test(viscosity_property, quadratics_meet_where_the_rows_join)
{
    static const double joints[] = {3.8, 4.4, 5, 6.4, 7, 7.7, 9, 12, 15, 18, 22, 28, 40, 55, 70};
    for (size_t i = 0; i < sizeof joints / sizeof joints[0]; i++) {
        double l1, h1, l2, h2;
        cr_assert_eq(spt_viscosity_index_basis(joints[i] - 1e-9, &l1, &h1), SPT_OK);
        cr_assert_eq(spt_viscosity_index_basis(joints[i], &l2, &h2), SPT_OK);
        cr_expect(near(l1, l2, 0.0022, 0.0) && near(h1, h2, 0.0022, 0.0),
                  "at %g: L %.6g %.6g, H %.6g %.6g", joints[i], l1, l2, h1, h2);
    }
}
