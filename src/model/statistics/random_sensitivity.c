/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_statistics_double.h>
#include <math.h>
#include <stdbool.h>

#include "spalltime/statistics.h"

static bool vary(const double *x, int n)
{
    for (int i = 1; i < n; i++)
        if (x[i] != x[0])
            return true;
    return false;
}

static bool are_finite(const double *x, int n)
{
    if (!x)
        return false;
    for (int i = 0; i < n; i++)
        if (!isfinite(x[i]))
            return false;
    return true;
}

enum spt_status spt_random_rank_correlation(const double *x, const double *y, int n, double *work,
                                            double *correlation)
{
    *correlation = (double)NAN;
    if (n < 2 || !work || !are_finite(x, n) || !are_finite(y, n))
        return SPT_BAD_ARGUMENT;
    if (!vary(x, n) || !vary(y, n))
        return SPT_NOT_APPLICABLE;
    *correlation = gsl_stats_spearman(x, 1, y, 1, (size_t)n, work);
    return isfinite(*correlation) ? SPT_OK : SPT_NOT_CONVERGED;
}

enum spt_status spt_random_variance_share(const double *a, const double *b, const double *mixed,
                                          int n, struct spt_random_share *share)
{
    double first = 0.0;
    double total = 0.0;

    *share = (struct spt_random_share){(double)NAN, (double)NAN};
    if (n < 2 || !are_finite(a, n) || !are_finite(b, n) || !are_finite(mixed, n))
        return SPT_BAD_ARGUMENT;
    double mean = 0.5 * (gsl_stats_mean(a, 1, (size_t)n) + gsl_stats_mean(b, 1, (size_t)n));
    double variance = 0.5 * (gsl_stats_variance_with_fixed_mean(a, 1, (size_t)n, mean) +
                             gsl_stats_variance_with_fixed_mean(b, 1, (size_t)n, mean));
    if (!(variance > 0.0) || !isfinite(variance))
        return SPT_NOT_APPLICABLE;
    for (int i = 0; i < n; i++) {
        first += (b[i] - mean) * (mixed[i] - a[i]); /* centred: less scatter, same expected value */
        total += 0.5 * (a[i] - mixed[i]) * (a[i] - mixed[i]);
    }
    *share = (struct spt_random_share){first / n / variance, total / n / variance};
    return SPT_OK;
}
