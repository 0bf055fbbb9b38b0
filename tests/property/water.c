/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

Test(water_property, factor_never_rises_and_stays_within_its_limits)
{
    double last = 1.0;
    for (double ppm = 10.0; ppm < 1e6; ppm *= 1.05) {
        double a_w;
        cr_assert_eq(spt_water_factor(ppm, &a_w), SPT_OK);
        cr_expect(a_w <= last && a_w >= SPT_WATER_FLOOR && a_w <= 1.0, "%g ppm", ppm);
        cr_expect(ppm <= 105.0 || ppm >= 5440.0 || a_w < last, "%g ppm", ppm);
        last = a_w;
    }
}

Test(water_property, warm_and_additivated_oil_dissolves_more)
{
    double last = 0.0;
    for (double t = -40.0; t <= 120.0; t += 2.385) {
        double plain, additivated;
        cr_assert_eq(spt_water_saturation(SPT_SOLUBILITY_PLAIN, t, &plain), SPT_OK);
        cr_assert_eq(spt_water_saturation(SPT_SOLUBILITY_ADDITIVATED, t, &additivated), SPT_OK);
        cr_expect(plain > last && additivated > plain, "%g degC", t);
        last = plain;
    }
}
