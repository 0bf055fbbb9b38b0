/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "spalltime/run.h"

static const char text[] = "title: Pump  # of the yard\n"
                           "condition: {cleanliness: normal}\n"
                           "lubricant:\n"
                           "  grade: 'VG 100'  # as filled\n"
                           "  kind: grease\n"
                           "duty:\n"
                           "  - phase: running\n"
                           "    speed: 385 rpm  # motor\n"
                           "    radial_load: 2.3 kN\n";

static void expect_edit(const char *path, const char *value, const char *from, const char *to)
{
    char *made = spt_run_edit(text, sizeof text - 1, path, value);
    cr_assert(made, "%s", path);
    const size_t before = (size_t)(strstr(text, from) - text), changed = strlen(to);
    cr_expect_eq(strncmp(made, text, before), 0, "%s", made);
    cr_expect_eq(strncmp(made + before, to, changed), 0, "%s", made);
    cr_expect_str_eq(made + before + changed, text + before + strlen(from));
    spt_free(made);
}

Test(run_edit, changes_one_value_and_leaves_every_other_byte)
{
    expect_edit("duty.0.speed", "410 rpm", "385 rpm", "410 rpm");
    expect_edit("condition.cleanliness", "very severe", "normal", "very severe");
    expect_edit("lubricant.grade", "VG 150", "'VG 100'", "VG 150");
    expect_edit("title", "a: b # c", "Pump", "'a: b # c'");
}

Test(run_edit, puts_in_a_key_that_its_section_does_not_have)
{
    expect_edit("condition.water", "120 ppm", "cleanliness", "water: 120 ppm, cleanliness");
    expect_edit("lubricant.name", "oil", "kind", "name: oil\n  kind");
}

Test(run_edit, refuses_what_leads_nowhere)
{
    cr_expect_null(spt_run_edit(text, sizeof text - 1, "duty.1.speed", "410 rpm"));
    cr_expect_null(spt_run_edit(text, sizeof text - 1, "duty", "410 rpm"));
    cr_expect_null(spt_run_edit(text, sizeof text - 1, "service.year", "3"));
    cr_expect_null(spt_run_edit(text, sizeof text - 1, "title", ""));
    cr_expect_null(spt_run_edit("a: [", 4, "a", "b"));
    cr_expect_null(spt_run_edit(NULL, 0, "a", "b"));
}

Test(run_controls, tells_what_is_stated_and_where_its_slider_ends)
{
    const struct spt_run_file file = {"-", text, sizeof text - 1};
    char *json = spt_run_controls(&file, 1);
    cr_assert(json);
    cr_expect(strstr(json, "\"path\": \"condition.water\""), "offered though not stated: %s", json);
    cr_expect(strstr(json, "\"duty.0.speed\""), "%s", json);
    cr_expect(strstr(json, "\"385 rpm\""), "%s", json);
    cr_expect(strstr(json, "96.25"), "a quarter of 385: %s", json);
    cr_expect(strstr(json, "1540"), "four times 385: %s", json);
    cr_expect_null(strstr(json, "axial_load"), "not stated: %s", json);
    spt_free(json);
    cr_expect_null(spt_run_controls(NULL, 0));
}
