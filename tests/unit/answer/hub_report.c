/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The numbers of the hub reports as a script reads them, against the structs behind them. */
#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>

#include "answer/life/hub.h"
#include "answer/life/setting.h"
#include "support/hub_scenario.h"
#include "support/json_text.h"
#include "support/near.h"

static struct hub_scenario test;
static char *text;
static size_t length;

static struct spt_json open_json(FILE **out)
{
    *out = open_memstream(&text, &length);
    struct spt_json json = spt_json_begin(*out);
    spt_json_open(&json, NULL, '{');
    return json;
}

static void close_json(struct spt_json *json, FILE *out)
{
    spt_json_close(json, '}');
    fclose(out);
    cr_assert(json_skip(text), "not well formed:\n%s", text);
}

static double number(const char *object, const char *key)
{
    const char *value = json_find(object, key);
    cr_assert(value, "%s", key);
    return strtod(value, NULL);
}

static void expect_row(const char *got, const struct spt_hub_phase_answer *phase, int row)
{
    const struct spt_hub_row_answer *want = &phase->rows[row];
    cr_expect_eq(number(got, "setting_factor"), want->setting_factor);
    cr_expect_eq(number(got, "basic_reference_life_h"), want->l10r_h);
    cr_expect_eq(number(got, "relative_factor"), want->relative_factor);
    cr_expect_eq(number(got, "modified_reference_life_h"), want->modified_reference_h);
    cr_expect_eq(number(got, "max_pressure_mpa"), want->contact.max_pressure_mpa);
    cr_expect_eq(number(got, "handbook_radial_load_n"), phase->handbook.radial_n[row]);
    cr_expect_eq(number(got, "handbook_modified_rating_life_h"), want->handbook_life_h);
}

Test(hub_report, json_of_life_holds_the_distribution_of_each_phase_and_row)
{
    static struct spt_hub_phase_answer phases[2];
    struct spt_hub_answer answer;
    FILE *out;
    hub_scenario_read(&test, NULL, NULL);
    hub_scenario_assess(&test);
    cr_assert_eq(spt_hub_answer(&test.bench, &test.assessment, phases, &answer, NULL), SPT_OK);
    struct spt_json json = open_json(&out);
    struct spt_arena arena = {0};
    struct spt_page *page = spt_page_new(&arena, NULL);
    spt_page_hub(page, &answer);
    spt_hub_json(&json, spt_page_find(page, "contacts"), &answer);
    close_json(&json, out);
    spt_arena_free(&arena);
    const char *hub = json_find(text, "hub");
    cr_expect(near(number(hub, "mounted_setting_mm"), 0.05, 1e-12, 0));
    cr_expect_eq(number(hub, "handbook_modified_rating_life_h"), answer.handbook_life_h);
    for (int i = 0; i < 2; i++) {
        const char *phase = json_item(json_find(hub, "phases"), i);
        cr_expect_eq(number(phase, "wheel_load_n"), phases[i].wheel.radial_n);
        for (int row = 0; row < 2; row++)
            expect_row(json_item(json_find(phase, "rows"), row), &phases[i], row);
    }
    free(text);
    hub_scenario_free(&test);
}

Test(hub_report, json_of_setting_holds_the_curve_and_its_marks)
{
    static struct spt_hub_curve curve;
    FILE *out;
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  preload: 0.02 mm\n  setting_scatter: 0.01 mm\n",
                      NULL);
    hub_scenario_assess(&test);
    cr_assert_eq(spt_hub_curve(&test.bench, &test.assessment, &curve, NULL), SPT_OK);
    struct spt_arena arena = {0};
    struct spt_page *page = spt_page_new(&arena, NULL);
    spt_setting_page(page, &test.settled, &curve);
    cr_assert(spt_page_is_whole(page));
    struct spt_json json = open_json(&out);
    spt_setting_json(&json, page, &test.settled, &curve);
    close_json(&json, out);
    spt_arena_free(&arena);
    const char *as_set = json_find(text, "as_set");
    cr_expect(near(number(as_set, "setting_mm"), -0.02, 1e-12, 0));
    cr_expect(near(number(as_set, "life_h"), test.assessment.modified_rating_life_h, 1e-7, 0));
    cr_expect(near(number(json_find(text, "play_0_005_in"), "setting_mm"), 0.127, 1e-12, 0));
    cr_expect_eq(number(text, "kept_to_mm"), curve.study.kept_to_mm);
    cr_expect_eq(number(text, "aim_mm"), curve.study.aim_mm);
    const char *point = json_item(json_find(text, "curve"), SPT_HUB_CURVE_POINTS - 1);
    cr_expect_eq(number(point, "life_h"), curve.points[SPT_HUB_CURVE_POINTS - 1].life_h);
    cr_expect_eq(number(point, "outboard_life_h"), curve.points[SPT_HUB_CURVE_POINTS - 1].row_h[1]);
    free(text);
    hub_scenario_free(&test);
}

Test(hub_report, settings_are_told_as_play_or_preload)
{
    static const struct {
        double setting_mm;
        const char *want;
    } rows[] = {{0.0237, "0.0237 mm end play"},
                {-0.1, "0.1 mm preload"},
                {0, "no end play"},
                {-1e-6, "no end play"},
                {(double)NAN, "none"}};
    char words[SPT_SETTING_LENGTH];
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        cr_expect_str_eq(spt_text_setting(rows[i].setting_mm, words), rows[i].want);
}
