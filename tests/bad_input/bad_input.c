/* SPDX-License-Identifier: GPL-3.0-or-later */
/* One case is tests/bad_input/cases/NAME.case: a scenario as a change of a sound one, and the
 * diagnostics it should bring to the letter (support/patch.h). Inputs whose bytes matter are
 * tests/bad_input/raw/NAME.yaml with NAME.txt. Inputs that are too long or no text are made here;
 * their NAME.txt stands alone. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "scenario/scenario.h"
#include "support/golden.h"
#include "support/patch.h"

#define CASES "tests/bad_input/cases/"
#define RAW "tests/bad_input/raw/"
#define CATALOG "tests/bad_input/catalog"
#define CASES_MAX 600

/* The diagnostics of a text, or what was accepted; from malloc. */
static char *diagnose(const struct spt_catalog *catalog, const char *name, const char *text,
                      size_t length)
{
    struct spt_diagnostics diags = {0};
    struct spt_scenario scenario;
    const struct spt_source source = {name, text, length};
    char *said = NULL;
    size_t said_length = 0;
    FILE *out = open_memstream(&said, &said_length);
    if (spt_scenario_load(&source, catalog, &scenario, &diags))
        fprintf(out, "accepted: %d phases, %d variants\n",
                scenario.base.question.bearings[0].phase_count, scenario.variant_count);
    spt_diagnostics_print(&diags, out);
    fclose(out);
    spt_scenario_free(&scenario);
    return said;
}

/* Compares with what is expected, which may be NULL where there is none. */
static void judge(const char *name, const char *said, const char *expected)
{
    int line = 0;
    cr_expect(expected, "%s: what it should say is missing", name);
    cr_expect(expected && golden_same(said, expected, 0, &line),
              "%s, line %d\n--- said:\n%s--- expected:\n%s", name, line, said,
              expected ? expected : "");
}

/* Diagnoses a text whose expected diagnostics are RAW/NAME.txt. */
static void compare(const struct spt_catalog *catalog, const char *name, const char *text,
                    size_t length)
{
    char path[200], shown[120];
    size_t expected_length;
    snprintf(path, sizeof path, RAW "%s.txt", name);
    snprintf(shown, sizeof shown, "%s.yaml", name);
    char *said = diagnose(catalog, shown, text, length);
    if (golden_regenerates()) {
        cr_expect(golden_write(path, said), "%s cannot be written", path);
    } else {
        char *expected = golden_read(path, &expected_length);
        judge(name, said, expected);
        free(expected);
    }
    free(said);
}

/* Writes a case anew, with what is said now. */
static void rewrite(const char *path, const char *said)
{
    char *text = NULL;
    size_t length, end;
    char *old = golden_read(path, &end);
    const char *says = strstr(old, "\n--- says\n");
    FILE *out = open_memstream(&text, &length);
    fprintf(out, "%.*s\n--- says\n%s", says ? (int)(says - old) : (int)end - 1, old, said);
    fclose(out);
    cr_expect(golden_write(path, text), "%s cannot be written", path);
    free(text);
    free(old);
}

static void run_case(const struct spt_catalog *catalog, const char *name)
{
    char path[200], shown[120];
    snprintf(path, sizeof path, CASES "%s.case", name);
    snprintf(shown, sizeof shown, "%s.yaml", name);
    struct patch_case read = patch_case_read(path);
    cr_assert(read.scenario, "%s: its base is missing or its patch does not fit", path);
    char *said = diagnose(catalog, shown, read.scenario, strlen(read.scenario));
    if (golden_regenerates())
        rewrite(path, said);
    else
        judge(name, said, read.says);
    free(said);
    patch_case_free(&read);
}

static void load_catalog(struct spt_catalog *catalog)
{
    struct spt_diagnostics diags = {0};
    *catalog = (struct spt_catalog){0};
    cr_assert(spt_catalog_add_folder(catalog, CATALOG, &diags));
}

static void refuse_regenerated(void)
{
    cr_assert(!golden_regenerates(),
              "the expected files were written anew: read the changes, then run without "
              "SPT_REGENERATE");
}

Test(bad_input, every_case_says_what_it_should)
{
    static char names[CASES_MAX][80];
    struct spt_catalog catalog;
    load_catalog(&catalog);
    int count = golden_list(CASES, ".case", names, CASES_MAX);
    cr_assert_gt(count, 150, "run the tests from the top of the source tree");
    for (int i = 0; i < count; i++)
        run_case(&catalog, names[i]);
    spt_catalog_free(&catalog);
    refuse_regenerated();
}

Test(bad_input, every_raw_file_says_what_it_should)
{
    static char names[CASES_MAX][80];
    struct spt_catalog catalog;
    load_catalog(&catalog);
    int count = golden_list(RAW, ".yaml", names, CASES_MAX);
    cr_assert_gt(count, 5);
    for (int i = 0; i < count; i++) {
        char path[200];
        size_t length;
        snprintf(path, sizeof path, RAW "%s.yaml", names[i]);
        char *text = golden_read(path, &length);
        cr_assert(text, "%s", path);
        compare(&catalog, names[i], text, length);
        free(text);
    }
    spt_catalog_free(&catalog);
    refuse_regenerated();
}

static void make_control_character(FILE *out)
{
    fputs("title: Mill\afan\n", out);
}

static void make_delete_character(FILE *out)
{
    fputs("title: Mill fan\nnote: M\xC3\xBChle\x7F\n", out);
}

static void make_second_set_control(FILE *out)
{
    fputs("title: Mill \xC2\x9B fan\n", out);
}

static void make_nul(FILE *out)
{
    fputs("title: Mill", out);
    fputc(0, out);
    fputs("fan\n", out);
}

static void make_bad_utf8(FILE *out)
{
    fputs("title: Mill fan\nnote: caf\xE9\n", out);
}

static void make_overlong_utf8(FILE *out)
{
    fputs("title: Mill \xC0\xAF fan\n", out);
}

static void make_surrogate(FILE *out)
{
    fputs("title: \xED\xA0\x80\n", out);
}

static void make_cut_utf8(FILE *out)
{
    fputs("title: Mill fan\xE2\x82", out);
}

static void make_utf16(FILE *out)
{
    fwrite("\xFF\xFEt\0i\0t\0l\0e\0", 1, 12, out);
}

static void make_too_large(FILE *out)
{
    for (int i = 0; i < 70000; i++)
        fputs("# sixteen bytes\n", out);
}

static void make_too_deep(FILE *out)
{
    fputs("title: ", out);
    for (int i = 0; i < 40; i++)
        fputc('[', out);
    for (int i = 0; i < 40; i++)
        fputc(']', out);
    fputc('\n', out);
}

static void make_very_deep(FILE *out)
{
    for (int i = 0; i < 5000; i++)
        fputs("[", out);
}

static void make_many_keys(FILE *out)
{
    for (int i = 0; i < 2001; i++)
        fprintf(out, "key%d: x\n", i);
}

static void make_many_values(FILE *out)
{
    fputs("title: [", out);
    for (int i = 0; i < 100001; i++)
        fputs("x, ", out);
    fputs("x]\n", out);
}

static void make_many_anchors(FILE *out)
{
    fputs("title: [", out);
    for (int i = 0; i < 257; i++)
        fprintf(out, "&a%d x, ", i);
    fputs("x]\n", out);
}

static void write_head(FILE *out)
{
    fputs("title: Mill fan\nbearing: mill bearing\nlubricant: mill grease\n"
          "condition: dusty mill\nduty:\n",
          out);
}

static void write_phases(FILE *out, int count)
{
    write_head(out);
    for (int i = 0; i < count; i++)
        fprintf(out,
                "  - {phase: p%d, time: 1 h, speed: 400 rpm, radial_load: 9 kN, "
                "temperature: 60 degC}\n",
                i);
}

static void make_accepted_1000_phases(FILE *out)
{
    write_phases(out, 1000);
}

static void make_1001_phases(FILE *out)
{
    write_phases(out, 1001);
}

Test(bad_input, every_made_input_says_what_it_should)
{
    static const struct {
        const char *name;
        void (*make)(FILE *out);
    } rows[] = {
        {"made_control_character", make_control_character},
        {"made_delete_character", make_delete_character},
        {"made_second_set_control", make_second_set_control},
        {"made_nul", make_nul},
        {"made_bad_utf8", make_bad_utf8},
        {"made_overlong_utf8", make_overlong_utf8},
        {"made_surrogate", make_surrogate},
        {"made_cut_utf8", make_cut_utf8},
        {"made_utf16", make_utf16},
        {"made_too_large", make_too_large},
        {"made_too_deep", make_too_deep},
        {"made_very_deep", make_very_deep},
        {"made_many_keys", make_many_keys},
        {"made_many_values", make_many_values},
        {"made_many_anchors", make_many_anchors},
        {"made_accepted_1000_phases", make_accepted_1000_phases},
        {"made_1001_phases", make_1001_phases},
    };
    struct spt_catalog catalog;
    load_catalog(&catalog);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char *text = NULL;
        size_t length = 0;
        FILE *out = open_memstream(&text, &length);
        rows[i].make(out);
        fclose(out);
        compare(&catalog, rows[i].name, text, length);
        free(text);
    }
    spt_catalog_free(&catalog);
    refuse_regenerated();
}
