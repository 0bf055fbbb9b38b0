/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_NUMBER_NPY_H
#define FORMAT_NUMBER_NPY_H

#include <stddef.h>
#include <stdio.h>

#include "spalltime/status.h"

/* The NPY array file, version 1.0, as NumPy documents it (numpy.lib.format): one array of records,
 * one field for each column, in the byte order of this machine. The number of rows is written
 * first, so that rows can be written as they are computed. */

enum spt_npy_type { SPT_NPY_DOUBLE, SPT_NPY_LONG /* int64_t */, SPT_NPY_BYTE };

struct spt_npy_column {
    const char *name; /* letters, digits and _, at least one character */
    enum spt_npy_type type;
};

/* A file being written; borrows the columns. */
struct spt_npy {
    FILE *file;
    const struct spt_npy_column *columns;
    int count;
    size_t record_size;
    size_t rows_left;
};

/* Writes the header alone to `to`; *size is a multiple of 64 bytes.
 * Status: SPT_BAD_ARGUMENT for an invalid or repeated name or no column; SPT_TOO_SMALL where it
 *         exceeds `capacity` or the 65535 bytes of the format. */
enum spt_status spt_npy_header(const struct spt_npy_column *columns, int count, size_t rows,
                               char *to, size_t capacity, size_t *size);

/* Begins a file of `rows` rows: writes the header.
 * Status: as spt_npy_header; SPT_BAD_ARGUMENT where writing fails (errno tells why). */
enum spt_status spt_npy_begin(struct spt_npy *npy, FILE *file, const struct spt_npy_column *columns,
                              int count, size_t rows);

/* Writes the next `rows` rows; data[c] points to the values of column c, double, int64_t or
 * unsigned char.
 * Status: SPT_TOO_SMALL where there are more rows than announced (none is written);
 * SPT_BAD_ARGUMENT where writing fails. */
enum spt_status spt_npy_rows(struct spt_npy *npy, const void *const *data, size_t rows);

/* Ends the file (does not close it).
 * Status: SPT_BAD_ARGUMENT where rows are missing or the last bytes could not be written. */
enum spt_status spt_npy_end(struct spt_npy *npy);

#endif
