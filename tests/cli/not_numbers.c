/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Where there is no number, a text or a page says so in words. In CSV files nan and inf are
 * numbers that readers know. */
#include <criterion/criterion.h>
#include <ctype.h>
#include <stdbool.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/golden.h"
#include "support/sandbox.h"

#define CASES "tests/cli/cases/"
#define INPUTS "tests/cli/inputs/"
#define NAMES_MAX 1000

static bool starts_word(const char *text, const char *at)
{
    return at == text || !(isalnum((unsigned char)at[-1]) || at[-1] == '_');
}

/* The first nan or inf that stands as a word; NULL: none. */
static const char *find_not_number(const char *text)
{
    for (const char *at = text; *at; at++)
        if ((!strncmp(at, "nan", 3) || !strncmp(at, "inf", 3)) && starts_word(text, at) &&
            !(isalnum((unsigned char)at[3]) || at[3] == '_'))
            return at;
    return NULL;
}

Test(not_numbers, golden_texts_say_it_in_words)
{
    static char names[NAMES_MAX][80];
    int count = golden_list(CASES, ".case", names, NAMES_MAX), read = 0;
    for (int i = 0; i < count; i++) {
        char path[200];
        size_t length;
        snprintf(path, sizeof path, CASES "%.79s.case", names[i]);
        char *text = golden_read(path, &length);
        cr_assert_not_null(text, "%s", path);
        char *out = strstr(text, "\nstatus ");
        cr_assert_not_null(out, "%s", path);
        *out = 0;
        bool table = strstr(text, "csv") || strstr(text, " sweep ");
        *out = '\n';
        const char *found = table ? NULL : find_not_number(out);
        cr_expect_null(found, "%s: %.40s", path, found);
        read += !table;
        free(text);
    }
    cr_expect_gt(read, 100);
}

Test(not_numbers, odd_scenarios_are_answered_in_words, .timeout = 240)
{
    static char names[NAMES_MAX][80];
    static const char *const commands[] = {"life --explain", "compare", "report"};
    struct sandbox sandbox;
    int count = golden_list(INPUTS, ".yaml", names, NAMES_MAX), answered = 0;
    sandbox_make(&sandbox);
    for (int i = 0; i < count; i++)
        for (int j = 0; j < 3; j++) {
            char command[200];
            struct sandbox_run got;
            snprintf(command, sizeof command, "spalltime %s " INPUTS "%.79s.yaml", commands[j],
                     names[i]);
            sandbox_run(&sandbox, command, &got);
            const char *found = find_not_number(got.out);
            cr_expect_null(found, "%s: %.60s", command, found);
            answered += got.status == 0 || got.status == 1;
            free(got.out);
            free(got.err);
        }
    sandbox_remove(&sandbox);
    cr_expect_gt(answered, 40);
}
