/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef HISTORY_HISTORY_FILE_H
#define HISTORY_HISTORY_FILE_H

#include "scenario/text/csv_row.h"
#include "spalltime/history.h"

/* Columns of a history. */
enum history_column {
    HISTORY_TIME,     /* stamps; a row holds until the next one */
    HISTORY_DURATION, /* or how long each row lasts */
    HISTORY_RADIAL,
    HISTORY_AXIAL,
    HISTORY_EQUIVALENT,
    HISTORY_WHEEL_LOAD,
    HISTORY_SIDE_FORCE,
    HISTORY_SPEED,
    HISTORY_ROAD_SPEED,
    HISTORY_TEMPERATURE_COLUMN,
    HISTORY_COLUMNS
};

/* The name of a column, which is that of the key of a phase too. */
const char *spt_history_column_name(enum history_column column);

/* Histogram of the step lengths, from which their median is known without keeping all of them:
 * HISTORY_FINE classes between a power of two and the next. */
#define HISTORY_FINE 16
#define HISTORY_LEAST                                                                              \
    (-64) /* power of two of the shortest, in h: far below any that is allowed                     \
           */
#define HISTORY_LENGTHS (HISTORY_FINE * 128)
struct history_steps {
    long long counts[HISTORY_LENGTHS];
    double hours[HISTORY_LENGTHS]; /* their sum */
};

/* A history that is read from a CSV text. */
struct history_file {
    struct spt_source source; /* its name; the text is not kept */
    struct spt_csv_reader reader;
    int cell_count;
    int places[HISTORY_COLUMNS]; /* index of the cell; -1: absent */
    struct spt_mark marks[HISTORY_COLUMNS];
    double factors[HISTORY_COLUMNS], offsets[HISTORY_COLUMNS]; /* to the program's units */
    double gap_h; /* a longer time between two stamps is left out and reported; NaN: none */
    struct history_steps steps; /* of the samples without gaps */
};

/* Values of the quantities that have no column. */
struct history_fixed {
    double load_n, side_n, speed_rpm, temperature_c;
    double side_share; /* of the wheel load; NaN: side_n */
    double rpm_per_km_h;
};

bool spt_history_file_has(const struct history_file *file, enum history_column column);

/* Reads the header. `in` is read to its end by the second function; the name is borrowed.
 * Result: true, or false with diagnostics. */
bool spt_history_file_head(struct history_file *file, FILE *in, const char *name,
                           struct spt_diagnostics *diags);

/* Adds every row to the history. A row that cannot be used makes the whole file invalid, with an
 * error at its place. Fills what the summary says of rows, gaps and the longest time of a sample.
 * Result: true, or false with diagnostics. */
bool spt_history_file_rows(struct history_file *file, const struct history_fixed *fixed,
                           struct spt_history *history, struct spt_history_summary *summary);

#endif
