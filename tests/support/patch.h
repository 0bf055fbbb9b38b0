/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_PATCH_H
#define TESTS_PATCH_H

#include <stdbool.h>

/* A text with some of its lines changed. A patch has hunks, separated by lines with only `@`; a
 * hunk has lines that begin with ` ` (kept), `-` (removed) and `+` (added). The kept and removed
 * lines must be consecutive in the text; each hunk is searched for after the end of the previous
 * one. Result: the changed text, from malloc; NULL where a hunk does not match. */
char *patch_apply(const char *text, const char *patch);

/* A case of tests/bad_input: `base NAME` (a file of tests/bad_input/bases without its ending, or
 * `none`), a patch, `--- says`, the expected message. */
struct patch_case {
    char *text; /* text of the whole file; the members below point into it or are from malloc */
    char *scenario;
    char *says;
};

/* The members are NULL where the file cannot be read, its base is missing or its patch does not
 * fit. */
struct patch_case patch_case_read(const char *path);
void patch_case_free(struct patch_case *read);

/* Writes the scenario of each case in the folder `from` as a file NAME.yaml in the folder `to`.
 * False where there is no case, one is invalid, or a file cannot be written, with a message on
 * standard error. */
bool patch_cases_expand(const char *from, const char *to);

#endif
