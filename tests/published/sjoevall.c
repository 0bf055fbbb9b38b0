/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/hub.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/published.h"

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
    static const char source[] =
        "Harris, Rolling Bearing Analysis, table of load integrals, from memory (line contact "
        "n 1.1)";
    /* 3e-4: the deviation found when the table was recomputed with n = 1.1 */
    for (size_t i = 0; i < sizeof table / sizeof *table; i++) {
        struct spt_sjoevall point, line;
        cr_assert_eq(spt_sjoevall(table[i].epsilon, 1.5, &point), SPT_OK);
        cr_assert_eq(spt_sjoevall(table[i].epsilon, 1.1, &line), SPT_OK);
        cr_expect(agrees(source, named("J_r, point contact, epsilon %g", table[i].epsilon),
                         table[i].point_radial, point.radial, 1e-4));
        cr_expect(agrees(source, named("J_a, point contact, epsilon %g", table[i].epsilon),
                         table[i].point_axial, point.axial, 1e-4));
        cr_expect(agrees(source, named("J_r, line contact, epsilon %g", table[i].epsilon),
                         table[i].line_radial, line.radial, 3e-4));
        cr_expect(agrees(source, named("J_a, line contact, epsilon %g", table[i].epsilon),
                         table[i].line_axial, line.axial, 3e-4));
    }
}

Test(sjoevall, integrals_meet_exact_closed_forms)
{
    static const char source[] = "exact closed forms of the load integrals";
    struct spt_sjoevall j;
    cr_assert_eq(spt_sjoevall(1.0, 1.5, &j), SPT_OK);
    cr_expect(agrees_within(source, "J_r, n 3/2, epsilon 1", 0.8 / PI, j.radial, 1e-12));
    cr_expect(agrees_within(source, "J_a, n 3/2, epsilon 1", 4 / (3 * PI), j.axial, 1e-12));
    cr_assert_eq(spt_sjoevall(0.5, 1.0, &j), SPT_OK);
    cr_expect(agrees_within(source, "J_r, n 1, epsilon 1/2", 0.25, j.radial, 1e-12));
    cr_expect(agrees_within(source, "J_a, n 1, epsilon 1/2", 1 / PI, j.axial, 1e-12));
    for (double epsilon = 1; epsilon < 100; epsilon *= 2.385) {
        cr_assert_eq(spt_sjoevall(epsilon, 1.0, &j), SPT_OK);
        cr_expect(agrees_within(source, named("J_r, n 1, epsilon %g", epsilon), 0.25 / epsilon,
                                j.radial, 1e-12));
        cr_expect(agrees_within(source, named("J_a, n 1, epsilon %g", epsilon), 1 - 0.5 / epsilon,
                                j.axial, 1e-12));
    }
}

Test(sjoevall, half_zone_gives_the_known_load_factors)
{
    static const char source[] =
        "Stribeck's numbers at zero clearance: Q_max = 4.37 F_r/Z for balls, 4.08 F_r/Z for "
        "rollers (textbooks; the roller number goes with n = 1.1), and F_a/(F_r tan alpha) = "
        "1.216 and 1.260 at half a load zone (from memory); the last is a quotient of rounded "
        "entries, hence one unit.";
    struct spt_sjoevall point, line;
    cr_assert_eq(spt_sjoevall(0.5, 1.5, &point), SPT_OK);
    cr_assert_eq(spt_sjoevall(0.5, 1.1, &line), SPT_OK);
    cr_expect(agrees(source, "Q_max Z/F_r, balls", 4.37, 1 / point.radial, 0.005));
    cr_expect(agrees(source, "Q_max Z/F_r, rollers", 4.08, 1 / line.radial, 0.005));
    cr_expect(
        agrees(source, "F_a/(F_r tan alpha), balls", 1.216, point.axial / point.radial, 0.0005));
    cr_expect(
        agrees(source, "F_a/(F_r tan alpha), rollers", 1.260, line.axial / line.radial, 0.001));
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
