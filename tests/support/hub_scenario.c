/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/hub_scenario.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <string.h>

static const char usual_rows[] =
    "  inboard: {name: large row, type: tapered roller, bore: 60 mm, outside_diameter: 110 mm,\n"
    "    width: 23.75 mm, pitch_diameter: 85.5 mm, geometry: {elements: 18,\n"
    "    element_diameter: 12.5 mm, element_length: 14.5 mm, contact_angle: 16 deg}}\n"
    "  outboard: {name: small row, type: tapered roller, bore: 45 mm, outside_diameter: 85 mm,\n"
    "    width: 20.75 mm, pitch_diameter: 65.5 mm, geometry: {elements: 18,\n"
    "    element_diameter: 9.5 mm, element_length: 13 mm, contact_angle: 12 deg}}\n";
static const char usual_hub[] = HUB_SCENARIO_PLACES "  end_play: 0.05 mm\n";
static const char oil[] =
    "lubricant: {kind: grease, viscosity_40: 150 mm2/s, viscosity_100: 14.5 mm2/s}\n"
    "condition: {cleanliness: normal, water: 180 ppm, grease_age: 90 h}\nduty:\n";
static const char usual_duty[] =
    "  - {phase: straight, time: 90 %, speed: 419 rpm, wheel_load: 13 kN, temperature: 62 degC}\n"
    "  - {phase: bend, time: 10 %, speed: 287 rpm, wheel_load: 15 kN, side_share: -15 %,\n"
    "     temperature: 55 degC}\n";

static void allocate_memory(struct hub_scenario *test)
{
    const struct spt_case *question = &test->scenario.base.question;
    size_t n = (size_t)question->bearings[0].phase_count;
    struct spt_arena *arena = &test->scenario.arena;
    struct spt_hub_workspace *memory = &test->workspace;
    memory->buffer_length = spt_hub_bench_workspace_length(question);
    memory->buffer = spt_arena_allocate(arena, memory->buffer_length * sizeof *memory->buffer);
    memory->cases = spt_arena_allocate(arena, n * sizeof *memory->cases);
    memory->reference_mrev = spt_arena_allocate(arena, n * sizeof *memory->reference_mrev);
    memory->factors = spt_arena_allocate(arena, n * sizeof *memory->factors);
    memory->phases = spt_arena_allocate(arena, 2 * n * sizeof *memory->phases);
    memory->results = spt_arena_allocate(arena, n * sizeof *memory->results);
    test->results = spt_arena_allocate(arena, 2 * n * sizeof *test->results);
}

void hub_scenario_read(struct hub_scenario *test, const char *hub, const char *duty)
{
    char text[4096];
    struct spt_diagnostics diags = {0};
    memset(test, 0, sizeof *test);
    const char *rows = hub && strstr(hub, "  inboard:") ? "" : usual_rows;
    int length = snprintf(text, sizeof text, "title: Test hub\nhub:\n%s%s%s%s", rows,
                          hub ? hub : usual_hub, oil, duty ? duty : usual_duty);
    cr_assert(length > 0 && (size_t)length < sizeof text);
    const struct spt_source source = {"hub.yaml", text, (size_t)length};
    bool fine = spt_scenario_load(&source, NULL, &test->scenario, &diags);
    if (!fine)
        spt_diagnostics_print(&diags, stderr);
    cr_assert(fine);
    allocate_memory(test);
}

static void assess(struct hub_scenario *test, bool with_cure)
{
    struct spt_hub_failure failure;
    cr_assert_eq(spt_hub_settle(&test->scenario.base.question, &test->workspace, with_cure,
                                &test->bench, &test->settled, &failure),
                 SPT_OK);
    cr_assert_eq(spt_assess(&test->settled, test->results, &test->assessment), SPT_OK);
}

void hub_scenario_assess(struct hub_scenario *test)
{
    assess(test, true);
}

void hub_scenario_assess_uncured(struct hub_scenario *test)
{
    assess(test, false);
}

void hub_scenario_free(struct hub_scenario *test)
{
    spt_scenario_free(&test->scenario);
}
