/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/scenario.h"
#include "support/near.h"

#define ROWS                                                                                        \
    "  inboard: {type: tapered roller, d: 60 mm, D: 110 mm, T: 29.75 mm, C: 126.5 kN, C0: 167 kN, " \
    "e: 0.40, Y: 1.5, a: 22 mm}\n"                                                                  \
    "  outboard: {type: tapered roller, d: 45 mm, D: 85 mm, T: 20.75 mm, C: 76 kN, C0: 85 kN, "     \
    "e: 0.37, Y: 1.62, a: 17 mm}\n"
#define SHOULDERS "  inboard_shoulder: -20 mm\n  outboard_shoulder: 50 mm\n"

static void load_hub(const char *rows, const char *places, struct spt_scenario *scenario,
                     struct spt_diagnostics *diags)
{
    char text[2500];
    snprintf(text, sizeof text,
             "title: hub\nhub:\n%s%s  rolling_radius: 520 mm\n  end_play: 0.05 mm\n"
             "lubricant: {kind: grease, viscosity_40: 150 mm2/s, viscosity_100: 14.5 mm2/s}\n"
             "condition: {cleanliness: normal}\nduty:\n"
             "  - {phase: right wheel, time: 50 %%, road_speed: 30 km/h, wheel_load: 26760.54 N, "
             "side_force: -3158.35 N, temperature: 60 degC}\n"
             "  - {phase: left wheel, time: 50 %%, road_speed: 30 km/h, wheel_load: 18350.05 N, "
             "side_force: 2165.72 N, temperature: 60 degC}\n",
             rows, places);
    const struct spt_source source = {"hub.yaml", text, strlen(text)};
    spt_scenario_load(&source, NULL, scenario, diags);
}

/* A bend of a trailer on two axles, worked out by an independent program (recomputed, no outside
 * authority); its wheel loads are rounded to 0.01 N, which the lever makes 0.02. */
Test(sheet_hub, rows_share_the_loads_through_the_load_centres_of_their_sheets)
{
    static const double radial_n[2][2] = {{31516.51, 947.50}, {4755.96, 17402.55}};
    static const double axial_n[2][2] = {{10505.50, 3205.43}, {7347.15, 5371.16}};
    static const double equivalent_n[2][2] = {{31516.51, 5187.15}, {13804.77, 17402.55}};
    struct spt_scenario scenario;
    struct spt_diagnostics diags = {0};
    load_hub(ROWS, SHOULDERS, &scenario, &diags);
    cr_assert(!diags.count, "%s", diags.list[0].text);
    const struct spt_case *question = &scenario.base.question;
    cr_assert(question->sheet_hub && !question->hub && question->bearing_count == 2);
    for (int row = 0; row < 2; row++)
        for (int i = 0; i < 2; i++) {
            const struct spt_bearing_case *part = &question->bearings[row];
            struct spt_equivalent_load load;
            cr_expect(near(part->phases[i].radial_load_n, radial_n[row][i], 0, 0.03), "%.9g",
                      part->phases[i].radial_load_n);
            cr_expect(near(part->phases[i].axial_load_n, axial_n[row][i], 0, 0.03), "%.9g",
                      part->phases[i].axial_load_n);
            cr_assert_eq(spt_load_equivalent(&part->bearing, part->phases[i].radial_load_n,
                                             part->phases[i].axial_load_n, &load, NULL),
                         SPT_OK);
            cr_expect(near(load.load_n, equivalent_n[row][i], 0, 0.03), "%.9g", load.load_n);
        }
    spt_scenario_free(&scenario);
}

Test(sheet_hub, the_given_load_centre_is_kept_where_insides_are_estimated)
{
    static const char *const mountings[] = {"", "  mounting: face-to-face\n"};
    static const double centres_mm[2][2] = {{-42, 67}, {2, 33}};
    for (int i = 0; i < 2; i++) {
        struct spt_scenario scenario;
        struct spt_diagnostics diags = {0};
        char places[200];
        snprintf(places, sizeof places, "%s%s", SHOULDERS, mountings[i]);
        load_hub(ROWS, places, &scenario, &diags);
        cr_assert(!diags.count, "%s", diags.list[0].text);
        const struct spt_hub_case *hub = scenario.base.question.sheet_hub;
        for (int row = 0; row < 2; row++) {
            cr_expect(near(hub->handbook.rows[row].load_centre_mm, centres_mm[i][row], 1e-12, 0));
            cr_expect_gt(hub->hub.rows[row].geometry.elements, 10);
        }
        spt_scenario_free(&scenario);
    }
}

/* With insides, a shoulder and a load centre place the rollers where `position` would. */
Test(sheet_hub, a_shoulder_places_a_row_with_insides_too)
{
    static const char rows[] =
        "  inboard: {type: tapered roller, d: 60 mm, D: 110 mm, T: 29.75 mm, Dpw: 85 mm, Z: 19, Dw: "
        "12 mm, Lw: 20 mm, alpha: 15 deg, a: 26 mm}\n"
        "  outboard: {type: tapered roller, d: 45 mm, D: 85 mm, T: 20.75 mm, Dpw: 65.5 mm, Z: 18, "
        "Dw: 9.5 mm, Lw: 13 mm, alpha: 12 deg, a: 17 mm}\n";
    struct spt_scenario scenario;
    struct spt_diagnostics diags = {0};
    const double deg = acos(-1.0) / 180;
    load_hub(rows, SHOULDERS, &scenario, &diags);
    cr_assert(!diags.count, "%s", diags.list[0].text);
    const struct spt_hub_case *hub = scenario.base.question.hub;
    cr_assert(hub && !scenario.base.question.sheet_hub && !hub->insides_estimated);
    cr_expect(near(hub->hub.rows[0].position_mm, -46 + 42.5 * tan(15 * deg), 1e-12, 0));
    cr_expect(near(hub->hub.rows[1].position_mm, 67 - 32.75 * tan(12 * deg), 1e-12, 0));
    spt_scenario_free(&scenario);
}

Test(sheet_hub, a_row_without_a_place_or_with_two_is_told)
{
    static const struct {
        const char *places, *words;
    } rows[] = {
        {"  inboard_shoulder: -20 mm\n", "lacks `outboard_position`; add it, such as"},
        {SHOULDERS "  inboard_position: -20 mm\n", "say twice where the inboard row is"},
        {"  inboard_shoulder: 60 mm\n  outboard_shoulder: -50 mm\n", "should lie farther out"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_scenario scenario;
        struct spt_diagnostics diags = {0};
        load_hub(ROWS, rows[i].places, &scenario, &diags);
        cr_assert(diags.count > 0, "%s", rows[i].places);
        cr_expect(strstr(diags.list[0].text, rows[i].words), "%s", diags.list[0].text);
        spt_scenario_free(&scenario);
    }
}
