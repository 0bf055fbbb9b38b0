/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_MODEL_WEIBULL_DATA_H
#define SPT_MODEL_WEIBULL_DATA_H

#include "spalltime/weibull.h"

/* Rows of checked data; private to the library. */
static inline double spt_weibull_row_count(const struct spt_weibull_data *data, int i)
{
    return data->counts ? (double)data->counts[i] : 1.0;
}

static inline bool spt_weibull_row_failed(const struct spt_weibull_data *data, int i)
{
    return !data->failed || data->failed[i];
}

/* ln of the sum of counts times t^shape, without overflow. */
double spt_weibull_log_power_sum(const struct spt_weibull_data *data, double shape);

/* Profile log-likelihood for a given shape: the scale that fits it best put in. */
double spt_weibull_profile_shape(const struct spt_weibull_data *data, int failures, double shape);

#endif
