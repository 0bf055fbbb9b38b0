/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_math.h>
#include <limits.h>
#include <math.h>

#include "model/numeric.h"
#include "model/weibull_data.h"
#include "spalltime/weibull.h"

enum spt_status spt_weibull_count(const struct spt_weibull_data *data, int *failures, int *censored)
{
    long long counted[2] = {0, 0};

    *failures = *censored = 0;
    if (data->n < 1 || !data->times)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < data->n; i++) {
        if (!isfinite(data->times[i]) || data->times[i] <= 0.0)
            return SPT_BAD_ARGUMENT;
        if (data->counts && data->counts[i] < 1)
            return SPT_BAD_ARGUMENT;
        counted[spt_weibull_row_failed(data, i)] += data->counts ? data->counts[i] : 1;
    }
    if (counted[0] + counted[1] > INT_MAX)
        return SPT_BAD_ARGUMENT;
    *censored = (int)counted[0];
    *failures = (int)counted[1];
    return SPT_OK;
}

enum spt_status spt_weibull_log_likelihood(const struct spt_weibull_data *data,
                                           const struct spt_weibull *weibull,
                                           double *log_likelihood)
{
    int failures, censored;
    double sum = 0.0;
    double b = weibull->shape;

    *log_likelihood = (double)NAN;
    if (!isfinite(b) || b <= 0.0 || !isfinite(weibull->scale) || weibull->scale <= 0.0)
        return SPT_BAD_ARGUMENT;
    if (spt_weibull_count(data, &failures, &censored) != SPT_OK)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < data->n; i++) {
        double y = log(data->times[i] / weibull->scale);
        double term = -exp(b * y);
        if (spt_weibull_row_failed(data, i))
            term += log(b) + b * y - log(data->times[i]);
        sum += spt_weibull_row_count(data, i) * term;
    }
    *log_likelihood = sum; /* -INFINITY is a value: these data cannot come from it */
    return SPT_OK;
}

static double find_longest(const struct spt_weibull_data *data)
{
    double longest = 0.0;
    for (int i = 0; i < data->n; i++)
        longest = fmax(longest, data->times[i]);
    return longest;
}

double spt_weibull_log_power_sum(const struct spt_weibull_data *data, double shape)
{
    double longest = find_longest(data);
    double sum = 0.0;
    for (int i = 0; i < data->n; i++)
        sum += spt_weibull_row_count(data, i) * exp(shape * log(data->times[i] / longest));
    /* the longest row alone makes the sum at least 1 */
    /* cppcheck-suppress invalidFunctionArg */
    return log(sum) + shape * log(longest);
}

double spt_weibull_profile_shape(const struct spt_weibull_data *data, int failures, double shape)
{
    double logs = 0.0;
    double r = failures;
    for (int i = 0; i < data->n; i++)
        if (spt_weibull_row_failed(data, i))
            logs += spt_weibull_row_count(data, i) * log(data->times[i]);
    /* with scale^shape = sum t^shape / r the sum of z is r */
    double log_scale_power = spt_weibull_log_power_sum(data, shape) - log(r);
    return r * log(shape) - r * log_scale_power + (shape - 1.0) * logs - r;
}

struct profile {
    const struct spt_weibull_data *data;
    double longest;
    double mean_log; /* mean of ln(t/longest) over the failures */
};

/* the profile equation with times over the longest, which cannot overflow; rises with the shape */
static double miss_profile(double shape, void *context)
{
    const struct profile *p = context;
    double powers = 0.0;
    double weighted = 0.0;
    for (int i = 0; i < p->data->n; i++) {
        double x = log(p->data->times[i] / p->longest);
        double power = spt_weibull_row_count(p->data, i) * exp(shape * x);
        powers += power;
        weighted += power * x;
    }
    return weighted / powers - 1.0 / shape - p->mean_log;
}

static enum spt_status solve_shape(const struct spt_weibull_data *data, int failures, double *shape)
{
    struct profile p = {data, find_longest(data), 0.0};
    gsl_function function = {miss_profile, &p};
    double low = 1.0;
    double high = 1.0;

    for (int i = 0; i < data->n; i++)
        if (spt_weibull_row_failed(data, i))
            p.mean_log +=
                spt_weibull_row_count(data, i) * log(data->times[i] / p.longest) / failures;
    while (miss_profile(low, &p) > 0.0)
        low *= 0.5; /* ends: the equation goes to minus infinity as the shape goes to 0 */
    while (miss_profile(high, &p) < 0.0) {
        if (high >= SPT_WEIBULL_SHAPE_MAX)
            return SPT_NOT_APPLICABLE;
        high *= 2.0;
    }
    enum spt_status status = spt_numeric_root(&function, low, high, shape);
    if (status == SPT_OK && *shape > SPT_WEIBULL_SHAPE_MAX)
        return SPT_NOT_APPLICABLE;
    return status;
}

/* inverse of the observed information in (ln scale, ln shape) */
static enum spt_status add_variances(const struct spt_weibull_data *data,
                                     struct spt_weibull_fit *fit)
{
    double b = fit->weibull.shape;
    double scale_scale = 0.0, scale_shape = 0.0, shape_shape = 0.0;

    for (int i = 0; i < data->n; i++) {
        double count = spt_weibull_row_count(data, i);
        double failed = spt_weibull_row_failed(data, i) ? 1.0 : 0.0;
        double by = b * log(data->times[i] / fit->weibull.scale);
        double z = exp(by);
        scale_scale += count * b * b * z;
        scale_shape -= count * b * (z - failed + z * by);
        shape_shape += count * (by * (z - failed) + z * by * by);
    }
    double determinant = scale_scale * shape_shape - scale_shape * scale_shape;
    if (!isfinite(determinant) || determinant <= 0.0)
        return SPT_NOT_CONVERGED;
    fit->variance_log_scale = shape_shape / determinant;
    fit->variance_log_shape = scale_scale / determinant;
    fit->covariance = -scale_shape / determinant;
    return SPT_OK;
}

static const struct spt_weibull_fit no_fit = {
    {(double)NAN, (double)NAN}, 0, 0, (double)NAN, (double)NAN, (double)NAN, (double)NAN};

enum spt_status spt_weibull_fit(const struct spt_weibull_data *data, struct spt_weibull_fit *fit)
{
    struct spt_weibull_fit f = no_fit;

    *fit = no_fit;
    enum spt_status status = spt_weibull_count(data, &f.failures, &f.censored);
    if (status == SPT_OK && f.failures < 2)
        status = SPT_NOT_APPLICABLE;
    if (status == SPT_OK)
        status = solve_shape(data, f.failures, &f.weibull.shape);
    if (status != SPT_OK)
        return status;
    f.weibull.scale =
        exp((spt_weibull_log_power_sum(data, f.weibull.shape) - log(f.failures)) / f.weibull.shape);
    if (!isfinite(f.weibull.scale) || f.weibull.scale <= 0.0)
        return SPT_NOT_APPLICABLE;
    status = spt_weibull_log_likelihood(data, &f.weibull, &f.log_likelihood);
    if (status == SPT_OK)
        status = add_variances(data, &f);
    if (status == SPT_OK)
        *fit = f;
    return status;
}
