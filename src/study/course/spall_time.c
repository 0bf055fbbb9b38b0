/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/course/spall_time.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdlib.h>

#include "model/numeric.h"

#define NONE ((double)NAN)

/* A sample and its life, for sorting. */
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

/* Equation to solve: the survival averaged over the strata equals a wanted one. */
struct mixture {
    const struct spt_uncertainty_result *result;
    double survival;
};

/* ln of the share of machines with the inputs of one stratum that has not spalled. */
static double log_stratum(const struct spt_uncertainty_result *result, int stratum, double t_h)
{
    double sum = 0, part;
    for (int row = 0; row < SPT_BEARINGS_MAX && result->strata_h[row]; row++) {
        const struct spt_life_law law =
            spt_survival_iso_law(result->strata_h[row][stratum] / result->reliability_factor);
        if (isfinite(law.l10)) /* without load it never spalls */
            sum += spt_survival_log_fatigue(&law, t_h, &part) ? NONE : part;
    }
    return sum;
}

static double survive_mixture(double t_h, void *context)
{
    const struct mixture *mixture = context;
    const struct spt_uncertainty_result *result = mixture->result;
    double sum = 0;
    for (int i = 0; i < result->stratum_count; i++)
        if (result->strata_h[0][i] > 0) /* else failed at once */
            sum += exp(log_stratum(result, i, t_h));
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
        return SPT_OK; /* too many strata have no life: NaN */
    while (survive_mixture(high_h, &mixture) > 0 && high_h < 1e15)
        high_h *= 2;
    if (high_h >= 1e15) {
        *time_h = (double)INFINITY;
        return SPT_OK;
    }
    return spt_numeric_root(&function, 0, high_h, time_h);
}

static enum spt_status find_spall_time(const void *context, double survival, double *time_h)
{
    return spt_uncertainty_spall_time(context, 1 - survival, time_h);
}

enum spt_status spt_spall_times(struct spt_uncertainty_result *result)
{
    return spt_survival_usual_lives(find_spall_time, result, &result->time_to_spall);
}
