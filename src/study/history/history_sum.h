/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_HISTORY_HISTORY_SUM_H
#define STUDY_HISTORY_HISTORY_SUM_H

#include <math.h>

#include "spalltime/history.h"

/* Adds a number to a sum and keeps what is rounded off (Neumaier 1974). */
static inline void spt_history_sum_add(struct spt_history_sum *sum, double number)
{
    double total = sum->value + number;
    sum->rest += fabs(sum->value) >= fabs(number) ? (sum->value - total) + number
                                                  : (number - total) + sum->value;
    sum->value = total;
}

static inline void spt_history_sum_join(struct spt_history_sum *sum,
                                        const struct spt_history_sum *other)
{
    spt_history_sum_add(sum, other->value);
    sum->rest += other->rest;
}

static inline double spt_history_sum_of(const struct spt_history_sum *sum)
{
    return sum->value + sum->rest;
}

void spt_history_sums_add(struct spt_history_sums *to, const struct spt_history_sums *from);

#endif
