/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_FIT_H
#define SPT_FIT_H

#include <stdbool.h>

#include "spalltime/statistics.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What lives from the field say: a slope and lives with bounds, whether they meet an estimated
 * L10, and which of several estimates explains them best. All times in one unit. */

#define SPT_FIT_FAILURES_MIN 3    /* below, the slope is assumed: our own choice */
#define SPT_FIT_IN_LINE_FACTOR 3. /* bounds within this factor of an estimate: our own choice */

/* Failures at a stated time that share it with at least two others look like finds of an
 * inspection, where they are this share of all with a stated time or more: our own choice */
#define SPT_FIT_TIED_MIN 3
#define SPT_FIT_TIED_SHARE (1. / 3.)

struct spt_fit_inputs {
    struct spt_weibull_data data;
    double confidence;    /* 0 < c < 1, two-sided, for instance 0.90 */
    double assumed_slope; /* > 0, used with few failures; SPT_WEIBULL_SLOPE is usual */
    double estimated_l10; /* > 0, what was calculated; NaN: no comparison */
    enum spt_rank_method rank_method;
    int candidate_count; /* 0: none */
    const struct spt_life_law *candidates;
};

/* The caller's arrays; a pointer may be NULL with room 0, its part is then left out. */
struct spt_fit_workspace {
    struct spt_rank_point *points; /* room for failures + censored */
    int points_room;
    struct spt_fit_candidate *candidates; /* room for candidate_count */
    int candidates_room;
};

/* What the bounds rest on. */
enum spt_fit_basis {
    SPT_FIT_LIKELIHOOD,   /* slope and scale estimated, likelihood-ratio bounds */
    SPT_FIT_ASSUMED_SLOPE /* too few failures, or no finite slope: the slope is an assumption */
};

/* One quantity. `ratio` are the bounds to quote, `wald` the quick ones. */
struct spt_fit_quantity {
    double estimate;
    struct spt_interval ratio;
    struct spt_interval wald;
};

/* The field against the estimate. */
enum spt_fit_verdict {
    SPT_FIT_WORSE,      /* even the upper bound of the field's L10 is below the estimate */
    SPT_FIT_IN_LINE,    /* bounds hold the estimate and lie within a factor of 3 of it */
    SPT_FIT_BETTER,     /* even the lower bound is above the estimate */
    SPT_FIT_CANNOT_TELL /* bounds hold the estimate but are wider; or no estimate was given */
};
struct spt_fit_comparison {
    double factor; /* field L10 over estimated L10; NaN without a failure or an estimate */
    struct spt_interval bounds; /* of the factor, as the basis says */
    enum spt_fit_verdict verdict;
};

/* One hypothesis put to the data as it stands, nothing in it adjusted. */
struct spt_fit_candidate {
    double log_likelihood; /* -INFINITY: a failure came before its least life */
    double weight;         /* share of the likelihood among the candidates, sum 1; NaN where no
                              candidate allows the data */
};

struct spt_fit {
    enum spt_fit_basis basis;
    int failures;
    int censored;
    int found;             /* of the failures: known only to have come between two looks */
    int entered;           /* of all: known only from an age on */
    bool looks_inspected;  /* stated times of failures are shared as only inspections make them */
    int tied;              /* failures that share their stated time so; 0 without room for points */
    double tied_time;      /* the time that most of them share; NaN: none */
    double log_likelihood; /* NaN with an assumed slope, as the next four */
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
    int early_failures;   /* bearings that failed before SPT_WEIBULL_FLOOR estimated L10, the least
                           * life at that rating; 0 without an estimate */
    double first_failure; /* time of the earliest, or at which it was found; NaN without one */
    int candidate_count;  /* 0 where left out */
    int best_candidate;   /* index of the largest weight; -1: none */
};

/* Fits one set of lives.
 * Status: SPT_BAD_ARGUMENT; SPT_NO_ROOM where an array is given but too small; SPT_NOT_CONVERGED.
 *         Few failures are no failure of the fit: see `basis`. */
enum spt_status spt_fit(const struct spt_fit_inputs *inputs,
                        const struct spt_fit_workspace *workspace, struct spt_fit *fit);

/* Log-likelihood of the data under each law, and the normalised weights: equal trust in each law
 * beforehand. They rank the laws listed; a large weight does not say that a law is right.
 * Status: SPT_BAD_ARGUMENT for bad data or laws; SPT_NOT_APPLICABLE where no law allows the data
 *         (weights NaN, log-likelihoods stand). */
enum spt_status spt_fit_weigh(const struct spt_weibull_data *data, const struct spt_life_law *laws,
                              int count, struct spt_fit_candidate *candidates, int *best);

/* Field L10, with bounds, against an estimate (> 0). `factor` may be NaN, bounds.high INFINITY. */
struct spt_fit_comparison spt_fit_compare(double field_l10, struct spt_interval bounds,
                                          double estimated_l10);

/* The bounds of the field's L10 that hold: of the likelihood ratio, or with the assumed slope. */
struct spt_interval spt_fit_l10_bounds(const struct spt_fit *fit);

/* True where an L10 lies within these bounds; false for NaN. */
bool spt_fit_holds(const struct spt_fit *fit, double l10);

/* Bounds of the field's L10 against the band of a rating that is not known exactly. */
enum spt_fit_overlap {
    SPT_FIT_NO_BAND,    /* an end of either is NaN */
    SPT_FIT_BELOW_BAND, /* apart: even the upper bound is below the band */
    SPT_FIT_OVERLAPS,
    SPT_FIT_ABOVE_BAND /* apart: even the lower bound is above it */
};
enum spt_fit_overlap spt_fit_against_band(struct spt_interval bounds, struct spt_interval band);

#ifdef __cplusplus
}
#endif

#endif
