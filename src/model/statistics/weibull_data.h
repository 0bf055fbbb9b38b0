/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_STATISTICS_WEIBULL_DATA_H
#define MODEL_STATISTICS_WEIBULL_DATA_H

#include <math.h>

#include "spalltime/statistics.h"

/* Access to the rows of checked data; private to the library. */
static inline double spt_weibull_row_count(const struct spt_weibull_data *data, int i)
{
    return data->counts ? (double)data->counts[i] : 1.0;
}

static inline bool spt_weibull_row_failed(const struct spt_weibull_data *data, int i)
{
    return !data->failed || data->failed[i];
}

/* True for a failure known only to have happened between two inspections. */
static inline bool spt_weibull_row_found(const struct spt_weibull_data *data, int i)
{
    return spt_weibull_row_failed(data, i) && data->last_good && !isnan(data->last_good[i]);
}

/* Age from which the bearings are known. */
static inline double spt_weibull_row_from(const struct spt_weibull_data *data, int i)
{
    return data->known_from ? data->known_from[i] : 0.0;
}

/* Age up to which the bearings were certainly sound. */
static inline double spt_weibull_row_sound(const struct spt_weibull_data *data, int i)
{
    if (!spt_weibull_row_found(data, i))
        return data->times[i];
    return fmax(data->last_good[i], spt_weibull_row_from(data, i));
}

/* True where some failures are interval-censored, or some bearings are known only from an age
 * on. */
bool spt_weibull_has_found(const struct spt_weibull_data *data);
bool spt_weibull_has_entries(const struct spt_weibull_data *data);

/* Log-likelihood and its derivatives with ln 1/R = z(t) = exp(offset + shape (ln t - reference)).
 * In terms of shape and offset it is smooth and, without known_from, concave. */
struct spt_weibull_sum {
    double value;
    double by_offset, by_shape;
    double offset_offset, offset_shape, shape_shape;
    /* sum of z at the ages up to which bearings were sound, minus z at known_from */
    double exposure;
};
struct spt_weibull_sum spt_weibull_add_up(const struct spt_weibull_data *data, double shape,
                                          double offset, double reference);

/* The profile likelihood: maximised over the offset for each shape. */
struct spt_weibull_profile {
    const struct spt_weibull_data *data;
    double reference; /* ln of the longest time */
    bool found;       /* the offset has no closed form */
    double failures;
};
struct spt_weibull_profile spt_weibull_profile_of(const struct spt_weibull_data *data,
                                                  int failures);

/* The offset of the maximum. Status: SPT_NOT_APPLICABLE where no bearing was seen sound: the offset
 * is then unbounded. */
enum spt_status spt_weibull_best_offset(const struct spt_weibull_profile *profile, double shape,
                                        double *offset);

/* The profile log-likelihood; NaN where there is none. */
double spt_weibull_profile_at(const struct spt_weibull_profile *profile, double shape);

#endif
