/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Golden runs of the built program. A case is tests/cli/cases/NAME.case:
 *     # remarks
 *     $ a shell command that calls `spalltime`
 *     status 0
 *     --- stdout
 *     ...
 *     --- stderr
 *     ...
 * They run in a sandbox (support/sandbox.h), so paths of $SCRATCH are shown as SCRATCH and the
 * version as VERSION. Where the command asks for json or csv, numbers may differ by
 * 1e-9 of their value, so that compilers need not agree on the last digits. */
#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/cli_case.h"
#include "support/golden.h"
#include "support/sandbox.h"

#define PATH_LENGTH 1024
#define NUMBER_TOLERANCE 1e-9

static void write_case(const char *name, const struct cli_case *want, const struct sandbox_run *got)
{
    char path[PATH_LENGTH];
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    fprintf(out, "%s\nstatus %d\n--- stdout\n%s--- stderr\n%s", want->head, got->status, got->out,
            got->err);
    fclose(out);
    snprintf(path, sizeof path, CLI_CASES "%.79s.case", name);
    cr_expect(golden_write(path, text), "%s", path);
    free(text);
}

static void compare(const char *name, const struct cli_case *want, const struct sandbox_run *got)
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

static void run_case(const struct sandbox *sandbox, const char *name)
{
    struct cli_case want;
    struct sandbox_run got;
    cli_case_read(name, &want);
    sandbox_run(sandbox, want.command, &got);
    if (golden_regenerates())
        write_case(name, &want, &got);
    else
        compare(name, &want, &got);
    free(got.out);
    free(got.err);
    free(want.text);
}

/* The cases whose names begin with a word; tests run side by side, so each word is one. */
static void run_cases(const char *word)
{
    static char names[CLI_CASES_MAX][80];
    struct sandbox sandbox;
    int count = cli_case_list(names), ran = 0;
    sandbox_make(&sandbox);
    for (int i = 0; i < count; i++)
        if (cli_case_begins_with(names[i], word)) {
            run_case(&sandbox, names[i]);
            ran++;
        }
    sandbox_remove(&sandbox);
    cr_expect_gt(ran, 0, "no case begins with %s; run the tests from the top of the source tree",
                 word);
    cr_assert(!golden_regenerates(),
              "the cases were written anew: read the changes, then run without SPT_REGENERATE");
}

/* What the names of cases begin with. */
#define WORDS(word)                                                                                \
    word(catalog) word(check) word(choose) word(compare) word(completion) word(damage)             \
        word(example) word(diagnose) word(duty) word(fit) word(full) word(help) word(lesson)       \
            word(lessons) word(life) word(output) word(reach) word(report) word(schedule)          \
                word(schema) word(setting) word(spread) word(sweep) word(teaching) word(three)     \
                    word(timeline) word(usage) word(version)

#define ANSWERS(word)                                                                              \
    Test(cli, word##_answers_what_its_files_say)                                                   \
    {                                                                                              \
        run_cases(#word);                                                                          \
    }
WORDS(ANSWERS)

Test(cli, every_case_is_run)
{
#define TEXT(word) #word,
    static const char *const words[] = {WORDS(TEXT)};
    static char names[CLI_CASES_MAX][80];
    int count = cli_case_list(names);
    cr_assert_gt(count, 40, "run the tests from the top of the source tree");
    for (int i = 0; i < count; i++) {
        int tests = 0;
        for (size_t j = 0; j < sizeof words / sizeof *words; j++)
            tests += cli_case_begins_with(names[i], words[j]);
        cr_expect_eq(tests, 1, "%s is a case of %d tests: add its first word to WORDS", names[i],
                     tests);
    }
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
    static char names[CLI_CASES_MAX][80];
    int count = cli_case_list(names), lines = 0;
    for (int i = 0; i < count; i++) {
        struct cli_case want;
        cli_case_read(names[i], &want);
        bool text = !strstr(want.command, "--chart") && !strstr(want.command, "json") &&
                    !strstr(want.command, "csv") && !strstr(want.command, "html") &&
                    !strstr(want.command, "--color always");
        for (const char *at = want.out; text && at && *at;) {
            size_t length = strcspn(at, "\n");
            lines++;
            if (!strncmp(at, "EXAMPLES", length)) /* command lines and what they print, as it is */
                break;
            cr_expect_leq(count_characters(at, length), 80, "%s: %.*s", names[i], (int)length, at);
            at += length + (at[length] == '\n');
        }
        free(want.text);
    }
    cr_expect_gt(lines, 200);
}
