/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_FIT_PARTS_H
#define ANSWER_FIELD_FIT_PARTS_H

#include "answer/field/fit.h"

/* Parts of the answer of `fit`. */

/* A life with the unit of the data, kept by the page: "12 340 km". */
const char *spt_fit_life(struct spt_page *page, const struct spt_fit_report *report, double life);

/* Name for one unit of the data. */
const char *spt_fit_noun(const struct spt_fit_report *report);

/* True where the ranks are those of Turnbull's estimate. */
bool spt_fit_is_turnbull(const struct spt_fit *fit);

/* Failures that seem to have been found at inspections, in SPT_FIT_IN_STEP_LENGTH bytes. Result:
 * `words`, NULL where there are none. */
#define SPT_FIT_IN_STEP_LENGTH 600
const char *spt_fit_in_step(const struct spt_fit_report *report, char *words);

/* Sections: modes of failure (one law for unrelated causes says little about any of them), the
 * comparison with a rating, the scenarios weighed by the data, the law. */
void spt_fit_page_modes(struct spt_page *page, const struct spt_fit_report *report);
void spt_fit_page_against(struct spt_page *page, const struct spt_fit_report *report);
void spt_fit_page_hypotheses(struct spt_page *page, const struct spt_fit_report *report);
void spt_fit_page_law(struct spt_page *page, const struct spt_fit_report *report);

/* How much longer those that still run may run, as a section and in JSON. */
void spt_fit_page_running(struct spt_page *page, const struct spt_fit_report *report);
void spt_fit_json_running(struct spt_json *json, const struct spt_fit_report *report);

/* The table "points" of the probability plot. */
void spt_fit_keep_points(struct spt_page *page, const struct spt_fit_report *report);

#endif
