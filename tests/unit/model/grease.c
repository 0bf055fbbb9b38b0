/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/near.h"

static const struct spt_surroundings mild = {SPT_DUST_LIGHT, SPT_MOISTURE_DRY, SPT_VIBRATION_LOW,
                                             SPT_SHAFT_HORIZONTAL};

/* Our own evaluation of our worn-grease model, no published authority. */
Test(grease, worn_grease_table)
{
    static const double rows[][4] = {
        {0, 1, 1, 1},
        {1, .891, .994, .990},
        {2, .793, .981, .950},
        {2.7, .732, .957, .900},
        {4, .629, .812, .766},
        {5, .561, .471, .636},
        {5.5, .529, .234, .567},
        {6, .499, 0, .498},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_grease_state got;
        cr_assert_eq(spt_grease_state(rows[i][0], &got), SPT_OK);
        cr_expect(near(got.tau, rows[i][0], 0.0, 0.0));
        cr_expect(near(got.oil_left, rows[i][1], 0.0, 5.1e-4), "ours: tau %g: oil %.5f", rows[i][0],
                  got.oil_left);
        cr_expect(near(got.film_ratio, rows[i][2], 0.0, 5.1e-4), "ours: tau %g: film %.5f",
                  rows[i][0], got.film_ratio);
        cr_expect(near(got.survival, rows[i][3], 0.0, 5.1e-4), "ours: tau %g: survival %.5f",
                  rows[i][0], got.survival);
    }
}

/* Formula of common practice, numbers recomputed by us. */
Test(grease, interval_by_type_and_size)
{
    static const struct {
        enum spt_bearing_type type;
        double bore, speed, hours;
    } rows[] = {
        {SPT_DEEP_GROOVE_BALL, 75, 1750, 6237.6},   {SPT_ANGULAR_CONTACT_BALL, 75, 1750, 6237.6},
        {SPT_SELF_ALIGNING_BALL, 75, 1750, 6237.6}, {SPT_CYLINDRICAL_ROLLER, 75, 1750, 3118.8},
        {SPT_NEEDLE_ROLLER, 75, 1750, 3118.8},      {SPT_SPHERICAL_ROLLER, 75, 1750, 623.76},
        {SPT_THRUST_BALL, 75, 1750, 623.76},        {SPT_THRUST_ROLLER, 75, 1750, 623.76},
        {SPT_TAPERED_ROLLER, 60, 420, 4063.3},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_grease_interval got;
        cr_assert_eq(
            spt_grease_interval(rows[i].type, rows[i].bore, rows[i].speed, 65.0, &mild, &got),
            SPT_OK);
        cr_expect(near(got.interval_h, rows[i].hours, 2e-5, 0.0), "ours: row %zu: %.3f want %g", i,
                  got.interval_h, rows[i].hours);
    }
}

/* Levels of common practice, from memory. */
Test(grease, surroundings_shorten_the_interval)
{
    static const struct {
        struct spt_surroundings around;
        double factor;
    } rows[] = {
        {{SPT_DUST_LIGHT, SPT_MOISTURE_DRY, SPT_VIBRATION_LOW, SPT_SHAFT_HORIZONTAL}, 1.0},
        {{SPT_DUST_HEAVY, SPT_MOISTURE_DRY, SPT_VIBRATION_LOW, SPT_SHAFT_HORIZONTAL}, 0.7},
        {{SPT_DUST_LIGHT_ABRASIVE, SPT_MOISTURE_DRY, SPT_VIBRATION_LOW, SPT_SHAFT_HORIZONTAL}, 0.4},
        {{SPT_DUST_HEAVY_ABRASIVE, SPT_MOISTURE_DRY, SPT_VIBRATION_LOW, SPT_SHAFT_HORIZONTAL}, 0.2},
        {{SPT_DUST_LIGHT, SPT_MOISTURE_HUMID, SPT_VIBRATION_LOW, SPT_SHAFT_HORIZONTAL}, 0.7},
        {{SPT_DUST_LIGHT, SPT_MOISTURE_CONDENSATION, SPT_VIBRATION_LOW, SPT_SHAFT_HORIZONTAL}, 0.4},
        {{SPT_DUST_LIGHT, SPT_MOISTURE_SPLASH, SPT_VIBRATION_LOW, SPT_SHAFT_HORIZONTAL}, 0.1},
        {{SPT_DUST_LIGHT, SPT_MOISTURE_DRY, SPT_VIBRATION_MEDIUM, SPT_SHAFT_HORIZONTAL}, 0.6},
        {{SPT_DUST_LIGHT, SPT_MOISTURE_DRY, SPT_VIBRATION_HIGH, SPT_SHAFT_HORIZONTAL}, 0.3},
        {{SPT_DUST_LIGHT, SPT_MOISTURE_DRY, SPT_VIBRATION_LOW, SPT_SHAFT_INCLINED}, 0.5},
        {{SPT_DUST_LIGHT, SPT_MOISTURE_DRY, SPT_VIBRATION_LOW, SPT_SHAFT_VERTICAL}, 0.3},
        {{SPT_DUST_HEAVY, SPT_MOISTURE_SPLASH, SPT_VIBRATION_MEDIUM, SPT_SHAFT_INCLINED}, 0.021},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_grease_interval got;
        cr_assert_eq(
            spt_grease_interval(SPT_TAPERED_ROLLER, 60.0, 420.0, 65.0, &rows[i].around, &got),
            SPT_OK);
        cr_expect(near(got.interval_h / got.bracket_h, rows[i].factor, 1e-12, 0.0), "row %zu: %g",
                  i, got.interval_h / got.bracket_h);
        cr_expect(
            near(got.dust_factor * got.moisture_factor * got.vibration_factor * got.shaft_factor,
                 rows[i].factor, 1e-12, 0.0),
            "row %zu", i);
    }
}

Test(grease, too_fast_has_no_interval_but_says_why)
{
    struct spt_grease_interval got;
    cr_expect_eq(spt_grease_interval(SPT_TAPERED_ROLLER, 60.0, 7532.0, 65.0, &mild, &got),
                 SPT_NOT_APPLICABLE);
    cr_expect(isnan(got.interval_h) && got.bracket_h < 0.0 && got.type_factor > 0.5);
    cr_expect_eq(spt_grease_interval(SPT_TAPERED_ROLLER, 60.0, 7530.0, 65.0, &mild, &got), SPT_OK);
}

Test(grease, refuses_what_lies_outside)
{
    static const double bad[] = {0.0, -2.385, (double)NAN, (double)INFINITY};
    struct spt_grease_interval got;
    struct spt_surroundings odd = mild;
    double grams;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        cr_expect_eq(spt_grease_interval(SPT_TAPERED_ROLLER, bad[i], 420.0, 65.0, &mild, &got),
                     SPT_BAD_ARGUMENT);
        cr_expect(isnan(got.interval_h) && isnan(got.bracket_h) && isnan(got.type_factor));
        cr_expect_eq(spt_grease_interval(SPT_TAPERED_ROLLER, 60.0, bad[i], 65.0, &mild, &got),
                     SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_grease_quantity(bad[i], 38.0, &grams), SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_grease_quantity(110.0, bad[i], &grams), SPT_BAD_ARGUMENT);
        cr_expect(isnan(grams));
    }
    cr_expect_eq(spt_grease_interval(SPT_TAPERED_ROLLER, 60.0, 420.0, 300.1, &mild, &got),
                 SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_grease_interval(SPT_BEARING_TYPE_COUNT, 60.0, 420.0, 65.0, &mild, &got),
                 SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_grease_interval(SPT_TAPERED_ROLLER, 60.0, 420.0, -60.1, &mild, &got),
                 SPT_BAD_ARGUMENT);
    odd.shaft = (enum spt_shaft)3;
    cr_expect_eq(spt_grease_interval(SPT_TAPERED_ROLLER, 60.0, 420.0, 65.0, &odd, &got),
                 SPT_BAD_ARGUMENT);
    struct spt_grease_state state;
    cr_expect_eq(spt_grease_state(-0.001, &state), SPT_BAD_ARGUMENT);
    cr_expect(isnan(state.tau) && isnan(state.film_ratio) && isnan(state.survival));
    cr_expect_eq(spt_grease_state((double)NAN, &state), SPT_BAD_ARGUMENT);
}

/* Common practice, no source. */
Test(grease, speed_limit_by_type)
{
    cr_expect(near(spt_grease_speed_limit(SPT_DEEP_GROOVE_BALL), 500e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_ANGULAR_CONTACT_BALL), 500e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_SELF_ALIGNING_BALL), 500e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_THRUST_BALL), 500e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_CYLINDRICAL_ROLLER), 400e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_NEEDLE_ROLLER), 400e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_TAPERED_ROLLER), 300e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_SPHERICAL_ROLLER), 300e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_THRUST_ROLLER), 300e3, 0.0, 0.0));
    cr_expect(isnan(spt_grease_speed_limit(SPT_BEARING_TYPE_COUNT)));
}
