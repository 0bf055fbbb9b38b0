/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_COMPARE_FLAGS_H
#define ANSWER_LIFE_COMPARE_FLAGS_H

#include "answer/life/compare.h"

/* True where a flag means that fatigue may not be what ends the stated life, or that the figure is
 * in doubt (spt_reservation). */
bool spt_compare_in_doubt(const struct spt_compared *compared);

/* The section FLAGS: each flag of each case once; cases that share a sentence share a line. */
void spt_compare_flags_text(const struct spt_text *text, const struct spt_compared *cases,
                            int count);

#endif
