/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_fit.h>
#include <gsl/gsl_heapsort.h>
#include <gsl/gsl_statistics_double.h>
#include <math.h>

#include "model/numeric.h"
#include "model/statistics/turnbull.h"
#include "model/statistics/weibull_data.h"

struct rank {
    double rank;
    int n;
};

static double miss_median(double fraction, void *context)
{
    const struct rank *r = context;
    return gsl_cdf_beta_P(fraction, r->rank, r->n + 1.0 - r->rank) - 0.5;
}

/* gsl_cdf_beta_Pinv fails for a few ranks of large samples (GSL 2.7: one of the 677 of n = 677), so
 * the root is bracketed here instead */
static enum spt_status find_exact(double rank, int n, double *fraction)
{
    struct rank r = {rank, n};
    gsl_function function = {miss_median, &r};
    return spt_numeric_root(&function, 0.0, 1.0, fraction);
}

enum spt_status spt_rank_median(enum spt_rank_method method, double rank, int n, double *fraction)
{
    *fraction = (double)NAN;
    if (n < 1 || !(rank >= 1.0) || !(rank <= n))
        return SPT_BAD_ARGUMENT;
    switch (method) {
    case SPT_RANK_EXACT:
        return find_exact(rank, n, fraction);
    case SPT_RANK_BENARD:
        *fraction = (rank - 0.3) / (n + 0.4);
        return SPT_OK;
    default:
        return SPT_BAD_ARGUMENT;
    }
}

/* order by time; at equal times failures first */
static int compare_points(const void *left, const void *right)
{
    const struct spt_rank_point *a = left;
    const struct spt_rank_point *b = right;
    if (a->time != b->time)
        return a->time < b->time ? -1 : 1;
    return (a->failed < b->failed) - (a->failed > b->failed);
}

static void fill_points(const struct spt_weibull_data *data, struct spt_rank_point *points)
{
    int k = 0;
    for (int i = 0; i < data->n; i++) {
        struct spt_rank_point p = {data->times[i], (double)NAN,
                                   (double)NAN,    log(data->times[i]),
                                   (double)NAN,    spt_weibull_row_failed(data, i) ? 1.0 : 0.0};
        int count = data->counts ? data->counts[i] : 1;
        for (int j = 0; j < count; j++)
            points[k++] = p;
    }
}

enum spt_status spt_rank_points(const struct spt_weibull_data *data, enum spt_rank_method method,
                                struct spt_rank_point *points, int capacity, int *count)
{
    int failures, censored;
    double rank = 0.0;

    *count = 0;
    enum spt_status status = spt_weibull_count(data, &failures, &censored);
    if (status == SPT_OK && !points)
        status = SPT_BAD_ARGUMENT;
    if (status == SPT_OK && failures == 0)
        status = SPT_NOT_APPLICABLE;
    int total = failures + censored;
    if (status == SPT_OK && capacity < total)
        status = SPT_TOO_SMALL;
    if (status != SPT_OK)
        return status;
    if (spt_weibull_has_found(data) || spt_weibull_has_entries(data)) {
        *count = spt_turnbull_points(data, points, total);
        return SPT_OK;
    }
    fill_points(data, points);
    gsl_heapsort(points, (size_t)total, sizeof *points, compare_points);
    for (int i = 0, k = 0; i < total; i++) {
        struct spt_rank_point p = points[i];
        if (p.failed < 0.5)
            continue;
        rank += (total + 1.0 - rank) / (1.0 + (total - i));
        p.rank = fmin(rank, total); /* removes round-off: the last rank is at most N */
        status = spt_rank_median(method, p.rank, total, &p.fraction);
        if (status != SPT_OK)
            return status;
        p.y = log(-log1p(-p.fraction));
        points[k++] = p;
    }
    *count = failures;
    return SPT_OK;
}

enum spt_status spt_rank_regression(const struct spt_rank_point *points, int count,
                                    enum spt_rank_direction direction, struct spt_rank_line *line)
{
    enum { STRIDE = sizeof(struct spt_rank_point) / sizeof(double) };
    double intercept, slope, cov00, cov01, cov11, sum;
    size_t n = count > 0 ? (size_t)count : 0;

    *line = (struct spt_rank_line){{(double)NAN, (double)NAN}, (double)NAN};
    if (count > 0 && !points)
        return SPT_BAD_ARGUMENT;
    if (count < 2 || !(points[count - 1].time > points[0].time))
        return SPT_NOT_APPLICABLE;
    const double *x = &points[0].x;
    const double *y = &points[0].y;
    bool swap = direction == SPT_RANK_LIFE_ON_RANK;
    if (gsl_fit_linear(swap ? y : x, STRIDE, swap ? x : y, STRIDE, n, &intercept, &slope, &cov00,
                       &cov01, &cov11, &sum) != GSL_SUCCESS)
        return SPT_NOT_CONVERGED;
    struct spt_weibull w = {slope, exp(-intercept / slope)}; /* y = shape x - shape ln scale */
    if (swap)
        w = (struct spt_weibull){1.0 / slope, exp(intercept)};
    double r = gsl_stats_correlation(x, STRIDE, y, STRIDE, n);
    if (!isfinite(w.shape) || w.shape <= 0.0 || !isfinite(w.scale) || w.scale <= 0.0)
        return SPT_NOT_APPLICABLE;
    *line = (struct spt_rank_line){w, r * r};
    return SPT_OK;
}
