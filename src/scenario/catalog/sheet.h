/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_CATALOG_SHEET_H
#define SCENARIO_CATALOG_SHEET_H

#include "scenario/text/document.h"

#define SPT_SHEET_BYTES_MAX (16 * 1024 * 1024)
#define SPT_SHEET_ROWS_MAX 50000

/* One bearing of a list: its name, and its row as the mapping that a scenario would state. */
struct spt_sheet_row {
    const char *name;
    struct spt_node *node;
};

struct spt_sheet {
    int count;
    struct spt_sheet_row *rows; /* in the order of the list */
};

/* Reads a list of bearings from a CSV text.
 * In:     the source, which must outlive the arena's nodes; its first row names the columns by
 * trade symbols (`d [mm]`, `C (kN)`) or keys of a bearing, each with its unit; an empty cell or a
 *         dash states nothing. Cells are divided by commas, semicolons or tabs, as the first row
 *         shows; where not by commas, a comma in a number is that of decimals.
 * Result: true, or false with diagnostics at file, line and column. The values themselves are
 *         checked where a row is used, as those of a scenario. */
bool spt_sheet_read(const struct spt_source *source, struct spt_arena *arena,
                    struct spt_sheet *sheet, struct spt_diagnostics *diags);

#endif
