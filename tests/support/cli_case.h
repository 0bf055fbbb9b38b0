/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_CLI_CASE_H
#define TESTS_CLI_CASE_H

#include <stdbool.h>

#define CLI_CASES "tests/cli/cases/"
#define CLI_CASES_MAX 1000

/* A golden run: the file of the case, cut into the pieces below. One that has just been written by
 * hand may end after its command; `out` and `err` are NULL then. */
struct cli_case {
    char *text; /* to be freed */
    char *head; /* remarks and command, up to the status */
    char *command;
    int status;
    char *out;
    char *err;
};

/* Reads tests/cli/cases/NAME.case. */
void cli_case_read(const char *name, struct cli_case *got);

/* Fills `names` with those of all cases. Result: how many there are. */
int cli_case_list(char (*names)[80]);

/* True where the name of a case is the word, or begins with it and "_". */
bool cli_case_begins_with(const char *name, const char *word);

#endif
