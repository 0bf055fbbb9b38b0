/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The schema that `schema --format json` writes, held against files by a validator that others made
 * (Python's jsonschema): what the program takes must be valid, nonsense of shape must not. What
 * only the program can know (names of phases, classes of a lubricant) is beyond a schema. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "support/golden.h"
#include "support/left_out.h"
#include "support/patch.h"

#define CASES "tests/bad_input/cases/"
#define RAW "tests/bad_input/raw/"
#define FILES_MAX 1000

/* Bad inputs whose mistake a schema can see. */
static const char *const nonsense[] = {"contamination_factor_above_one",
                                       "contamination_factor_unit",
                                       "contamination_factor_word",
                                       "costs_incomplete",
                                       "dust_unknown",
                                       "empty",
                                       "empty_list",
                                       "empty_section",
                                       "empty_text",
                                       "hub_and_bearing",
                                       "hub_no_setting",
                                       "hub_of_a_name",
                                       "hub_two_settings",
                                       "kind_near",
                                       "list_for_section",
                                       "list_for_value",
                                       "load_comma",
                                       "load_hexadecimal",
                                       "load_negative",
                                       "load_no_unit",
                                       "load_wrong_unit",
                                       "mapping_for_list",
                                       "missing_everything",
                                       "missing_title",
                                       "missing_variant_name",
                                       "not_a_mapping_list",
                                       "rows_not_whole",
                                       "rows_out_of_range",
                                       "service_event_without_a_time",
                                       "service_in_a_variant",
                                       "share_negative",
                                       "temperature_no_unit",
                                       "text_too_long",
                                       "time_no_unit",
                                       "unknown_key_near",
                                       "unknown_key_phase_far",
                                       "usage_fleet_zero",
                                       "value_for_list",
                                       "viscosity_index_out_of_range",
                                       "word_case",
                                       "yes_no"};

static const char *find_validator(void)
{
    return python_with("jsonschema, yaml", "python3-jsonschema python3-yaml");
}

/* What the validator says by one of the schemas of the files that a shell command lists; from
 * malloc. */
static char *judge_by(const char *of, const char *python, const char *list)
{
    char command[3000], path[300];
    size_t length;
    snprintf(path, sizeof path, "%s.schema.%ld", SPT_TEST_PROGRAM, (long)getpid());
    snprintf(command, sizeof command,
             "%s schema --of %s --format json -o %s.json && { %s; } | "
             "%s -W ignore tests/cli/schema_check.py %s.json >%s",
             SPT_TEST_PROGRAM, of, path, list, python, path, path);
    cr_assert_eq(system(command), 0, "%s", command);
    char *said = golden_read(path, &length);
    snprintf(command, sizeof command, "rm -f %s %s.json", path, path);
    cr_assert_eq(system(command), 0);
    cr_assert(said);
    return said;
}

static char *judge(const char *python, const char *list)
{
    return judge_by("scenario", python, list);
}

/* A folder of its own with the scenarios of the bad inputs. */
static void make_mistakes(char *folder)
{
    char command[600];
    strcpy(folder, "/tmp/spalltime.XXXXXX");
    cr_assert(mkdtemp(folder), "no folder can be made in /tmp");
    cr_assert(patch_cases_expand(CASES, folder));
    snprintf(command, sizeof command, "cp " RAW "*.yaml %s", folder);
    cr_assert_eq(system(command), 0);
}

static void remove_mistakes(const char *folder)
{
    char command[600];
    snprintf(command, sizeof command, "rm -rf %s", folder);
    cr_assert_eq(system(command), 0);
}

static int count_lines(const char *text, const char *start)
{
    int count = 0;
    for (const char *at = text; *at; at += strcspn(at, "\n"), at += *at == '\n')
        count += !strncmp(at, start, strlen(start));
    return count;
}

Test(schema, takes_every_file_that_the_program_takes)
{
    const char *python = find_validator();
    char folder[40], list[1000];
    make_mistakes(folder);
    snprintf(list, sizeof list,
             SPT_TEST_PROGRAM " check --catalog catalogs --catalog tests/cli/catalog "
                              "scenarios/*.yaml tests/cli/inputs/*.yaml %s/*.yaml 2>/dev/null | "
                              "sed -n 's/: fine, .*//p'",
             folder);
    char *said = judge(python, list);
    remove_mistakes(folder);
    cr_expect_eq(count_lines(said, "invalid "), 0, "the program takes these:\n%s", said);
    cr_expect_geq(count_lines(said, "valid "), 40, "%s", said);
    free(said);
}

Test(schema, takes_every_scenario_in_scenarios_and_each_points_to_it)
{
    static const char first[] = "# yaml-language-server: $schema=../build/spalltime.schema.json\n";
    static char names[FILES_MAX][80];
    int count = golden_list("scenarios/", ".yaml", names, FILES_MAX);
    cr_assert_geq(count, 17, "%d", count);
    for (int i = 0; i < count; i++) {
        char path[200];
        size_t length;
        snprintf(path, sizeof path, "scenarios/%.79s.yaml", names[i]);
        char *text = golden_read(path, &length);
        cr_assert(text);
        cr_expect(!strncmp(text, first, strlen(first)), "%s starts otherwise", path);
        free(text);
    }
    const char *python = find_validator();
    char *said = judge(python, "ls scenarios/*.yaml");
    cr_expect_eq(count_lines(said, "valid "), count, "%s", said);
    free(said);
}

Test(schema, of_a_case_takes_the_cases_that_the_program_takes)
{
    static const char first[] =
        "# yaml-language-server: $schema=../../build/spalltime.case.schema.json\n";
    static char names[FILES_MAX][80];
    const int count = golden_list("scenarios/damaged/", ".yaml", names, FILES_MAX);
    cr_assert_geq(count, 5, "%d", count);
    for (int i = 0; i < count; i++) {
        char path[200];
        size_t length;
        snprintf(path, sizeof path, "scenarios/damaged/%.79s.yaml", names[i]);
        char *text = golden_read(path, &length);
        cr_assert(text);
        cr_expect(!strncmp(text, first, strlen(first)), "%s starts otherwise", path);
        free(text);
    }
    char *said = judge_by("case", find_validator(), "ls scenarios/damaged/*.yaml");
    cr_expect_eq(count_lines(said, "valid "), count, "%s", said);
    free(said);
    said = judge_by("case", find_validator(), "echo tests/cli/damaged/mistakes.yaml");
    cr_expect_eq(count_lines(said, "invalid "), 1, "%s", said);
    free(said);
}

Test(schema, refuses_nonsense_of_shape)
{
    const char *python = find_validator();
    char folder[40], list[100];
    make_mistakes(folder);
    snprintf(list, sizeof list, "ls %s/*.yaml", folder);
    char *said = judge(python, list);
    remove_mistakes(folder);
    for (size_t i = 0; i < sizeof nonsense / sizeof *nonsense; i++) {
        char line[200];
        snprintf(line, sizeof line, "invalid %s/%s.yaml: ", folder, nonsense[i]);
        cr_expect_eq(count_lines(said, line), 1, "not refused: %s", nonsense[i]);
    }
    free(said);
}
