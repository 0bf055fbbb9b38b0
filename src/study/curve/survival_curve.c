/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/curve/survival_curve.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "model/numeric.h"
#include "study/course/spall_time.h"

#define NONE ((double)NAN)
#define BEFORE 0.5 /* the curve starts at this part of the earliest life that 99 % reach */
#define BEHIND 2.5 /* and ends at this many times the latest life that half reach */
#define LOW_PART 0.05
#define HIGH_PART 0.95
#define LONGEST_H 1e15

/* Surviving share of the machines of one sample; 0 where the sample has no life. */
static double survive(const struct spt_uncertainty_result *spread, int stratum, double t_h)
{
    double sum = 0;
    if (!(spread->strata_h[0][stratum] > 0))
        return 0;
    for (int row = 0; row < SPT_BEARINGS_MAX && spread->strata_h[row]; row++) {
        double l10_h = spread->strata_h[row][stratum] / spread->reliability_factor, log_share;
        const struct spt_life_law law = spt_survival_iso_law(l10_h);
        if (isfinite(l10_h) && !spt_survival_log_fatigue(&law, t_h, &log_share))
            sum += log_share;
    }
    return exp(sum);
}

static int compare(const void *left, const void *right)
{
    double a = *(const double *)left, b = *(const double *)right;
    return (a > b) - (a < b);
}

/* Surviving shares of all samples, sorted in rising order. */
static void sort_shares(const struct spt_uncertainty_result *spread, double t_h, double *shares)
{
    for (int i = 0; i < spread->stratum_count; i++)
        shares[i] = survive(spread, i, t_h);
    qsort(shares, (size_t)spread->stratum_count, sizeof *shares, compare);
}

/* Quantile `part` of the strata, each of which represents the quantile at its middle. */
static double pick(const double *shares, int count, double part)
{
    double at = fmin(fmax(part * count - 0.5, 0), count - 1);
    int below = (int)at, above = below + 1 < count ? below + 1 : below;
    return shares[below] + (at - below) * (shares[above] - shares[below]);
}

/* One edge of the band: a quantile of the samples. */
struct edge {
    const struct spt_uncertainty_result *spread;
    double part;
};

/* Equation to solve: the edge equals a surviving share. */
struct crossing {
    const struct edge *edge;
    double share;
};

static double find_excess(double t_h, void *context)
{
    double shares[SPT_SPALL_STRATA] = {0};
    const struct crossing *crossing = context;
    const struct edge *edge = crossing->edge;
    sort_shares(edge->spread, t_h, shares);
    return pick(shares, edge->spread->stratum_count, edge->part) - crossing->share;
}

/* Finds the time at which the edge falls to a surviving share: NaN where fewer machines have a
 * life, INFINITY where they outlast everything. */
static enum spt_status find_crossing(const void *context, double share, double *life_h)
{
    struct crossing crossing = {context, share};
    gsl_function function = {find_excess, &crossing};
    double high_h = 1;
    *life_h = NONE;
    if (find_excess(0, &crossing) <= 0)
        return SPT_OK;
    while (find_excess(high_h, &crossing) > 0 && high_h < LONGEST_H)
        high_h *= 2;
    if (high_h >= LONGEST_H) {
        *life_h = (double)INFINITY;
        return SPT_OK;
    }
    return spt_numeric_root(&function, 0, high_h, life_h);
}

static enum spt_status find_edge_lives(const struct spt_uncertainty_result *spread, double part,
                                       struct spt_survival_lives *lives)
{
    const struct edge edge = {spread, part};
    return spt_survival_usual_lives(find_crossing, &edge, lives);
}

static void set_times(struct spt_survival_curve *curve)
{
    double first_h = curve->lives.l1_h, last_h = curve->lives.l50_h;
    if (isfinite(curve->low_lives.l1_h))
        first_h = fmin(first_h, curve->low_lives.l1_h);
    if (isfinite(curve->high_lives.l50_h))
        last_h = fmax(last_h, curve->high_lives.l50_h);
    double steps = SPT_SURVIVAL_POINTS - 1;
    double ratio = BEHIND * last_h / (BEFORE * first_h);
    for (int i = 0; i < SPT_SURVIVAL_POINTS; i++)
        curve->times_h[i] = BEFORE * first_h * pow(ratio, i / steps);
}

static enum spt_status fill_point(const struct spt_schedule *schedule,
                                  struct spt_survival_curve *curve, int i)
{
    struct spt_schedule_point point;
    double t_h = curve->times_h[i];
    const struct spt_survival_system stated = {.fatigue_count = schedule->fatigue_count,
                                               .fatigue = schedule->fatigue};
    enum spt_status status = spt_schedule_survival(schedule, t_h, &point);
    curve->by_fatigue[i] = curve->as_stated[i] = point.fatigue;
    curve->by_grease[i] = point.grease;
    curve->by_both[i] = point.combined;
    if (!status && schedule->followed && schedule->fatigue_count)
        status = spt_survival_of_system(&stated, t_h, &curve->as_stated[i]);
    return status;
}

static void fill_band(const struct spt_uncertainty_result *spread, struct spt_survival_curve *curve)
{
    double shares[SPT_SPALL_STRATA] = {0};
    for (int i = 0; i < SPT_SURVIVAL_POINTS; i++) {
        sort_shares(spread, curve->times_h[i], shares);
        curve->low[i] = pick(shares, spread->stratum_count, LOW_PART);
        curve->high[i] = pick(shares, spread->stratum_count, HIGH_PART);
    }
}

enum spt_status spt_survival_curve(const struct spt_schedule *schedule,
                                   const struct spt_uncertainty_result *spread,
                                   struct spt_survival_curve *curve)
{
    const struct spt_survival_lives none = {NONE, NONE, NONE, NONE};
    enum spt_status status = SPT_OK;
    if (spread && spread->stratum_count < 1)
        spread = NULL;
    memset(curve, 0, sizeof *curve);
    *curve = (struct spt_survival_curve){
        .fatigue = isfinite(schedule->fatigue_lives.l10_h),
        .grease = schedule->grease_count > 0,
        .followed = schedule->followed,
        .banded = spread != NULL,
        .fatigue_lives = schedule->fatigue_lives,
        .grease_lives = schedule->grease_lives,
        .lives = schedule->combined_lives,
        .low_lives = none,
        .high_lives = none,
    };
    if (!isfinite(curve->lives.l50_h) || !(curve->lives.l1_h > 0))
        return SPT_NOT_APPLICABLE;
    if (spread)
        status = find_edge_lives(spread, LOW_PART, &curve->low_lives);
    if (!status && spread)
        status = find_edge_lives(spread, HIGH_PART, &curve->high_lives);
    set_times(curve);
    for (int i = 0; i < SPT_SURVIVAL_POINTS && !status; i++)
        status = fill_point(schedule, curve, i);
    if (!status && spread)
        fill_band(spread, curve);
    return status;
}
