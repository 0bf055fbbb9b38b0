/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef REPORT_SWEEP_H
#define REPORT_SWEEP_H

#include <stdbool.h>
#include <stddef.h>

#include "spalltime/sweep.h"

/* The rows of a sweep as CSV, JSON Lines or NPY records, into memory, so that threads may do it.
 * First the swept fields, then the chosen columns. */

enum spt_sweep_form { SPT_SWEEP_CSV, SPT_SWEEP_JSONL, SPT_SWEEP_NPY };

/* A column: an enum spt_sweep_value, or one of these. */
enum { SPT_SWEEP_STATUS = SPT_SWEEP_VALUE_COUNT, SPT_SWEEP_WARNINGS, SPT_SWEEP_COLUMN_COUNT };

/* A swept value as text, kept for the next time. JSON: words in quotes. */
#define SPT_SWEEP_CELL 31
struct spt_sweep_cell {
    char text[SPT_SWEEP_CELL];
    unsigned char length;
};

struct spt_sweep_layout {
    enum spt_sweep_form form;
    enum spt_lubrication kind;
    bool hub;
    int field_count;
    enum spt_sweep_field fields[SPT_SWEEP_FIELD_COUNT];
    int column_count;
    int columns[SPT_SWEEP_COLUMN_COUNT];
};

/* "radial_load_n", "grade": the name of a swept field in the output. */
const char *spt_sweep_field_name(enum spt_sweep_field field);
/* "viscosity_ratio", "status": the name of a column; NULL for a number that is none. */
const char *spt_sweep_column_name(int column);

/* Whether a column belongs to a layout: single-phase numbers are of the one bearing, or of either
 * row of a hub by name. */
bool spt_sweep_column_fits(const struct spt_sweep_layout *layout, int column);

/* The usual columns, less those that are swept. */
void spt_sweep_usual_columns(struct spt_sweep_layout *layout);

void spt_sweep_cell(const struct spt_sweep_layout *layout, enum spt_sweep_field field, double value,
                    struct spt_sweep_cell *cell);

/* Room for the head and for one row, in bytes. */
size_t spt_sweep_room(const struct spt_sweep_layout *layout);

/* The head: the names (CSV), nothing (JSON Lines), the header of an array of `rows` rows (NPY).
 * Result: bytes written; 0 where an NPY header cannot be made. */
size_t spt_sweep_head(const struct spt_sweep_layout *layout, unsigned long long rows, char *to,
                      size_t room);

/* `count` rows: cells[f][i] for the f-th field of the layout, inputs[f][i] its value (NPY). Rows
 * with skip[i] set are left out; `skip` may be NULL.
 * Result: the place after the last byte; spt_sweep_room for each row must be there. */
char *spt_sweep_write(const struct spt_sweep_layout *layout,
                      const struct spt_sweep_cell *const *const *cells, const double *const *inputs,
                      const struct spt_sweep_block *block, int count, const bool *skip, char *to);

#endif
