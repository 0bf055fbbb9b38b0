/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_PATCH_H
#define TESTS_PATCH_H

#include <stdbool.h>

/* A text with some of its lines changed. A patch has hunks, divided by lines that are `@` alone; a
 * hunk has lines that begin with ` ` (stays), `-` (goes) and `+` (comes). Its first two kinds stand
 * one behind the other in the text; a hunk is looked for from where the one before it ends.
 * Result: the changed text, from malloc; NULL where a hunk fits nowhere. */
char *patch_apply(const char *text, const char *patch);

/* A case of tests/bad_input: `base NAME` (a file of tests/bad_input/bases without its ending, or
 * `none`), a patch, `--- says`, what the program should say. */
struct patch_case {
    char *text; /* of the whole file; what is below points into it or is from malloc */
    char *scenario;
    char *says;
};

/* The members are NULL where the file cannot be read, its base is missing or its patch does not
 * fit. */
struct patch_case patch_case_read(const char *path);
void patch_case_free(struct patch_case *read);

/* Writes the scenario of each case in the folder `from` as a file NAME.yaml in the folder `to`.
 * False where there is no case, one is unsound, or a file cannot be written: it is named on
 * standard error. */
bool patch_cases_expand(const char *from, const char *to);

#endif
