/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

/* Our own evaluation; the practice behind it: mineral gear oil 8000 h to 65, 4000 to 80, 2000 to 95
 * degC, and the manual Army TM 5-3895-374-24-2 with 1 to 3 months above 93 degC. */
Test(oil_life, mineral_gear_oil_over_temperature)
{
    static const double rows[][3] = {{50, 24882, 8000},   {60, 9000, 5040},   {65, 5537, 4000},
                                     {75, 2185, 2520},    {80, 1400, 2000},   {93, 465.7, 1097},
                                     {100, 265.8, 664.6}, {115, 85.6, 213.9}, {120, 59.8, 149.4},
                                     {145, 11.3, 28.3}};
    const struct spt_oil oil = {SPT_BASE_OIL_MINERAL, SPT_INHIBITION_EP_GEAR, false};
    double last_h = (double)INFINITY;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double oxidation_h, life_h;
        cr_assert_eq(spt_oil_oxidation_life(oil.inhibition, rows[i][0], &oxidation_h), SPT_OK);
        cr_assert_eq(spt_oil_life(&oil, rows[i][0], &life_h), SPT_OK);
        cr_expect(near(oxidation_h, rows[i][1], 2e-3, 0), "%g: %g", rows[i][0], oxidation_h);
        cr_expect(near(life_h, rows[i][2], 2e-3, 0), "%g: %g", rows[i][0], life_h);
        cr_expect_leq(life_h, last_h);
        last_h = life_h;
    }
}

Test(oil_life, care_and_synthetic_oil_last_longer)
{
    const struct spt_oil circulating = {SPT_BASE_OIL_MINERAL, SPT_INHIBITION_HYDRAULIC, true};
    const struct spt_oil pao = {SPT_BASE_OIL_PAO, SPT_INHIBITION_NONE, false};
    double life_h;
    cr_assert_eq(spt_oil_life(&circulating, 60, &life_h), SPT_OK);
    cr_expect(near(life_h, 15119, 1e-4, 0), "%g", life_h);
    cr_assert_eq(spt_oil_life(&pao, 80, &life_h), SPT_OK);
    cr_expect(near(life_h, 6000, 1e-12, 0), "%g", life_h);
    cr_expect_eq(spt_oil_life(&pao, 301, &life_h), SPT_BAD_ARGUMENT);
    cr_expect(isnan(life_h));
}

/* Common practice, from memory. */
Test(oil_life, limits_of_the_oils)
{
    cr_expect_eq(spt_oil_limits(SPT_BASE_OIL_MINERAL).hot_c, 93);
    cr_expect_eq(spt_oil_limits(SPT_BASE_OIL_MINERAL).peak_c, 120);
    cr_expect_eq(spt_oil_limits(SPT_BASE_OIL_PAO).peak_c, 150);
    cr_expect(isinf(spt_oil_limits(SPT_BASE_OIL_OTHER).warm_c));
    cr_expect(isnan(spt_oil_limits(SPT_BASE_OIL_COUNT).warm_c));
}

/* Our own evaluation of the published line of an additivated oil. */
Test(water_cold, what_stays_dissolved_warm_falls_out_in_the_cold)
{
    double free_ppm, colder_ppm;
    cr_assert_eq(spt_water_free(SPT_SOLUBILITY_ADDITIVATED, 300, 60, &free_ppm), SPT_OK);
    cr_expect_eq(free_ppm, 0);
    cr_assert_eq(spt_water_free(SPT_SOLUBILITY_ADDITIVATED, 300, 0, &free_ppm), SPT_OK);
    cr_expect(near(free_ppm, 102.4, 0, 0.1), "%g", free_ppm);
    cr_assert_eq(spt_water_free(SPT_SOLUBILITY_ADDITIVATED, 300, -25, &colder_ppm), SPT_OK);
    cr_expect_eq(colder_ppm, free_ppm, "it freezes");
    for (double t = -30; t < 80; t += 3.7) {
        double warm_ppm, cold_ppm;
        cr_assert_eq(spt_water_free(SPT_SOLUBILITY_PLAIN, 238.5, t, &cold_ppm), SPT_OK);
        cr_assert_eq(spt_water_free(SPT_SOLUBILITY_PLAIN, 238.5, t + 3.7, &warm_ppm), SPT_OK);
        cr_expect_geq(cold_ppm, warm_ppm, "%g", t);
    }
    cr_expect_eq(spt_water_free(SPT_SOLUBILITY_PLAIN, -1, 0, &free_ppm), SPT_BAD_ARGUMENT);
}
