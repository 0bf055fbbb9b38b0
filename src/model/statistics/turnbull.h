/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_STATISTICS_TURNBULL_H
#define MODEL_STATISTICS_TURNBULL_H

#include "spalltime/statistics.h"

/* Plotting points for interval-censored failures or truncated data; see spt_rank_points. `points`
 * has length `total`, the number of all bearings; the data are checked and have a failure. Result:
 * number of points. Private to the library. */
int spt_turnbull_points(const struct spt_weibull_data *data, struct spt_rank_point *points,
                        int total);

#endif
