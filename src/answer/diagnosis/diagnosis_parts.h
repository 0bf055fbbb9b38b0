/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_DIAGNOSIS_DIAGNOSIS_PARTS_H
#define ANSWER_DIAGNOSIS_DIAGNOSIS_PARTS_H

#include "answer/diagnosis/diagnosis.h"

/* Parts of the page. */

/* The paths to be expected on both rings, and the one that was measured. */
void spt_diagnosis_show_path(struct spt_page *page, const struct spt_diagnosis_report *report);

/* A table of several cases, one row each, and the rows of CSV. */
void spt_diagnosis_show_list(struct spt_page *page, const struct spt_diagnosis_report *reports,
                             int count);
void spt_diagnosis_keep_rows(struct spt_page *page, const struct spt_diagnosis_report *reports,
                             int count);

/* The cause that is fatigue of the case as stated. */
int spt_diagnosis_fatigue(const struct spt_diagnosis_report *report);

#endif
