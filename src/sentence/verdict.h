/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_VERDICT_H
#define SENTENCE_VERDICT_H

#include "format/page/page.h"
#include "spalltime/verdict.h"

#define SPT_HEADLINE_LENGTH 900
#define SPT_CONCERN_LENGTH 600

/* The sentence that heads every answer: "Fatigue meets 20 000 h; grease every 400 h or 3 months;
 * ...", into SPT_HEADLINE_LENGTH bytes. */
const char *spt_verdict_headline(const struct spt_judgement *judgement, char *words);

/* A part in a sentence, into SPT_CONCERN_LENGTH bytes. */
const char *spt_verdict_part(const struct spt_judgement *judgement, enum spt_concern part,
                             char *words);

/* The names of a part ("grease risk"), a grade ("caution") and a step ("water"); never NULL. */
const char *spt_part_name(enum spt_concern part);
const char *spt_grade_name(enum spt_grade grade);
const char *spt_stair_name(enum spt_stair step);

/* The verdict in a word; NULL where no target is stated and nothing else is worse than a note. */
const char *spt_verdict_name(const struct spt_judgement *judgement);

/* Running hours between two greasings in the plan, rounded down to what a workshop keeps or as the
 * service states, before the calendar of the grease; NaN: none. */
double spt_verdict_regrease_h(const struct spt_judgement *judgement);

/* How a page marks it. */
enum spt_verdict spt_verdict_mark(const struct spt_judgement *judgement);

#endif
