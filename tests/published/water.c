/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/published.h"

Test(water_published, factor_of_cantley)
{
    static const char source[] =
        "The equation of R. E. Cantley, ASLE Trans. 20(3) (1977) 244-248, as TLT (June 2021) "
        "gives it: life goes with (100/X)^0.6; TLT states 2.3 for oil four times drier, a "
        "plant inspection guide that 0.1 % of water costs about 75 % of the life.";
    double at_100, at_400, at_1000;
    cr_assert_eq(spt_water_factor(100.0, &at_100), SPT_OK);
    cr_assert_eq(spt_water_factor(400.0, &at_400), SPT_OK);
    cr_assert_eq(spt_water_factor(1000.0, &at_1000), SPT_OK);
    cr_expect(agrees(source, "at_100 / at_400", 2.3, at_100 / at_400, 0.05));
    cr_expect(agrees(source, "1.0 - at_1000", 0.75, 1.0 - at_1000, 0.005));
}

Test(water_published, saturation_of_plain_mineral_oil)
{
    static const char source[] =
        "Published table for transformer-type oil. 0.7 % beside the rounding: the constants "
        "are from memory and give 777 at 100 degC where the table has 772.";
    static const double rows[][2] = {{0, 22},   {20, 55},  {40, 121},
                                     {60, 242}, {80, 446}, {100, 772}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double ppm;
        cr_assert_eq(spt_water_saturation(SPT_SOLUBILITY_PLAIN, rows[i][0], &ppm), SPT_OK);
        cr_expect(agrees(source, named("ppm, %g degC", rows[i][0]), rows[i][1], ppm,
                         0.5 + 0.007 * fabs(rows[i][1])));
    }
}

Test(water_published, saturation_of_additivated_oil)
{
    static const char source[] =
        "Example oil of a moisture-sensor manual: 446 ppm at 24 degC, 1133 at 58; 1.1 %: the "
        "constants printed with them give 444 and 1144";
    double ppm;
    cr_assert_eq(spt_water_saturation(SPT_SOLUBILITY_ADDITIVATED, 24.0, &ppm), SPT_OK);
    cr_expect(agrees_within(source, "ppm", 446.0, ppm, 0.011));
    cr_assert_eq(spt_water_saturation(SPT_SOLUBILITY_ADDITIVATED, 58.0, &ppm), SPT_OK);
    cr_expect(agrees_within(source, "ppm", 1133.0, ppm, 0.011));
}
