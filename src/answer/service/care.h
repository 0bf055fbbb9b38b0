/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_CARE_H
#define ANSWER_SERVICE_CARE_H

#include "format/page/page.h"
#include "spalltime/service.h"

/* The section of the tasks beside greasing, oil and replacement, as a table "care"; nothing where
 * none applies. */
void spt_care_page(struct spt_page *page, const struct spt_schedule *schedule);

#define SPT_CARE_LENGTH 120

/* What is done, "sample the oil", and what that rests on, "common practice". */
const char *spt_care_what(enum spt_care care);
const char *spt_care_source(enum spt_care care);

/* The occasion beside hours and months, "each greasing"; NULL: none. */
const char *spt_care_occasion(enum spt_care care);

/* Writes "50 h, then 500 h or 3 months; by its colour" to SPT_CARE_LENGTH bytes; returns them. */
const char *spt_care_when(const struct spt_care_task *task, char *words);

#endif
