/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_DIAGNOSIS_DIAGNOSIS_WORDS_H
#define ANSWER_DIAGNOSIS_DIAGNOSIS_WORDS_H

#include "answer/diagnosis/diagnosis.h"

/* Words that the page, the table of cases and JSON share. */

/* "68 %", "over 95 %", "under 1 %". */
const char *spt_diagnosis_percent(struct spt_page *page, double share);

/* "likely", "two at once". */
const char *spt_diagnosis_verdict_name(enum spt_diagnosis_verdict verdict);

/* "likely: water let in, 68 %". */
const char *spt_diagnosis_first_line(struct spt_page *page,
                                     const struct spt_diagnosis_report *report);

/* Why it cannot be told, as a sentence. */
const char *spt_diagnosis_untold(enum spt_untold untold);

/* Name of a cause of the report. */
const char *spt_diagnosis_cause(const struct spt_diagnosis_report *report, int cause);

/* The doubt of the lives that was taken, and where it is from. */
double spt_diagnosis_doubt(const struct spt_diagnosis_report *report);
const char *spt_diagnosis_doubt_from(const struct spt_diagnosis_report *report);

/* The findings of a piece of evidence: "gritty grease", "not rust; not water". */
const char *spt_diagnosis_piece(struct spt_page *page, const struct spt_diagnosis_report *report,
                                int piece);

/* "no", "after inspection", "not known". */
const char *spt_diagnosis_back_name(enum spt_goes_back back);

/* What a check asks, without a question mark. */
const char *spt_diagnosis_question(const struct spt_diagnosis_report *report,
                                   const struct spt_diagnosis_check *check);

/* "too loose", and "arc of 90 to 200 deg, tapering out". */
const char *spt_path_condition_name(enum spt_path_condition condition);
const char *spt_path_name(enum spt_path path);

#endif
