/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_WEIBULL_H
#define SPT_WEIBULL_H

#include <stdbool.h>

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

#define SPT_WEIBULL_SHAPE_MAX 1e4  /* a fit that wants a larger shape has no finite one */
#define SPT_WEIBULL_SHAPE_MIN 0.05 /* nor one of found failures or late records that wants less */

/* Two-parameter Weibull distribution of lives, R(t) = exp(-(t/scale)^shape).
 * Times are in any one unit (hours, million revolutions, km); scale is in that unit. */
struct spt_weibull {
    double shape; /* slope, > 0 */
    double scale; /* characteristic life, 63.2 % failed, > 0 */
};

/* The distribution with a given L10 (> 0) and shape (> 0): scale = L10/ln(1/0.9)^(1/shape). */
enum spt_status spt_weibull_from_l10(double l10, double shape, struct spt_weibull *weibull);

/* Share that survives t (>= 0), 0 to 1. */
enum spt_status spt_weibull_survival(const struct spt_weibull *weibull, double t, double *survival);

/* Time by which `failed_fraction` (0 < p < 1) has failed: L10 has p = 0.10. */
enum spt_status spt_weibull_quantile(const struct spt_weibull *weibull, double failed_fraction,
                                     double *time);

/* Mean scale Gamma(1 + 1/shape) and standard deviation of the lives.
 * Status: SPT_NOT_APPLICABLE where the shape is so small that they overflow. */
enum spt_status spt_weibull_mean(const struct spt_weibull *weibull, double *mean);
enum spt_status spt_weibull_deviation(const struct spt_weibull *weibull, double *deviation);

/* Lives as they come back from the field or a test. A row is `counts[i]` bearings that failed at
 * times[i], or that were still sound there (right censored).
 * An inspection that finds a failure tells only that it came after the last look at which the
 * bearing was sound: `last_good` (interval censored; 0 where it had never been looked at, left
 * censored). A failure taken as of the time at which it was found makes L10 too long.
 * Where records begin with a machine that has run, `known_from` is the age of its bearings by then
 * (left truncated): one that failed sooner is not among the rows. */
struct spt_weibull_data {
    int n;
    const double *times;     /* n, > 0 */
    const int *counts;       /* n, >= 1; NULL: one bearing a row */
    const bool *failed;      /* n; NULL: all failed */
    const double *last_good; /* n; of rows that failed 0 <= last_good < time, or NaN: failed just at
                                times[i]; not read of sound ones; NULL: all NaN */
    const double *known_from; /* n, 0 <= known_from < time; NULL: all 0, known from new. A bearing
                                 was sound then, whatever last_good says */
};

/* Checks the rows and counts them: failures and censored (bearings, not rows).
 * Status: SPT_BAD_ARGUMENT for no rows, a time that is not finite and > 0, a count below 1, or a
 *         last_good or known_from out of its range. */
enum spt_status spt_weibull_count(const struct spt_weibull_data *data, int *failures,
                                  int *censored);

/* Log-likelihood of the data: sum of ln f(t) over failures at a known time, ln [R(last_good) -
 * R(time)] over those found, ln R(t) over sound bearings, each less ln R(known_from).
 * Source: Lawless, Statistical Models and Methods for Lifetime Data (from memory). */
enum spt_status spt_weibull_log_likelihood(const struct spt_weibull_data *data,
                                           const struct spt_weibull *weibull,
                                           double *log_likelihood);

/* A maximum-likelihood fit. Variances are of ln scale and ln shape, from the inverse of the
 * observed information at the maximum. */
struct spt_weibull_fit {
    struct spt_weibull weibull;
    int failures;
    int censored;
    double log_likelihood;
    double variance_log_scale;
    double variance_log_shape;
    double covariance; /* of ln scale and ln shape */
};

/* Maximum-likelihood fit. For a given shape the likelihood has one maximum in scale^-shape, in
 * closed form where every failure has its time: scale^shape = sum (t^b - known_from^b)/failures.
 * The derivative of that profile by the shape is brought to zero by a bracketing root finder; with
 * bearings known only from an age the profile may have several maxima and the highest is taken.
 * Status: SPT_BAD_ARGUMENT as spt_weibull_count; SPT_NOT_APPLICABLE with fewer than two failures,
 *         or where no finite shape fits best: every failure may have come at one time with nothing
 *         sound longer (so it is after a single inspection), no bearing was ever seen sound, or
 *         the shape lies outside SPT_WEIBULL_SHAPE_MIN to SPT_WEIBULL_SHAPE_MAX. The estimate from
 *         few failures is biased (shape too high); below three use spt_weibull_assumed_slope.
 * Source: NIST/SEMATECH e-Handbook 8.4.1.3; Lawless (from memory). */
enum spt_status spt_weibull_fit(const struct spt_weibull_data *data, struct spt_weibull_fit *fit);

/* Bounds of one quantity. `low` and `high` together hold `confidence`, half of the rest outside
 * at each end. high is INFINITY where the data set no upper bound, low 0 where no lower one. */
struct spt_interval {
    double low;
    double high;
};

/* What an interval is asked for. */
enum spt_weibull_quantity { SPT_WEIBULL_SHAPE, SPT_WEIBULL_SCALE, SPT_WEIBULL_LIFE };
struct spt_weibull_question {
    enum spt_weibull_quantity quantity;
    double failed_fraction; /* SPT_WEIBULL_LIFE only: 0.10 for L10; 0 < p < 1 */
    double confidence;      /* two-sided, 0 < c < 1, for instance 0.90 */
};

/* Bounds from the normal approximation to the logarithm of the quantity (Wald), quick and for
 * many failures; too narrow below about twenty. */
enum spt_status spt_weibull_wald(const struct spt_weibull_fit *fit,
                                 const struct spt_weibull_question *question,
                                 struct spt_interval *interval);

/* Bounds from the likelihood ratio: all values whose profile log-likelihood is within
 * chi-squared(confidence; 1)/2 of the maximum. `fit` is the fit of the same data.
 * Finds of the first look, and bearings known only from an age on, may leave a quantity without a
 * bound: 0 or INFINITY then.
 * Status: SPT_NOT_CONVERGED where a bound lies beyond what doubles hold. */
enum spt_status spt_weibull_ratio(const struct spt_weibull_data *data,
                                  const struct spt_weibull_fit *fit,
                                  const struct spt_weibull_question *question,
                                  struct spt_interval *interval);

/* Few or no failures: the shape is assumed, not estimated, and t^shape is then exponential.
 * Each bound is one-sided at `confidence`: the true scale lies above low with that confidence,
 * and, taken alone, below high with that confidence. */
struct spt_weibull_assumed {
    double shape; /* as assumed */
    int failures;
    struct spt_interval scale; /* high is INFINITY without a failure */
    struct spt_interval l10;
    double scale_estimate; /* (sum t^b/failures)^(1/b); NaN without a failure, or where none of the
                              bearings was ever seen sound */
};

/* low = [2 sum t^b/chi2(confidence; 2r+2)]^(1/b), right for a test stopped at a time, a little
 * low for one stopped at a failure; high = [2 sum t^b/chi2(1-confidence; 2r)]^(1/b). A bearing
 * that was found failed counts in low as if it had failed when last seen sound, in high as when
 * found: the bounds are then a little wide. t^b is less known_from^b.
 * In:     slope > 0; confidence 0 < c < 1.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where the sum overflows.
 * Source: NIST/SEMATECH e-Handbook 8.4.5.1 for the exponential case (from memory), with t^b. */
enum spt_status spt_weibull_assumed_slope(const struct spt_weibull_data *data, double slope,
                                          double confidence, struct spt_weibull_assumed *result);

#ifdef __cplusplus
}
#endif

#endif
