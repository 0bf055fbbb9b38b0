/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_TEXT_CSV_ROW_H
#define SCENARIO_TEXT_CSV_ROW_H

#include <stdio.h>

#include "scenario/text/diagnostics.h"

#define SPT_CSV_CELLS_MAX 48
#define SPT_CSV_CELL_MAX 200 /* bytes */

struct spt_csv_cell {
    char text[SPT_CSV_CELL_MAX + 1]; /* without quotes and surrounding blanks */
    size_t length;
    struct spt_mark mark;
};

/* A CSV text (RFC 4180) read row by row. Empty lines and lines that start with # are skipped, a
 * byte-order mark too; lines end with LF, CR LF or CR. */
struct spt_csv_reader {
    FILE *in;
    const struct spt_source *source;
    struct spt_diagnostics *diags;
    int line, column; /* position of the next character */
    int held;         /* a byte that was read ahead; -2: none */
    int separator;    /* between cells: a comma; the caller may set ';' or a tab */
    int cell_count;
    struct spt_csv_cell cells[SPT_CSV_CELLS_MAX];
};

void spt_csv_begin(struct spt_csv_reader *reader, FILE *in, const struct spt_source *source,
                   struct spt_diagnostics *diags);

/* Reads the next row into `cells`. Result: false at the end, or with a diagnostic where the text
 * cannot be split into cells (too many or too long, unclosed quote, text after a quote, control
 * character); reading cannot continue then. */
bool spt_csv_next(struct spt_csv_reader *reader);

/* What divides the cells of a text: of comma, semicolon and tab the one that its first row has most
 * of outside quotes. */
int spt_csv_separator(const struct spt_source *source);

/* Splits "time [h]" or "time (h)" into name and unit, both trimmed, in buffers for a cell; the unit
 * is empty where there is none. Result: false where text follows the brackets. */
bool spt_csv_split_head(const char *text, char *name, char *unit);

#endif
