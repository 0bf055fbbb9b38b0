/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_math.h>
#include <math.h>
#include <stdint.h>

#include "model/numeric.h"
#include "model/weibull_data.h"
#include "spalltime/weibull.h"

static const struct spt_interval no_interval = {(double)NAN, (double)NAN};

static bool is_fraction(double p)
{
    return p > 0.0 && p < 1.0;
}

static bool is_question(const struct spt_weibull_question *q)
{
    if (!is_fraction(q->confidence))
        return false;
    switch (q->quantity) {
    case SPT_WEIBULL_SHAPE:
    case SPT_WEIBULL_SCALE:
        return true;
    case SPT_WEIBULL_LIFE:
        return is_fraction(q->failed_fraction);
    default:
        return false;
    }
}

/* w with life = scale exp(w/shape); the scale is the life with w = 0 */
static double find_offset(const struct spt_weibull_question *q)
{
    return q->quantity == SPT_WEIBULL_LIFE ? log(-log1p(-q->failed_fraction)) : 0.0;
}

/* estimate and standard error of the logarithm of the quantity */
static void estimate_log(const struct spt_weibull_fit *fit, const struct spt_weibull_question *q,
                         double *estimate, double *error)
{
    double shape = fit->weibull.shape;
    double slope = find_offset(q) / shape; /* d ln life / d ln shape = -slope */

    if (q->quantity == SPT_WEIBULL_SHAPE) {
        *estimate = log(shape);
        *error = sqrt(fit->variance_log_shape);
        return;
    }
    *estimate = log(fit->weibull.scale) + slope;
    *error = sqrt(fit->variance_log_scale - 2.0 * slope * fit->covariance +
                  slope * slope * fit->variance_log_shape);
}

static bool is_fit(const struct spt_weibull_fit *fit)
{
    return fit->weibull.shape > 0.0 && fit->weibull.scale > 0.0 && fit->failures >= 2 &&
           isfinite(fit->log_likelihood) && fit->variance_log_shape > 0.0 &&
           fit->variance_log_scale > 0.0;
}

enum spt_status spt_weibull_wald(const struct spt_weibull_fit *fit,
                                 const struct spt_weibull_question *question,
                                 struct spt_interval *interval)
{
    double estimate, error;

    *interval = no_interval;
    if (!is_question(question) || !is_fit(fit))
        return SPT_BAD_ARGUMENT;
    estimate_log(fit, question, &estimate, &error);
    double z = gsl_cdf_ugaussian_Pinv(0.5 + 0.5 * question->confidence);
    struct spt_interval found = {exp(estimate - z * error), exp(estimate + z * error)};
    if (!(found.low > 0.0) || !isfinite(found.high))
        return SPT_NOT_CONVERGED;
    *interval = found;
    return SPT_OK;
}

/* The profile for a life q held fixed. With u = ln t - ln q and c = exp(w) the log-likelihood is
 * r ln b + b sum_failed u - c sum exp(b u) + constants: concave in the shape b. */
struct held_life {
    const struct spt_weibull_data *data;
    double failures;
    double log_life;
    double offset;
    double guess; /* shape of the fit */
};

static double slope_in_shape(double shape, void *context)
{
    const struct held_life *h = context;
    double sum = h->failures / shape;
    for (int i = 0; i < h->data->n; i++) {
        double u = log(h->data->times[i]) - h->log_life;
        double failed = spt_weibull_row_failed(h->data, i) ? 1.0 : 0.0;
        /* capped far beyond the root, so that the root finder sees a finite value */
        double z = exp(GSL_MIN_DBL(shape * u + h->offset, 600.0));
        sum += spt_weibull_row_count(h->data, i) * u * (failed - z);
    }
    return sum;
}

static double find_held_log_likelihood(const struct held_life *h, double shape)
{
    struct spt_weibull w = {shape, exp(h->log_life - h->offset / shape)};
    double value;
    if (spt_weibull_log_likelihood(h->data, &w, &value) != SPT_OK)
        return -(double)INFINITY; /* the scale leaves the range of doubles */
    return value;
}

static double profile_life(const struct held_life *h)
{
    gsl_function function = {slope_in_shape, (void *)(uintptr_t)h};
    double low = h->guess, high = h->guess, shape;

    while (slope_in_shape(low, function.params) < 0.0 && low > 1e-300)
        low *= 0.5;
    while (slope_in_shape(high, function.params) > 0.0 && high < 1e300)
        high *= 2.0;
    if (low == high) /* the guess is the root itself */
        return find_held_log_likelihood(h, low);
    if (spt_numeric_root(&function, low, high, &shape) != SPT_OK)
        return (double)NAN;
    return find_held_log_likelihood(h, shape);
}

struct drop {
    const struct spt_weibull_data *data;
    const struct spt_weibull_fit *fit;
    const struct spt_weibull_question *question;
    double allowed; /* chi-squared/2 */
};

/* how far the profile at ln(quantity) lies below the allowed drop; 0 on a bound */
static double exceed_drop(double log_value, void *context)
{
    const struct drop *d = context;
    double profile;

    if (d->question->quantity == SPT_WEIBULL_SHAPE) {
        profile = spt_weibull_profile_shape(d->data, d->fit->failures, exp(log_value));
    } else {
        struct held_life h = {d->data, d->fit->failures, log_value, find_offset(d->question),
                              d->fit->weibull.shape};
        profile = profile_life(&h);
    }
    double miss = d->fit->log_likelihood - profile - d->allowed;
    return GSL_MIN_DBL(miss, 1e300); /* NaN stays NaN and stops the root finder */
}

/* one bound: steps outwards from the estimate, doubling, until the drop is exceeded */
static enum spt_status find_bound(struct drop *d, double estimate, double step, double *bound)
{
    gsl_function function = {exceed_drop, d};
    double inside = estimate;
    double outside = estimate + step;
    double log_bound;

    *bound = (double)NAN;
    for (double drop = exceed_drop(outside, d); !(drop > 0.0); drop = exceed_drop(outside, d)) {
        if (isnan(drop) || fabs(outside) > 690.0)
            return SPT_NOT_CONVERGED;
        inside = outside;
        step *= 2.0;
        outside += step;
    }
    enum spt_status status =
        spt_numeric_root(&function, fmin(inside, outside), fmax(inside, outside), &log_bound);
    if (status == SPT_OK)
        *bound = exp(log_bound);
    return status;
}

enum spt_status spt_weibull_ratio(const struct spt_weibull_data *data,
                                  const struct spt_weibull_fit *fit,
                                  const struct spt_weibull_question *question,
                                  struct spt_interval *interval)
{
    int failures, censored;
    double estimate, error;
    struct spt_interval found;

    *interval = no_interval;
    if (!is_question(question) || !is_fit(fit) ||
        spt_weibull_count(data, &failures, &censored) != SPT_OK || failures != fit->failures ||
        censored != fit->censored)
        return SPT_BAD_ARGUMENT;
    double quantile;
    enum spt_status status = spt_numeric_chi_squared(question->confidence, false, 1.0, &quantile);
    struct drop d = {data, fit, question, 0.5 * quantile};
    estimate_log(fit, question, &estimate, &error);
    if (status == SPT_OK)
        status = find_bound(&d, estimate, -error, &found.low);
    if (status == SPT_OK)
        status = find_bound(&d, estimate, error, &found.high);
    if (status == SPT_OK)
        *interval = found;
    return status;
}

enum spt_status spt_weibull_assumed_slope(const struct spt_weibull_data *data, double slope,
                                          double confidence, struct spt_weibull_assumed *result)
{
    static const struct spt_weibull_assumed none = {
        (double)NAN, 0, {(double)NAN, (double)NAN}, {(double)NAN, (double)NAN}, (double)NAN};
    int r, censored;

    *result = none;
    if (!isfinite(slope) || slope <= 0.0 || !is_fraction(confidence) ||
        spt_weibull_count(data, &r, &censored) != SPT_OK)
        return SPT_BAD_ARGUMENT;
    double log_sum = spt_weibull_log_power_sum(data, slope);
    double to_l10 = log(-log1p(-0.1)) / slope;
    double low, high = (double)INFINITY, estimate = (double)NAN;
    enum spt_status status = spt_numeric_chi_squared(confidence, false, 2.0 * r + 2.0, &low);
    if (status == SPT_OK && r > 0) {
        status = spt_numeric_chi_squared(confidence, true, 2.0 * r, &high);
        high = (log(2.0 / high) + log_sum) / slope;
        estimate = exp((log_sum - log(r)) / slope);
    }
    if (status != SPT_OK)
        return status;
    low = (log(2.0 / low) + log_sum) / slope;
    if (!isfinite(low) || !(exp(low + to_l10) > 0.0) || !isfinite(exp(low)) ||
        (r > 0 && !isfinite(exp(high))))
        return SPT_NOT_APPLICABLE;
    *result = (struct spt_weibull_assumed){.shape = slope,
                                           .failures = r,
                                           .scale = {exp(low), exp(high)},
                                           .l10 = {exp(low + to_l10), exp(high + to_l10)},
                                           .scale_estimate = estimate};
    return SPT_OK;
}
