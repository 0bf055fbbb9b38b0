/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_HISTORY_H
#define ANSWER_FIELD_HISTORY_H

#include "format/json.h"
#include "format/page/page.h"
#include "spalltime/history.h"

#define SPT_HISTORY_LINE 400

/* "binned from 180 samples over 2.98 h of a.csv: 23 phases ..." in one line. */
void spt_history_line(const struct spt_history_summary *summary, char *line, size_t size);

/* Writes the summary of the history behind a case: as a paragraph, as a member `history`. Nothing
 * where the duty was not binned. */
void spt_history_page(struct spt_page *page, const struct spt_case *question);
void spt_history_json(struct spt_json *json, const struct spt_history_summary *summary);

#endif
