/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/hub.h"
#include "support/near.h"
#include "support/plain.h"

/* A cylindrical roller bearing 45 x 85 x 19, insides as in Harris, Rolling Bearing Analysis (from
 * memory). */
static struct spt_bearing make_roller(int elements)
{
    struct spt_bearing bearing = plain_bearing(SPT_CYLINDRICAL_ROLLER);
    bearing.has_geometry = true;
    bearing.geometry = (struct spt_geometry){elements, 1, 10, 9.6, 0, 65, (double)NAN, (double)NAN};
    return bearing;
}

static struct spt_bearing make_ball(int elements)
{
    struct spt_bearing bearing = plain_bearing(SPT_DEEP_GROOVE_BALL);
    bearing.has_geometry = true;
    bearing.geometry =
        (struct spt_geometry){elements, 1, 13, (double)NAN, 0, 65, (double)NAN, (double)NAN};
    return bearing;
}

/* Worked out by an independent program with the load integrals (no outside authority): loose, at no
 * clearance and preloaded. A ring of many rollers meets them to their digits; with 14 rollers the
 * hardest of the four positions of the cage carries up to 2 % more. */
Test(clearance_zone, follows_the_load_integrals)
{
    static const struct {
        double clearance_mm, extent, half_deg, most_n;
    } rows[] = {{0, 0.5, 90, 1298.44},
                {0.0406, 0.182519, 50.583, 1910.40},
                {-0.010, 1.14527, 180, 1409.15}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_bearing few = make_roller(14), many = make_roller(980);
        struct spt_clearance_zone zone;
        cr_assert_eq(spt_clearance_zone(&many, rows[i].clearance_mm, 4450 * 70.0, &zone), SPT_OK);
        cr_expect(near(zone.extent, rows[i].extent, 0, 6e-6), "%.9g", zone.extent);
        cr_expect(near(zone.half_deg, rows[i].half_deg, 0, 6e-4), "%.9g", zone.half_deg);
        cr_expect(near(zone.most_n, rows[i].most_n, 0, 0.01), "%.9g", zone.most_n);
        cr_assert_eq(spt_clearance_zone(&few, rows[i].clearance_mm, 4450, &zone), SPT_OK);
        cr_expect(near(zone.extent, rows[i].extent, 2e-4, 0), "%.9g", zone.extent);
        cr_expect(near(zone.half_deg, rows[i].half_deg, 2e-4, 0), "%.9g", zone.half_deg);
        cr_expect(near(zone.most_n, rows[i].most_n, 0.02, 0), "%.9g", zone.most_n);
    }
}

/* Life against clearance over the approach at no clearance, gamma 0.2 and very many elements: one
 * curve for all sizes and loads (worked out by an independent program, no outside authority). */
Test(clearance_zone, factor_follows_one_curve_for_balls_and_one_for_rollers)
{
    static const struct {
        double clearance, ball, roller;
    } rows[] = {{-1.5, .3393, .2547}, {-1, .8637, .7361}, {-0.5, 1, 1},      {0, 1, 1},
                {0.5, .8938, .8535},  {1, .8065, .7378},  {2, .6786, .5785}, {4, .5254, .4052},
                {8, .3757, .2553}};
    for (int roller = 0; roller < 2; roller++)
        for (double load_n = 300; load_n < 4e5; load_n *= 5.3) {
            struct spt_bearing bearing = roller ? make_roller(700) : make_ball(700);
            bearing.geometry.element_diameter_mm = 13; /* gamma 0.2 */
            const double n = roller ? 10.0 / 9 : 1.5;
            struct spt_sjoevall half;
            cr_assert_eq(spt_sjoevall(0.5, n, &half), SPT_OK);
            const double most_n = load_n / (700 * half.radial);
            const double approach_mm = pow(most_n / spt_clearance_stiffness(&bearing), 1 / n);
            for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
                struct spt_clearance_zone zone;
                cr_assert_eq(
                    spt_clearance_zone(&bearing, rows[i].clearance * approach_mm, load_n, &zone),
                    SPT_OK);
                cr_expect(near(zone.factor, roller ? rows[i].roller : rows[i].ball, 0, 2e-4),
                          "%d, %g: %.6g", roller, rows[i].clearance, zone.factor);
            }
        }
}

/* Two rows that share the load alike are one row of twice as many elements. */
Test(clearance_zone, two_rows_share_the_load)
{
    struct spt_bearing bearing = plain_bearing(SPT_SPHERICAL_ROLLER);
    struct spt_clearance_zone both, one;
    bearing.has_geometry = true;
    bearing.geometry =
        (struct spt_geometry){18, 2, 13, 10.5, 9.5 * DEG, 85, (double)NAN, (double)NAN};
    cr_assert_eq(spt_clearance_zone(&bearing, 0.023, 23850, &both), SPT_OK);
    bearing.geometry.rows = 1;
    cr_assert_eq(spt_clearance_zone(&bearing, 0.023, 11925, &one), SPT_OK);
    cr_expect(near(both.factor, one.factor, 1e-12, 0) && near(both.most_n, one.most_n, 1e-12, 0));
    cr_expect_lt(both.factor, 1);
}

/* Few balls, far apart: the one nearest to the load line carries it alone, and more clearance no
 * longer changes anything. */
Test(clearance_zone, one_element_carries_all_where_the_rings_are_far_apart)
{
    struct spt_bearing bearing = make_ball(8);
    struct spt_clearance_zone loose, looser;
    cr_assert_eq(spt_clearance_zone(&bearing, 0.3, 2, &loose), SPT_OK);
    cr_assert_eq(spt_clearance_zone(&bearing, 3, 2, &looser), SPT_OK);
    cr_expect(near(loose.factor, looser.factor, 1e-6, 0), "%g %g", loose.factor, looser.factor);
    /* 7/8 of half a pitch off the line is the last of the four positions */
    cr_expect(near(looser.most_n, 2 / cos(acos(-1.0) / 8 * 7 / 8), 1e-5, 0), "%g", looser.most_n);
    cr_assert_eq(spt_clearance_zone(&bearing, 0.3, 1e-30, &loose), SPT_OK);
    cr_expect(near(loose.factor, looser.factor, 1e-4, 0), "%g", loose.factor);
}

Test(clearance_zone, refuses_what_it_cannot_answer)
{
    struct spt_bearing bearing = make_roller(14);
    struct spt_clearance_zone zone;
    cr_expect_eq(spt_clearance_zone(&bearing, 0.01, 0, &zone), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_clearance_zone(&bearing, (double)NAN, 4450, &zone), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_clearance_zone(&bearing, 0.01, (double)INFINITY, &zone), SPT_BAD_ARGUMENT);
    cr_expect(isnan(zone.factor) && isnan(zone.extent));
    bearing.has_geometry = false;
    cr_expect_eq(spt_clearance_zone(&bearing, 0.01, 4450, &zone), SPT_NOT_APPLICABLE);
}
