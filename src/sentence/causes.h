/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_CAUSES_H
#define SENTENCE_CAUSES_H

#include "spalltime/assess.h"

/* The causes of a loss that apply, ranked. What costs most need not be the best single remedy: the
 * effect of a cause may be hidden by another until that is cured. */

/* Numbers of the causes into `order`, of SPT_CAUSE_COUNT: the largest share of the loss first, or
 * the longest life with only this cause cured first. Result: number of causes. */
int spt_causes_by_share(const struct spt_loss *loss, int *order);
int spt_causes_by_gain(const struct spt_loss *loss, int *order);

/* Sum of the logarithmic shares (< 0): the loss by all causes together; NaN where there is none. */
double spt_causes_whole(const struct spt_loss *loss);

/* The sentence for the case that no cause applies: there is no loss, or without a life it is
 * unknown. */
const char *spt_causes_none(const struct spt_bearing_result *bearing);

/* Life with only this cause cured over the present life; infinite where the present one is 0. */
double spt_causes_gain(const struct spt_bearing_result *bearing, int cause);

/* The cause with the largest share of the loss; -1: there is no loss. */
int spt_causes_costliest(const struct spt_loss *loss);

/* The cause whose cure alone gives the longest life; -1: none gives a longer one. */
int spt_causes_best_remedy(const struct spt_bearing_result *bearing);

#endif
