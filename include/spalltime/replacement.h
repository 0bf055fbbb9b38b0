/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_REPLACEMENT_H
#define SPT_REPLACEMENT_H

#include "spalltime/status.h"
#include "spalltime/weibull.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Share that survives t (>= 0), falling from 1 to 0, in any one unit of time. It may be called at
 * any t >= 0 and must not return NaN. */
typedef double (*spt_survival_function)(double t, const void *context);

/* What a change costs, in any one currency. */
struct spt_replacement_costs {
    double planned; /* > 0: changed at the planned age */
    double failure; /* > planned to make a plan worth while: changed after it failed */
};

/* A plan: changed at `age`, or at failure where that comes first. */
struct spt_replacement {
    double age;            /* T, in the unit of the survival function */
    double survival;       /* share that reaches the planned age, R(T) */
    double mean_cycle;     /* mean time between changes, integral of R from 0 to T */
    double cost_rate;      /* C(T) = (planned R + failure F)/mean_cycle, a unit of time */
    double mean_life;      /* without a plan */
    double cost_rate_none; /* without a plan, failure/mean_life */
};

/* Cost rate and the rest for a given age (> 0). Lives are counted up to where 1e-17 survive: a
 * survival that falls no faster than 1/t has no mean life, and the one given is that cut short.
 * Status: SPT_BAD_ARGUMENT for costs or age that are not finite and > 0, or a survival outside 0
 *         to 1; SPT_NOT_CONVERGED where an integral is not found.
 * Source: Barlow and Proschan, Mathematical Theory of Reliability, 1965 (renewal reward). */
enum spt_status spt_replacement_at(spt_survival_function survival, const void *context,
                                   const struct spt_replacement_costs *costs, double age,
                                   struct spt_replacement *result);

/* The age with the least cost rate, searched from 1e-6 of the median life until all have failed,
 * and narrowed down to about 1e-7.
 * Status: as above; SPT_NOT_APPLICABLE where no age saves more than 1e-9 of the cost of running
 *         to failure (a constant or falling failure rate, or failure no dearer than planned). The
 *         result then holds the values without a plan, with age INFINITY. */
enum spt_status spt_replacement_optimum(spt_survival_function survival, const void *context,
                                        const struct spt_replacement_costs *costs,
                                        struct spt_replacement *result);

/* The same for Weibull lives, narrowed down to rounding by the first-order condition
 * h(T) integral_0^T R - F(T) = planned/(failure - planned). */
enum spt_status spt_replacement_weibull(const struct spt_weibull *weibull,
                                        const struct spt_replacement_costs *costs,
                                        struct spt_replacement *result);

/* A fleet: positions that carry such a bearing, and how long each runs in a year. */
struct spt_replacement_fleet {
    double positions;     /* > 0 */
    double time_per_year; /* > 0, in the unit of the ages */
};

/* What a year brings in the long run. */
struct spt_replacement_year {
    double failures;      /* with the plan, N t F(T)/mean_cycle */
    double planned;       /* planned changes, N t R(T)/mean_cycle */
    double failures_none; /* without a plan, N t/mean_life */
    double cost;
    double cost_none;
};

/* In:     a result of the functions above (also the one that comes with SPT_NOT_APPLICABLE). */
enum spt_status spt_replacement_yearly(const struct spt_replacement *plan,
                                       const struct spt_replacement_costs *costs,
                                       const struct spt_replacement_fleet *fleet,
                                       struct spt_replacement_year *year);

#ifdef __cplusplus
}
#endif

#endif
