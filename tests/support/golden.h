/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_GOLDEN_H
#define TESTS_GOLDEN_H

#include <stdbool.h>
#include <stddef.h>

/* Expected texts in files beside their inputs (golden files). With SPT_REGENERATE=1 in the
 * environment they are rewritten; a test that does so fails, so that such a run is not mistaken for
 * a check. */
bool golden_regenerates(void);

/* Reads a whole file, NUL-terminated, from malloc; NULL where there is none. */
char *golden_read(const char *path, size_t *length);

/* Replaces a file; false where it cannot be written. */
bool golden_write(const char *path, const char *text);

/* Lists the names in a folder that end with `suffix`, without it, sorted. Result: their number, at
 * most `most`, or -1. */
int golden_list(const char *folder, const char *suffix, char (*names)[80], int most);

/* True where the texts are equal; with a tolerance above 0, corresponding numbers may differ by
 * that fraction of the larger one. `*line` is the first line that differs. */
bool golden_same(const char *got, const char *want, double tolerance, int *line);

#endif
