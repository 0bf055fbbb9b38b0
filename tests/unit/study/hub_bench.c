/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Hubs from the scenario text to the lives that are reported, each against the model's own
 * functions called directly. */
#include "spalltime/setting.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>

#include "spalltime/assess.h"
#include "spalltime/reach.h"
#include "spalltime/statistics.h"
#include "support/hub_scenario.h"
#include "support/near.h"

static struct hub_scenario test;

/* L10r of a phase and row by spt_hub_assess, damage averaged over four positions of the cages. */
static double find_l10r(const struct spt_hub *hub, const struct spt_hub_load *load,
                        double setting_mm, int row)
{
    static double workspace[16384];
    struct spt_hub_model model;
    double damage = 0;
    cr_assert_eq(spt_hub_prepare(hub, workspace, 16384, &model), SPT_OK);
    for (int i = 0; i < 4; i++) {
        struct spt_hub_result result;
        if (i)
            spt_hub_turn_cage(&model, 0.25);
        cr_assert_eq(spt_hub_assess(&model, setting_mm, load, NULL, &result), SPT_OK);
        damage += 0.25 / result.life[row].l10r_mrev;
    }
    return 1 / damage;
}

Test(hub_bench, a_scenario_becomes_the_hub_that_it_states)
{
    hub_scenario_read(&test,
                      HUB_SCENARIO_PLACES
                      "  preload: 0.013 mm\n  mounting: face-to-face\n  turning: inner\n"
                      "  outboard_misalignment: {about_x: 1.5 mrad, about_y: -0.1 deg}\n"
                      "  temperature_difference: 8 K\n  setting_scatter: 20 um\n"
                      "  setting_range: {lowest: -0.1 mm, highest: 0.01 in}\n",
                      NULL);
    const struct spt_case *question = &test.scenario.base.question;
    const struct spt_hub_case *hub = question->hub;
    cr_assert_eq(question->bearing_count, 2);
    cr_assert(hub);
    cr_expect_eq(hub->setting_kind, SPT_HUB_SET_PRELOAD);
    cr_expect(near(hub->setting_value, 0.013, 1e-12, 0));
    cr_expect_eq(hub->hub.mounting, SPT_HUB_FACE_TO_FACE);
    cr_expect_eq(hub->hub.turning, SPT_HUB_INNER_TURNS);
    cr_expect_eq(hub->hub.laminae, 31);
    cr_expect(near(hub->hub.rows[0].position_mm, -8, 1e-12, 0));
    cr_expect(near(hub->hub.rows[1].position_mm, 52, 1e-12, 0));
    cr_expect(near(hub->hub.rows[1].misalignment_x_rad, 1.5e-3, 1e-12, 0));
    cr_expect(near(hub->hub.rows[1].misalignment_y_rad, -0.1 * acos(-1.0) / 180, 1e-12, 0));
    cr_expect_eq(hub->hub.rows[0].misalignment_x_rad, 0);
    cr_expect(near(hub->hub.rows[0].geometry.contact_angle_rad, 16 * acos(-1.0) / 180, 1e-12, 0));
    cr_expect_eq(hub->hub.rows[1].dynamic_load_rating_n,
                 question->bearings[1].bearing.dynamic_load_rating_n);
    cr_expect(near(hub->temperature_difference_k, 8, 1e-12, 0));
    cr_expect(near(hub->scatter_mm, 0.02, 1e-12, 0));
    cr_expect(near(hub->highest_mm, 0.254, 1e-12, 0));
    hub_scenario_free(&test);
}

Test(hub_bench, rows_of_one_name_are_told_apart)
{
    hub_scenario_read(&test,
                      "  inboard: &row {name: twin, type: tapered roller, bore: 60 mm,\n"
                      "    outside_diameter: 110 mm, width: 23.75 mm, pitch_diameter: 85.5 mm,\n"
                      "    geometry: {elements: 18, element_diameter: 12.5 mm,\n"
                      "    element_length: 14.5 mm, contact_angle: 16 deg}}\n"
                      "  outboard: *row\n" HUB_SCENARIO_PLACES "  end_play: 0.04 mm\n",
                      NULL);
    cr_expect_str_eq(test.scenario.base.question.bearings[0].bearing.name, "twin, inboard");
    cr_expect_str_eq(test.scenario.base.question.bearings[1].bearing.name, "twin, outboard");
    hub_scenario_free(&test);
}

Test(hub_bench, a_wheel_that_stands_may_carry_nothing)
{
    hub_scenario_read(
        &test, NULL,
        "  - {phase: a, time: 80 %, road_speed: 72 km/h, wheel_load: 13 kN, temperature: 60 degC}\n"
        "  - {phase: b, time: 10 %, speed: 0 rpm, wheel_load: 0 kN, temperature: 20 degC}\n"
        "  - {phase: c, time: 10 %, road_speed: 0 km/h, wheel_load: 0 kN, temperature: 20 degC}\n");
    for (int i = 1; i < 3; i++) {
        cr_expect_eq(test.scenario.base.question.bearings[0].phases[i].speed_rpm, 0);
        cr_expect_eq(test.scenario.base.question.hub->wheels[i].radial_n, 0);
    }
    hub_scenario_free(&test);
}

Test(hub_bench, road_speed_and_side_share_become_rpm_and_newton)
{
    hub_scenario_read(&test, NULL,
                      "  - {phase: a, time: 50 %, road_speed: 72 km/h, wheel_load: 13 kN,\n"
                      "     side_share: 12 %, temperature: 60 degC}\n"
                      "  - {phase: b, time: 50 %, road_speed: 10 m/s, wheel_load: 11 kN,\n"
                      "     side_force: -700 N, temperature: 60 degC}\n");
    const struct spt_case *question = &test.scenario.base.question;
    /* 20 m/s and 10 m/s on a circumference of 2 pi 0.38 m */
    double rpm = 20 / (2 * acos(-1.0) * 0.38) * 60;
    cr_expect(near(question->bearings[0].phases[0].speed_rpm, rpm, 1e-12, 0));
    cr_expect(near(question->bearings[1].phases[1].speed_rpm, rpm / 2, 1e-12, 0));
    cr_expect(near(question->hub->wheels[0].side_n, 0.12 * 13000, 1e-12, 0));
    cr_expect(near(question->hub->wheels[1].side_n, -700, 1e-12, 0));
    cr_expect(near(question->hub->wheels[1].rolling_radius_mm, 380, 1e-12, 0));
    hub_scenario_free(&test);
}

/* Statics by hand about the load centres: z - (D_pw/2) tan alpha inboard, + outboard. */
Test(hub_bench, rows_share_the_wheel_loads_by_statics_and_induced_thrust)
{
    hub_scenario_read(&test, NULL, NULL);
    const struct spt_case *question = &test.scenario.base.question;
    double degree = acos(-1.0) / 180;
    double in_mm = -8 - 85.5 / 2 * tan(16 * degree), out_mm = 52 + 65.5 / 2 * tan(12 * degree);
    double side_n = -0.15 * 15000, moment_nmm = side_n * 380;
    /* the side force at the road tilts the wheel: its moment over the span of the centres */
    double out_n = (15000 * (0 - in_mm) + moment_nmm) / (out_mm - in_mm);
    double in_n = 15000 - out_n;
    const struct spt_phase *in = &question->bearings[0].phases[1];
    const struct spt_phase *out = &question->bearings[1].phases[1];
    cr_expect(near(out->radial_load_n, fabs(out_n), 1e-9, 0), "%g", out->radial_load_n);
    cr_expect(near(in->radial_load_n, fabs(in_n), 1e-9, 0), "%g", in->radial_load_n);
    double induced_in = 0.5 * fabs(in_n) / (0.4 / tan(16 * degree));
    double induced_out = 0.5 * fabs(out_n) / (0.4 / tan(12 * degree));
    cr_assert_gt(induced_in, induced_out + fabs(side_n));
    /* the inboard row's own thrust wins: the outboard one gets what is left of it */
    cr_expect(near(in->axial_load_n, induced_in, 1e-9, 0));
    cr_expect(near(out->axial_load_n, induced_in - fabs(side_n), 1e-9, 0),
              "%g, not %g: the side force pushes the hub towards the vehicle", out->axial_load_n,
              induced_in - fabs(side_n));
    hub_scenario_free(&test);
}

Test(hub_bench, setting_factors_are_ratios_of_l10r)
{
    hub_scenario_read(&test,
                      HUB_SCENARIO_PLACES "  end_play: 0.062 mm\n"
                                          "  inboard_misalignment: {about_x: 1 mrad}\n",
                      NULL);
    hub_scenario_assess(&test);
    struct spt_hub aligned = test.scenario.base.question.hub->hub;
    aligned.rows[0].misalignment_x_rad = 0;
    for (int i = 0; i < 2; i++)
        for (int row = 0; row < 2; row++) {
            const struct spt_hub_case *hub = test.scenario.base.question.hub;
            struct spt_hub_load load = spt_hub_wheel_load(&hub->wheels[i]);
            double want =
                find_l10r(&hub->hub, &load, 0.062, row) / find_l10r(&aligned, &load, 0, row);
            double got = test.settled.bearings[row].phases[i].setting_factor;
            cr_expect(near(got, want, 1e-6, 0), "phase %d row %d: %.9g, not %.9g", i, row, got,
                      want);
            double cured = find_l10r(&aligned, &load, test.bench.cured_mm, row) /
                           find_l10r(&aligned, &load, 0, row);
            cr_expect(
                near(test.settled.bearings[row].phases[i].cured_setting_factor, cured, 1e-6, 0));
        }
    hub_scenario_free(&test);
}

Test(hub_bench, reported_lives_are_the_handbook_ones_times_the_factors)
{
    hub_scenario_read(&test, NULL, NULL);
    hub_scenario_assess(&test);
    struct spt_phase_result plain[2];
    struct spt_bearing_result result;
    for (int row = 0; row < 2; row++) {
        cr_assert_eq(spt_assess_bearing(&test.scenario.base.question, row, 0, plain, &result),
                     SPT_OK);
        for (int i = 0; i < 2; i++)
            cr_expect(near(test.assessment.bearings[row].phases[i].modified_rating_life_h,
                           plain[i].modified_rating_life_h *
                               test.settled.bearings[row].phases[i].setting_factor,
                           1e-12, 0));
    }
    hub_scenario_free(&test);
}

Test(hub_bench, distribution_is_that_of_the_model_called_directly)
{
    static struct spt_hub_phase_answer phases[2];
    static double workspace[16384];
    struct spt_hub_answer answer;
    struct spt_hub_model model;
    struct spt_hub_failure failure;
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  preload: 0.01 mm\n", NULL);
    hub_scenario_assess(&test);
    cr_assert_eq(spt_hub_answer(&test.bench, &test.assessment, phases, &answer, &failure), SPT_OK);
    const struct spt_hub_case *hub = test.scenario.base.question.hub;
    cr_assert_eq(spt_hub_prepare(&hub->hub, workspace, 16384, &model), SPT_OK);
    for (int i = 0; i < 2; i++) {
        struct spt_hub_load load = spt_hub_wheel_load(&hub->wheels[i]);
        struct spt_hub_lubrication lubrication[2];
        struct spt_hub_result result;
        for (int row = 0; row < 2; row++) {
            const struct spt_phase_result *r = &test.assessment.bearings[row].phases[i];
            lubrication[row] =
                (struct spt_hub_lubrication){r->contamination_factor, r->effective_viscosity_ratio};
        }
        cr_assert_eq(spt_hub_assess(&model, -0.01, &load, lubrication, &result), SPT_OK);
        cr_expect_leq(phases[i].solution.residual_n, phases[i].solution.allowed_n);
        for (int row = 0; row < 2; row++) {
            const struct spt_phase_result *r = &test.assessment.bearings[row].phases[i];
            const struct spt_hub_row_answer *got = &phases[i].rows[row];
            double hours = 1e6 / (60 * r->phase->speed_rpm);
            cr_expect(near(got->l10r_h, result.life[row].l10r_mrev * hours, 1e-9, 0));
            cr_expect(near(got->relative_factor, result.life[row].relative_factor, 1e-9, 0));
            cr_expect(
                near(got->relative_life_h, result.life[row].relative_life_mrev * hours, 1e-9, 0));
            cr_expect(near(got->modified_reference_h,
                           r->water_factor * result.life[row].modified_mrev * hours, 1e-9, 0));
            cr_expect(near(got->contact.max_roller_load_n, result.contact[row].max_roller_load_n,
                           1e-9, 0));
            cr_expect(near(got->handbook_life_h * got->setting_factor, r->modified_rating_life_h,
                           1e-12, 0));
        }
        cr_expect(near(answer.preload_n, result.preload_n, 1e-9, 0));
    }
    hub_scenario_free(&test);
}

Test(hub_bench, curve_at_the_setting_of_the_file_is_the_life_that_is_reported)
{
    static struct spt_hub_curve curve;
    struct spt_hub_failure failure;
    hub_scenario_read(&test,
                      HUB_SCENARIO_PLACES "  end_play: 0.071 mm\n  temperature_difference: 9 K\n"
                                          "  setting_scatter: 0.02 mm\n",
                      NULL);
    hub_scenario_assess(&test);
    cr_assert_eq(spt_hub_curve(&test.bench, &test.assessment, &curve, &failure), SPT_OK);
    cr_expect(curve.modified);
    cr_expect(near(curve.study.asked.setting_mm, 0.071, 1e-12, 0));
    cr_expect(near(curve.study.asked.life_h, test.assessment.modified_rating_life_h, 1e-7, 0),
              "%.9g, not %.9g", curve.study.asked.life_h, test.assessment.modified_rating_life_h);
    for (int row = 0; row < 2; row++)
        cr_expect(near(curve.study.asked.row_h[row],
                       test.assessment.bearings[row].modified_rating_life_h, 1e-7, 0));
    cr_expect(near(curve.points[0].setting_mm, SPT_HUB_SEARCH_LOW_MM, 1e-12, 0));
    for (int i = 0; i < SPT_HUB_CURVE_POINTS; i++) {
        cr_expect_leq(curve.points[i].relative, 1 + 1e-9);
        cr_expect_gt(curve.reference_h[i], 0);
    }
    /* aligned rings, so the cure of the loss is the best setting of the curve without preload,
     * which here is the tightest: two deviations above it, as the aim, for the settings scatter */
    cr_expect(near(test.bench.cured_mm, curve.study.advised.setting_mm + 2 * 0.02, 0, 1e-6));
    cr_expect(near(test.bench.cured_mm, curve.study.aim_mm, 0, 1e-6));
    cr_expect_geq(curve.study.aim_mrev, curve.study.expected_mrev);
    hub_scenario_free(&test);
}

Test(hub_bench, temperature_moves_the_curve_and_a_force_finds_its_setting)
{
    double change_mm, force_n;
    hub_scenario_read(
        &test, HUB_SCENARIO_PLACES "  preload_force: 1.7 kN\n  temperature_difference: -6 K\n",
        NULL);
    hub_scenario_assess(&test);
    cr_expect_lt(test.bench.mounted_mm, 0);
    cr_assert_eq(spt_hub_preload_force(&test.bench.model, test.bench.mounted_mm, &force_n), SPT_OK);
    cr_expect(near(force_n, 1700, 1e-6, 0));
    cr_assert_eq(spt_hub_thermal_setting(&test.scenario.base.question.hub->hub,
                                         SPT_HUB_STEEL_EXPANSION_K, -6, &change_mm),
                 SPT_OK);
    cr_expect_gt(change_mm, 0);
    cr_expect(near(test.bench.thermal_mm, change_mm, 1e-12, 0));
    hub_scenario_free(&test);
}

Test(hub_bench, phases_that_stand_still_have_factor_one_and_nothing_to_judge)
{
    static struct spt_hub_curve curve;
    struct spt_hub_failure failure;
    hub_scenario_read(&test, NULL,
                      "  - {phase: parked, time: 100 %, speed: 0 rpm, wheel_load: 13 kN,\n"
                      "     temperature: 20 degC}\n");
    hub_scenario_assess(&test);
    cr_expect_eq(test.settled.bearings[0].phases[0].setting_factor, 1);
    cr_expect(isnan(test.bench.cured_mm));
    cr_expect_eq(spt_hub_curve(&test.bench, &test.assessment, &curve, &failure),
                 SPT_NOT_APPLICABLE);
    cr_expect_eq(failure.step, SPT_HUB_STEP_LIVES);
    hub_scenario_free(&test);
}

Test(hub_bench, a_force_beyond_the_model_says_so)
{
    struct spt_hub_failure failure;
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  preload_force: 1000 MN\n", NULL);
    cr_expect_eq(spt_hub_settle(&test.scenario.base.question, &test.workspace, true, &test.bench,
                                &test.settled, &failure),
                 SPT_NOT_APPLICABLE);
    cr_expect_eq(failure.step, SPT_HUB_STEP_FORCE);
    hub_scenario_free(&test);
}

Test(hub_bench, end_play_reaches_the_target_and_no_farther)
{
    struct spt_phase phases[4];
    struct spt_phase_result results[4];
    struct spt_reach reach;
    double life_h;
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  end_play: 0.3 mm\n", NULL);
    hub_scenario_assess(&test);
    const struct spt_reach_workspace workspace = {phases, results, &test.bench};
    double target_h = 1.3 * test.assessment.modified_rating_life_h;
    cr_assert_eq(spt_reach(&test.settled, target_h, &workspace, &reach), SPT_OK);
    const struct spt_lever_result *lever = &reach.levers[SPT_LEVER_END_PLAY];
    cr_assert_eq(lever->outcome, SPT_LEVER_REACHES);
    cr_expect(near(lever->present, 0.3, 1e-12, 0));
    cr_expect_lt(lever->value, 0.3);
    cr_expect(near(lever->life_h, target_h, 1e-6, 0));
    cr_assert_eq(spt_reach_life(&test.settled, SPT_LEVER_END_PLAY, lever->value + 0.001, false,
                                &workspace, &life_h),
                 SPT_OK);
    cr_expect_lt(life_h, target_h);
    target_h = 0.9 * test.assessment.modified_rating_life_h;
    cr_assert_eq(spt_reach(&test.settled, target_h, &workspace, &reach), SPT_OK);
    cr_expect_gt(lever->value, 0.3, "slipping goes away from the best setting");
    cr_expect(near(lever->life_h, target_h, 1e-6, 0));
    hub_scenario_free(&test);
}

/* Bends that load the small row so that rigid rings last longest with 0.05 mm preload or more. */
#define STEEP_DUTY                                                                                 \
    "  - {phase: bend, time: 100 %, speed: 287 rpm, wheel_load: 26 kN, side_share: 20 %,\n"        \
    "     temperature: 55 degC}\n"

/* Life of the duty with aligned rings, which the cure has to beat. */
static double find_aligned_life(double mounted_mm)
{
    struct spt_setting_duty duty = spt_hub_bench_duty(&test.bench);
    struct spt_setting_point point;
    cr_assert_eq(spt_setting_life(&test.bench.aligned, &duty, mounted_mm + test.bench.thermal_mm,
                                  NULL, &point, NULL),
                 SPT_OK);
    return point.life_mrev;
}

Test(hub_bench, no_cure_is_a_preload_cold_or_running)
{
    static const double warmer_k[] = {0, 9, -9};
    for (int i = 0; i < 3; i++) {
        char hub[400];
        snprintf(hub, sizeof hub,
                 HUB_SCENARIO_PLACES "  end_play: 0.1 mm\n  temperature_difference: %g K\n",
                 warmer_k[i]);
        hub_scenario_read(&test, hub, STEEP_DUTY);
        hub_scenario_assess(&test);
        double cured_mm = test.bench.cured_mm;
        cr_expect_geq(cured_mm, 0, "%g K: %g", warmer_k[i], cured_mm);
        cr_expect_geq(cured_mm + test.bench.thermal_mm, -1e-12, "%g K", warmer_k[i]);
        cr_expect_not(test.bench.cure_keeps);
        /* nothing off preload lasts longer, while preload would */
        double cured_mrev = find_aligned_life(cured_mm);
        for (double more_mm = 0; more_mm < 0.3; more_mm += 0.0137)
            cr_expect_leq(find_aligned_life(spt_hub_bench_least(&test.bench) + more_mm),
                          cured_mrev * (1 + 1e-9));
        cr_expect_gt(find_aligned_life(cured_mm - 0.04), cured_mrev);
        cr_expect_eq(test.settled.setting.preload_mm, 0);
        cr_expect_eq(test.settled.setting.cured_preload_mm, 0);
        cr_expect(near(test.settled.setting.offset_mm, 0.1 - cured_mm, 0, 1e-12));
        cr_expect_not(spt_notes_has(&test.assessment.notes, SPT_FLAG_PRELOAD));
        cr_expect_not(spt_notes_has(&test.assessment.notes, SPT_FLAG_PRELOAD_CURE));
        hub_scenario_free(&test);
    }
}

/* Two deviations above the least, so that about 2 % of the hubs set so are preloaded. */
Test(hub_bench, a_cure_keeps_a_stated_scatter_off_preload)
{
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  end_play: 0.1 mm\n  setting_scatter: 0.02 mm\n",
                      STEEP_DUTY);
    hub_scenario_assess(&test);
    cr_expect(near(test.bench.cured_mm, 0.04, 0, 1e-6), "%g", test.bench.cured_mm);
    cr_expect(near(test.settled.setting.offset_mm, 0.06, 0, 1e-6));
    hub_scenario_free(&test);
    /* tighter than that, but not preloaded: fatigue would have it so, and it stays */
    hub_scenario_read(
        &test, HUB_SCENARIO_PLACES "  end_play: 0.03 mm\n  setting_scatter: 0.02 mm\n", STEEP_DUTY);
    hub_scenario_assess(&test);
    cr_expect(test.bench.cure_keeps);
    cr_expect_not(spt_notes_has(&test.assessment.notes, SPT_FLAG_PRELOAD));
    hub_scenario_free(&test);
}

/* 0.005 in: common practice, no source. */
Test(hub_bench, more_end_play_than_practice_allows_is_flagged)
{
    static const double plays_mm[] = {0.126, 0.128};
    for (int i = 0; i < 2; i++) {
        char hub[400];
        snprintf(hub, sizeof hub, HUB_SCENARIO_PLACES "  end_play: %g mm\n", plays_mm[i]);
        hub_scenario_read(&test, hub, NULL);
        hub_scenario_assess(&test);
        cr_expect_eq(spt_notes_has(&test.assessment.notes, SPT_FLAG_END_PLAY), i == 1);
        hub_scenario_free(&test);
    }
}

/* A remedy of the hub is that remedy in both rows: at its life their survivals multiply to 90 %. */
Test(hub_bench, a_remedy_of_the_hub_is_the_system_of_its_remedied_rows)
{
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  end_play: 0.1 mm\n", NULL);
    hub_scenario_assess(&test);
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++) {
        double product = 1, survival;
        for (int row = 0; row < 2; row++) {
            const struct spt_bearing_result *bearing = &test.assessment.bearings[row];
            const struct spt_life_law law = spt_survival_iso_law(
                bearing->loss.causes[cause].applies ? bearing->loss.causes[cause].life_if_cured_h
                                                    : bearing->modified_rating_life_h);
            cr_assert_eq(spt_survival_fatigue(&law, test.assessment.cured_life_h[cause], &survival),
                         SPT_OK);
            product *= survival;
        }
        cr_expect(near(product, 0.9, 1e-12, 0), "%s: %.15g", spt_cause_name((enum spt_cause)cause),
                  product);
    }
    cr_expect_gt(test.assessment.cured_life_h[SPT_CAUSE_SETTING],
                 test.assessment.modified_rating_life_h);
    hub_scenario_free(&test);
}

Test(hub_bench, a_preload_that_is_allowed_may_be_the_cure_and_is_flagged)
{
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  end_play: 0.1 mm\n  preload_allowed: yes\n",
                      STEEP_DUTY);
    hub_scenario_assess(&test);
    cr_expect_lt(test.bench.cured_mm, -0.04);
    cr_expect(near(test.settled.setting.cured_preload_mm, -test.bench.cured_mm, 1e-12, 0));
    cr_expect_not(spt_notes_has(&test.assessment.notes, SPT_FLAG_PRELOAD));
    cr_expect(spt_notes_has(&test.assessment.notes, SPT_FLAG_PRELOAD_CURE));
    hub_scenario_free(&test);
}

/* A preload near the optimum of rigid rings outlasts every setting without: the cure cannot take it
 * away as a remedy, so the cause costs nothing, and the flag speaks. */
Test(hub_bench, a_hub_that_lasts_longer_preloaded_keeps_its_setting_and_is_flagged)
{
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  preload: 0.04 mm\n", STEEP_DUTY);
    hub_scenario_assess(&test);
    cr_expect(test.bench.cure_keeps);
    cr_expect_geq(test.bench.cured_mm, 0);
    cr_expect_gt(find_aligned_life(-0.04), find_aligned_life(test.bench.cured_mm));
    for (int row = 0; row < 2; row++) {
        const struct spt_phase *phase = &test.settled.bearings[row].phases[0];
        cr_expect(near(phase->cured_setting_factor, phase->setting_factor, 1e-9, 0));
        cr_expect_not(test.assessment.bearings[row].loss.causes[SPT_CAUSE_SETTING].applies);
    }
    cr_expect(near(test.settled.setting.preload_mm, 0.04, 1e-12, 0));
    cr_expect_eq(test.settled.setting.offset_mm, 0);
    cr_expect(spt_notes_has(&test.assessment.notes, SPT_FLAG_PRELOAD));
    hub_scenario_free(&test);
}

Test(hub_bench, heat_that_closes_a_hub_up_preloads_it)
{
    hub_scenario_read(
        &test, HUB_SCENARIO_PLACES "  end_play: 0.01 mm\n  temperature_difference: 20 K\n", NULL);
    hub_scenario_assess(&test);
    cr_assert_lt(test.bench.thermal_mm, -0.02);
    cr_expect(near(test.settled.setting.preload_mm, -0.01 - test.bench.thermal_mm, 1e-12, 0));
    cr_expect(near(spt_hub_bench_least(&test.bench), -test.bench.thermal_mm, 1e-12, 0));
    cr_expect_eq(spt_hub_bench_preload(&test.bench, -test.bench.thermal_mm - 2e-5), 0);
    cr_expect(spt_notes_has(&test.assessment.notes, SPT_FLAG_PRELOAD));
    hub_scenario_free(&test);
}

Test(hub_bench, a_range_of_preloads_alone_holds_no_cure)
{
    double best_mm = 0;
    hub_scenario_read(&test,
                      HUB_SCENARIO_PLACES "  end_play: 0.1 mm\n"
                                          "  setting_range: {lowest: -0.2 mm, highest: -0.05 mm}\n",
                      NULL);
    hub_scenario_assess(&test);
    cr_expect(isnan(test.bench.cured_mm) && test.bench.cure_keeps);
    cr_expect_eq(
        spt_hub_bench_best(&test.bench, false, spt_hub_bench_least(&test.bench), &best_mm, NULL),
        SPT_OK);
    cr_expect(isnan(best_mm));
    hub_scenario_free(&test);
}

/* What `reach` wants of the end play for a target, or how far it lets it slip. */
static struct spt_lever_result ask_end_play(const char *setting, double times)
{
    struct spt_phase phases[2];
    struct spt_phase_result results[2];
    struct spt_reach reach;
    char hub[400];
    snprintf(hub, sizeof hub, HUB_SCENARIO_PLACES "%s", setting);
    hub_scenario_read(&test, hub, STEEP_DUTY);
    hub_scenario_assess(&test);
    const struct spt_reach_workspace workspace = {phases, results, &test.bench};
    cr_assert_eq(spt_reach(&test.settled, times * test.assessment.modified_rating_life_h,
                           &workspace, &reach),
                 SPT_OK);
    hub_scenario_free(&test);
    return reach.levers[SPT_LEVER_END_PLAY];
}

Test(hub_bench, reach_wants_no_preload)
{
    struct spt_lever_result lever = ask_end_play("  end_play: 0.1 mm\n", 50);
    cr_expect_eq(lever.outcome, SPT_LEVER_CANNOT);
    cr_expect_eq(lever.value, 0, "%g", lever.value);
    lever = ask_end_play("  end_play: 0.1 mm\n  preload_allowed: yes\n", 50);
    cr_expect_eq(lever.outcome, SPT_LEVER_CANNOT);
    cr_expect_lt(lever.value, -0.04);
    cr_expect(spt_notes_has(&lever.notes, SPT_FLAG_PRELOAD));
    /* far too tight: off preload it lasts longer, though a lesser preload would do */
    lever = ask_end_play("  preload: 0.2 mm\n", 1.01);
    cr_expect_eq(lever.outcome, SPT_LEVER_REACHES);
    cr_expect_eq(lever.value, 0, "%g", lever.value);
    cr_expect_eq(lever.notes.count, 0);
    /* reached: play slips towards more play, preload towards more preload */
    lever = ask_end_play("  end_play: 0 mm\n", 0.9);
    cr_expect_gt(lever.value, 0);
    lever = ask_end_play("  preload: 0.1 mm\n", 0.9);
    cr_expect_lt(lever.value, -0.1);
}

Test(hub_bench, reach_keeps_a_scatter_off_preload_only_as_a_remedy)
{
    struct spt_lever_result lever =
        ask_end_play("  end_play: 0.1 mm\n  setting_scatter: 0.02 mm\n", 50);
    cr_expect_eq(lever.outcome, SPT_LEVER_CANNOT);
    cr_expect(near(lever.value, 0.04, 0, 1e-6), "%g", lever.value);
    /* tighter than that is better by fatigue, so there is no remedy but to leave it */
    lever = ask_end_play("  end_play: 0.03 mm\n  setting_scatter: 0.02 mm\n", 50);
    cr_expect_eq(lever.outcome, SPT_LEVER_CANNOT);
    cr_expect(near(lever.value, 0.03, 1e-12, 0), "%g", lever.value);
    /* what slips slips to the play side, and is told when it is loose */
    lever = ask_end_play("  end_play: 0.03 mm\n  setting_scatter: 0.02 mm\n", 0.3);
    cr_expect_gt(lever.value, 0.128);
    cr_expect(spt_notes_has(&lever.notes, SPT_FLAG_END_PLAY));
}

/* A load that slips by a factor is the hub with every wheel load written that much larger. */
Test(hub_bench, the_lever_load_solves_the_hub_at_each_load)
{
    static struct hub_scenario loaded;
    struct spt_phase phases[4];
    struct spt_phase_result results[4];
    static const char heavier[] =
        "  - {phase: straight, time: 90 %, speed: 419 rpm, wheel_load: 23.4 kN, "
        "temperature: 62 degC}\n"
        "  - {phase: bend, time: 10 %, speed: 287 rpm, wheel_load: 27 kN, side_share: -15 %,\n"
        "     temperature: 55 degC}\n";
    hub_scenario_read(&test, NULL, NULL);
    hub_scenario_assess(&test);
    hub_scenario_read(&loaded, NULL, heavier);
    hub_scenario_assess(&loaded);
    const struct spt_reach_workspace workspace = {phases, results, &test.bench};
    double life_h = 0, again_h = 0;
    for (int row = 0; row < 2; row++) /* else keeping the factors would do */
        cr_assert(fabs(loaded.results[2 * row].phase->setting_factor -
                       test.results[2 * row].phase->setting_factor) > 0.01);
    cr_assert_eq(spt_reach_life(&test.settled, SPT_LEVER_LOAD, 1.8, true, &workspace, &life_h),
                 SPT_OK);
    cr_expect(near(life_h, loaded.assessment.modified_rating_life_h, 1e-9, 0), "%.10g %.10g",
              life_h, loaded.assessment.modified_rating_life_h);
    cr_assert_eq(spt_reach_life(&test.settled, SPT_LEVER_LOAD, 1, true, &workspace, &again_h),
                 SPT_OK);
    cr_expect(near(again_h, test.assessment.modified_rating_life_h, 1e-9, 0));
    hub_scenario_free(&test);
    hub_scenario_free(&loaded);
}
