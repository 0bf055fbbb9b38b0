/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_FIT_H
#define SPT_FIT_H

#include <stdbool.h>

#include "spalltime/statistics.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Analysis of lives from the field: Weibull slope and lives with confidence bounds, comparison with
 * an estimated L10, and which of several candidate laws explains the data best. All times in one
 * unit. */

#define SPT_FIT_FAILURES_MIN 3    /* with fewer, the slope is assumed: our own choice */
#define SPT_FIT_IN_LINE_FACTOR 3. /* bounds within this factor of an estimate: our own choice */

/* Failures with a stated time that share it with at least two others look as if found by
 * inspection, where they are at least this fraction of all failures with a stated time: our own
 * choice */
#define SPT_FIT_TIED_MIN 3
#define SPT_FIT_TIED_SHARE (1. / 3.)

struct spt_fit_inputs {
    struct spt_weibull_data data;
    double confidence;    /* 0 < c < 1, two-sided, for instance 0.90 */
    double assumed_slope; /* > 0, used with few failures; SPT_WEIBULL_SLOPE is usual */
    double estimated_l10; /* > 0, calculated L10; NaN: no comparison */
    enum spt_rank_method rank_method;
    int candidate_count; /* 0: none */
    const struct spt_life_law *candidates;
};

/* Workspace: arrays of the caller. A pointer may be NULL with length 0; its part of the result is
 * then left out. */
struct spt_fit_workspace {
    struct spt_rank_point *points; /* length at least failures + censored */
    int points_capacity;
    struct spt_fit_candidate *candidates; /* length at least candidate_count */
    int candidates_capacity;
};

/* Method of the confidence bounds. */
enum spt_fit_basis {
    SPT_FIT_LIKELIHOOD,   /* slope and scale estimated, likelihood-ratio bounds */
    SPT_FIT_ASSUMED_SLOPE /* too few failures, or data that determine no slope: it is assumed */
};

/* One quantity. `ratio` (likelihood ratio) is the interval to report, `wald` a fast
 * approximation. */
struct spt_fit_quantity {
    double estimate;
    struct spt_interval ratio;
    struct spt_interval wald;
};

/* Field lives compared with the estimate. */
enum spt_fit_verdict {
    SPT_FIT_WORSE,      /* the upper bound of the field L10 is below the estimate */
    SPT_FIT_IN_LINE,    /* the bounds contain the estimate and are within a factor of 3 of it */
    SPT_FIT_BETTER,     /* the lower bound is above the estimate */
    SPT_FIT_CANNOT_TELL /* the bounds contain the estimate but are wider; or no estimate was given
                         */
};
struct spt_fit_comparison {
    double factor; /* field L10 over estimated L10; NaN without a failure or an estimate */
    struct spt_interval bounds; /* of the factor, as the basis says */
    enum spt_fit_verdict verdict;
};

/* One candidate law, compared with the data without adjusting its parameters. */
struct spt_fit_candidate {
    double log_likelihood; /* -INFINITY: a failure came before its least life */
    double weight; /* likelihood over the sum for all candidates; NaN where the data are impossible
                      under every candidate */
};

struct spt_fit {
    enum spt_fit_basis basis;
    int failures;
    int censored;
    int found;   /* failures known only to have happened between two inspections */
    int entered; /* bearings known only from an age on (known_from > 0) */
    /* stated times of failures coincide as they do when inspections find them */
    bool looks_inspected;
    int tied;         /* number of failures whose stated times coincide so; 0 without points in the
                         workspace */
    double tied_time; /* the most frequent of these times; NaN: none */
    double log_likelihood; /* NaN with an assumed slope, as are the next four */
    struct spt_fit_quantity slope;
    struct spt_fit_quantity scale;
    struct spt_fit_quantity l10;
    struct spt_fit_quantity l50;
    struct spt_weibull_assumed assumed; /* always: each bound one-sided at (1 + confidence)/2 */
    int point_count;                    /* 0 where left out */
    struct spt_rank_line life_on_rank;  /* NaN where left out, under three failures, or with no
                                           bearing known from new */
    struct spt_rank_line rank_on_life;
    struct spt_fit_comparison comparison;
    int early_failures;   /* bearings that failed before SPT_WEIBULL_FLOOR times the estimated L10,
                             the least life by that estimate; 0 without an estimate */
    double first_failure; /* time of the earliest failure (or at which it was found); NaN without
                             failures */
    int candidate_count;  /* 0 where left out */
    int best_candidate;   /* index of the largest weight; -1: none */
};

/* Fits one set of lives.
 * Status: SPT_BAD_ARGUMENT; SPT_TOO_SMALL where an array is given but too small; SPT_NOT_CONVERGED.
 *         Few failures are not an error: see `basis`. */
enum spt_status spt_fit(const struct spt_fit_inputs *inputs,
                        const struct spt_fit_workspace *workspace, struct spt_fit *fit);

/* Log-likelihood of the data under each law, and the normalised weights (Bayes, with equal prior
 * probabilities). They rank the listed laws; a large weight does not prove that a law is right.
 * Status: SPT_BAD_ARGUMENT for bad data or laws; SPT_NOT_APPLICABLE where the data are impossible
 *         under every law (weights NaN, log-likelihoods still given). */
enum spt_status spt_fit_weigh(const struct spt_weibull_data *data, const struct spt_life_law *laws,
                              int count, struct spt_fit_candidate *candidates, int *best);

/* Compares a field L10 with its bounds to an estimate (> 0). `factor` may be NaN, bounds.high
 * INFINITY. */
struct spt_fit_comparison spt_fit_compare(double field_l10, struct spt_interval bounds,
                                          double estimated_l10);

/* The bounds of the field L10 according to `basis`: likelihood ratio, or assumed slope. */
struct spt_interval spt_fit_l10_bounds(const struct spt_fit *fit);

/* A bearing that still runs, and how much longer by the law of a fit given its age (in the unit of
 * the data): until a share of 90 % or 50 % of those that got so far is left. */
struct spt_fit_running {
    double age;
    int count; /* bearings of this age */
    double left_90, left_50;
};

/* The bearings that still run, the oldest first, by the fitted law, or that of the assumed slope
 * with its estimated scale.
 * In:     the data as observed; `units`: buffer for data->n rows.
 * Result: the number of different ages; 0 where the fit has no law (no failure).
 * Source: spt_weibull_remaining. */
int spt_fit_running(const struct spt_weibull_data *data, const struct spt_fit *fit,
                    struct spt_fit_running *units);

/* True where an L10 lies within these bounds; false for NaN. */
bool spt_fit_holds(const struct spt_fit *fit, double l10);

/* Bounds of the field L10 compared with the band of a calculated life. */
enum spt_fit_overlap {
    SPT_FIT_NO_BAND,    /* an end of the bounds or of the band is NaN */
    SPT_FIT_BELOW_BAND, /* no overlap: the upper bound is below the band */
    SPT_FIT_OVERLAPS,
    SPT_FIT_ABOVE_BAND /* no overlap: the lower bound is above the band */
};
enum spt_fit_overlap spt_fit_against_band(struct spt_interval bounds, struct spt_interval band);

#ifdef __cplusplus
}
#endif

#endif
