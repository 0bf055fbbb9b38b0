/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_NUMBER_NUMBER_CELLS_H
#define FORMAT_NUMBER_NUMBER_CELLS_H

#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "format/number/number.h"

/* Converts many numbers to text at once, each in a cell of fixed size: the same bytes as
 * spt_number_write, several times as fast. */

#define SPT_NUMBER_CELL 16

/* The characters, and their number in the last byte; the bytes between are arbitrary. */
struct spt_number_cell {
    uint64_t words[2];
};

/* Converts `count` numbers (any doubles) into as many cells. */
void spt_number_cells(const double *values, int count, struct spt_number_cell *cells);

/* Sets a cell to another text of fewer than SPT_NUMBER_CELL characters. */
static inline void spt_number_cell_set(struct spt_number_cell *cell, const char *text,
                                       size_t length)
{
    unsigned char bytes[SPT_NUMBER_CELL] = {0};
    memcpy(bytes, text, length);
    bytes[SPT_NUMBER_CELL - 1] = (unsigned char)length;
    memcpy(cell->words, bytes, sizeof bytes);
}

/* Copies a whole cell; the buffer needs SPT_NUMBER_CELL bytes. Result: the position after its
 * characters. */
static inline char *spt_number_put(char *to, const struct spt_number_cell *cell)
{
    memcpy(to, cell->words, SPT_NUMBER_CELL);
    return to + ((const unsigned char *)cell->words)[SPT_NUMBER_CELL - 1];
}

#endif
