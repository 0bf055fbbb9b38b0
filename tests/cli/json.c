/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The JSON answers of the built program. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/json_text.h"
#include "support/left_out.h"
#include "support/sandbox.h"

static void run_json(const struct sandbox *sandbox, const char *command, struct sandbox_run *got)
{
    sandbox_run(sandbox, command, got);
    const char *end = json_skip(got->out);
    cr_assert(end, "%s: not JSON", command);
    cr_expect_eq(strspn(end, " \n"), strlen(end), "%s: more behind the JSON", command);
}

static void expect_keys(const char *object, const char *where, const char *const *keys)
{
    cr_assert(object && *object == '{', "%s is no object", where);
    for (; *keys; keys++)
        cr_expect(json_find(object, *keys), "%s lacks %s", where, *keys);
}

static void expect_warnings(const char *object, const char *where)
{
    static const char *const keys[] = {"code", "text", NULL};
    const char *list = json_find(object, "warnings");
    cr_assert(list && *list == '[', "%s", where);
    for (int i = 0; json_item(list, i); i++)
        expect_keys(json_item(list, i), where, keys);
}

static void expect_bearing(const char *bearing)
{
    static const char *const keys[] = {"name",
                                       "type",
                                       "dynamic_load_rating_n",
                                       "static_load_rating_n",
                                       "fatigue_load_limit_n",
                                       "pitch_diameter_mm",
                                       "phases",
                                       "basic_rating_life_mrev",
                                       "basic_rating_life_h",
                                       "modified_rating_life_h",
                                       "mean_equivalent_load_n",
                                       "loss",
                                       NULL};
    static const char *const phase_keys[] = {"name",
                                             "time_share",
                                             "speed_rpm",
                                             "radial_load_n",
                                             "axial_load_n",
                                             "equivalent_load_n",
                                             "static_equivalent_load_n",
                                             "static_safety_factor",
                                             "temperature_c",
                                             "viscosity_mm2_s",
                                             "reference_viscosity_mm2_s",
                                             "viscosity_ratio",
                                             "effective_viscosity_ratio",
                                             "contamination_factor",
                                             "life_modification_factor",
                                             "water_factor",
                                             "basic_rating_life_h",
                                             "modified_rating_life_h",
                                             "damage_share",
                                             "warnings",
                                             NULL};
    static const char *const loss_keys[] = {"reference_life_h", "causes", NULL};
    static const char *const cause_keys[] = {"cause", "log_life_share", "life_if_cured_h", NULL};
    expect_keys(bearing, "bearing", keys);
    const char *phases = json_find(bearing, "phases");
    cr_assert(json_item(phases, 0), "no phase");
    for (int i = 0; json_item(phases, i); i++) {
        expect_keys(json_item(phases, i), "phase", phase_keys);
        expect_warnings(json_item(phases, i), "phase");
    }
    const char *loss = json_find(bearing, "loss");
    expect_keys(loss, "loss", loss_keys);
    for (int i = 0; json_item(json_find(loss, "causes"), i); i++)
        expect_keys(json_item(json_find(loss, "causes"), i), "cause", cause_keys);
}

static void expect_contract(const char *json)
{
    static const char *const keys[] = {"tool",
                                       "title",
                                       "reliability_percent",
                                       "reliability_factor",
                                       "target_life_h",
                                       "bearings",
                                       "system",
                                       "warnings",
                                       NULL};
    static const char *const tool_keys[] = {"name", "version", NULL};
    static const char *const system_keys[] = {"basic_rating_life_h", "modified_rating_life_h",
                                              NULL};
    expect_keys(json, "answer", keys);
    expect_keys(json_find(json, "tool"), "tool", tool_keys);
    expect_keys(json_find(json, "system"), "system", system_keys);
    expect_warnings(json, "answer");
    expect_bearing(json_item(json_find(json, "bearings"), 0));
}

/* The keys are a contract for scripts: they may be added to, never renamed. */
Test(cli_json, of_life_holds_every_key_of_its_contract)
{
    static const char *const commands[] = {
        "spalltime life --format json scenarios/beet_trailer_hub.yaml",
        "spalltime life --format json --explain scenarios/beet_trailer_hub.yaml",
        "spalltime life --format json tests/cli/inputs/rough_press.yaml",
        "spalltime life --format json tests/cli/inputs/no_answer.yaml",
    };
    struct sandbox sandbox;
    sandbox_make(&sandbox);
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        struct sandbox_run got;
        run_json(&sandbox, commands[i], &got);
        expect_contract(got.out);
        free(got.out);
        free(got.err);
    }
    sandbox_remove(&sandbox);
}

static void expect_working(const char *list, const char *where)
{
    static const char *const keys[] = {"bearing", "phase", "symbol", "formula", "numbers",
                                       "value",   "unit",  "source", NULL};
    int steps = 0;
    for (; json_item(list, steps); steps++)
        expect_keys(json_item(list, steps), where, keys);
    cr_expect_geq(steps, 5, "%s: %d steps", where, steps);
}

/* What the golden answers show of one step holds for each. */
Test(cli_json, every_step_of_a_working_has_a_formula_its_numbers_and_a_source)
{
    static const char *const plain[] = {
        "spalltime life -f json -e scenarios/beet_trailer_hub.yaml",
        "spalltime timeline -f json -e tests/cli/inputs/shear_gear.yaml",
        "spalltime reach -f json -e tests/cli/inputs/shear_gear.yaml"};
    static const char compare[] = "spalltime compare -f json -e tests/cli/inputs/shear_gear.yaml";
    struct sandbox sandbox;
    struct sandbox_run got;
    sandbox_make(&sandbox);
    for (size_t i = 0; i < sizeof plain / sizeof *plain; i++) {
        run_json(&sandbox, plain[i], &got);
        expect_working(json_find(got.out, "working"), plain[i]);
        free(got.out);
        free(got.err);
    }
    run_json(&sandbox, compare, &got);
    const char *cases = json_find(got.out, "workings");
    cr_assert(json_item(cases, 1), "%s: no second case", compare);
    for (int i = 0; json_item(cases, i); i++) {
        cr_expect(json_find(json_item(cases, i), "name"));
        expect_working(json_find(json_item(cases, i), "working"), compare);
    }
    free(got.out);
    free(got.err);
    sandbox_remove(&sandbox);
}

static double read_number(const char *object, const char *key)
{
    const char *text = json_find(object, key);
    cr_assert(text, "no %s", key);
    return strtod(text, NULL);
}

Test(cli_json, of_timeline_has_flags_in_each_stage_and_a_curve_that_rises_to_1)
{
    static const char *const stage_keys[] = {"from_h",       "to_h",       "damage",
                                             "start_life_h", "end_life_h", NULL};
    struct sandbox sandbox;
    struct sandbox_run got;
    sandbox_make(&sandbox);
    run_json(&sandbox, "spalltime timeline -f json tests/cli/inputs/shear_gear.yaml", &got);
    const char *stages = json_find(got.out, "stages"), *curve = json_find(got.out, "curve");
    cr_assert(json_item(stages, 3), "fewer than four stages");
    for (int i = 0; json_item(stages, i); i++) {
        expect_keys(json_item(stages, i), "stage", stage_keys);
        expect_warnings(json_item(stages, i), "stage");
        cr_expect(json_item(json_find(json_item(stages, i), "warnings"), 0), "stage %d", i);
    }
    double time_h = -1, damage = 0;
    int points = 0;
    for (; json_item(curve, points); points++) {
        const char *point = json_item(curve, points);
        cr_expect_gt(read_number(point, "time_h"), time_h, "point %d", points);
        cr_expect_geq(read_number(point, "damage"), damage, "point %d", points);
        time_h = read_number(point, "time_h");
        damage = read_number(point, "damage");
    }
    cr_expect_gt(points, 100, "%d", points);
    cr_expect_float_eq(damage, 1, 1e-9);
    cr_expect_float_eq(time_h, read_number(got.out, "life_h"), 1e-6);
    free(got.out);
    free(got.err);
    sandbox_remove(&sandbox);
}

/* jq or Python reads it too, where one of them is present. */
Test(cli_json, is_read_by_other_programs)
{
    static const char *const words[] = {
        "life --format json tests/cli/inputs/rough_press.yaml",
        "schema --format json",
        "catalog --format json",
        "compare -f json -e tests/cli/inputs/shear_gear.yaml",
        "reach -f json -e tests/cli/inputs/shear_gear.yaml",
        "timeline -f json -e tests/cli/inputs/dry_grease.yaml",
        "damage -c catalogs --format json",
        "damage -c catalogs --format json gritty",
        "diagnose -c catalogs --format json scenarios/damaged/tight_hub.yaml",
        "diagnose -c catalogs --format json scenarios/damaged/launched_trailer.yaml",
        "damage -c catalogs --format json creep scenarios/beet_trailer_hub.yaml"};
    struct sandbox sandbox;
    if (system("{ command -v jq || command -v python3; } >/dev/null") != 0)
        leave_out("neither jq nor python3 here");
    sandbox_make(&sandbox);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        char command[512];
        struct sandbox_run got;
        snprintf(command, sizeof command,
                 "spalltime %s >\"$SCRATCH/json\"; cd \"$SCRATCH\"\n"
                 "if command -v jq >/dev/null; then jq -e type json; "
                 "else python3 -m json.tool json; fi",
                 words[i]);
        sandbox_run(&sandbox, command, &got);
        cr_expect_eq(got.status, 0, "%s: %s", words[i], got.err);
        free(got.out);
        free(got.err);
        snprintf(command, sizeof command, "spalltime %s", words[i]);
        run_json(&sandbox, command, &got);
        free(got.out);
        free(got.err);
    }
    sandbox_remove(&sandbox);
}
