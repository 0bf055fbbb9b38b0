/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/grease_case.h"
#include "support/near.h"

static const struct spt_surroundings mild = GREASE_MILD;

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
            grease_interval_of(rows[i].type, rows[i].bore, rows[i].speed, 65.0, &mild, &got),
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
            grease_interval_of(SPT_TAPERED_ROLLER, 60.0, 420.0, 65.0, &rows[i].around, &got),
            SPT_OK);
        cr_expect(near(got.interval_h / got.bracket_h, rows[i].factor, 1e-12, 0.0), "row %zu: %g",
                  i, got.interval_h / got.bracket_h);
        cr_expect(
            near(got.dust_factor * got.moisture_factor * got.vibration_factor * got.shaft_factor,
                 rows[i].factor, 1e-12, 0.0),
            "row %zu", i);
    }
}

/* Our own evaluation of the table of loads, no published authority for what lies between its rows.
 */
Test(grease, load_shortens_the_interval)
{
    static const struct {
        enum spt_bearing_type type;
        double share, factor;
    } rows[] = {
        {SPT_TAPERED_ROLLER, .05, 1},        {SPT_TAPERED_ROLLER, .10, 1},
        {SPT_TAPERED_ROLLER, .12, .86704},   {SPT_TAPERED_ROLLER, .15, .7},
        {SPT_TAPERED_ROLLER, .20, .52915},   {SPT_TAPERED_ROLLER, .25, .4},
        {SPT_TAPERED_ROLLER, .30, .2},       {SPT_TAPERED_ROLLER, .35, .1},
        {SPT_TAPERED_ROLLER, .45, .025},     {SPT_DEEP_GROOVE_BALL, .05, 1},
        {SPT_DEEP_GROOVE_BALL, .08, .80734}, {SPT_DEEP_GROOVE_BALL, .10, .7},
        {SPT_DEEP_GROOVE_BALL, .12, .53481}, {SPT_DEEP_GROOVE_BALL, .15, .41628},
        {SPT_DEEP_GROOVE_BALL, .20, .28854}, {SPT_DEEP_GROOVE_BALL, .25, .2},
        {SPT_DEEP_GROOVE_BALL, .30, .14142}, {SPT_DEEP_GROOVE_BALL, .35, .1},
        {SPT_DEEP_GROOVE_BALL, .45, .025},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        const struct spt_grease_inputs in = {.type = rows[i].type,
                                             .bore_mm = 60,
                                             .speed_rpm = 420,
                                             .load_share = rows[i].share,
                                             .temperature_c = 65};
        struct spt_grease_interval got;
        cr_assert_eq(spt_grease_interval(&in, &got), SPT_OK);
        cr_expect(near(got.load_factor, rows[i].factor, 2e-5, 0.0), "ours: row %zu: %.6f", i,
                  got.load_factor);
    }
}

/* Our own evaluation of the whole formula, no published authority. */
Test(grease, interval_of_whole_cases)
{
    const struct spt_surroundings harsh = {SPT_DUST_HEAVY_ABRASIVE, SPT_MOISTURE_SPLASH,
                                           SPT_VIBRATION_MEDIUM, SPT_SHAFT_HORIZONTAL};
    const struct spt_surroundings humid = {SPT_DUST_HEAVY_ABRASIVE, SPT_MOISTURE_HUMID,
                                           SPT_VIBRATION_MEDIUM, SPT_SHAFT_HORIZONTAL};
    const struct {
        struct spt_grease_inputs in;
        double hours;
    } rows[] = {
        {{SPT_TAPERED_ROLLER, 60, 110, false, 420, .08, 70, mild}, 4063.3},
        {{SPT_TAPERED_ROLLER, 60, 110, true, 420, .08, 70, mild}, 3085.3},
        {{SPT_TAPERED_ROLLER, 60, 110, true, 420, .16, 70, mild}, 2042.2},
        {{SPT_TAPERED_ROLLER, 60, 110, true, 420, .16, 85, harsh}, 12.253},
        {{SPT_DEEP_GROOVE_BALL, 50, 110, false, 1500, .10, 80, mild}, 4938.6},
        {{SPT_SPHERICAL_ROLLER, 60, 110, false, 92, .22, 55, humid}, 771.2},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_grease_interval got;
        cr_assert_eq(spt_grease_interval(&rows[i].in, &got), SPT_OK);
        cr_expect(near(got.interval_h, rows[i].hours, 2e-4, 0.0), "ours: row %zu: %.5g", i,
                  got.interval_h);
    }
    struct spt_grease_inputs fast = rows[1].in;
    struct spt_grease_interval got;
    fast.speed_rpm = 6000;
    cr_expect_eq(spt_grease_interval(&fast, &got), SPT_NOT_APPLICABLE);
    fast.outer_turns = false;
    cr_expect_eq(spt_grease_interval(&fast, &got), SPT_OK, "only as the outer ring turns");
}

Test(grease, large_bores_have_half_the_interval)
{
    struct spt_grease_interval at, above;
    cr_assert_eq(grease_interval_of(SPT_SPHERICAL_ROLLER, 300, 50, 60, &mild, &at), SPT_OK);
    cr_assert_eq(grease_interval_of(SPT_SPHERICAL_ROLLER, 301, 50, 60, &mild, &above), SPT_OK);
    cr_expect(near(at.size_factor, 1, 0, 0) && near(above.size_factor, 0.5, 0, 0));
    cr_expect(near(above.interval_h, 0.5 * above.bracket_h, 1e-12, 0));
}

/* Values of our own rule. */
Test(grease, kept_intervals_are_rounded_down)
{
    static const double hours[][2] = {{463, 400},   {2180, 2000}, {743, 600},    {50, 50},
                                      {6040, 6000}, {8, 8},       {192.2, 150},  {17532, 15000},
                                      {1250, 1250}, {49.9, 40},   {7999.9, 6000}};
    static const double days[][2] = {{422.8, 365}, {123.4, 122}, {6.9, 4},   {7, 7},
                                     {732, 730},   {91.5, 91},   {183, 183}, {9999, 1826}};
    for (size_t i = 0; i < sizeof hours / sizeof *hours; i++)
        cr_expect(near(spt_regreasing_kept_h(hours[i][0]), hours[i][1], 0, 0), "%g h", hours[i][0]);
    for (size_t i = 0; i < sizeof days / sizeof *days; i++)
        cr_expect(near(spt_regreasing_kept_days(days[i][0]), days[i][1], 0, 0), "%g days",
                  days[i][0]);
    cr_expect(isnan(spt_regreasing_kept_h(7.99)) && isnan(spt_regreasing_kept_days(0.99)));
    cr_expect(isnan(spt_regreasing_kept_h((double)NAN)));
}

Test(grease, months_go_by_the_harsher_level)
{
    struct spt_surroundings around = mild;
    cr_expect_eq(spt_regreasing_months(&around, false), 24);
    cr_expect_eq(spt_regreasing_months(&around, true), 12);
    around.dust = SPT_DUST_HEAVY;
    cr_expect_eq(spt_regreasing_months(&around, false), 12);
    around.moisture = SPT_MOISTURE_CONDENSATION;
    cr_expect_eq(spt_regreasing_months(&around, true), 6);
    around.dust = SPT_DUST_HEAVY_ABRASIVE;
    cr_expect_eq(spt_regreasing_months(&around, false), 3);
}

Test(grease, too_fast_has_no_interval_but_says_why)
{
    struct spt_grease_interval got;
    cr_expect_eq(grease_interval_of(SPT_TAPERED_ROLLER, 60.0, 7532.0, 65.0, &mild, &got),
                 SPT_NOT_APPLICABLE);
    cr_expect(isnan(got.interval_h) && got.bracket_h < 0.0 && got.type_factor > 0.5);
    cr_expect_eq(grease_interval_of(SPT_TAPERED_ROLLER, 60.0, 7530.0, 65.0, &mild, &got), SPT_OK);
}

Test(grease, refuses_what_lies_outside)
{
    static const double bad[] = {0.0, -2.385, (double)NAN, (double)INFINITY};
    struct spt_grease_interval got;
    struct spt_surroundings odd = mild;
    double grams;
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        cr_expect_eq(grease_interval_of(SPT_TAPERED_ROLLER, bad[i], 420.0, 65.0, &mild, &got),
                     SPT_BAD_ARGUMENT);
        cr_expect(isnan(got.interval_h) && isnan(got.bracket_h) && isnan(got.type_factor));
        cr_expect_eq(grease_interval_of(SPT_TAPERED_ROLLER, 60.0, bad[i], 65.0, &mild, &got),
                     SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_grease_quantity(bad[i], 38.0, &grams), SPT_BAD_ARGUMENT);
        cr_expect_eq(spt_grease_quantity(110.0, bad[i], &grams), SPT_BAD_ARGUMENT);
        cr_expect(isnan(grams));
    }
    cr_expect_eq(grease_interval_of(SPT_TAPERED_ROLLER, 60.0, 420.0, 300.1, &mild, &got),
                 SPT_BAD_ARGUMENT);
    cr_expect_eq(grease_interval_of(SPT_BEARING_TYPE_COUNT, 60.0, 420.0, 65.0, &mild, &got),
                 SPT_BAD_ARGUMENT);
    cr_expect_eq(grease_interval_of(SPT_TAPERED_ROLLER, 60.0, 420.0, -60.1, &mild, &got),
                 SPT_BAD_ARGUMENT);
    odd.shaft = (enum spt_shaft)3;
    cr_expect_eq(grease_interval_of(SPT_TAPERED_ROLLER, 60.0, 420.0, 65.0, &odd, &got),
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
    cr_expect(near(spt_grease_speed_limit(SPT_CYLINDRICAL_ROLLER), 500e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_NEEDLE_ROLLER), 350e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_TAPERED_ROLLER), 350e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_SPHERICAL_ROLLER), 350e3, 0.0, 0.0));
    cr_expect(near(spt_grease_speed_limit(SPT_THRUST_ROLLER), 350e3, 0.0, 0.0));
    cr_expect(isnan(spt_grease_speed_limit(SPT_BEARING_TYPE_COUNT)));
}

/* Our own evaluation of our own law, no published authority. */
Test(grease, yearly_risk_of_failing_grease)
{
    static const struct {
        double period_h, interval_h, hours, share, doubled, halved;
    } rows[] = {{500, 500, 2200, .043257, .0085412, .20384},
                {450, 463, 400, .0083164, .0016187, .042138},
                {1500, 4063, 2200, .0013941, .00027058, .0071660}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const double factors[] = {1, 2, 0.5},
                     want[] = {rows[i].share, rows[i].doubled, rows[i].halved};
        for (int j = 0; j < 3; j++) {
            const struct spt_grease_plan plan = {rows[i].interval_h * factors[j], rows[i].period_h};
            double share;
            cr_assert_eq(spt_regreasing_risk(&plan, rows[i].hours, &share), SPT_OK);
            cr_expect(near(share, want[j], 2e-5, 0), "ours: row %zu, x %g: %.6g", i, factors[j],
                      share);
        }
    }
    struct spt_grease_plan plan = {2385, (double)INFINITY};
    double share;
    cr_assert_eq(spt_regreasing_risk(&plan, 2.7 * 2385, &share), SPT_OK);
    cr_expect(near(share, 0.1, 1e-3, 0), "never renewed: the 10 %% life: %g", share);
    plan.period_h = 1e-6;
    cr_assert_eq(spt_regreasing_risk(&plan, 2385, &share), SPT_OK);
    cr_expect_lt(share, 1e-9);
    cr_expect_eq(spt_regreasing_risk(&plan, -1, &share), SPT_BAD_ARGUMENT);
    cr_expect(isnan(share));
}

/* Recomputed figures of our own law, no outside authority: bearings of one kind (a second one where
 * its interval is not 0), units, yearly hours, the share wanted; the period, and the share with
 * intervals twice and half as long. */
Test(grease_risk, the_period_for_a_wanted_share_solves_the_risk_for_its_period)
{
    static const struct {
        double first_h, second_h;
        int units;
        double hours, wanted, period_h, doubled, halved;
    } rows[] = {{4063, 0, 1, 2200, .002, 1954.0, 0, 0},
                {463, 0, 1, 400, .005, 309.7, 0, 0},
                {4063, 0, 1, 2200, .02, 4063, 0, 0}, /* never later than the interval */
                {192.2, 213.3, 4, 400, .02, 44.50, .0039, .0989},
                {413, 0, 2, 8000, .05, 93.66, .0099, .232},
                {4063.3, 0, 4, 2200, .01, 2307.8, .0019, .0505}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        const double intervals_h[] = {rows[i].first_h, rows[i].second_h}, factors[] = {1, 2, 0.5},
                     want[] = {rows[i].wanted, rows[i].doubled, rows[i].halved};
        const int count = rows[i].second_h > 0 ? 2 : 1;
        const struct spt_grease_group group = {intervals_h, count, rows[i].units};
        double period_h;
        cr_assert_eq(spt_regreasing_period_for(&group, rows[i].hours, rows[i].wanted, &period_h),
                     SPT_OK);
        cr_expect(near(period_h, rows[i].period_h, 2e-4, 0), "row %zu: %.6g h", i, period_h);
        for (int j = 0; j < 3 && rows[i].doubled > 0; j++) {
            double survival = 1;
            for (int k = 0; k < count; k++) {
                const struct spt_grease_plan plan = {intervals_h[k] * factors[j], period_h};
                double share;
                cr_assert_eq(spt_regreasing_risk(&plan, rows[i].hours, &share), SPT_OK);
                survival *= pow(1 - share, rows[i].units);
            }
            cr_expect(near(1 - survival, want[j], 0.03, 0), "row %zu, x %g: %.4g", i, factors[j],
                      1 - survival);
        }
    }
}

Test(grease_risk, the_period_for_a_share_refuses_what_is_no_group)
{
    const double intervals_h[] = {413, -1};
    const struct spt_grease_group good = {intervals_h, 1, 2}, bad[] = {{intervals_h, 2, 2},
                                                                       {intervals_h, 0, 2},
                                                                       {intervals_h, 1, 0},
                                                                       {NULL, 1, 2}};
    double period_h;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        cr_expect_eq(spt_regreasing_period_for(&bad[i], 400, 0.02, &period_h), SPT_BAD_ARGUMENT);
        cr_expect(isnan(period_h), "%zu", i);
    }
    cr_expect_eq(spt_regreasing_period_for(&good, 400, 1, &period_h), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_regreasing_period_for(&good, 0, 0.02, &period_h), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_regreasing_period_for(&good, 400, 0, &period_h), SPT_BAD_ARGUMENT);
    cr_assert_eq(spt_regreasing_period_for(&good, 400, 1e-9, &period_h), SPT_OK);
    cr_expect(period_h > 0 && period_h < 1);
}
