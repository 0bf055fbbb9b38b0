/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_CSV_H
#define FORMAT_CSV_H

#include <stdbool.h>
#include <stdio.h>

/* One row of a CSV text (RFC 4180, line feeds) under way. */
struct spt_csv {
    FILE *out;
    bool started; /* a cell of this row is written */
};

/* A text cell: quoted where it must be; a text that a spreadsheet would take for a formula (=, +,
 * -,
 * @, tab at its start) gets a ' before it. */
void spt_csv_text(struct spt_csv *csv, const char *text);

/* The text cell alone, of `length` bytes, into memory: 2 length + 3 bytes at most.
 * Result: the place after it. */
char *spt_csv_put(char *to, const char *text, size_t length);
/* A number to 10 digits; empty where it has no value, "inf" where unlimited. */
void spt_csv_number(struct spt_csv *csv, double number);

void spt_csv_end(struct spt_csv *csv);

#endif
