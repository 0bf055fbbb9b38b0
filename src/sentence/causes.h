/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_CAUSES_H
#define SENTENCE_CAUSES_H

#include "spalltime/assess.h"

/* The causes of a loss that apply, ranked. What costs most need not be the best single remedy: a
 * cause may hide behind another until that is put right. */

/* Numbers of the causes into `order`, of SPT_CAUSE_COUNT: the largest share of the loss first, or
 * the longest life with only this put right first. Result: how many. */
int spt_causes_by_share(const struct spt_loss *loss, int *order);
int spt_causes_by_gain(const struct spt_loss *loss, int *order);

/* Sum of the logarithmic shares, below 0: what all causes together take; NaN where they take
 * nothing. */
double spt_causes_whole(const struct spt_loss *loss);

/* What is said where no cause applies: none costs anything, or without a life it cannot be said. */
const char *spt_causes_none(const struct spt_bearing_result *bearing);

/* How many times its present life a bearing has with only this cause put right; infinite where the
 * present one is 0. */
double spt_causes_gain(const struct spt_bearing_result *bearing, int cause);

/* The cause with the largest share of the loss; -1: none takes life. */
int spt_causes_costliest(const struct spt_loss *loss);

/* The cause whose cure alone gives the longest life; -1: none gives a longer one. */
int spt_causes_best_remedy(const struct spt_bearing_result *bearing);

#endif
