/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "base/allocate.h"
#include "scenario/scenario.h"

static int requests_left;
static bool failed;

static void *fail_at_last(size_t size)
{
    if (requests_left-- > 0)
        return malloc(size);
    failed = true;
    return NULL;
}

/* A scenario with long texts, catalog names, phases with conditions and variants. */
static char *write_scenario(size_t *length)
{
    char *text = NULL;
    FILE *out = open_memstream(&text, length);
    fputs("title: memory\nbearing: {catalog: mill bearing, width: 22 mm}\nlubricant: mill grease\n"
          "condition: dusty mill\nduty:\n",
          out);
    for (int i = 0; i < 60; i++)
        fprintf(out,
                "  - {phase: p%d, time: 1 h, speed: 400 rpm, radial_load: 9 kN, temperature: 60 "
                "degC, condition: {water: 200 ppm}}\n",
                i);
    fputs("variants:\n", out);
    for (int i = 0; i < 4; i++)
        fprintf(out,
                "  - name: v%d\n    lubricant: mill grease\n    condition: dusty mill\n"
                "    duty:\n      - {phase: p3, speed: 90 rpm}\n",
                i);
    fclose(out);
    return text;
}

/* A hub whose rows come from the catalog, with a variant and an event. */
static char *write_hub(size_t *length)
{
    char *text = NULL;
    FILE *out = open_memstream(&text, length);
    fputs("title: memory\nhub:\n  inboard: {catalog: mill bearing, width: 22 mm, geometry: &g "
          "{elements: 18, element_diameter: 8 mm, element_length: 13 mm, contact_angle: 14 deg}}\n"
          "  outboard: {catalog: mill bearing, geometry: *g}\n  inboard_position: -20 mm\n"
          "  outboard_position: 30 mm\n  rolling_radius: 300 mm\n  end_play: 0.05 mm\n"
          "lubricant: mill grease\ncondition: dusty mill\nduty:\n"
          "  - {phase: a, time: 1 h, road_speed: 30 km/h, wheel_load: 5 kN, temperature: 60 degC}\n"
          "variants:\n  - name: tight\n    hub: {preload: 0.1 mm, inboard: {width: 21 mm}}\n"
          "  - name: loose\n    hub: {end_play: 0.4 mm}\n"
          "service:\n  events:\n    - {event: nut, at: 10 h, hub: {end_play: 0.2 mm}}\n",
          out);
    fclose(out);
    return text;
}

/* Lets the n-th request for memory fail, for every n until all succeed. */
static void fail_each_request(char *text, size_t length)
{
    const struct spt_source source = {"memory", text, length};
    int n = 0;
    for (failed = true; failed && n < 2000; n++) {
        struct spt_catalog catalog = {0};
        struct spt_diagnostics diags = {0}, folder = {0};
        struct spt_scenario scenario;
        cr_assert(spt_catalog_add_folder(&catalog, "tests/bad_input/catalog", &folder));
        requests_left = n;
        failed = false;
        spt_arena_allocate_with(fail_at_last);
        bool loaded = spt_scenario_load(&source, &catalog, &scenario, &diags);
        spt_arena_allocate_with(NULL);
        cr_expect_eq(loaded, !failed, "request %d", n);
        cr_expect_eq(diags.out_of_memory, failed, "request %d: %s", n,
                     diags.count ? diags.list[0].text : "");
        spt_scenario_free(&scenario);
        spt_catalog_free(&catalog);
    }
    cr_expect_gt(n, 20);
    cr_expect(!failed);
    free(text);
}

Test(scenario, a_failed_request_for_memory_is_reported_and_never_a_half_built_scenario)
{
    size_t length;
    char *text = write_scenario(&length);
    fail_each_request(text, length);
}

Test(scenario, a_failed_request_for_memory_is_reported_for_hubs_too)
{
    size_t length;
    char *text = write_hub(&length);
    fail_each_request(text, length);
}

Test(scenario, a_catalog_that_memory_fails_for_is_reported)
{
    int n = 0;
    for (failed = true; failed && n < 200; n++) {
        struct spt_catalog catalog = {0};
        struct spt_diagnostics diags = {0};
        requests_left = n;
        failed = false;
        spt_arena_allocate_with(fail_at_last);
        bool added = spt_catalog_add_folder(&catalog, "tests/bad_input/catalog", &diags);
        spt_arena_allocate_with(NULL);
        cr_expect_eq(added, !failed, "request %d", n);
        spt_catalog_free(&catalog);
    }
    cr_expect_gt(n, 3);
    cr_expect(!failed);
}
