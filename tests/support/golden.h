/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_GOLDEN_H
#define TESTS_GOLDEN_H

#include <stdbool.h>
#include <stddef.h>

/* Expected texts kept in files beside their inputs. With SPT_REGENERATE=1 in the environment they
 * are written anew; every test that did so fails, so that nobody takes such a run for a check. */
bool golden_regenerates(void);

/* A whole file with a NUL behind it, from malloc; NULL where there is none. */
char *golden_read(const char *path, size_t *length);

/* Replaces a file; false where it cannot be written. */
bool golden_write(const char *path, const char *text);

/* Sorted names of a folder that end with `suffix`, without it; count, at most `most`, or -1. */
int golden_list(const char *folder, const char *suffix, char (*names)[80], int most);

/* True where the texts are the same; with a tolerance above 0, numbers in the same places may
 * differ by that much of the larger one. `*line` is the first line that differs. */
bool golden_same(const char *got, const char *want, double tolerance, int *line);

#endif
