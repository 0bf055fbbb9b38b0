/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "support/grease_case.h"
#include "support/published.h"

static const struct spt_surroundings mild = GREASE_MILD;

Test(grease_published, interval_of_the_worked_example)
{
    static const char source[] =
        "Worked example of maintenance magazines: ball bearing, 2000 r/min, bore 100 mm, K = "
        "10: 3000 h.";
    struct spt_grease_interval got;
    cr_assert_eq(grease_interval_of(SPT_DEEP_GROOVE_BALL, 100.0, 2000.0, 60.0, &mild, &got),
                 SPT_OK);
    cr_expect(agrees(source, "bracket_h", 300.0, got.bracket_h, 0.5));
    cr_expect(agrees(source, "interval_h", 3000.0, got.interval_h, 0.5));
}

Test(grease_published, interval_agrees_with_a_plant_chart_within_a_factor_of_2)
{
    /* 75 mm, 1750 r/min, ball 8000 h, spherical 400 h at half; the rule is good to a factor of 2 */
    static const char source[] = "plant chart (Maintenance Technology, \"Bearing Secrets\")";
    struct spt_grease_interval ball, spherical;
    cr_assert_eq(grease_interval_of(SPT_DEEP_GROOVE_BALL, 75.0, 1750.0, 60.0, &mild, &ball),
                 SPT_OK);
    cr_assert_eq(grease_interval_of(SPT_SPHERICAL_ROLLER, 75.0, 1750.0, 60.0, &mild, &spherical),
                 SPT_OK);
    cr_expect(
        lies_within(source, "interval in h, ball, to a factor of 2", 4000, 16000, ball.interval_h));
    cr_expect(lies_within(source, "interval in h, spherical roller, to a factor of 2", 400, 1600,
                          spherical.interval_h));
}

Test(grease_published, interval_halves_for_each_15_degrees)
{
    static const char source[] = "Catalogue practice: halved for each 15 degC above 70.";
    static const double rows[][2] = {{70, 1}, {85, 0.5}, {100, 0.25}, {115, 0.125}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_grease_interval got;
        cr_assert_eq(grease_interval_of(SPT_TAPERED_ROLLER, 60.0, 420.0, rows[i][0], &mild, &got),
                     SPT_OK);
        cr_expect(agrees_within(source, named("temperature_factor, %g degC", rows[i][0]),
                                rows[i][1], got.temperature_factor, 1e-12));
    }
}

Test(grease_published, quantity_in_ounces_and_grams_agree)
{
    static const char source[] =
        "0.114 D B ounces with inches (plant standard) and 0.005 D B grams with mm are the "
        "same rule.";
    double grams;
    cr_assert_eq(spt_grease_quantity(110.0, 38.0, &grams), SPT_OK);
    cr_expect(agrees_within(source, "grams", 0.114 * (110.0 / 25.4) * (38.0 / 25.4) * 28.349523,
                            grams, 0.003));
    cr_expect(agrees(source, "grams", 20.9, grams, 0.0501));
}

Test(grease_published, survival_is_99_percent_at_1_and_90_at_2_7)
{
    static const char source[] =
        "Common catalogue practice, and Lugt, Grease Lubrication in Rolling Bearings (2013), "
        "from memory: the interval is the 1 % life, the 10 % life is 2.7 times as long.";
    struct spt_grease_state state;
    cr_assert_eq(spt_grease_state(1.0, &state), SPT_OK);
    cr_expect(agrees(source, "survival", 0.99, state.survival, 5e-6));
    cr_assert_eq(spt_grease_state(2.7, &state), SPT_OK);
    cr_expect(agrees(source, "survival", 0.90, state.survival, 5e-5));
    /* half of the oil gone at the median life: Ind. Lubr. Trib. 28(6) (1976) 198 */
    cr_assert_eq(spt_grease_state(5.99, &state), SPT_OK);
    cr_expect(agrees_within(source, "oil_left", 0.5, state.oil_left, 1e-12));
    /* 1e-3: the model rounds the median to 5.99 */
    cr_expect(agrees(source, "survival", 0.5, state.survival, 1e-3));
}
