/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/curve/load_zone.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>

#include "spalltime/hub.h"
#include "support/hub_scenario.h"
#include "support/near.h"

#define PI 3.14159265358979323846
#define PHASES 5

/* Two equal rows of many thin rollers on both sides of the wheel load. */
static const char even_hub[] =
    "  inboard_position: -30 mm\n  outboard_position: 30 mm\n  rolling_radius: 380 mm\n"
    "  laminae: 31\n  end_play: 0 mm\n"
    "  inboard: {name: left row, type: tapered roller, bore: 60 mm, outside_diameter: 110 mm,\n"
    "    width: 23.75 mm, pitch_diameter: 85.5 mm, geometry: {elements: 95,\n"
    "    element_diameter: 2.6 mm, element_length: 14.5 mm, contact_angle: 16 deg}}\n"
    "  outboard: {name: right row, type: tapered roller, bore: 60 mm, outside_diameter: 110 mm,\n"
    "    width: 23.75 mm, pitch_diameter: 85.5 mm, geometry: {elements: 95,\n"
    "    element_diameter: 2.6 mm, element_length: 14.5 mm, contact_angle: 16 deg}}\n";
static const char heavy_phase[] =
    "  - {phase: straight, time: 100 %, speed: 419 rpm, wheel_load: 90 kN, temperature: 62 degC}\n";

static const char light_phase[] =
    "  - {phase: straight, time: 100 %, speed: 419 rpm, wheel_load: 13 kN, temperature: 62 degC}\n";

static double *find_zones(struct hub_scenario *test, const char *hub, const char *duty,
                          struct spt_load_zones *zones)
{
    hub_scenario_read(test, hub, duty);
    hub_scenario_assess(test);
    double *buffer =
        malloc(spt_load_zones_length(test->scenario.base.question.hub) * sizeof *buffer);
    cr_assert(buffer);
    cr_assert_eq(spt_load_zones(&test->bench, &test->assessment, buffer, zones), SPT_OK);
    return buffer;
}

/* Sum of the radial parts of the roller loads of a row, upwards. */
static double sum_up(const struct spt_load_zone_row *row, double contact_angle_rad)
{
    double sum_n = 0;
    for (int i = 0; i < row->roller_count; i++)
        sum_n += row->load_n[i] * cos(contact_angle_rad) * sin(row->angle_rad[i]);
    return sum_n;
}

/* Without end play and thrust each row carries half the wheel load over half its rollers. */
Test(load_zone, half_a_zone_has_the_load_of_the_textbooks)
{
    struct hub_scenario test;
    struct spt_load_zones zones;
    struct spt_sjoevall half;
    double *buffer = find_zones(&test, even_hub, heavy_phase, &zones);
    double angle_rad = 16 * PI / 180, radial_n = 45000;
    cr_assert_eq(spt_sjoevall(0.5, 10.0 / 9, &half), SPT_OK);
    for (int i = 0; i < 2; i++) {
        const struct spt_load_zone_row *row = &zones.zones[0].rows[i];
        double factor =
            row->contact.max_roller_load_n * row->roller_count * cos(angle_rad) / radial_n;
        /* Stribeck's number for rollers at zero clearance, 4.08 (textbooks, made with n = 1.1); the
         * profile of the rollers makes the contact a little stiffer as it is pressed: 2 % */
        cr_expect(near(factor, 4.08, 0.02, 0), "Q_max Z cos a/F_r: %g", factor);
        /* Sjoevall's integral with the model's own n = 10/9 */
        cr_expect(near(factor, 1 / half.radial, 0.02, 0), "%g against %g", factor, 1 / half.radial);
        cr_expect(near(row->contact.zone_deg, 180, 0, 2.5), "%g", row->contact.zone_deg);
        cr_expect(near(sum_up(row, angle_rad), -radial_n, 1e-6, 0), "%g", sum_up(row, angle_rad));
    }
    cr_expect(near(zones.highest_n, zones.zones[0].rows[0].contact.max_roller_load_n, 1e-6, 0));
    free(buffer);
    hub_scenario_free(&test);
}

Test(load_zone, rollers_balance_the_reactions_that_the_answer_states)
{
    struct hub_scenario test;
    struct spt_load_zones zones;
    struct spt_hub_phase_answer phases[2];
    struct spt_hub_answer answer;
    double *buffer = find_zones(&test, NULL, NULL, &zones);
    static const double angles_rad[2] = {16 * PI / 180, 12 * PI / 180};
    cr_assert_eq(spt_hub_answer(&test.bench, &test.assessment, phases, &answer, NULL), SPT_OK);
    cr_assert_eq(zones.count, 2);
    cr_expect_eq(zones.setting_mm, answer.setting_mm);
    for (int i = 0; i < 2; i++)
        for (int row = 0; row < 2; row++) {
            const struct spt_load_zone_row *zone = &zones.zones[i].rows[row];
            const struct spt_hub_row_answer *stated = &phases[i].rows[row];
            double axial_n = 0, most_n = 0;
            for (int k = 0; k < zone->roller_count; k++) {
                axial_n += zone->load_n[k] * sin(angles_rad[row]);
                most_n = fmax(most_n, zone->load_n[k]);
            }
            cr_expect_eq(zone->contact.zone_deg, stated->contact.zone_deg);
            cr_expect_eq(zone->contact.max_roller_load_n, stated->contact.max_roller_load_n);
            cr_expect_eq(most_n, stated->contact.max_roller_load_n);
            cr_expect(near(fabs(sum_up(zone, angles_rad[row])), stated->radial_n, 1e-6, 0));
            cr_expect(near(axial_n, fabs(stated->axial_n), 1e-6, 0));
        }
    free(buffer);
    hub_scenario_free(&test);
}

Test(load_zone, a_preloaded_hub_is_loaded_all_around)
{
    struct hub_scenario test;
    struct spt_load_zones zones;
    double *buffer =
        find_zones(&test, HUB_SCENARIO_PLACES "  preload: 0.08 mm\n", light_phase, &zones);
    for (int row = 0; row < 2; row++) {
        const struct spt_load_zone_row *zone = &zones.zones[0].rows[row];
        cr_expect(near(zone->contact.zone_deg, 360, 1e-12, 0), "%g", zone->contact.zone_deg);
        cr_expect_eq(zone->contact.loaded_rollers, zone->roller_count);
    }
    free(buffer);
    hub_scenario_free(&test);
}

Test(load_zone, a_long_duty_keeps_the_phases_that_cost_most_in_its_order)
{
    static const char duty[] =
        "  - {phase: a, time: 5 %, speed: 419 rpm, wheel_load: 6 kN, temperature: 62 degC}\n"
        "  - {phase: b, time: 40 %, speed: 419 rpm, wheel_load: 17 kN, temperature: 62 degC}\n"
        "  - {phase: c, time: 10 %, speed: 419 rpm, wheel_load: 9 kN, temperature: 62 degC}\n"
        "  - {phase: d, time: 25 %, speed: 419 rpm, wheel_load: 19 kN, temperature: 62 degC}\n"
        "  - {phase: e, time: 20 %, speed: 419 rpm, wheel_load: 13 kN, temperature: 62 degC}\n";
    static const int wanted[SPT_LOAD_ZONES_MAX] = {1, 3, 4};
    struct hub_scenario test;
    struct spt_load_zones zones;
    double *buffer = find_zones(&test, NULL, duty, &zones);
    cr_assert_eq(zones.count, SPT_LOAD_ZONES_MAX);
    cr_expect_eq(zones.phase_count, PHASES);
    for (int i = 0; i < SPT_LOAD_ZONES_MAX; i++)
        cr_expect_eq(zones.zones[i].phase, wanted[i], "%d: %d", i, zones.zones[i].phase);
    cr_expect_eq(zones.highest_n, fmax(zones.zones[1].rows[0].contact.max_roller_load_n,
                                       zones.zones[1].rows[1].contact.max_roller_load_n));
    free(buffer);
    hub_scenario_free(&test);
}
