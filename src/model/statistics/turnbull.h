/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_STATISTICS_TURNBULL_H
#define MODEL_STATISTICS_TURNBULL_H

#include "spalltime/statistics.h"

/* Plotting points where a failure is known to an interval only, or bearings from an age only; see
 * spt_rank_points. `points` has room for `total`, all bearings of checked data with a failure.
 * Result: their number. Private to the library. */
int spt_turnbull_points(const struct spt_weibull_data *data, struct spt_rank_point *points,
                        int total);

#endif
