/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

/* (100/X)^0.6 recomputed by us; no credit below 100 ppm and the floor 1/11 are ours to apply. */
Test(water, factor_has_no_credit_and_a_floor)
{
    static const double rows[][2] = {{0, 1},           {25, 1},          {100, 1},
                                     {101, 0.99405},   {200, 0.65975},   {400, 0.43528},
                                     {1000, 0.25119},  {5000, 0.09564},  {5440, 0.09092},
                                     {5500, 0.090909}, {20000, 0.090909}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double a_w;
        cr_assert_eq(spt_water_factor(rows[i][0], &a_w), SPT_OK);
        cr_expect(near(a_w, rows[i][1], 0.0, 6e-6), "ours: %g ppm gives %.6f", rows[i][0], a_w);
    }
    cr_expect(near(SPT_WATER_TESTED_PPM, 400.0, 0.0, 0.0));
}

Test(water, refuses_what_lies_outside)
{
    static const double bad[] = {-0.1, 1000001.0, (double)NAN, (double)INFINITY};
    double got;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        got = 1.0;
        cr_expect_eq(spt_water_factor(bad[i], &got), SPT_BAD_ARGUMENT);
        cr_expect(isnan(got));
    }
    cr_expect_eq(spt_water_saturation(SPT_SOLUBILITY_PLAIN, -40.1, &got), SPT_BAD_ARGUMENT);
    cr_expect(isnan(got));
    cr_expect_eq(spt_water_saturation(SPT_SOLUBILITY_PLAIN, 200.1, &got), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_water_saturation((enum spt_solubility)2, 20.0, &got), SPT_BAD_ARGUMENT);
}
