/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_CSV_H
#define FORMAT_CSV_H

#include <stdbool.h>
#include <stdio.h>

/* State of a CSV row being written (RFC 4180, but line feeds as line ends). */
struct spt_csv {
    FILE *out;
    bool started; /* a cell of this row is written */
};

/* Writes a text cell, quoted where necessary; a text that a spreadsheet would interpret as a
 * formula (=, +, -, @, tab at its start) is prefixed with a '. */
void spt_csv_text(struct spt_csv *csv, const char *text);

/* Writes a text cell of `length` bytes to a buffer: at most 2 length + 3 bytes. Result: the
 * position after it. */
char *spt_csv_put(char *to, const char *text, size_t length);
/* Writes a number with 10 digits; an empty cell for NaN, "inf" for infinity. */
void spt_csv_number(struct spt_csv *csv, double number);

void spt_csv_end(struct spt_csv *csv);

#endif
