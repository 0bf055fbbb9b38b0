/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/fit.h"

#include <gsl/gsl_heapsort.h>
#include <math.h>

#include "model/statistics/weibull_data.h"

#define NONE ((double)NAN)
#define NO_QUANTITY                                                                                \
    {                                                                                              \
        NONE, {NONE, NONE},                                                                        \
        {                                                                                          \
            NONE, NONE                                                                             \
        }                                                                                          \
    }

static const struct spt_fit empty = {
    .basis = SPT_FIT_ASSUMED_SLOPE,
    .log_likelihood = NONE,
    .slope = NO_QUANTITY,
    .scale = NO_QUANTITY,
    .l10 = NO_QUANTITY,
    .l50 = NO_QUANTITY,
    .assumed = {NONE, 0, {NONE, NONE}, {NONE, NONE}, NONE},
    .life_on_rank = {{NONE, NONE}, NONE},
    .rank_on_life = {{NONE, NONE}, NONE},
    .comparison = {NONE, {NONE, NONE}, SPT_FIT_CANNOT_TELL},
    .tied_time = NONE,
    .first_failure = NONE,
    .best_candidate = -1,
};

static bool is_positive(double x)
{
    return isfinite(x) && x > 0.0;
}

static enum spt_status check_inputs(const struct spt_fit_inputs *in,
                                    const struct spt_fit_workspace *space, struct spt_fit *fit)
{
    if (!(in->confidence > 0.0) || !(in->confidence < 1.0) || !is_positive(in->assumed_slope) ||
        (!isnan(in->estimated_l10) && !is_positive(in->estimated_l10)) || in->candidate_count < 0 ||
        (in->candidate_count > 0 && !in->candidates))
        return SPT_BAD_ARGUMENT;
    if (spt_weibull_count(&in->data, &fit->failures, &fit->censored) != SPT_OK)
        return SPT_BAD_ARGUMENT;
    if ((space->points && space->points_capacity < fit->failures + fit->censored) ||
        (space->candidates && space->candidates_capacity < in->candidate_count))
        return SPT_TOO_SMALL;
    return SPT_OK;
}

static enum spt_status bound(const struct spt_weibull_data *data, const struct spt_weibull_fit *ml,
                             struct spt_weibull_interval_inputs wanted,
                             struct spt_fit_quantity *quantity)
{
    enum spt_status status = SPT_OK;

    if (wanted.quantity == SPT_WEIBULL_SHAPE)
        quantity->estimate = ml->weibull.shape;
    else if (wanted.quantity == SPT_WEIBULL_SCALE)
        quantity->estimate = ml->weibull.scale;
    else
        status = spt_weibull_quantile(&ml->weibull, wanted.failed_fraction, &quantity->estimate);
    if (status == SPT_OK)
        status = spt_weibull_wald(ml, &wanted, &quantity->wald);
    if (status == SPT_OK)
        status = spt_weibull_ratio(data, ml, &wanted, &quantity->ratio);
    return status;
}

static void count_kinds(const struct spt_weibull_data *data, struct spt_fit *fit)
{
    for (int i = 0; i < data->n; i++) {
        if (spt_weibull_row_found(data, i))
            fit->found += (int)spt_weibull_row_count(data, i);
        if (spt_weibull_row_from(data, i) > 0.0)
            fit->entered += (int)spt_weibull_row_count(data, i);
    }
}

static int compare_times(const void *left, const void *right)
{
    const struct spt_rank_point *a = left, *b = right;
    return (a->time > b->time) - (a->time < b->time);
}

/* rows of failures at a stated time into the points, `rank` holds the count */
static int gather_stated(const struct spt_weibull_data *data, struct spt_rank_point *points)
{
    int rows = 0;
    for (int i = 0; i < data->n; i++)
        if (spt_weibull_row_failed(data, i) && !spt_weibull_row_found(data, i))
            points[rows++] = (struct spt_rank_point){.time = data->times[i],
                                                     .rank = spt_weibull_row_count(data, i)};
    gsl_heapsort(points, (size_t)rows, sizeof *points, compare_times);
    return rows;
}

/* machines do not fail at equal times: these are the times of the inspections that found the
 * failures */
static void find_ties(const struct spt_fit_inputs *in, const struct spt_fit_workspace *space,
                      struct spt_fit *fit)
{
    struct spt_rank_point *points = space->points;
    int rows = points ? gather_stated(&in->data, points) : 0, largest = 0;
    for (int i = 0, next; i < rows; i = next) {
        int here = 0;
        for (next = i; next < rows && points[next].time == points[i].time; next++)
            here += (int)points[next].rank;
        if (here < SPT_FIT_TIED_MIN)
            continue;
        fit->tied += here;
        if (here > largest) {
            largest = here;
            fit->tied_time = points[i].time;
        }
    }
    fit->looks_inspected =
        fit->tied > 0 && fit->tied >= SPT_FIT_TIED_SHARE * (fit->failures - fit->found);
}

static enum spt_status bound_all(const struct spt_fit_inputs *in, const struct spt_weibull_fit *ml,
                                 struct spt_fit *fit)
{
    const struct {
        enum spt_weibull_quantity quantity;
        double failed_fraction;
        struct spt_fit_quantity *to;
    } wanted[] = {{SPT_WEIBULL_SHAPE, 0.0, &fit->slope},
                  {SPT_WEIBULL_SCALE, 0.0, &fit->scale},
                  {SPT_WEIBULL_LIFE, 0.10, &fit->l10},
                  {SPT_WEIBULL_LIFE, 0.50, &fit->l50}};
    enum spt_status status = SPT_OK;

    for (int i = 0; i < 4 && status == SPT_OK; i++) {
        const struct spt_weibull_interval_inputs inputs = {
            wanted[i].quantity, wanted[i].failed_fraction, in->confidence};
        status = bound(&in->data, ml, inputs, wanted[i].to);
    }
    return status;
}

/* Maximum likelihood; leaves the basis at the assumed slope where there is too little to fit. With
 * late records the likelihood may be so flat down to slopes near 0 that the lives of the best
 * slope, or their bounds, overflow: such data do not determine a slope either. */
static enum spt_status fit_likelihood(const struct spt_fit_inputs *in, struct spt_fit *fit)
{
    struct spt_fit bounded = *fit;
    struct spt_weibull_fit ml;

    if (fit->failures < SPT_FIT_FAILURES_MIN)
        return SPT_OK;
    enum spt_status status = spt_weibull_fit(&in->data, &ml);
    if (status == SPT_OK)
        status = bound_all(in, &ml, &bounded);
    if (status == SPT_NOT_APPLICABLE || status == SPT_NOT_CONVERGED)
        return SPT_OK;
    *fit = bounded;
    fit->log_likelihood = ml.log_likelihood;
    fit->basis = SPT_FIT_LIKELIHOOD;
    return status;
}

/* without such a bearing the points lack the share that failed before all records began */
static bool any_from_new(const struct spt_weibull_data *data)
{
    for (int i = 0; i < data->n; i++)
        if (spt_weibull_row_from(data, i) <= 0.0)
            return true;
    return false;
}

static enum spt_status fit_ranks(const struct spt_fit_inputs *in,
                                 const struct spt_fit_workspace *space, struct spt_fit *fit)
{
    if (!space->points || fit->failures == 0)
        return SPT_OK;
    enum spt_status status = spt_rank_points(&in->data, in->rank_method, space->points,
                                             space->points_capacity, &fit->point_count);
    if (status != SPT_OK || fit->failures < SPT_FIT_FAILURES_MIN || !any_from_new(&in->data))
        return status; /* a line through two points always fits exactly */
    enum spt_status lines[2] = {spt_rank_regression(space->points, fit->point_count,
                                                    SPT_RANK_LIFE_ON_RANK, &fit->life_on_rank),
                                spt_rank_regression(space->points, fit->point_count,
                                                    SPT_RANK_RANK_ON_LIFE, &fit->rank_on_life)};
    for (int i = 0; i < 2; i++)
        if (lines[i] != SPT_OK && lines[i] != SPT_NOT_APPLICABLE)
            return lines[i];
    return SPT_OK;
}

struct spt_fit_comparison spt_fit_compare(double field_l10, struct spt_interval bounds,
                                          double estimated_l10)
{
    struct spt_fit_comparison c = {NONE, {NONE, NONE}, SPT_FIT_CANNOT_TELL};

    if (!is_positive(estimated_l10) || !(bounds.low >= 0.0) || !(bounds.high >= bounds.low))
        return c;
    c.factor = field_l10 / estimated_l10;
    c.bounds.low = bounds.low / estimated_l10;
    c.bounds.high = bounds.high / estimated_l10;
    if (c.bounds.high < 1.0)
        c.verdict = SPT_FIT_WORSE;
    else if (c.bounds.low > 1.0)
        c.verdict = SPT_FIT_BETTER;
    else if (c.bounds.low * SPT_FIT_IN_LINE_FACTOR >= 1.0 &&
             c.bounds.high <= SPT_FIT_IN_LINE_FACTOR)
        c.verdict = SPT_FIT_IN_LINE;
    return c;
}

static void compare(const struct spt_fit_inputs *in, struct spt_fit *fit)
{
    if (fit->basis == SPT_FIT_LIKELIHOOD) {
        fit->comparison = spt_fit_compare(fit->l10.estimate, fit->l10.ratio, in->estimated_l10);
        return;
    }
    double l10;
    const struct spt_weibull w = {fit->assumed.shape, fit->assumed.scale_estimate};
    if (spt_weibull_quantile(&w, 0.10, &l10) != SPT_OK)
        l10 = NONE; /* no failure, no estimate */
    fit->comparison = spt_fit_compare(l10, fit->assumed.l10, in->estimated_l10);
}

/* Failures that are impossible under any law with the estimated L10: they have another cause, or
 * the estimate is far off. */
static void find_early(const struct spt_fit_inputs *in, struct spt_fit *fit)
{
    const struct spt_weibull_data *data = &in->data;
    for (int i = 0; i < data->n; i++) {
        if (!spt_weibull_row_failed(data, i))
            continue;
        fit->first_failure = fmin(fit->first_failure, data->times[i]);
        if (data->times[i] < SPT_WEIBULL_FLOOR * in->estimated_l10)
            fit->early_failures += (int)spt_weibull_row_count(data, i);
    }
}

/* ln [R(a) - R(b)]; -INFINITY where the law has no failure between them */
static enum spt_status find_log_between(const struct spt_life_law *law, double a, double b,
                                        double *term)
{
    double at_a, at_b;
    enum spt_status status = spt_survival_log_fatigue(law, a, &at_a);
    if (status == SPT_OK)
        status = spt_survival_log_fatigue(law, b, &at_b);
    if (status == SPT_OK)
        *term = at_a + log(-expm1(at_b - at_a));
    return status;
}

static enum spt_status find_term(const struct spt_weibull_data *data, int i,
                                 const struct spt_life_law *law, double *term)
{
    double from = spt_weibull_row_from(data, i), before = 0.0;
    enum spt_status status;
    if (spt_weibull_row_found(data, i))
        status = find_log_between(law, spt_weibull_row_sound(data, i), data->times[i], term);
    else if (spt_weibull_row_failed(data, i))
        status = spt_survival_log_density(law, data->times[i], term);
    else
        status = spt_survival_log_fatigue(law, data->times[i], term);
    if (status == SPT_OK)
        status = spt_survival_log_fatigue(law, from, &before);
    *term -= before;
    return status;
}

static enum spt_status add_log_likelihood(const struct spt_weibull_data *data,
                                          const struct spt_life_law *law, double *sum)
{
    *sum = 0.0;
    for (int i = 0; i < data->n; i++) {
        double term = 0.0;
        enum spt_status status = find_term(data, i, law, &term);
        if (status != SPT_OK)
            return status;
        *sum += spt_weibull_row_count(data, i) * term;
    }
    return SPT_OK;
}

enum spt_status spt_fit_weigh(const struct spt_weibull_data *data, const struct spt_life_law *laws,
                              int count, struct spt_fit_candidate *candidates, int *best)
{
    int failures, censored;
    double largest = -(double)INFINITY;
    double sum = 0.0;

    *best = -1;
    if (!laws || !candidates)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < count; i++)
        candidates[i] = (struct spt_fit_candidate){NONE, NONE};
    if (count < 1 || spt_weibull_count(data, &failures, &censored) != SPT_OK)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < count; i++) {
        enum spt_status status = add_log_likelihood(data, &laws[i], &candidates[i].log_likelihood);
        if (status != SPT_OK)
            return status;
        if (candidates[i].log_likelihood > largest) {
            largest = candidates[i].log_likelihood;
            *best = i;
        }
    }
    if (*best < 0)
        return SPT_NOT_APPLICABLE;
    for (int i = 0; i < count; i++)
        sum += exp(candidates[i].log_likelihood - largest);
    for (int i = 0; i < count; i++)
        candidates[i].weight = exp(candidates[i].log_likelihood - largest) / sum;
    return SPT_OK;
}

enum spt_status spt_fit(const struct spt_fit_inputs *inputs,
                        const struct spt_fit_workspace *workspace, struct spt_fit *fit)
{
    struct spt_fit found = empty;

    *fit = empty;
    enum spt_status status = check_inputs(inputs, workspace, &found);
    if (status == SPT_OK)
        status = spt_weibull_assumed_slope(&inputs->data, inputs->assumed_slope,
                                           0.5 + 0.5 * inputs->confidence, &found.assumed);
    if (status == SPT_OK)
        status = fit_likelihood(inputs, &found);
    if (status == SPT_OK) {
        count_kinds(&inputs->data, &found);
        find_ties(inputs, workspace, &found);
    }
    if (status == SPT_OK)
        status = fit_ranks(inputs, workspace, &found);
    if (status == SPT_OK) {
        compare(inputs, &found);
        find_early(inputs, &found);
    }
    if (status == SPT_OK && workspace->candidates && inputs->candidate_count > 0) {
        found.candidate_count = inputs->candidate_count;
        status = spt_fit_weigh(&inputs->data, inputs->candidates, inputs->candidate_count,
                               workspace->candidates, &found.best_candidate);
        if (status == SPT_NOT_APPLICABLE)
            status = SPT_OK; /* no candidate allows the data: best_candidate says so */
    }
    if (status == SPT_OK)
        *fit = found;
    return status;
}

struct spt_interval spt_fit_l10_bounds(const struct spt_fit *fit)
{
    return fit->basis == SPT_FIT_LIKELIHOOD ? fit->l10.ratio : fit->assumed.l10;
}

bool spt_fit_holds(const struct spt_fit *fit, double l10)
{
    const struct spt_interval bounds = spt_fit_l10_bounds(fit);
    return l10 >= bounds.low && l10 <= bounds.high;
}

enum spt_fit_overlap spt_fit_against_band(struct spt_interval bounds, struct spt_interval band)
{
    if (isnan(bounds.low) || isnan(bounds.high) || isnan(band.low) || isnan(band.high))
        return SPT_FIT_NO_BAND;
    if (bounds.high < band.low)
        return SPT_FIT_BELOW_BAND;
    return bounds.low > band.high ? SPT_FIT_ABOVE_BAND : SPT_FIT_OVERLAPS;
}
