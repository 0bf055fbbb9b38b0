/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/choose.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/scenario.h"
#include "support/near.h"

#define REST                                                                                       \
    "lubricant: {kind: grease, viscosity_40: 150 mm2/s, viscosity_100: 14.5 mm2/s}\n"              \
    "condition: {cleanliness: normal, water: 150 ppm, grease_age: 200 h}\n"
#define ONE                                                                                         \
    "title: one\nbearing: {name: own, type: spherical roller, d: 60 mm, D: 110 mm, B: 28 mm, C: "   \
    "140 kN, C0: 160 kN, e: 0.3, Y1: 2.25, Y: 3.35, Y0: 2.2, n_max: 4000 rpm}\n" REST               \
    "duty:\n  - {phase: a, time: 70 %, speed: 1400 rpm, radial_load: 17.3 kN, axial_load: 2.1 kN, " \
    "temperature: 63 degC}\n  - {phase: b, time: 30 %, speed: 310 rpm, radial_load: 24.7 kN, "      \
    "temperature: 48 degC}\ntarget_life: 9000 h\n"
#define HUB                                                                                        \
    "title: hub\nhub:\n  inboard: {name: large, type: tapered roller, d: 60 mm, D: 110 mm, T: "    \
    "29.75 mm, C: 126.5 kN, C0: 167 kN, e: 0.40, Y: 1.5, a: 26 mm}\n  outboard: {name: small, "    \
    "type: tapered roller, d: 45 mm, D: 85 mm, T: 20.75 mm, C: 76 kN, C0: 85 kN, e: 0.37, Y: "     \
    "1.62, a: 18 mm}\n  inboard_shoulder: -20 mm\n  outboard_shoulder: 50 mm\n  rolling_radius: "  \
    "520 mm\n  end_play: 0.05 mm\n" REST                                                           \
    "duty:\n  - {phase: a, time: 70 %, road_speed: 35 km/h, wheel_load: 22.3 kN, temperature: 60 " \
    "degC}\n  - {phase: b, time: 30 %, road_speed: 20 km/h, wheel_load: 25.1 kN, side_share: -9 "  \
    "%, temperature: 55 degC}\ntarget_life: 9000 h\n"

static void load(const char *text, struct spt_scenario *scenario)
{
    struct spt_diagnostics diags = {0};
    const struct spt_source source = {"case.yaml", text, strlen(text)};
    cr_assert(spt_scenario_load(&source, NULL, scenario, &diags), "%s", diags.list[0].text);
}

static struct spt_choosing choose(const struct spt_case *question, const struct spt_bearing *list,
                                  int count, struct spt_arena *arena)
{
    struct spt_choosing choosing;
    struct spt_error error;
    cr_assert_eq(spt_ask_choose(question, list, count, 1.3, arena, &choosing, &error), SPT_OK, "%s",
                 error.text);
    return choosing;
}

/* The bearings of the case itself, tried as candidates, have the life that `life` gives. */
Test(choose, a_candidate_that_is_the_bearing_of_the_case_has_its_life)
{
    static const char *const texts[] = {ONE, HUB};
    for (size_t i = 0; i < 2; i++) {
        struct spt_scenario scenario;
        struct spt_arena arena = {0};
        struct spt_assessment assessment;
        struct spt_error error;
        load(texts[i], &scenario);
        const struct spt_case *question = &scenario.base.question;
        const struct spt_bearing list[2] = {question->bearings[0].bearing,
                                            question->bearings[i].bearing};
        cr_assert_eq(spt_ask_life(question, &arena, &assessment, &error), SPT_OK);
        struct spt_choosing c = choose(question, list, 1 + (int)i, &arena);
        cr_assert_eq(c.count, i ? 4 : 1);
        bool found = false;
        for (long k = 0; k < c.count; k++)
            if (c.choices[k].candidates[0] == 0 && c.choices[k].candidates[1] == (i ? 1 : -1)) {
                found = true;
                cr_expect(near(c.choices[k].life_h, assessment.modified_rating_life_h, 1e-12, 0),
                          "%.12g %.12g", c.choices[k].life_h, assessment.modified_rating_life_h);
            }
        cr_expect(found);
        spt_arena_free(&arena);
        spt_scenario_free(&scenario);
    }
}

/* Ratings, price and stock of the rows below, over those of the case. */
Test(choose, each_that_fails_has_its_worst_reason_and_the_cheapest_that_passes_is_first)
{
    static const struct {
        double rating, static_rating, limit_rpm, price;
        int stock;
        enum spt_choose_reason why;
    } rows[] = {
        {1.10, 1, 4000, 70, -1, SPT_CHOOSE_PASSES},
        {1.30, 1, 4000, 55, -1, SPT_CHOOSE_PASSES},
        {1.90, 1, 4000, 90, 3, SPT_CHOOSE_PASSES},
        {1.30, 1, 4000, 20, 0, SPT_CHOOSE_NO_STOCK},
        {1.30, 1, 400, 20, -1, SPT_CHOOSE_SPEED},
        {1.30, 0.2, 4000, 20, -1, SPT_CHOOSE_STATIC},
        {0.50, 1, 4000, 20, -1, SPT_CHOOSE_SHORT_LIFE},
        {12.0, 12, 4000, 20, -1, SPT_CHOOSE_LIGHT_LOAD},
    };
    enum { COUNT = sizeof rows / sizeof *rows };
    struct spt_scenario scenario;
    struct spt_arena arena = {0};
    struct spt_bearing list[COUNT];
    load(ONE, &scenario);
    for (int i = 0; i < COUNT; i++) {
        list[i] = scenario.base.question.bearings[0].bearing;
        list[i].dynamic_load_rating_n *= rows[i].rating;
        list[i].static_load_rating_n *= rows[i].static_rating;
        list[i].fatigue_load_limit_n *= rows[i].static_rating;
        list[i].speed_limit_rpm = rows[i].limit_rpm;
        list[i].price = rows[i].price;
        list[i].stock = rows[i].stock;
    }
    struct spt_choosing c = choose(&scenario.base.question, list, COUNT, &arena);
    for (long k = 0; k < c.count; k++) {
        int i = c.choices[k].candidates[0];
        cr_expect_eq(c.choices[k].why, rows[i].why, "row %d: %d, %g of %g", i,
                     (int)c.choices[k].why, c.choices[k].value, c.choices[k].limit);
        cr_expect((c.choices[k].severity >= 1) == (rows[i].why == SPT_CHOOSE_PASSES));
    }
    cr_expect_eq(c.passing, 3);
    cr_expect_eq(c.order, SPT_CHOOSE_BY_PRICE);
    cr_expect(c.choices[0].candidates[0] == 1 && c.choices[1].candidates[0] == 0 &&
              c.choices[2].candidates[0] == 2);
    for (long k = c.passing + 1; k < c.count; k++)
        cr_expect_geq(c.choices[k - 1].severity, c.choices[k].severity);
    list[2].price = (double)NAN; /* now they go by size, which is alike */
    c = choose(&scenario.base.question, list, COUNT, &arena);
    cr_expect_eq(c.order, SPT_CHOOSE_BY_SIZE);
    spt_arena_free(&arena);
    spt_scenario_free(&scenario);
}

Test(choose, a_type_that_cannot_carry_the_loads_says_so_and_no_number_is_made_up)
{
    struct spt_scenario scenario;
    struct spt_arena arena = {0};
    load(ONE, &scenario);
    struct spt_bearing thrust = scenario.base.question.bearings[0].bearing;
    thrust.type = SPT_THRUST_BALL;
    thrust.contact_angle_rad = acos(-1.0) / 2;
    thrust.limit_ratio = thrust.axial_factor = thrust.static_axial_factor = (double)NAN;
    thrust.rows = 1;
    struct spt_choosing c = choose(&scenario.base.question, &thrust, 1, &arena);
    cr_expect_eq(c.passing, 0);
    cr_expect_eq(c.choices[0].why, SPT_CHOOSE_CANNOT_CARRY, "%d", (int)c.choices[0].why);
    spt_arena_free(&arena);
    spt_scenario_free(&scenario);
}

Test(choose, what_cannot_be_tried_is_refused)
{
    struct spt_scenario scenario;
    struct spt_arena arena = {0};
    struct spt_choosing choosing;
    struct spt_error error;
    load(ONE, &scenario);
    struct spt_bearing ball = scenario.base.question.bearings[0].bearing;
    cr_expect_eq(spt_ask_choose(&scenario.base.question, &ball, 0, 1.3, &arena, &choosing, &error),
                 SPT_BAD_ARGUMENT);
    spt_scenario_free(&scenario);
    load(HUB, &scenario);
    cr_expect_eq(spt_ask_choose(&scenario.base.question, &ball, 1, 1.3, &arena, &choosing, &error),
                 SPT_NOT_APPLICABLE);
    cr_expect(strstr(error.text, "no bearing of the list is a tapered roller"), "%s", error.text);
    spt_arena_free(&arena);
    spt_scenario_free(&scenario);
}

/* Property: a larger C never shortens the life of a pair, and moves no pair that passes out for its
 * life or its static safety. */
Test(choose, a_larger_rating_never_shortens_a_life)
{
    struct spt_scenario scenario;
    struct spt_arena arena = {0};
    load(HUB, &scenario);
    struct spt_bearing list[2] = {scenario.base.question.bearings[0].bearing,
                                  scenario.base.question.bearings[1].bearing};
    double before_h[2][2] = {{0}};
    for (int step = 0; step < 12; step++) {
        struct spt_choosing c = choose(&scenario.base.question, list, 2, &arena);
        for (long k = 0; k < c.count; k++) {
            double *before = &before_h[c.choices[k].candidates[0]][c.choices[k].candidates[1]];
            cr_expect_gt(c.choices[k].life_h, *before);
            *before = c.choices[k].life_h;
        }
        for (int i = 0; i < 2; i++)
            list[i].dynamic_load_rating_n *= 1.07;
    }
    spt_arena_free(&arena);
    spt_scenario_free(&scenario);
}
