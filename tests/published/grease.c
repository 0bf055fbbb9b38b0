/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/grease.h"
#include "support/near.h"

static const struct spt_surroundings mild = {SPT_DUST_LIGHT, SPT_MOISTURE_DRY, SPT_VIBRATION_LOW,
                                             SPT_SHAFT_HORIZONTAL};

/* Worked example of maintenance magazines: ball bearing, 2000 r/min, bore 100 mm, K = 10: 3000 h.
 */
Test(grease_published, interval_of_the_worked_example)
{
    struct spt_grease_interval got;
    cr_assert_eq(spt_grease_interval(SPT_DEEP_GROOVE_BALL, 100.0, 2000.0, 60.0, &mild, &got),
                 SPT_OK);
    cr_expect(near(got.bracket_h, 300.0, 0.0, 0.5), "%.3f", got.bracket_h);
    cr_expect(near(got.interval_h, 3000.0, 0.0, 0.5), "%.3f", got.interval_h);
}

/* A plant chart (Maintenance Technology, "Bearing Secrets"): 75 mm, 1750 r/min, ball 8000 h,
 * spherical 400 h at half; the rule is good to a factor of 2. */
Test(grease_published, interval_agrees_with_a_plant_chart_within_a_factor_of_2)
{
    struct spt_grease_interval ball, spherical;
    cr_assert_eq(spt_grease_interval(SPT_DEEP_GROOVE_BALL, 75.0, 1750.0, 60.0, &mild, &ball),
                 SPT_OK);
    cr_assert_eq(spt_grease_interval(SPT_SPHERICAL_ROLLER, 75.0, 1750.0, 60.0, &mild, &spherical),
                 SPT_OK);
    cr_expect(ball.interval_h > 4000.0 && ball.interval_h < 16000.0, "%g", ball.interval_h);
    cr_expect(spherical.interval_h > 400.0 && spherical.interval_h < 1600.0, "%g",
              spherical.interval_h);
}

/* Catalogue practice: halved for each 15 degC above 70. */
Test(grease_published, interval_halves_for_each_15_degrees)
{
    static const double rows[][2] = {{70, 1}, {85, 0.5}, {100, 0.25}, {115, 0.125}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_grease_interval got;
        cr_assert_eq(spt_grease_interval(SPT_TAPERED_ROLLER, 60.0, 420.0, rows[i][0], &mild, &got),
                     SPT_OK);
        cr_expect(near(got.temperature_factor, rows[i][1], 1e-12, 0.0), "%g degC: %g", rows[i][0],
                  got.temperature_factor);
    }
}

/* 0.114 D B ounces with inches (plant standard) and 0.005 D B grams with mm are the same rule. */
Test(grease_published, quantity_in_ounces_and_grams_agree)
{
    double grams;
    cr_assert_eq(spt_grease_quantity(110.0, 38.0, &grams), SPT_OK);
    cr_expect(near(grams, 0.114 * (110.0 / 25.4) * (38.0 / 25.4) * 28.349523, 0.003, 0.0), "%g",
              grams);
    cr_expect(near(grams, 20.9, 0.0, 0.0501), "%g", grams);
}

/* Common catalogue practice, and Lugt, Grease Lubrication in Rolling Bearings (2013), from memory:
 * the interval is the 1 % life, the 10 % life is 2.7 times as long. */
Test(grease_published, survival_is_99_percent_at_1_and_90_at_2_7)
{
    struct spt_grease_state state;
    cr_assert_eq(spt_grease_state(1.0, &state), SPT_OK);
    cr_expect(near(state.survival, 0.99, 0.0, 5e-6), "%.7f", state.survival);
    cr_assert_eq(spt_grease_state(2.7, &state), SPT_OK);
    cr_expect(near(state.survival, 0.90, 0.0, 5e-5), "%.6f", state.survival);
    /* half of the oil gone at the median life: Ind. Lubr. Trib. 28(6) (1976) 198 */
    cr_assert_eq(spt_grease_state(5.99, &state), SPT_OK);
    cr_expect(near(state.oil_left, 0.5, 1e-12, 0.0), "%.6f", state.oil_left);
    /* 1e-3: the model rounds the median to 5.99 */
    cr_expect(near(state.survival, 0.5, 0.0, 1e-3), "%.6f", state.survival);
}
