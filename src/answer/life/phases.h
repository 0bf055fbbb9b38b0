/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_PHASES_H
#define ANSWER_LIFE_PHASES_H

#include "format/page/page.h"
#include "spalltime/assess.h"

/* The phases of a duty as tables of a page. */

/* One row for each phase of each bearing, then one for the bearing, at the end one for several
 * bearings together. */
struct spt_phase_table {
    struct spt_column *columns;
    int column_count;
    struct spt_phase_row *rows; /* NULL: memory is out */
    int row_count;
};

/* Fills the rows in the memory of the page. */
struct spt_phase_table spt_phase_table_of(struct spt_page *page,
                                          const struct spt_assessment *assessment);

/* The id of the table of a bearing. */
#define SPT_PHASES_ID_LENGTH 24
const char *spt_phases_id(int bearing, char *id);

/* Puts the phases of one bearing on the page. */
void spt_page_phases(struct spt_page *page, const struct spt_phase_table *table,
                     const struct spt_assessment *assessment, int bearing);

/* Puts all rows on the page, for CSV alone. */
void spt_page_phase_data(struct spt_page *page, const struct spt_phase_table *table);

#endif
