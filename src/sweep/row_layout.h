/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SWEEP_ROW_LAYOUT_H
#define SWEEP_ROW_LAYOUT_H

#include <stdbool.h>
#include <stddef.h>

#include "spalltime/sweep.h"

/* The rows of a sweep as CSV, JSON Lines or NPY records, written to memory, so that threads can
 * work in parallel. First case and label where chosen, then the swept fields, then the other
 * columns. */

enum spt_sweep_form { SPT_SWEEP_CSV, SPT_SWEEP_JSONL, SPT_SWEEP_NPY };

/* A column: an enum spt_sweep_value, or one of these. */
enum {
    SPT_SWEEP_STATUS = SPT_SWEEP_VALUE_COUNT,
    SPT_SWEEP_WARNINGS,
    SPT_SWEEP_LIFE_STATUS, /* of modified_rating_life_h: rated, unlimited or none */
    SPT_SWEEP_INBOARD_LIFE_STATUS,
    SPT_SWEEP_OUTBOARD_LIFE_STATUS,
    SPT_SWEEP_CASE,  /* of cases: the line in their file */
    SPT_SWEEP_LABEL, /* of cases that have one */
    SPT_SWEEP_COLUMN_COUNT
};

/* A swept value as text, formatted once and reused. JSON: words in quotes. */
#define SPT_SWEEP_CELL 31
struct spt_sweep_cell {
    char text[SPT_SWEEP_CELL];
    unsigned char length;
};

struct spt_sweep_layout {
    enum spt_sweep_form form;
    enum spt_lubrication kind;
    bool hub;
    bool cases;  /* the rows are load cases */
    bool labels; /* with a column `label` */
    int field_count;
    enum spt_sweep_field fields[SPT_SWEEP_FIELD_COUNT];
    int column_count;
    int columns[SPT_SWEEP_COLUMN_COUNT];
    int lead_count; /* number of columns before the fields: case and label */
};

#define SPT_SWEEP_LABEL_MAX 120 /* bytes */

/* The load case of a row. */
struct spt_sweep_identity {
    unsigned long long line; /* in the file of the cases */
    const char *label;
    size_t label_length; /* SPT_SWEEP_LABEL_MAX at most */
};

/* Bytes of a row in addition to its cells. */
#define SPT_SWEEP_KEY 40             /* a name with its quotes and punctuation in JSON */
#define SPT_SWEEP_WARNINGS_SIZE 1024 /* every flag at once */
#define SPT_SWEEP_OVERSHOOT 32       /* texts are copied in chunks of this size */

/* "radial_load_n", "grade": the name of a swept field in the output. */
const char *spt_sweep_field_name(enum spt_sweep_field field);
/* "viscosity_ratio", "status": the name of a column; NULL for a number that is none. */
const char *spt_sweep_column_name(int column);

/* True if a column belongs to a layout. Numbers of a single phase are those of the only bearing or,
 * with a prefix, of one row of a hub. */
bool spt_sweep_column_fits(const struct spt_sweep_layout *layout, int column);

/* True for a column of text, which an array of numbers cannot hold. */
bool spt_sweep_column_is_text(int column);

/* The name of cell `i` of a row. */
const char *spt_sweep_name_at(const struct spt_sweep_layout *layout, int i);

/* Adds a column after the others; case and label go before the fields. */
void spt_sweep_add_column(struct spt_sweep_layout *layout, int column);

/* JSON has no infinity, so that null stands for an unlimited and for a missing life: adds the
 * status of each life after the columns of JSON Lines, unless it is among them. */
void spt_sweep_add_life_status(struct spt_sweep_layout *layout);

/* The usual columns, less those that are swept. */
void spt_sweep_usual_columns(struct spt_sweep_layout *layout);

void spt_sweep_cell(const struct spt_sweep_layout *layout, enum spt_sweep_field field, double value,
                    struct spt_sweep_cell *cell);

/* Size of a buffer for the head, or for one row, in bytes. */
size_t spt_sweep_row_size_max(const struct spt_sweep_layout *layout);

/* Writes the head: the names (CSV), nothing (JSON Lines), the header of an array of `rows` rows
 * (NPY).
 * Result: bytes written; 0 where an NPY header cannot be made. */
size_t spt_sweep_head(const struct spt_sweep_layout *layout, unsigned long long rows, char *to,
                      size_t capacity);

/* Rows to write: cells[f][i] is the text of the f-th field of the layout in row i, inputs[f][i] its
 * value (NPY). Rows with skip[i] set are left out. */
struct spt_sweep_rows {
    int count;
    const struct spt_sweep_cell *const *const *cells;
    const double *const *inputs;
    const struct spt_sweep_identity *identities; /* of cases; else not used */
    const struct spt_sweep_block *block;
    const bool *skip; /* NULL: none */
};

/* Writes rows. The buffer must have spt_sweep_row_size_max bytes for each.
 * Result: pointer past the last byte. */
char *spt_sweep_write(const struct spt_sweep_layout *layout, const struct spt_sweep_rows *rows,
                      char *to);

#endif
