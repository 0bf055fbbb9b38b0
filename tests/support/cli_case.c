/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/cli_case.h"

#include <criterion/criterion.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/golden.h"

#define PATH_LENGTH 256

/* Cuts the text at `mark` and gives what follows; NULL where the mark is missing. */
static char *cut(char *text, const char *mark)
{
    char *at = text ? strstr(text, mark) : NULL;
    if (!at)
        return NULL;
    *at = 0;
    return at + strlen(mark);
}

void cli_case_read(const char *name, struct cli_case *got)
{
    char path[PATH_LENGTH];
    size_t length;
    snprintf(path, sizeof path, CLI_CASES "%.79s.case", name);
    *got = (struct cli_case){.text = golden_read(path, &length), .status = -2};
    cr_assert(got->text, "%s", path);
    char *status = cut(got->text, "\nstatus ");
    got->out = cut(status, "\n--- stdout\n");
    got->err = cut(got->out, "--- stderr\n");
    got->status = status ? atoi(status) : -2;
    got->head = got->text;
    got->command = strncmp(got->text, "$ ", 2) ? strstr(got->text, "\n$ ") : got->text - 1;
    cr_assert(got->command, "%s: no line starts with `$ `", path);
    got->command += 3;
    if (!status && length && got->text[length - 1] == '\n')
        got->text[length - 1] = 0;
}

int cli_case_list(char (*names)[80])
{
    return golden_list(CLI_CASES, ".case", names, CLI_CASES_MAX);
}

bool cli_case_begins_with(const char *name, const char *word)
{
    size_t length = strlen(word);
    return !strncmp(name, word, length) && (!name[length] || name[length] == '_');
}
