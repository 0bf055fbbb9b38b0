/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Golden runs of the built program. A case is tests/cli/cases/NAME.case:
 *     # remarks
 *     $ a shell command that calls `spalltime`
 *     status 0
 *     --- stdout
 *     ...
 *     --- stderr
 *     ...
 * Commands run from the top of the source tree. `spalltime` is a copy in an installed tree of its
 * own whose catalogs are tests/cli/catalog; $SCRATCH is an empty folder, shown as SCRATCH, and the
 * version is shown as VERSION. The path of $SCRATCH is as long wherever the source tree lies:
 * sentences that tell it wrap alike. Where the command asks for json or csv, numbers may differ by
 * 1e-9 of their value, so that compilers need not agree on the last digits. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "spalltime/version.h"
#include "support/golden.h"
#include "support/json_text.h"

#define CASES "tests/cli/cases/"
#define CASES_MAX 1000
#define PATH_LENGTH 1024
#define SCRATCH "/scratch"
#define NUMBER_TOLERANCE 1e-9

struct run {
    char *text; /* the file of the case, cut into the pieces below */
    char *head; /* remarks and command, up to the status */
    char *command;
    int status;
    char *out;
    char *err;
};

struct sandbox {
    char root[PATH_LENGTH]; /* absolute */
    char work[32];          /* absolute, its length always the same; holds the scratch folder */
};

static void make_sandbox(struct sandbox *sandbox)
{
    char here[PATH_LENGTH / 2], command[4 * PATH_LENGTH];
    cr_assert(getcwd(here, sizeof here));
    snprintf(sandbox->root, sizeof sandbox->root, "%s/%s.cli.%ld", here, SPT_TEST_PROGRAM,
             (long)getpid());
    snprintf(command, sizeof command,
             "r='%s'; mkdir -p \"$r/tree/bin\" \"$r/tree/share/spalltime/catalogs\" && "
             "cp %s \"$r/tree/bin/spalltime\" && "
             "cp tests/cli/catalog/*.yaml \"$r/tree/share/spalltime/catalogs/\"",
             sandbox->root, SPT_TEST_PROGRAM);
    cr_assert_eq(system(command), 0, "%s", command);
    strcpy(sandbox->work, "/tmp/spalltime.XXXXXX");
    cr_assert(mkdtemp(sandbox->work), "no folder can be made in /tmp");
}

static void remove_sandbox(const struct sandbox *sandbox)
{
    char command[2 * PATH_LENGTH];
    snprintf(command, sizeof command, "rm -rf '%s' '%s'", sandbox->root, sandbox->work);
    cr_assert_eq(system(command), 0);
}

/* The text with each `from` replaced; from malloc. Frees the text. */
static char *replace_all(char *text, const char *from, const char *to)
{
    char *made = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&made, &length);
    const char *at = text;
    for (const char *next = strstr(at, from); next; next = strstr(at, from)) {
        fwrite(at, 1, (size_t)(next - at), out);
        fputs(to, out);
        at = next + strlen(from);
    }
    fputs(at, out);
    fclose(out);
    free(text);
    return made;
}

static char *read_output(const struct sandbox *sandbox, const char *name)
{
    char path[2 * PATH_LENGTH], scratch[sizeof sandbox->work + sizeof SCRATCH];
    size_t length;
    snprintf(path, sizeof path, "%s/%s", sandbox->root, name);
    snprintf(scratch, sizeof scratch, "%s" SCRATCH, sandbox->work);
    char *text = golden_read(path, &length);
    cr_assert(text, "%s", path);
    cr_expect_eq(strlen(text), length, "a NUL in the output");
    return replace_all(replace_all(text, scratch, "SCRATCH"), SPT_VERSION, "VERSION");
}

/* Runs the command of a case in an empty scratch folder; `out` and `err` from malloc. */
static void run_command(const struct sandbox *sandbox, const char *command, struct run *got)
{
    static char line[8 * PATH_LENGTH];
    snprintf(line, sizeof line,
             "r='%s'; SCRATCH='%s" SCRATCH "'; rm -rf \"$SCRATCH\"; mkdir \"$SCRATCH\"; "
             "PATH=\"$r/tree/bin:$PATH\"; LC_ALL=C.UTF-8; export SCRATCH PATH LC_ALL; "
             "unset SPALLTIME_CATALOGS NO_COLOR; { %s\n} >\"$r/out\" 2>\"$r/err\" </dev/null",
             sandbox->root, sandbox->work, command);
    int status = system(line);
    *got = (struct run){.status = WIFEXITED(status) ? WEXITSTATUS(status) : -1,
                        .out = read_output(sandbox, "out"),
                        .err = read_output(sandbox, "err")};
}

/* Cuts the text at `mark` and gives what follows; NULL where the mark is missing. */
static char *cut(char *text, const char *mark)
{
    char *at = text ? strstr(text, mark) : NULL;
    if (!at)
        return NULL;
    *at = 0;
    return at + strlen(mark);
}

/* A case that has just been written by hand may end after its command. */
static void read_case(const char *path, struct run *want)
{
    size_t length;
    *want = (struct run){.text = golden_read(path, &length), .status = -2};
    cr_assert(want->text, "%s", path);
    char *status = cut(want->text, "\nstatus ");
    want->out = cut(status, "\n--- stdout\n");
    want->err = cut(want->out, "--- stderr\n");
    want->status = status ? atoi(status) : -2;
    want->head = want->text;
    want->command = strncmp(want->text, "$ ", 2) ? strstr(want->text, "\n$ ") : want->text - 1;
    cr_assert(want->command, "%s: no line starts with `$ `", path);
    want->command += 3;
    if (!status && length && want->text[length - 1] == '\n')
        want->text[length - 1] = 0;
}

static void write_case(const char *path, const struct run *want, const struct run *got)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    fprintf(out, "%s\nstatus %d\n--- stdout\n%s--- stderr\n%s", want->head, got->status, got->out,
            got->err);
    fclose(out);
    cr_expect(golden_write(path, text), "%s", path);
    free(text);
}

static void compare(const char *name, const struct run *want, const struct run *got)
{
    bool numbers = strstr(want->command, "json") || strstr(want->command, "csv");
    double tolerance = numbers ? NUMBER_TOLERANCE : 0;
    int line = 0;
    cr_assert(want->out && want->err, "%s: not yet generated", name);
    cr_expect_eq(got->status, want->status, "%s: status %d, not %d\n%s", name, got->status,
                 want->status, got->err);
    cr_expect(golden_same(got->out, want->out, tolerance, &line),
              "%s: stdout differs in line %d; it is\n%s", name, line, got->out);
    cr_expect(golden_same(got->err, want->err, tolerance, &line),
              "%s: stderr differs in line %d; it is\n%s", name, line, got->err);
}

Test(cli, every_command_answers_what_its_file_says)
{
    static char names[CASES_MAX][80];
    struct sandbox sandbox;
    int count = golden_list(CASES, ".case", names, CASES_MAX);
    cr_assert_gt(count, 40, "run the tests from the top of the source tree");
    make_sandbox(&sandbox);
    for (int i = 0; i < count; i++) {
        char path[PATH_LENGTH];
        struct run want, got;
        snprintf(path, sizeof path, CASES "%.79s.case", names[i]);
        read_case(path, &want);
        run_command(&sandbox, want.command, &got);
        if (golden_regenerates())
            write_case(path, &want, &got);
        else
            compare(names[i], &want, &got);
        free(got.out);
        free(got.err);
        free(want.text);
    }
    remove_sandbox(&sandbox);
    cr_assert(!golden_regenerates(),
              "the cases were written anew: read the changes, then run without SPT_REGENERATE");
}

static int count_characters(const char *text, size_t length)
{
    int count = 0;
    for (size_t i = 0; i < length; i++)
        count += ((unsigned char)text[i] & 0xC0) != 0x80;
    return count;
}

/* Kept beside the comparison, so that a regenerated file cannot hide a wide line. */
Test(cli, text_answers_fit_80_columns)
{
    static char names[CASES_MAX][80];
    int count = golden_list(CASES, ".case", names, CASES_MAX), lines = 0;
    for (int i = 0; i < count; i++) {
        char path[PATH_LENGTH];
        struct run want;
        snprintf(path, sizeof path, CASES "%.79s.case", names[i]);
        read_case(path, &want);
        bool text = !strstr(want.command, "--chart") && !strstr(want.command, "json") &&
                    !strstr(want.command, "csv") && !strstr(want.command, "--color always");
        for (const char *at = want.out; text && at && *at;) {
            size_t length = strcspn(at, "\n");
            lines++;
            cr_expect_leq(count_characters(at, length), 80, "%s: %.*s", names[i], (int)length, at);
            at += length + (at[length] == '\n');
        }
        free(want.text);
    }
    cr_expect_gt(lines, 200);
}

static void run_json(const struct sandbox *sandbox, const char *command, struct run *got)
{
    run_command(sandbox, command, got);
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
Test(cli, json_of_life_holds_every_key_of_its_contract)
{
    static const char *const commands[] = {
        "spalltime life --format json scenarios/beet_trailer_hub.yaml",
        "spalltime life --format json --explain scenarios/beet_trailer_hub.yaml",
        "spalltime life --format json tests/cli/inputs/rough_press.yaml",
        "spalltime life --format json tests/cli/inputs/no_answer.yaml",
    };
    struct sandbox sandbox;
    make_sandbox(&sandbox);
    for (size_t i = 0; i < sizeof commands / sizeof *commands; i++) {
        struct run got;
        run_json(&sandbox, commands[i], &got);
        expect_contract(got.out);
        free(got.out);
        free(got.err);
    }
    remove_sandbox(&sandbox);
}

/* jq or Python reads it too, where one of them is present. */
Test(cli, json_is_read_by_other_programs)
{
    static const char *const words[] = {
        "life --format json tests/cli/inputs/rough_press.yaml",
        "schema --format json",
        "catalog --format json",
        "compare -f json -e tests/cli/inputs/shear_gear.yaml",
        "reach -f json -e tests/cli/inputs/shear_gear.yaml",
        "timeline -f json -e tests/cli/inputs/dry_grease.yaml",
        "damage -c catalogs --format json",
        "damage -c catalogs --format json grease",
        "damage -c catalogs --format json creep scenarios/beet_trailer_hub.yaml"};
    struct sandbox sandbox;
    make_sandbox(&sandbox);
    for (size_t i = 0; i < sizeof words / sizeof *words; i++) {
        char command[512];
        struct run got;
        snprintf(command, sizeof command,
                 "spalltime %s >\"$SCRATCH/json\"; cd \"$SCRATCH\"\n"
                 "if command -v jq >/dev/null; then jq -e type json; "
                 "elif command -v python3 >/dev/null; then python3 -m json.tool json; fi",
                 words[i]);
        run_command(&sandbox, command, &got);
        cr_expect_eq(got.status, 0, "%s: %s", words[i], got.err);
        free(got.out);
        free(got.err);
        snprintf(command, sizeof command, "spalltime %s", words[i]);
        run_json(&sandbox, command, &got);
        free(got.out);
        free(got.err);
    }
    remove_sandbox(&sandbox);
}
