/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_math.h>
#include <math.h>

#include "model/numeric.h"
#include "model/statistics/weibull_data.h"
#include "spalltime/statistics.h"

static const struct spt_interval no_interval = {(double)NAN, (double)NAN};

static bool is_fraction(double p)
{
    return p > 0.0 && p < 1.0;
}

static bool are_inputs(const struct spt_weibull_interval_inputs *q)
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
static double find_offset(const struct spt_weibull_interval_inputs *q)
{
    return q->quantity == SPT_WEIBULL_LIFE ? log(-log1p(-q->failed_fraction)) : 0.0;
}

/* estimate and standard error of the logarithm of the quantity */
static void estimate_log(const struct spt_weibull_fit *fit,
                         const struct spt_weibull_interval_inputs *q, double *estimate,
                         double *error)
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
                                 const struct spt_weibull_interval_inputs *inputs,
                                 struct spt_interval *interval)
{
    double estimate, error;

    *interval = no_interval;
    if (!are_inputs(inputs) || !is_fit(fit))
        return SPT_BAD_ARGUMENT;
    estimate_log(fit, inputs, &estimate, &error);
    double z = gsl_cdf_ugaussian_Pinv(0.5 + 0.5 * inputs->confidence);
    struct spt_interval found = {exp(estimate - z * error), exp(estimate + z * error)};
    if (!(found.low > 0.0) || !isfinite(found.high))
        return SPT_NOT_CONVERGED;
    *interval = found;
    return SPT_OK;
}

/* The profile at a fixed life q: the offset follows from q and the shape, and without known_from
 * the log-likelihood is concave in the shape. */
struct held_life {
    const struct spt_weibull_data *data;
    double log_life;
    double offset;
    double guess; /* shape of the fit */
};

static double slope_in_shape(double shape, void *context)
{
    const struct held_life *h = context;
    return spt_weibull_add_up(h->data, shape, h->offset, h->log_life).by_shape;
}

static double profile_life(struct held_life *h)
{
    gsl_function function = {slope_in_shape, h};
    double shape = h->guess, low = shape, high = shape;

    while (slope_in_shape(low, h) < 0.0 && low > 1e-300)
        low *= 0.5;
    while (slope_in_shape(high, h) > 0.0 && high < 1e300)
        high *= 2.0;
    /* low == high: the guess is the root itself */
    if (low < high && spt_numeric_root(&function, low, high, &shape) != SPT_OK)
        return (double)NAN;
    return spt_weibull_add_up(h->data, shape, h->offset, h->log_life).value;
}

struct drop {
    struct spt_weibull_profile profile;
    const struct spt_weibull_fit *fit;
    const struct spt_weibull_interval_inputs *inputs;
    double allowed; /* chi-squared/2 */
    bool levels;    /* the likelihood may approach a limit */
};

/* drop of the profile at ln(quantity) beyond the allowed one; 0 on a bound */
static double exceed_drop(double log_value, void *context)
{
    const struct drop *d = context;
    double profile;

    if (d->inputs->quantity == SPT_WEIBULL_SHAPE) {
        profile = spt_weibull_profile_at(&d->profile, exp(log_value));
    } else {
        struct held_life h = {d->profile.data, log_value, find_offset(d->inputs),
                              d->fit->weibull.shape};
        profile = profile_life(&h);
    }
    double miss = d->fit->log_likelihood - profile - d->allowed;
    return GSL_MIN_DBL(miss, 1e300); /* NaN stays NaN and stops the root finder */
}

/* With failures found at the first inspection or truncated data the likelihood may approach a limit
 * before the allowed drop (towards slope 0 all failures happen at once, or the hazard becomes
 * proportional to 1/age): logarithmic distance beyond which there is taken to be no bound. */
static const double far_away = 30.0;

/* one bound: steps outwards from the estimate, doubling, until the drop is exceeded */
static enum spt_status find_bound(struct drop *d, double estimate, double step, double *bound)
{
    gsl_function function = {exceed_drop, d};
    double inside = estimate;
    double outside = estimate + step;
    double log_bound;

    *bound = (double)NAN;
    for (double drop = exceed_drop(outside, d); !(drop > 0.0); drop = exceed_drop(outside, d)) {
        if (d->levels && fabs(outside - estimate) > far_away) {
            *bound = step < 0.0 ? 0.0 : (double)INFINITY;
            return SPT_OK;
        }
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
                                  const struct spt_weibull_interval_inputs *inputs,
                                  struct spt_interval *interval)
{
    int failures, censored;
    double estimate, error;
    struct spt_interval found;

    *interval = no_interval;
    if (!are_inputs(inputs) || !is_fit(fit) ||
        spt_weibull_count(data, &failures, &censored) != SPT_OK || failures != fit->failures ||
        censored != fit->censored)
        return SPT_BAD_ARGUMENT;
    double quantile;
    enum spt_status status = spt_numeric_chi_squared(inputs->confidence, false, 1.0, &quantile);
    struct drop d = {spt_weibull_profile_of(data, failures), fit, inputs, 0.5 * quantile,
                     spt_weibull_has_found(data) || spt_weibull_has_entries(data)};
    estimate_log(fit, inputs, &estimate, &error);
    if (status == SPT_OK)
        status = find_bound(&d, estimate, -error, &found.low);
    if (status == SPT_OK)
        status = find_bound(&d, estimate, error, &found.high);
    if (status == SPT_OK)
        *interval = found;
    return status;
}

/* ln of the sum of t^slope - known_from^slope, with interval-censored failures at their earliest or
 * latest time; -INFINITY where no bearing was seen sound */
static double find_log_powers(const struct spt_weibull_profile *p, double slope, bool latest)
{
    double sum = 0.0;
    for (int i = 0; i < p->data->n; i++) {
        double t = latest ? p->data->times[i] : spt_weibull_row_sound(p->data, i);
        double from = spt_weibull_row_from(p->data, i);
        if (t > from)
            sum += spt_weibull_row_count(p->data, i) * exp(slope * (log(t) - p->reference)) *
                   -expm1(slope * (log(from) - log(t)));
    }
    return sum > 0.0 ? log(sum) + slope * p->reference : -(double)INFINITY;
}

static bool is_answer(const struct spt_weibull_assumed *a)
{
    return (a->scale.low == 0.0 || a->l10.low > 0.0) && isfinite(a->scale.low) &&
           (a->failures == 0 || isfinite(a->scale.high));
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
    struct spt_weibull_profile profile = spt_weibull_profile_of(data, r);
    double to_l10 = log(-log1p(-0.1)) / slope;
    double low, high = (double)INFINITY, offset = (double)NAN;
    enum spt_status status = spt_numeric_chi_squared(confidence, false, 2.0 * r + 2.0, &low);
    if (status == SPT_OK && r > 0) {
        status = spt_numeric_chi_squared(confidence, true, 2.0 * r, &high);
        high = (log(2.0 / high) + find_log_powers(&profile, slope, true)) / slope;
        if (spt_weibull_best_offset(&profile, slope, &offset) == SPT_NOT_CONVERGED)
            status = SPT_NOT_CONVERGED;
    }
    if (status != SPT_OK)
        return status;
    low = (log(2.0 / low) + find_log_powers(&profile, slope, false)) / slope;
    struct spt_weibull_assumed found = {.shape = slope,
                                        .failures = r,
                                        .scale = {exp(low), exp(high)},
                                        .l10 = {exp(low + to_l10), exp(high + to_l10)},
                                        .scale_estimate = exp(profile.reference - offset / slope)};
    if (!is_answer(&found) || isnan(low) || (isinf(low) && !profile.found))
        return SPT_NOT_APPLICABLE;
    *result = found;
    return SPT_OK;
}
