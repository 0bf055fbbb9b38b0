/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

static struct spt_bearing make_ball(void)
{
    return (struct spt_bearing){
        .type = SPT_DEEP_GROOVE_BALL,
        .bore_mm = 60,
        .outside_diameter_mm = 110,
        .width_mm = 22,
        .pitch_diameter_mm = 85,
        .has_seat = true,
        .seat = {SPT_CLEARANCE_3, SPT_SHAFT_K5, -1, 10, (double)NAN, (double)NAN}};
}

/* Worked out by hand: u 16 um, u_eff 15.4839, F 70 mm, so dF 13.2719; 11.5e-6 x 85 x 10 K. Our own
 * recomputation on tables from memory, no outside authority. */
Test(clearance, of_a_ball_bearing_with_its_inner_ring_on_k5_follows_the_fit_and_the_heat)
{
    const struct spt_bearing b = make_ball();
    struct spt_clearance c;
    cr_assert_eq(spt_clearance_at_work(&b, &c), SPT_OK);
    cr_expect(near(c.shelf.middle_mm, 33e-3, 1e-12, 0) && near(c.shelf.low_mm, 23e-3, 1e-12, 0));
    cr_expect(near(c.shaft.middle_mm, 15.4839e-3, 1e-5, 0), "%.9g", c.shaft.middle_mm);
    cr_expect(near(c.inner_growth_mm, 13.2719e-3, 1e-5, 0), "%.9g", c.inner_growth_mm);
    cr_expect(near(c.pressure_mpa, 7.05, 0, 0.005), "%.9g", c.pressure_mpa);
    cr_expect(near(c.heat_mm, 9.775e-3, 1e-12, 0));
    cr_expect(near(c.work.middle_mm, 9.953e-3, 0, 1e-6), "%.9g", c.work.middle_mm);
    double half = hypot(10e-3, 13.2719 / 16 * hypot(6.5e-3, 7.5e-3));
    cr_expect(near(c.work.high_mm - c.work.middle_mm, half, 1e-5, 0), "%.9g", c.work.high_mm);
}

/* Closed forms by Lame: a hollow shaft gives way, a thin housing too, and both tend to the solid
 * ones. */
Test(clearance, hollow_shafts_and_thin_housings_take_less_of_it)
{
    struct spt_bearing b = make_ball();
    struct spt_clearance solid, c;
    b.seat.housing_fit = SPT_HOUSING_P7;
    cr_assert_eq(spt_clearance_at_work(&b, &solid), SPT_OK);
    double growth_mm = solid.inner_growth_mm, shrinkage_mm = solid.outer_shrinkage_mm;
    for (double bore = 1; bore < 58; bore += 7) {
        b.seat.shaft_bore_mm = bore;
        cr_assert_eq(spt_clearance_at_work(&b, &c), SPT_OK);
        cr_expect_lt(c.inner_growth_mm, growth_mm);
        growth_mm = c.inner_growth_mm;
        if (bore < 2)
            cr_expect(near(growth_mm, solid.inner_growth_mm, 1e-3, 0));
    }
    for (double outside = 3000; outside > 115; outside *= 0.7) {
        b.seat.housing_outside_mm = outside;
        cr_assert_eq(spt_clearance_at_work(&b, &c), SPT_OK);
        cr_expect_lt(c.outer_shrinkage_mm, shrinkage_mm);
        shrinkage_mm = c.outer_shrinkage_mm;
        if (outside > 2500)
            cr_expect(near(shrinkage_mm, solid.outer_shrinkage_mm, 1e-2, 0));
    }
}

/* Property: a tighter fit, a smaller class or a warmer inner ring never leave more clearance. */
Test(clearance, falls_with_a_tighter_fit_a_smaller_class_and_a_warmer_inner_ring)
{
    static const enum spt_bearing_type types[] = {SPT_DEEP_GROOVE_BALL, SPT_CYLINDRICAL_ROLLER,
                                                  SPT_SPHERICAL_ROLLER};
    static const int shafts[] = {SPT_SHAFT_G6, SPT_SHAFT_H6, SPT_SHAFT_J6, SPT_SHAFT_K6,
                                 SPT_SHAFT_M6, SPT_SHAFT_N6, SPT_SHAFT_P6};
    for (size_t t = 0; t < 3; t++)
        for (double bore = 25; bore <= 120; bore += 9.5) {
            struct spt_bearing b = make_ball();
            struct spt_clearance before, c;
            b.type = types[t];
            b.bore_mm = bore;
            b.outside_diameter_mm = fmin(1.5 * bore + 20, 180);
            b.pitch_diameter_mm = (bore + b.outside_diameter_mm) / 2;
            for (int fit = 0; fit < 7; fit++) {
                b.seat.shaft_fit = shafts[fit];
                cr_assert_eq(spt_clearance_at_work(&b, &c), SPT_OK);
                if (fit)
                    cr_expect_leq(c.work.middle_mm, before.work.middle_mm);
                cr_expect(c.work.low_mm <= c.work.middle_mm && c.work.middle_mm <= c.work.high_mm);
                before = c;
            }
            for (int fit = 0; fit < SPT_HOUSING_FIT_COUNT; fit++) {
                b.seat.housing_fit = fit;
                cr_assert_eq(spt_clearance_at_work(&b, &c), SPT_OK);
                cr_expect_leq(c.work.middle_mm, before.work.middle_mm);
                before = c;
            }
            for (int class = SPT_CLEARANCE_CLASS_COUNT - 1; class >= 0; class --) {
                b.seat.clearance = class;
                cr_assert_eq(spt_clearance_at_work(&b, &c), SPT_OK);
                if (class < SPT_CLEARANCE_CLASS_COUNT - 1)
                    cr_expect_lt(c.work.middle_mm, before.work.middle_mm);
                before = c;
            }
            b.seat.inner_warmer_k += 7;
            cr_assert_eq(spt_clearance_at_work(&b, &c), SPT_OK);
            cr_expect_lt(c.work.middle_mm, before.work.middle_mm);
        }
}

/* Widths of ISO 286 grades (from memory, confirmed by their series): IT5, IT6 and IT7. */
Test(clearance, scatter_of_a_fit_is_that_of_the_grades)
{
    static const struct {
        double bore_mm, bore_width, it5, it6;
    } rows[] = {{27, 10, 9, 13}, {45, 12, 11, 16}, {60, 15, 13, 19}, {100, 20, 15, 22}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        for (int fit = 0; fit < SPT_SHAFT_FIT_COUNT; fit++) {
            struct spt_bearing b = make_ball();
            struct spt_clearance c;
            bool five = fit == SPT_SHAFT_K5 || fit == SPT_SHAFT_M5;
            b.bore_mm = rows[i].bore_mm;
            b.outside_diameter_mm = 150;
            b.seat.shaft_fit = fit;
            cr_assert_eq(spt_clearance_at_work(&b, &c), SPT_OK);
            double kept = 1e-3 * b.bore_mm / (b.bore_mm + 2);
            double want = kept * hypot(rows[i].bore_width, five ? rows[i].it5 : rows[i].it6);
            cr_expect(near(c.shaft.high_mm - c.shaft.low_mm, want, 1e-12, 0), "%g, fit %d",
                      b.bore_mm, fit);
        }
}

Test(clearance, outside_its_tables_it_has_no_answer)
{
    struct spt_clearance c;
    struct spt_bearing b = make_ball();
    b.bore_mm = 24;
    cr_expect_eq(spt_clearance_at_work(&b, &c), SPT_NOT_APPLICABLE);
    b = make_ball();
    b.type = SPT_TAPERED_ROLLER;
    cr_expect_eq(spt_clearance_at_work(&b, &c), SPT_NOT_APPLICABLE);
    b = make_ball();
    b.has_seat = false;
    cr_expect_eq(spt_clearance_at_work(&b, &c), SPT_NOT_APPLICABLE);
}
