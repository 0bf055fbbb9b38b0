/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <float.h>
#include <gsl/gsl_math.h>
#include <math.h>

#include "model/numeric.h"
#include "model/statistics/weibull_data.h"
#include "spalltime/statistics.h"

struct spt_weibull_profile spt_weibull_profile_of(const struct spt_weibull_data *data, int failures)
{
    double longest = DBL_MIN;
    for (int i = 0; i < data->n; i++)
        longest = fmax(longest, data->times[i]);
    return (struct spt_weibull_profile){data, log(longest), spt_weibull_has_found(data), failures};
}

struct held_shape {
    const struct spt_weibull_profile *profile;
    double shape;
};

/* decreases with the offset, from the number of failures */
static double slope_in_offset(double offset, void *context)
{
    const struct held_shape *h = context;
    return spt_weibull_add_up(h->profile->data, h->shape, offset, h->profile->reference).by_offset;
}

static enum spt_status search_offset(const struct spt_weibull_profile *profile, double shape,
                                     double *offset)
{
    struct held_shape held = {profile, shape};
    gsl_function function = {slope_in_offset, &held};
    double low = -1.0, high = 1.0;

    while (slope_in_offset(low, &held) < 0.0 && low > -1e6)
        low *= 2.0;
    while (slope_in_offset(high, &held) > 0.0) {
        if (high > 1e6)
            return SPT_NOT_APPLICABLE;
        high *= 2.0;
    }
    return spt_numeric_root(&function, low, high, offset);
}

enum spt_status spt_weibull_best_offset(const struct spt_weibull_profile *profile, double shape,
                                        double *offset)
{
    *offset = (double)NAN;
    double exposure = spt_weibull_add_up(profile->data, shape, 0.0, profile->reference).exposure;
    if (!(exposure > 0.0))
        return SPT_NOT_APPLICABLE;
    if (profile->found)
        return search_offset(profile, shape, offset);
    *offset = log(profile->failures) - log(exposure);
    return SPT_OK;
}

double spt_weibull_profile_at(const struct spt_weibull_profile *profile, double shape)
{
    double offset;
    if (spt_weibull_best_offset(profile, shape, &offset) != SPT_OK)
        return (double)NAN;
    return spt_weibull_add_up(profile->data, shape, offset, profile->reference).value;
}

/* at the best offset the derivative of the profile is the partial derivative; decreases with the
 * shape */
static double slope_in_shape(double shape, void *context)
{
    const struct spt_weibull_profile *p = context;
    double offset;
    if (spt_weibull_best_offset(p, shape, &offset) != SPT_OK)
        return (double)NAN;
    return spt_weibull_add_up(p->data, shape, offset, p->reference).by_shape;
}

/* True where one time parts all that was seen sound from all failures: a jump there explains the
 * data better than any slope. A bearing that was not watched while sound, such as one found failed
 * at its first look, says nothing of where the jump lies, but that it does not come later. */
static bool is_parted(const struct spt_weibull_data *data)
{
    double sound = 0.0, failed = (double)INFINITY;
    for (int i = 0; i < data->n; i++) {
        double until = spt_weibull_row_sound(data, i);
        if (until > spt_weibull_row_from(data, i))
            sound = fmax(sound, until);
        if (spt_weibull_row_failed(data, i))
            failed = fmin(failed, data->times[i]);
    }
    return sound <= failed;
}

/* With truncated data the profile may have several maxima: start near the highest point of a
 * grid. */
static double find_start(const struct spt_weibull_profile *profile)
{
    double best = 1.0, highest = -(double)INFINITY;
    if (!spt_weibull_has_entries(profile->data))
        return best;
    for (double shape = 0.0625; shape < 300.0; shape *= M_SQRT2) {
        double value = spt_weibull_profile_at(profile, shape);
        if (value > highest) {
            highest = value;
            best = shape;
        }
    }
    return best;
}

static enum spt_status solve_shape(struct spt_weibull_profile *profile, double *shape)
{
    gsl_function function = {slope_in_shape, profile};
    double low = find_start(profile), high = low;

    /* with exact times and no truncation the derivative tends to infinity as the shape tends to
     * 0 */
    bool ends = !profile->found && !spt_weibull_has_entries(profile->data);
    while (slope_in_shape(low, profile) < 0.0) {
        if (!ends && low <= SPT_WEIBULL_SHAPE_MIN)
            return SPT_NOT_APPLICABLE;
        low *= 0.5;
    }
    while (slope_in_shape(high, profile) > 0.0) {
        if (high >= SPT_WEIBULL_SHAPE_MAX)
            return SPT_NOT_APPLICABLE;
        high *= 2.0;
    }
    *shape = low;
    enum spt_status status = low < high ? spt_numeric_root(&function, low, high, shape) : SPT_OK;
    if (status == SPT_OK &&
        (*shape > SPT_WEIBULL_SHAPE_MAX || (!ends && *shape < SPT_WEIBULL_SHAPE_MIN)))
        return SPT_NOT_APPLICABLE;
    return status;
}

/* inverse of the observed information in (ln scale, ln shape); by the chain rule from (offset,
 * shape), whose first derivatives are zero here */
static enum spt_status add_variances(const struct spt_weibull_data *data,
                                     struct spt_weibull_fit *fit)
{
    double b = fit->weibull.shape;
    struct spt_weibull_sum sum = spt_weibull_add_up(data, b, 0.0, log(fit->weibull.scale));
    double scale_scale = -b * b * sum.offset_offset;
    double scale_shape = b * b * sum.offset_shape;
    double shape_shape = -b * b * sum.shape_shape;
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

static enum spt_status solve(const struct spt_weibull_data *data, struct spt_weibull_fit *fit)
{
    struct spt_weibull_profile profile = spt_weibull_profile_of(data, fit->failures);
    double offset = 0.0;
    enum spt_status status = solve_shape(&profile, &fit->weibull.shape);
    if (status == SPT_OK)
        status = spt_weibull_best_offset(&profile, fit->weibull.shape, &offset);
    if (status != SPT_OK)
        return status;
    fit->weibull.scale = exp(profile.reference - offset / fit->weibull.shape);
    if (!isfinite(fit->weibull.scale) || fit->weibull.scale <= 0.0)
        return SPT_NOT_APPLICABLE;
    return spt_weibull_log_likelihood(data, &fit->weibull, &fit->log_likelihood);
}

enum spt_status spt_weibull_fit(const struct spt_weibull_data *data, struct spt_weibull_fit *fit)
{
    struct spt_weibull_fit f = no_fit;

    *fit = no_fit;
    enum spt_status status = spt_weibull_count(data, &f.failures, &f.censored);
    if (status == SPT_OK && (f.failures < 2 || is_parted(data)))
        status = SPT_NOT_APPLICABLE;
    if (status == SPT_OK)
        status = solve(data, &f);
    if (status == SPT_OK)
        status = add_variances(data, &f);
    if (status == SPT_OK)
        *fit = f;
    return status;
}
