/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_BATCH_RESULTS_H
#define MODEL_BATCH_BATCH_RESULTS_H

/* Writes the results of a block of points to the arrays of the caller. */

#include "model/batch/batch_life.h"

/* Writes `count` results, NaN for invalid points. */
SPT_INLINE void store(const struct block *b, const double *restrict result, double *restrict to,
                      int count)
{
    memcpy(to, result, (size_t)count * sizeof *to);
    if (b->any_bad)
        for (int i = 0; i < count; i++)
            if (b->bad[i])
                to[i] = (double)NAN;
}

SPT_INLINE void store_film(const struct spt_batch_plan *plan, struct block *b,
                           const struct spt_batch_results *to, size_t at, int count)
{
    if (to->viscosity_ratio) {
        if (plan->kappa_varies || b->fresh)
            compute_powers(b->log_kappa, b->kappa);
        store(b, b->kappa, to->viscosity_ratio + at, count);
    }
    if (to->fresh_viscosity_ratio) {
        if (plan->kappa_varies || b->fresh)
            compute_powers(b->log_full, b->full_kappa);
        store(b, b->full_kappa, to->fresh_viscosity_ratio + at, count);
    }
    if (to->contamination_factor)
        store(b, b->e_c, to->contamination_factor + at, count);
    if (to->water_factor) {
        if (is_due(plan, b, SPT_BATCH_WATER_PPM))
            compute_powers(b->log_a_w, b->a_w);
        store(b, b->a_w, to->water_factor + at, count);
    }
}

SPT_INLINE void store_life(const struct spt_batch_plan *plan, struct block *b,
                           const struct spt_batch_results *to, size_t at, int count)
{
    const double *restrict log_kappa = b->log_kappa;
    const double *restrict log_a_iso = b->log_a_iso;
    const double *restrict log_a_w = b->log_a_w;
    const double *restrict log_l10h = b->log_l10h;
    const double *restrict bracket = b->bracket;
    double *restrict result = b->result;
    double thinnest = plan->log_kappa_min;
    double least = plan->bracket_least;
    if (to->life_modification_factor) {
        EACH_POINT(i)
        {
            double a_iso = spt_vector_exp2(log_a_iso[i]);
            a_iso = bracket[i] > least ? a_iso : SPT_LIFE_FACTOR_MAX;
            result[i] = log_kappa[i] < thinnest ? (double)NAN : a_iso;
        }
        store(b, result, to->life_modification_factor + at, count);
    }
    if (to->basic_rating_life_h) {
        compute_powers(log_l10h, result);
        store(b, result, to->basic_rating_life_h + at, count);
    }
    if (to->modified_rating_life_h) {
        double log_a1 = plan->log_a1;
        EACH_POINT(i)
        {
            double life = spt_vector_exp2(log_a1 + log_a_iso[i] + log_a_w[i] + log_l10h[i]);
            result[i] = log_kappa[i] < thinnest ? (double)NAN : life;
        }
        store(b, result, to->modified_rating_life_h + at, count);
    }
}

/* In 64-bit lanes like the doubles, narrowed to bytes at the end, so that the loop is
 * vectorised. */
SPT_INLINE void find_status(const struct spt_batch_plan *plan, struct block *b)
{
    bool has_water = plan->present[SPT_BATCH_WATER_PPM];
    const double *restrict water = has_water ? b->v[SPT_BATCH_WATER_PPM] : b->log_a_w; /* 0 */
    const double *restrict load = b->v[SPT_BATCH_EQUIVALENT_LOAD_N];
    const double *restrict rating = b->v[SPT_BATCH_DYNAMIC_LOAD_RATING_N];
    const double *restrict log_kappa = b->log_kappa;
    const double *restrict bracket = b->bracket;
    const double *restrict nu = b->nu;
    uint64_t *restrict bits = b->bits;
    double thinnest = plan->log_kappa_min;
    double most = plan->log_kappa_max;
    double least = plan->bracket_least;
    EACH_POINT(i)
    {
        uint64_t set = bracket[i] <= least ? SPT_BATCH_LIFE_FACTOR_CAPPED : 0u;
        set = log_kappa[i] < thinnest ? SPT_BATCH_FILM_TOO_THIN : set;
        set |= log_kappa[i] > most ? SPT_BATCH_FILM_CAPPED : 0u;
        set |= water[i] > SPT_WATER_TESTED_PPM ? SPT_BATCH_WATER_EXTRAPOLATED : 0u;
        set |= load[i] > SPT_OVERLOAD_RATIO * rating[i] ? SPT_BATCH_OVERLOAD : 0u;
        set |= nu[i] < SPT_VISCOSITY_PLAIN_MIN_MM2_S ? SPT_BATCH_VISCOSITY_RANGE : 0u;
        bits[i] = set;
    }
}

SPT_INLINE void store_status(const struct spt_batch_plan *plan, struct block *b,
                             unsigned char *restrict to, int count)
{
    find_status(plan, b);
    const uint64_t *restrict bits = b->bits;
    for (int i = 0; i < count; i++)
        to[i] = (unsigned char)bits[i];
    if (plan->batch->ep_additive)
        for (int i = 0; i < count; i++)
            if (b->ep[i])
                to[i] |= b->ep[i];
    if (b->any_bad)
        for (int i = 0; i < count; i++)
            if (b->bad[i])
                to[i] = SPT_BATCH_BAD_INPUT;
}

#endif
