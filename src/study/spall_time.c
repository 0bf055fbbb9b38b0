/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/spall_time.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdlib.h>

#include "model/numeric.h"

#define NONE ((double)NAN)

/* A sample and its life, to be put in order. */
struct place {
    double life_h; /* 0: none */
    double sample;
};

static int compare_places(const void *left, const void *right)
{
    const struct place *a = left, *b = right;
    if (a->life_h != b->life_h)
        return a->life_h < b->life_h ? -1 : 1;
    return (a->sample > b->sample) - (a->sample < b->sample);
}

void spt_spall_strata(const double *system_lives, double *const *row_lives, int rows, int count,
                      double *scratch, struct spt_uncertainty_result *result)
{
    int strata = count < SPT_SPALL_STRATA ? count : SPT_SPALL_STRATA;
    struct place *places = (struct place *)scratch; /* two doubles each: half of the scratch */
    for (int i = 0; i < count; i++)
        places[i] = (struct place){isnan(system_lives[i]) ? 0 : system_lives[i], i};
    qsort(places, (size_t)count, sizeof *places, compare_places);
    result->stratum_count = strata;
    for (int row = 0; row < rows; row++) {
        double *lives_h = scratch + 2L * count + (long)row * strata;
        for (int i = 0; i < strata; i++) {
            const struct place *place = &places[(long)((i + 0.5) * count / strata)];
            lives_h[i] = place->life_h > 0 ? row_lives[row][(long)place->sample] : 0;
        }
        result->strata_h[row] = lives_h;
    }
}

/* The averaged survival, against a wanted one. */
struct mixture {
    const struct spt_uncertainty_result *result;
    double survival;
};

/* Exponent of the law of one row over ln(1/0.9), as spt_survival_fatigue without its checks. */
static double wear(double t_h, double l10_h)
{
    double excess = (t_h / l10_h - SPT_WEIBULL_FLOOR) / (1 - SPT_WEIBULL_FLOOR);
    return excess > 0 ? excess * sqrt(excess) : 0;
}

static double survive_mixture(double t_h, void *context)
{
    const struct mixture *mixture = context;
    const struct spt_uncertainty_result *result = mixture->result;
    double sum = 0;
    for (int i = 0; i < result->stratum_count; i++) {
        double exponent = 0;
        if (!(result->strata_h[0][i] > 0))
            continue; /* failed at once */
        for (int row = 0; row < SPT_BEARINGS_MAX && result->strata_h[row]; row++)
            exponent += wear(t_h, result->strata_h[row][i] / result->reliability_factor);
        sum += exp(log1p(-0.1) * exponent);
    }
    return sum / result->stratum_count - mixture->survival;
}

enum spt_status spt_uncertainty_spall_time(const struct spt_uncertainty_result *result, double p,
                                           double *time_h)
{
    struct mixture mixture = {result, 1 - p};
    gsl_function function = {survive_mixture, &mixture};
    double high_h = 1;
    *time_h = NONE;
    if (!(p > 0) || !(p < 1))
        return SPT_BAD_ARGUMENT;
    if (survive_mixture(0, &mixture) <= 0)
        return SPT_OK; /* more than that have no life: NaN */
    while (survive_mixture(high_h, &mixture) > 0 && high_h < 1e15)
        high_h *= 2;
    if (high_h >= 1e15) {
        *time_h = (double)INFINITY;
        return SPT_OK;
    }
    return spt_numeric_root(&function, 0, high_h, time_h);
}

enum spt_status spt_spall_times(struct spt_uncertainty_result *result)
{
    struct spt_survival_lives *lives = &result->time_to_spall;
    enum spt_status status = spt_uncertainty_spall_time(result, 0.50, &lives->l50_h);
    if (!status)
        status = spt_uncertainty_spall_time(result, 0.10, &lives->l10_h);
    if (!status)
        status = spt_uncertainty_spall_time(result, 0.05, &lives->l5_h);
    if (!status)
        status = spt_uncertainty_spall_time(result, 0.01, &lives->l1_h);
    return status;
}
