/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/sjoevall.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

#define PI 3.14159265358979323846

/* Harris, Rolling Bearing Analysis, table of J_r(epsilon), J_a(epsilon) for single-row bearings,
 * from memory. The printed line-contact columns were made with n = 1.1; "1.67" stands for 5/3. */
struct row {
    double epsilon;
    double point_radial, point_axial, line_radial, line_axial;
};
static const struct row table[] = {
    {0.1, .1156, .1196, .1268, .1319},  {0.2, .1590, .1707, .1737, .1885},
    {0.3, .1892, .2110, .2055, .2334},  {0.4, .2117, .2462, .2286, .2728},
    {0.5, .2288, .2782, .2453, .3090},  {0.6, .2416, .3084, .2568, .3433},
    {0.7, .2505, .3374, .2636, .3766},  {0.8, .2559, .3658, .2658, .4099},
    {0.9, .2576, .3945, .2628, .4441},  {1.0, .2546, .4244, .2523, .4817},
    {1.25, .2289, .5044, .2079, .5775}, {5.0 / 3, .1871, .6060, .1589, .6790},
    {2.5, .1339, .7240, .1075, .7837},  {5.0, .0711, .8558, .0544, .8909},
};

Test(sjoevall, integrals_meet_the_textbook_table_from_memory)
{
    /* 3e-4: the deviation found when the table was recomputed with n = 1.1 */
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct spt_sjoevall point, line;
        cr_assert_eq(spt_sjoevall(table[i].epsilon, 1.5, &point), SPT_OK);
        cr_assert_eq(spt_sjoevall(table[i].epsilon, 1.1, &line), SPT_OK);
        cr_expect(near(point.radial, table[i].point_radial, 0, 1e-4) &&
                      near(point.axial, table[i].point_axial, 0, 1e-4),
                  "Harris, from memory: point contact, epsilon %g: %g %g", table[i].epsilon,
                  point.radial, point.axial);
        cr_expect(near(line.radial, table[i].line_radial, 0, 3e-4) &&
                      near(line.axial, table[i].line_axial, 0, 3e-4),
                  "Harris, from memory: line contact n 1.1, epsilon %g: %g %g", table[i].epsilon,
                  line.radial, line.axial);
    }
}

Test(sjoevall, integrals_meet_exact_closed_forms)
{
    struct spt_sjoevall j;
    cr_assert_eq(spt_sjoevall(1.0, 1.5, &j), SPT_OK);
    cr_expect(near(j.radial, 0.8 / PI, 1e-12, 0) && near(j.axial, 4 / (3 * PI), 1e-12, 0),
              "n 3/2, epsilon 1: 0.8/pi and 4/(3 pi), got %.15g %.15g", j.radial, j.axial);
    cr_assert_eq(spt_sjoevall(0.5, 1.0, &j), SPT_OK);
    cr_expect(near(j.radial, 0.25, 1e-12, 0) && near(j.axial, 1 / PI, 1e-12, 0),
              "n 1, epsilon 1/2: 1/4 and 1/pi, got %.15g %.15g", j.radial, j.axial);
    for (double epsilon = 1; epsilon < 100; epsilon *= 2.385) {
        cr_assert_eq(spt_sjoevall(epsilon, 1.0, &j), SPT_OK);
        cr_expect(near(j.radial, 0.25 / epsilon, 1e-12, 0) &&
                      near(j.axial, 1 - 0.5 / epsilon, 1e-12, 0),
                  "n 1, epsilon %g: %.15g %.15g", epsilon, j.radial, j.axial);
    }
}

/* Stribeck's numbers at zero clearance: Q_max = 4.37 F_r/Z for balls, 4.08 F_r/Z for rollers
 * (textbooks; the roller number goes with n = 1.1), and F_a/(F_r tan alpha) = 1.216 and 1.260 at
 * half a load zone (from memory); the last is a quotient of rounded entries, hence one unit. */
Test(sjoevall, half_zone_gives_the_known_load_factors)
{
    struct spt_sjoevall point, line;
    cr_assert_eq(spt_sjoevall(0.5, 1.5, &point), SPT_OK);
    cr_assert_eq(spt_sjoevall(0.5, 1.1, &line), SPT_OK);
    cr_expect(near(1 / point.radial, 4.37, 0, 0.005), "%g", 1 / point.radial);
    cr_expect(near(1 / line.radial, 4.08, 0, 0.005), "%g", 1 / line.radial);
    cr_expect(near(point.axial / point.radial, 1.216, 0, 0.0005), "%g", point.axial / point.radial);
    cr_expect(near(line.axial / line.radial, 1.260, 0, 0.001), "%g", line.axial / line.radial);
}

Test(sjoevall, arguments_out_of_range_are_refused)
{
    struct spt_sjoevall j;
    static const double bad[][2] = {{0, 1.1}, {-0.3, 1.1}, {2e6, 1.1}, {0.5, 0.9}, {0.5, 3.1}};
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        cr_expect_eq(spt_sjoevall(bad[i][0], bad[i][1], &j), SPT_BAD_ARGUMENT);
        cr_expect(isnan(j.radial) && isnan(j.axial));
    }
    cr_expect_eq(spt_sjoevall((double)NAN, 1.1, &j), SPT_BAD_ARGUMENT);
}
