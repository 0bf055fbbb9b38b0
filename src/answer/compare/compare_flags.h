/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_COMPARE_FLAGS_H
#define ANSWER_COMPARE_FLAGS_H

#include "answer/compare/compare.h"

/* True where a flag means that something other than fatigue may end the life, or that its value is
 * doubtful (spt_reservation). */
bool spt_compare_in_doubt(const struct spt_compared *compared);

/* Writes the section of the flags whose effect is in the set, a mask of 1u << enum spt_flag_effect:
 * each flag of each case once; cases with the same sentence are on one line. */
void spt_compare_flags(struct spt_page *page, const struct spt_compared *cases, int count,
                       unsigned effects);

#endif
