/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_GATHER_H
#define FORMAT_GATHER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

/* A stream into a growing text in memory. Unlike the memory streams of the C library it reports
 * when memory ran out and text was lost. */
struct spt_gather {
    FILE *stream; /* write here */
    char *text;
    size_t length;
    size_t capacity;
    bool lost; /* memory ran out: the text is incomplete */
};

/* Result: false when memory is exhausted. The struct must not be moved until it is closed. */
bool spt_gather_open(struct spt_gather *gather);

/* Closes the stream. Result: the NUL-terminated text, which the caller frees; NULL where it is
 * incomplete. `length` is its length. */
char *spt_gather_close(struct spt_gather *gather);

#endif
