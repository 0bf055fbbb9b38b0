/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_FIELD_DATA_H
#define SCENARIO_FIELD_DATA_H

#include <stdio.h>

#include "scenario/text/diagnostics.h"
#include "scenario/text/units.h"
#include "spalltime/arena.h"

#define SPT_FIELD_ROWS_MAX 100000
#define SPT_FIELD_BEARINGS_MAX 1000000 /* largest sum of the counts */
#define SPT_FIELD_MODES_MAX 20

/* Lives of bearings from a CSV file. Its first row names the columns, in any order, in upper or
 * lower case:
 * - time [h] or distance [km]: how long each bearing ran; unit h, min, s, km or miles;
 * - state: failed (or 1), failed by a spall at that time; found failed, at an inspection at that
 * time; running (or 0), still sound at that time, or removed for another reason;
 * - last good [h]: for a bearing found failed, when it was last seen sound; empty: never;
 * - known from [h]: how long it had run when records began; empty: they began with the new bearing;
 * - mode: mode of failure of a failed bearing, in any words that are used consistently;
 * - count: number of such bearings, 1 where the column is absent;
 * - remark: ignored.
 * Cells are separated by commas and may be in quotes (RFC 4180); lines end with LF, CR LF or CR;
 * empty lines and lines that start with # are skipped, as is a byte-order mark. */
struct spt_field_data {
    struct spt_arena arena;
    struct spt_source source;     /* its name; the text is not kept */
    enum spt_dimension dimension; /* SPT_DURATION: times in h; SPT_DISTANCE: in km */
    int rows;
    int capacity;
    double *times;
    int *counts;
    bool *failed;
    double *last_good;  /* NaN unless found failed at an inspection; 0: never seen sound */
    double *known_from; /* 0: known from new */
    int *modes;         /* index into mode_names; -1: running, or there is no column */
    long bearings;      /* sum of the counts */
    int mode_count;
    const char *mode_names[SPT_FIELD_MODES_MAX];
};

/* Reads `in` to the end, row by row; memory holds only the numbers of at most SPT_FIELD_ROWS_MAX
 * rows and one row of text.
 * In:     `name` for messages.
 * Result: true, or false with diagnostics; spt_field_data_free in both cases. The diagnostics
 *         borrow from the data, so print them first. The caller checks `in` for read errors. */
bool spt_field_data_read(FILE *in, const char *name, struct spt_field_data *data,
                         struct spt_diagnostics *diags);

void spt_field_data_free(struct spt_field_data *data);

#endif
