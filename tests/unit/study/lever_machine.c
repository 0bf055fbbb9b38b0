/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Levers of `reach` in the words of a machine, held against a scenario that states their value. */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/scenario.h"
#include "spalltime/ask.h"
#include "support/near.h"

#define TEXT_LENGTH 4096

/* What a scenario states in the four places that levers change. */
struct driven {
    double power_kw, payload_kg, bend_km_h, radius_m;
};
static const struct driven stated = {15, 6000, 18, 14};

#define REST                                                                                       \
    "lubricant: {kind: oil bath, viscosity_40: 220 mm2/s, viscosity_index: 95}\n"                  \
    "condition: {cleanliness: -/15/12, water: 100 ppm}\ntarget_life: 5000 h\n"
#define ROW                                                                                        \
    "{type: tapered roller, d: 40 mm, D: 80 mm, T: 24.75 mm, C: 79 kN, C0: 96 kN, e: 0.37, Y: "    \
    "1.6, Y0: 0.9, a: 18 mm}"

/* The light phase pulls harder on the right bearing than the other: its belt keeps its tension, and
 * the gear works against it. */
static void write_shaft(const struct driven *d, char *text)
{
    snprintf(text, TEXT_LENGTH,
             "title: shaft\nmachine:\n  shaft:\n    turns: clockwise\n    mounting: "
             "back-to-back\n    supports:\n      - {support: left, at: 0 mm, bearing: " ROW "}\n"
             "      - {support: right, at: 180 mm, bearing: " ROW "}\n    carries:\n"
             "      - {gear: wheel, at: 90 mm, role: driven, pitch_diameter: 240 mm, helix_angle: "
             "12 deg, hand: right, mate_towards: 110 deg}\n"
             "      - {belt: out, at: 260 mm, role: driver, pulley_diameter: 180 mm, "
             "other_pulley: 423 mm, centre_distance: 700 mm, towards: -20 deg, friction: 0.5}\n"
             "duty:\n  - {phase: hard, time: 60 %%, speed: 310 rpm, power: %.17g kW, temperature: "
             "68 degC}\n  - {phase: light, time: 40 %%, speed: 310 rpm, power: %.17g kW, "
             "temperature: 55 degC}\n" REST,
             d->power_kw, d->power_kw * 2 / 15);
}

static void write_trailer(const struct driven *d, char *text)
{
    snprintf(
        text, TEXT_LENGTH,
        "title: trailer\nmachine:\n  trailer:\n    kind: centre-axle\n    masses:\n      - {name: "
        "empty, mass: 1800 kg, behind_eye: 4.2 m, height: 0.75 m}\n      - {name: load, mass: "
        "%.17g kg, behind_eye: 4.0 m, height: 1.5 m}\n    eye_height: 0.45 m\n    track: 1.8 m\n"
        "    axles: [{behind_eye: 3.62 m}, {behind_eye: 4.98 m}]\n    equalised: yes\n    wheel: "
        "axle 2 right\n    tyre: {rolling_radius: 520 mm, loaded_radius: 505 mm, "
        "scrub_stiffness: 6}\n    hub:\n      inboard: " ROW "\n      outboard: " ROW "\n"
        "      inboard_shoulder: -20 mm\n      outboard_shoulder: 50 mm\n      end_play: 0.05 mm\n"
        "duty:\n  - {phase: straight, time: 80 %%, road_speed: 40 km/h, temperature: 60 degC}\n"
        "  - {phase: bend, time: 15 %%, road_speed: %.17g km/h, bend: left, radius: %.17g m, "
        "temperature: 60 degC}\n  - {phase: empty, time: 5 %%, road_speed: 40 km/h, without: "
        "load, temperature: 55 degC}\n" REST,
        d->payload_kg, d->bend_km_h, d->radius_m);
}

static double life_of(void (*write)(const struct driven *, char *), const struct driven *d,
                      double target_h, struct spt_reach *reach)
{
    static char text[TEXT_LENGTH];
    struct spt_scenario scenario;
    struct spt_diagnostics diags = {0};
    struct spt_arena arena = {0};
    struct spt_reach own;
    struct spt_error error;
    write(d, text);
    const struct spt_source source = {"case.yaml", text, strlen(text)};
    cr_assert(spt_scenario_load(&source, NULL, &scenario, &diags), "%s", diags.list[0].text);
    if (!reach)
        reach = &own;
    cr_assert_eq(spt_ask_reach(&scenario.base.question, target_h, &arena, reach, &error), SPT_OK,
                 "%s", error.text);
    double life_h = reach->present_life_h;
    spt_arena_free(&arena);
    spt_scenario_free(&scenario);
    return life_h;
}

static void pull(struct driven *d, enum spt_lever lever, double value)
{
    if (lever == SPT_LEVER_POWER)
        d->power_kw *= value;
    else if (lever == SPT_LEVER_PAYLOAD)
        d->payload_kg = value;
    else if (lever == SPT_LEVER_BEND_SPEED)
        d->bend_km_h = value;
    else
        d->radius_m = value;
}

/* Each value that reaches the target gives the target when the scenario states it, from both
 * sides. */
Test(lever_machine, a_scenario_with_the_value_has_the_life)
{
    static const enum spt_lever levers[] = {SPT_LEVER_POWER, SPT_LEVER_PAYLOAD,
                                            SPT_LEVER_BEND_SPEED, SPT_LEVER_BEND_RADIUS};
    static const double targets[] = {0.8, 1.25}; /* times the present life */
    int reached = 0;
    for (size_t i = 0; i < sizeof levers / sizeof *levers; i++)
        for (size_t k = 0; k < 2; k++) {
            void (*write)(const struct driven *, char *) = i ? write_trailer : write_shaft;
            struct spt_reach reach;
            struct driven changed = stated;
            const double now_h = life_of(write, &stated, 5000, NULL);
            life_of(write, &stated, targets[k] * now_h, &reach);
            const struct spt_lever_result *result = &reach.levers[levers[i]];
            if (result->outcome != SPT_LEVER_REACHES)
                continue;
            reached++;
            pull(&changed, levers[i], result->value);
            const double life_h = life_of(write, &changed, 5000, NULL);
            cr_expect(near(life_h, targets[k] * now_h, 1e-9, 0), "%s, x %g: %.12g not %.12g",
                      spt_lever_name(levers[i]), targets[k], life_h, targets[k] * now_h);
            cr_expect(near(life_h, result->life_h, 1e-12, 0));
        }
    cr_expect_geq(reached, 7, "%d", reached);
}

/* A shaft has no payload and a trailer no power; nothing has them without a machine. */
Test(lever_machine, only_what_the_machine_has_is_a_lever)
{
    struct spt_reach reach;
    life_of(write_shaft, &stated, 5000, &reach);
    cr_expect_neq(reach.levers[SPT_LEVER_POWER].outcome, SPT_LEVER_NOT_HERE);
    cr_expect_eq(reach.levers[SPT_LEVER_PAYLOAD].outcome, SPT_LEVER_NOT_HERE);
    cr_expect_eq(reach.levers[SPT_LEVER_BEND_RADIUS].outcome, SPT_LEVER_NOT_HERE);
    life_of(write_trailer, &stated, 5000, &reach);
    cr_expect_eq(reach.levers[SPT_LEVER_POWER].outcome, SPT_LEVER_NOT_HERE);
    cr_expect_neq(reach.levers[SPT_LEVER_BEND_SPEED].outcome, SPT_LEVER_NOT_HERE);
}

/* Far above what is wanted the bend may be driven faster, but never so that the trailer tips. */
Test(lever_machine, a_bend_ends_where_the_trailer_tips)
{
    struct spt_reach reach;
    struct driven changed = stated;
    life_of(write_trailer, &stated, 1e-6, &reach);
    const struct spt_lever_result *speed = &reach.levers[SPT_LEVER_BEND_SPEED];
    cr_assert_eq(speed->outcome, SPT_LEVER_REACHES);
    cr_expect_gt(speed->value, 25);
    changed.bend_km_h = speed->value * (1 - 1e-9);
    cr_expect_gt(life_of(write_trailer, &changed, 5000, NULL), 0);
}
