/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_FIELD_DATA_H
#define SCENARIO_FIELD_DATA_H

#include <stdio.h>

#include "scenario/text/diagnostics.h"
#include "scenario/text/units.h"
#include "spalltime/arena.h"

#define SPT_FIELD_ROWS_MAX 100000
#define SPT_FIELD_BEARINGS_MAX 1000000 /* all counts together */
#define SPT_FIELD_MODES_MAX 20

/* Lives of bearings out of a CSV file. Its first row names the columns, in any order, in capital or
 * small letters:
 * - time [h] or distance [km]: how long each ran; h, min or s, km or miles in the brackets;
 * - state: failed (or 1), ended by a spall just then; found failed, at a look then; running (or 0),
 *   still sound then, or taken out for another reason;
 * - last good [h]: of one found failed, when it was last seen sound; empty where never;
 * - known from [h]: how long it had run when records began; empty where they begin with the new
 *   bearing;
 * - mode: what ended one that failed, any words, the same ones each time;
 * - count: how many such bearings, 1 where the column is absent;
 * - remark: not looked at.
 * Cells are divided by commas and may be in quotes (RFC 4180); lines end with LF, CR LF or CR;
 * empty lines and lines that start with # are skipped, as is a byte-order mark. */
struct spt_field_data {
    struct spt_arena arena;
    struct spt_source source;     /* its name; no text is kept */
    enum spt_dimension dimension; /* SPT_DURATION: times in h; SPT_DISTANCE: in km */
    int rows;
    int room;
    double *times;
    int *counts;
    bool *failed;
    double *last_good;  /* NaN where not found failed at a look; 0: never seen sound */
    double *known_from; /* 0: from new */
    int *modes;         /* index into mode_names; -1: running, or there is no column */
    long bearings;      /* sum of the counts */
    int mode_count;
    const char *mode_names[SPT_FIELD_MODES_MAX];
};

/* Reads to the end of `in`, a row at a time: memory holds the numbers of at most
 * SPT_FIELD_ROWS_MAX rows and one row of text.
 * In:     `name` for messages.
 * Result: true, or false with diagnostics; spt_field_data_free in both cases. The diagnostics
 *         borrow from the data, so print them first. A read error is the caller's to find. */
bool spt_field_data_read(FILE *in, const char *name, struct spt_field_data *data,
                         struct spt_diagnostics *diags);

void spt_field_data_free(struct spt_field_data *data);

#endif
