/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_GATHER_H
#define FORMAT_GATHER_H

#include <stdbool.h>
#include <stddef.h>
#include <stdio.h>

/* A text that grows in memory as it is written to a stream. Unlike the C library's own stream in
 * memory it never drops a piece unnoticed when memory runs out. */
struct spt_gather {
    FILE *stream; /* write here */
    char *text;
    size_t length;
    size_t room;
    bool lost; /* memory was out: the text is not whole */
};

/* False when memory is out. The struct must stay where it is until it is closed. */
bool spt_gather_open(struct spt_gather *gather);

/* Closes the stream and gives the text with a NUL behind it, to be freed by the caller; NULL where
 * it is not whole. The length stays in `length`. */
char *spt_gather_close(struct spt_gather *gather);

#endif
