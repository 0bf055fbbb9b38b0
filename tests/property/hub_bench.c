/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/setting.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>

#include "support/hub_scenario.h"
#include "support/near.h"

static struct hub_scenario test;
static struct spt_hub_curve curve;

static void draw_curve(const char *hub, const char *duty)
{
    struct spt_hub_failure failure;
    hub_scenario_read(&test, hub, duty);
    hub_scenario_assess(&test);
    cr_assert_eq(spt_hub_curve(&test.bench, &test.assessment, &curve, &failure), SPT_OK);
}

Test(hub_bench_property, a_hub_lasts_no_longer_than_either_row)
{
    draw_curve(NULL, NULL);
    for (int i = 0; i < SPT_HUB_CURVE_POINTS; i++) {
        const struct spt_setting_point *p = &curve.points[i];
        cr_expect_leq(p->life_h, fmin(p->row_h[0], p->row_h[1]) * (1 + 1e-12), "%g mm",
                      p->setting_mm);
    }
    cr_expect_leq(test.assessment.modified_rating_life_h,
                  fmin(test.assessment.bearings[0].modified_rating_life_h,
                       test.assessment.bearings[1].modified_rating_life_h));
    hub_scenario_free(&test);
}

/* Within the ripple of single rollers, which four cage positions leave below 0.2 %. */
Test(hub_bench_property, life_falls_with_preload_and_with_play_away_from_the_best)
{
    draw_curve(NULL, NULL);
    double best_mm = curve.study.best.setting_mm;
    for (int i = 1; i < SPT_HUB_CURVE_POINTS; i++) {
        const struct spt_setting_point *left = &curve.points[i - 1], *right = &curve.points[i];
        if (right->setting_mm < best_mm - 0.01)
            cr_expect_lt(left->life_h, right->life_h, "%g mm", left->setting_mm);
        if (left->setting_mm > best_mm + 0.02)
            cr_expect_lt(right->life_h, left->life_h * 1.002, "%g mm", right->setting_mm);
    }
    hub_scenario_free(&test);
}

Test(hub_bench_property, at_the_reference_every_factor_is_one)
{
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  end_play: 0 mm\n", NULL);
    hub_scenario_assess_uncured(&test);
    for (int row = 0; row < 2; row++)
        for (int i = 0; i < 2; i++)
            cr_expect(near(test.settled.bearings[row].phases[i].setting_factor, 1, 1e-9, 0));
    hub_scenario_free(&test);
}

Test(hub_bench_property, tilted_seats_cost_life_and_tilting_left_costs_as_much_as_right)
{
    static const double tilts_mrad[] = {0, 0.7, 1.4, 2.8};
    double last_h = (double)INFINITY;
    for (size_t i = 0; i < sizeof tilts_mrad / sizeof *tilts_mrad; i++) {
        double lives_h[2];
        for (int side = 0; side < 2; side++) {
            char hub[400];
            snprintf(hub, sizeof hub,
                     HUB_SCENARIO_PLACES "  end_play: 0.02 mm\n"
                                         "  inboard_misalignment: {about_y: %g mrad}\n",
                     side ? -tilts_mrad[i] : tilts_mrad[i]);
            hub_scenario_read(&test, hub, NULL);
            hub_scenario_assess_uncured(&test);
            lives_h[side] = test.assessment.modified_rating_life_h;
            hub_scenario_free(&test);
        }
        cr_expect(near(lives_h[0], lives_h[1], 1e-6, 0), "%g, %g", lives_h[0], lives_h[1]);
        cr_expect_lt(lives_h[0], last_h);
        last_h = lives_h[0];
    }
}

/* Equal rows at equal distances from the wheel load. */
static void assess_twins(int side_percent)
{
    static const char hub[] =
        "  inboard: &row {type: tapered roller, bore: 60 mm, outside_diameter: 110 mm,\n"
        "    width: 23.75 mm, pitch_diameter: 85.5 mm, geometry: {elements: 18,\n"
        "    element_diameter: 12.5 mm, element_length: 14.5 mm, contact_angle: 16 deg}}\n"
        "  outboard: *row\n"
        "  inboard_position: -31 mm\n  outboard_position: 31 mm\n  rolling_radius: 380 mm\n"
        "  laminae: 31\n  end_play: 0.04 mm\n";
    char duty[400];
    snprintf(
        duty, sizeof duty,
        "  - {phase: a, time: 70 %%, speed: 419 rpm, wheel_load: 13 kN, side_share: %d %%,\n"
        "     temperature: 62 degC}\n"
        "  - {phase: b, time: 30 %%, speed: 287 rpm, wheel_load: 9 kN, temperature: 55 degC}\n",
        side_percent);
    hub_scenario_read(&test, hub, duty);
    hub_scenario_assess_uncured(&test);
}

Test(hub_bench_property, a_mirrored_side_force_swaps_the_lives_of_twin_rows)
{
    double lives_h[2][2];
    for (int mirrored = 0; mirrored < 2; mirrored++) {
        assess_twins(mirrored ? -11 : 11);
        for (int row = 0; row < 2; row++)
            lives_h[mirrored][row] = test.assessment.bearings[row].modified_rating_life_h;
        hub_scenario_free(&test);
    }
    cr_expect(near(lives_h[0][0], lives_h[1][1], 1e-6, 0));
    cr_expect(near(lives_h[0][1], lives_h[1][0], 1e-6, 0));
    cr_expect_gt(fabs(log(lives_h[0][0] / lives_h[0][1])), 0.1);
}
