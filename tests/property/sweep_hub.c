/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Rows of a sweep over a hub against what `life` does with the scenario that has the same numbers
 * written into it: 1e-9 of the value. The scenarios and their numbers are ours. */
#include "spalltime/sweep.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "support/hub_scenario.h"
#include "support/near.h"

#define ROWS 48
#define NEAR 1e-10
#define PHASES 2
#define ROUNDS 12
#define PARTS 3 /* of the rounds, each a test of its own */

static struct spt_sweep_block block;
static double inputs[SPT_SWEEP_FIELD_COUNT][SPT_SWEEP_BLOCK];

/* The same numbers on every machine. */
static double draw(double low, double high)
{
    static unsigned long long state = 88172645463325252ULL;
    return random_between(&state, low, high);
}

static double draw_field(enum spt_sweep_field field)
{
    static const double ranges[SPT_SWEEP_FIELD_COUNT][2] = {
        [SPT_SWEEP_SPEED] = {20, 600},          [SPT_SWEEP_LOAD_FACTOR] = {0.5, 1.5},
        [SPT_SWEEP_TEMPERATURE] = {20, 110},    [SPT_SWEEP_WATER] = {0, 900},
        [SPT_SWEEP_GREASE_AGE] = {0, 4000},     [SPT_SWEEP_CONTAMINATION] = {0.05, 0.9},
        [SPT_SWEEP_RELIABILITY] = {90, 99},     [SPT_SWEEP_SETTING] = {-0.08, 0.4},
        [SPT_SWEEP_WHEEL_LOAD] = {4000, 40000}, [SPT_SWEEP_SIDE_FORCE] = {-6000, 6000},
        [SPT_SWEEP_SIDE_SHARE] = {-0.3, 0.3},   [SPT_SWEEP_ROAD_SPEED] = {5, 90},
    };
    double first = spt_cleanliness_first(SPT_LUBRICATION_GREASE);
    if (field == SPT_SWEEP_CLEANLINESS)
        return first + floor(draw(0, spt_cleanliness_count(SPT_LUBRICATION_GREASE) - 1e-6));
    return draw(ranges[field][0], ranges[field][1]);
}

struct phase_text {
    const char *head;
    double rpm, wheel_load_n, side_share, temperature_c;
};
static const struct phase_text base[PHASES] = {{"phase: straight, time: 90 %", 419, 13000, 0, 62},
                                               {"phase: bend, time: 10 %", 287, 15000, -0.15, 55}};

static double value_of(const bool *swept, enum spt_sweep_field field, int i, double stated)
{
    return swept[field] ? inputs[field][i] : stated;
}

/* One phase as the scenario would state it. */
static int write_phase(const bool *swept, int i, const struct phase_text *phase, char *to,
                       size_t capacity)
{
    char side[80], speed[80];
    double factor = value_of(swept, SPT_SWEEP_LOAD_FACTOR, i, 1);
    double wheel_n = value_of(swept, SPT_SWEEP_WHEEL_LOAD, i, phase->wheel_load_n);
    if (swept[SPT_SWEEP_SIDE_FORCE])
        snprintf(side, sizeof side, "side_force: %.16e N",
                 factor * inputs[SPT_SWEEP_SIDE_FORCE][i]);
    else
        snprintf(side, sizeof side, "side_share: %.17g %%",
                 100 * value_of(swept, SPT_SWEEP_SIDE_SHARE, i, phase->side_share));
    if (swept[SPT_SWEEP_ROAD_SPEED])
        snprintf(speed, sizeof speed, "road_speed: %.17g km/h", inputs[SPT_SWEEP_ROAD_SPEED][i]);
    else
        snprintf(speed, sizeof speed, "speed: %.16e rpm",
                 value_of(swept, SPT_SWEEP_SPEED, i, phase->rpm));
    return snprintf(to, capacity,
                    "  - {%s, %s, wheel_load: %.16e N, %s, temperature: %.17g degC}\n", phase->head,
                    speed, factor * wheel_n, side,
                    value_of(swept, SPT_SWEEP_TEMPERATURE, i, phase->temperature_c));
}

/* What the scenario states elsewhere, put in after it was read: the lubricant's state. */
static void set_condition(struct spt_case *question, const bool *swept, int i)
{
    static struct spt_phase changed[2][PHASES];
    question->reliability_percent =
        value_of(swept, SPT_SWEEP_RELIABILITY, i, question->reliability_percent);
    for (int b = 0; b < 2; b++) {
        memcpy(changed[b], question->bearings[b].phases, sizeof changed[b]);
        question->bearings[b].phases = changed[b];
        for (int j = 0; j < PHASES; j++) {
            struct spt_condition *state = &changed[b][j].condition;
            state->water_ppm = value_of(swept, SPT_SWEEP_WATER, i, state->water_ppm);
            state->grease_age_h = value_of(swept, SPT_SWEEP_GREASE_AGE, i, state->grease_age_h);
            state->contamination_factor =
                value_of(swept, SPT_SWEEP_CONTAMINATION, i, state->contamination_factor);
            state->cleanliness = (enum spt_cleanliness)value_of(swept, SPT_SWEEP_CLEANLINESS, i,
                                                                (double)state->cleanliness);
        }
    }
}

/* The scenario of row `i`; `more` are further lines of its hub. */
static void read_row(struct hub_scenario *test, const bool *swept, int i, const char *more,
                     const char *setting)
{
    char hub[1024], duty[1024];
    int used = snprintf(hub, sizeof hub, "%s%s", HUB_SCENARIO_PLACES, more);
    if (swept[SPT_SWEEP_SETTING])
        snprintf(hub + used, sizeof hub - (size_t)used, "  %s: %.17g mm\n",
                 inputs[SPT_SWEEP_SETTING][i] < 0 ? "preload" : "end_play",
                 fabs(inputs[SPT_SWEEP_SETTING][i]));
    else
        snprintf(hub + used, sizeof hub - (size_t)used, "%s", setting);
    used = 0;
    for (int j = 0; j < PHASES; j++)
        used += write_phase(swept, i, &base[j], duty + used, sizeof duty - (size_t)used);
    hub_scenario_read(test, hub, duty);
    set_condition(&test->scenario.base.question, swept, i);
}

static void expect_near(int value, int i, double want, const char *what)
{
    double got = block.values[value][i];
    cr_expect(isnan(want)   ? isnan(got)
              : isinf(want) ? isinf(got)
                            : near(got, want, NEAR, 0),
              "%s, row %d, value %d: %.17g for %.17g", what, i, value, got, want);
}

static void expect_row(const bool *swept, int i, const char *more, const char *setting,
                       const char *what)
{
    struct hub_scenario test;
    read_row(&test, swept, i, more, setting);
    if (i == 0)
        hub_scenario_assess(&test); /* as `life` does to the end */
    else
        hub_scenario_assess_uncured(&test);
    const struct spt_assessment *life = &test.assessment;
    expect_near(SPT_SWEEP_BASIC_RATING_LIFE_H, i, life->basic_rating_life_h, what);
    expect_near(SPT_SWEEP_MODIFIED_RATING_LIFE_H, i, life->modified_rating_life_h, what);
    cr_expect_eq(block.status[i] == SPT_SWEEP_OK, isfinite(life->modified_rating_life_h));
    for (int row = 0; row < 2; row++) {
        const struct spt_bearing_result *bearing = &life->bearings[row];
        expect_near(spt_sweep_row_value(row, SPT_SWEEP_BASIC_RATING_LIFE_H), i,
                    bearing->basic_rating_life_h, what);
        expect_near(spt_sweep_row_value(row, SPT_SWEEP_MODIFIED_RATING_LIFE_H), i,
                    bearing->modified_rating_life_h, what);
        if (bearing->worst_phase < 0)
            continue;
        const struct spt_phase_result *phase = &bearing->phases[bearing->worst_phase];
        expect_near(spt_sweep_row_value(row, SPT_SWEEP_SETTING_FACTOR), i,
                    phase->phase->setting_factor, what);
        expect_near(spt_sweep_row_value(row, SPT_SWEEP_EQUIVALENT_LOAD_N), i, phase->dynamic.load_n,
                    what);
        expect_near(spt_sweep_row_value(row, SPT_SWEEP_CONTAMINATION_FACTOR), i,
                    phase->contamination_factor, what);
        expect_near(spt_sweep_row_value(row, SPT_SWEEP_LIFE_MODIFICATION_FACTOR), i,
                    phase->factor.a_iso, what);
    }
    hub_scenario_free(&test);
}

/* A worker's memory for the hub of a scenario. */
struct bench {
    struct hub_scenario test;
    struct spt_sweep_plan plan;
    struct spt_arena arena;
    struct spt_sweep_workspace *workspace;
};
static struct bench bench;

static enum spt_status set_up(const bool *swept, const char *hub, bool warm)
{
    static const bool none[SPT_SWEEP_FIELD_COUNT];
    hub_scenario_read(&bench.test, hub, NULL);
    const struct spt_case *question = &bench.test.scenario.base.question;
    cr_assert_eq(spt_sweep_plan_make(question, swept ? swept : none, NULL, &bench.plan), SPT_OK);
    return spt_sweep_workspace_make(&bench.plan, warm, &bench.arena, &bench.workspace);
}

static void tear_down(void)
{
    spt_arena_free(&bench.arena);
    hub_scenario_free(&bench.test);
}

/* Answers the first rows of `inputs`. */
static void work(int count)
{
    const double *columns[SPT_SWEEP_FIELD_COUNT];
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        columns[f] = inputs[f];
    spt_sweep_work(&bench.plan, columns, count, bench.workspace, &block);
}

static void check_rows(const bool *swept, const char *more, const char *setting, bool warm,
                       const char *what)
{
    char hub[1024];
    snprintf(hub, sizeof hub, "%s%s%s", HUB_SCENARIO_PLACES, more, setting);
    cr_assert_eq(set_up(swept, hub, warm), SPT_OK);
    work(ROWS);
    for (int i = 0; i < ROWS; i++)
        expect_row(swept, i, more, setting, what);
    tear_down();
}

/* What is swept in a round, and its rows. */
static void draw_round(bool *swept)
{
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        swept[f] = draw(0, 1) < 0.5;
    swept[SPT_SWEEP_RADIAL_LOAD] = swept[SPT_SWEEP_AXIAL_LOAD] = false;
    swept[SPT_SWEEP_EQUIVALENT_LOAD] = swept[SPT_SWEEP_RATING_FACTOR] = false;
    swept[SPT_SWEEP_VISCOSITY_40] = swept[SPT_SWEEP_GRADE] = false;
    swept[SPT_SWEEP_CONTAMINATION] &= !swept[SPT_SWEEP_CLEANLINESS];
    swept[SPT_SWEEP_SIDE_FORCE] &= !swept[SPT_SWEEP_SIDE_SHARE];
    swept[SPT_SWEEP_ROAD_SPEED] &= !swept[SPT_SWEEP_SPEED];
    swept[SPT_SWEEP_POWER] = swept[SPT_SWEEP_TORQUE] = false; /* of a machine */
    swept[SPT_SWEEP_PAYLOAD] = false;                         /* of a trailer */
    for (int f = 0; f < SPT_SWEEP_FIELD_COUNT; f++)
        for (int i = 0; swept[f] && i < ROWS; i++)
            inputs[f][i] = draw_field((enum spt_sweep_field)f);
}

/* One part of the rounds; all are drawn, so that a round has the same rows in any part. */
static void check_random_rows(int part)
{
    static const char *const more[] = {"", "  temperature_difference: 14 K\n",
                                       "  mounting: face-to-face\n",
                                       "  inboard_misalignment: {about_x: 0.6 mrad}\n"};
    static const char *const settings[] = {"  end_play: 0.05 mm\n", "  preload_force: 2.3 kN\n",
                                           "  preload: 0.013 mm\n"};
    for (int round = 0; round < ROUNDS; round++) {
        bool swept[SPT_SWEEP_FIELD_COUNT];
        char what[40];
        draw_round(swept);
        snprintf(what, sizeof what, "round %d", round);
        if (round / (ROUNDS / PARTS) == part)
            check_rows(swept, more[round % 4], settings[round % 3], round % 2, what);
    }
}

/* tests run side by side */
Test(sweep_hub, random_rows_are_what_life_says_1, .timeout = 600)
{
    check_random_rows(0);
}

Test(sweep_hub, random_rows_are_what_life_says_2, .timeout = 600)
{
    check_random_rows(1);
}

Test(sweep_hub, random_rows_are_what_life_says_3, .timeout = 600)
{
    check_random_rows(2);
}

Test(sweep_hub, neighbours_along_the_setting_are_what_life_says, .timeout = 600)
{
    bool swept[SPT_SWEEP_FIELD_COUNT] = {[SPT_SWEEP_SETTING] = true, [SPT_SWEEP_WHEEL_LOAD] = true};
    for (int i = 0; i < ROWS; i++) {
        inputs[SPT_SWEEP_SETTING][i] = -0.06 + 0.02 * (i % 16);
        inputs[SPT_SWEEP_WHEEL_LOAD][i] = 12000 + 9385.0 * (i / 16);
    }
    check_rows(swept, "", "  end_play: 0.05 mm\n", true, "neighbours");
}

Test(sweep_hub, cold_rows_do_not_depend_on_the_rows_before)
{
    bool swept[SPT_SWEEP_FIELD_COUNT] = {[SPT_SWEEP_SETTING] = true, [SPT_SWEEP_WATER] = true};
    double alone[8];
    int life = SPT_SWEEP_MODIFIED_RATING_LIFE_H;
    cr_assert_eq(set_up(swept, NULL, false), SPT_OK);
    for (int i = 0; i < 8; i++) {
        inputs[SPT_SWEEP_SETTING][0] = 0.031 * (i / 2);
        inputs[SPT_SWEEP_WATER][0] = 150 + 60 * i;
        work(1);
        alone[i] = block.values[life][0];
    }
    for (int i = 0; i < 8; i++) {
        inputs[SPT_SWEEP_SETTING][i] = 0.031 * (i / 2);
        inputs[SPT_SWEEP_WATER][i] = 150 + 60 * i;
    }
    work(8);
    for (int i = 0; i < 8; i++)
        cr_expect_eq(block.values[life][i], alone[i], "row %d", i);
    tear_down();
}

/* The gate of speed: counts, which no machine changes. A row of a new setting solves 3 positions of
 * the cages, the fourth being a mirror image, of both phases; the reference is solved once. */
Test(sweep_hub, a_row_takes_few_load_distributions_and_few_passes_in_each)
{
    bool swept[SPT_SWEEP_FIELD_COUNT] = {[SPT_SWEEP_SETTING] = true};
    static const struct {
        double step_mm, passes;
    } rows[] = {{0.0005, 3.1}, {0.01, 3.7}};
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
        long solves = 0, passes = 0;
        cr_assert_eq(set_up(swept, NULL, true), SPT_OK);
        for (int i = 0; i < ROWS; i++)
            inputs[SPT_SWEEP_SETTING][i] = -0.1 + i * rows[k].step_mm;
        work(ROWS);
        for (int i = 0; i < PHASES; i++)
            for (int rings = 0; rings < SPT_SWEEP_RINGS; rings++) {
                solves += bench.workspace->hub->trails[i][rings].balances.solves;
                passes += bench.workspace->hub->trails[i][rings].balances.passes;
            }
        cr_expect_eq(solves, 3 * PHASES * (ROWS + 1), "%ld", solves);
        cr_expect_lt((double)passes / (double)solves, rows[k].passes, "%g",
                     (double)passes / (double)solves);
        tear_down();
    }
}

/* Row 1 has a wheel without load, row 2 pulls both rows apart, row 3 is far too tight. */
Test(sweep_hub, a_hub_that_cannot_be_solved_leaves_a_row_without_life)
{
    bool swept[SPT_SWEEP_FIELD_COUNT] = {
        [SPT_SWEEP_WHEEL_LOAD] = true, [SPT_SWEEP_SIDE_FORCE] = true};
    static const double loads[][2] = {{13000, 500}, {0, 0}, {1e-3, 9e8}, {13000, 500}};
    cr_assert_eq(set_up(swept, NULL, true), SPT_OK);
    for (int i = 0; i < 4; i++) {
        inputs[SPT_SWEEP_WHEEL_LOAD][i] = loads[i][0];
        inputs[SPT_SWEEP_SIDE_FORCE][i] = loads[i][1];
    }
    work(4);
    cr_expect_eq(block.status[0], SPT_SWEEP_OK);
    cr_expect_eq(block.status[1], SPT_SWEEP_REFUSED);
    cr_expect_gt(block.status[2], SPT_SWEEP_REFUSED, "%s",
                 spt_sweep_status_name((enum spt_sweep_status)block.status[2]));
    for (int v = 0; v < SPT_SWEEP_VALUE_COUNT; v++) {
        cr_expect(isnan(block.values[v][1]) && isnan(block.values[v][2]), "value %d", v);
        cr_expect(near(block.values[v][3], block.values[v][0], NEAR, 0), "value %d", v);
    }
    tear_down();
}

Test(sweep_hub, a_preload_force_out_of_reach_is_told_at_the_start)
{
    cr_expect_eq(set_up(NULL, HUB_SCENARIO_PLACES "  preload_force: 900 MN\n", true),
                 SPT_NOT_APPLICABLE);
    tear_down();
}

Test(sweep_hub, fields_that_a_machine_does_not_have_are_refused)
{
    static const enum spt_sweep_field not_of_hub[] = {SPT_SWEEP_RADIAL_LOAD, SPT_SWEEP_AXIAL_LOAD,
                                                      SPT_SWEEP_EQUIVALENT_LOAD};
    static const enum spt_sweep_field pairs[][2] = {{SPT_SWEEP_SIDE_FORCE, SPT_SWEEP_SIDE_SHARE},
                                                    {SPT_SWEEP_SPEED, SPT_SWEEP_ROAD_SPEED}};
    struct spt_sweep_plan plan;
    hub_scenario_read(&bench.test, NULL, NULL);
    const struct spt_case *question = &bench.test.scenario.base.question;
    for (size_t i = 0; i < 3; i++) {
        bool swept[SPT_SWEEP_FIELD_COUNT] = {false};
        swept[not_of_hub[i]] = true;
        cr_expect_eq(spt_sweep_plan_make(question, swept, NULL, &plan), SPT_BAD_ARGUMENT);
    }
    for (size_t i = 0; i < 2; i++) {
        bool swept[SPT_SWEEP_FIELD_COUNT] = {false};
        swept[pairs[i][0]] = true;
        cr_expect_eq(spt_sweep_plan_make(question, swept, NULL, &plan), SPT_OK);
        swept[pairs[i][1]] = true;
        cr_expect_eq(spt_sweep_plan_make(question, swept, NULL, &plan), SPT_BAD_ARGUMENT);
    }
    hub_scenario_free(&bench.test);
}
