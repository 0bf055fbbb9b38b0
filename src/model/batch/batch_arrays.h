/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_BATCH_ARRAYS_H
#define MODEL_BATCH_BATCH_ARRAYS_H

/* The arrays of one block of points, and how the columns come into them. */

#include <math.h>
#include <string.h>

#include "base/variants.h"
#include "model/batch/batch_plan.h"
#include "model/batch/vector_math.h"

/* Short loops over blocks of POINTS keep every intermediate array in the first-level cache and let
 * each loop be vectorised; x86-64 code is built in three variants, chosen when the program loads.
 */
#define POINTS 256
#define CACHE_LINE 64 /* arrays that begin with one need no access across two */

#define EACH_POINT(i) _Pragma("omp simd") for (int i = 0; i < POINTS; i++)

/* The arrays of one block. `log` is the base-2 logarithm. */
struct block {
    const double *v[SPT_BATCH_VARIABLE_COUNT]; /* inputs: the caller's memory or `held` */
    _Alignas(CACHE_LINE) double held[SPT_BATCH_VARIABLE_COUNT][POINTS];
    double line_offset[POINTS]; /* log log Z = line_offset - slope log(T/256) */
    double line_slope[POINTS];
    double nu[POINTS];
    double log_nu[POINTS];
    double log_speed[POINTS];
    double log_load[POINTS];
    double log_rating[POINTS];
    double log_limit[POINTS]; /* C_u */
    double log_film[POINTS];  /* exponent included */
    double log_full[POINTS];  /* kappa of the full film */
    double full_kappa[POINTS];
    double log_kappa[POINTS];
    double kappa[POINTS];
    double log_e_c[POINTS];
    double e_c[POINTS];
    double log_a_w[POINTS];
    double a_w[POINTS];
    double log_x[POINTS];
    double bracket_factor[POINTS]; /* (limit - A)^outer; for balls its logarithm */
    double bracket[POINTS];
    double log_a_iso[POINTS];
    double log_l10h[POINTS];
    double result[POINTS];
    unsigned char bad[POINTS];
    unsigned char ep[POINTS]; /* status bits of the EP rule */
    uint64_t bits[POINTS];
    bool any_bad;
    bool all_bad; /* a constant is bad */
    bool fresh;   /* no block was worked out before: constants are still to do */
};

/* ---- input -------------------------------------------------------------------------------- */

SPT_INLINE void fill(double *to, double value)
{
    for (int i = 0; i < POINTS; i++)
        to[i] = value;
}

/* Points the block at column `c` from `first` on, or copies it where it is short or strided. */
SPT_INLINE void load_column(struct block *b, int c, const struct spt_batch_column *column,
                            size_t first, int count)
{
    const double *from = column->values + first * column->stride;
    if (column->stride == 1 && count == POINTS) {
        b->v[c] = from;
        return;
    }
    for (int i = 0; i < count; i++)
        b->held[c][i] = from[(size_t)i * column->stride];
    for (int i = count; i < POINTS; i++)
        b->held[c][i] = spt_batch_limits[c].harmless;
    b->v[c] = b->held[c];
}

/* A bad constant makes every point bad; a harmless one stands in for it. */
SPT_INLINE void load_constants(const struct spt_batch_plan *plan, struct block *b)
{
    b->fresh = true;
    b->all_bad = false;
    for (int c = 0; c < SPT_BATCH_VARIABLE_COUNT; c++)
        if (plan->present[c] && !plan->varies[c]) {
            struct spt_batch_limits limits = spt_batch_limits[c];
            double value = plan->batch->columns[c].values[0];
            bool good = value >= limits.low && value <= limits.high;
            b->all_bad |= !good;
            fill(b->held[c], good ? value : limits.harmless);
            b->v[c] = b->held[c];
        }
}

SPT_INLINE bool column_is_within(const double *restrict x, double low, double high)
{
    long long outside = 0;
#pragma omp simd reduction(+ : outside)
    for (int i = 0; i < POINTS; i++)
        outside += ((x[i] >= low) & (x[i] <= high)) ? 0 : 1;
    return outside == 0;
}

/* Marks the bad points of column `c` and puts harmless values in their place. */
SPT_INLINE void replace_bad(struct block *b, int c)
{
    struct spt_batch_limits limits = spt_batch_limits[c];
    for (int i = 0; i < POINTS; i++) {
        double x = b->v[c][i];
        bool good = x >= limits.low && x <= limits.high;
        b->bad[i] |= !good;
        b->held[c][i] = good ? x : limits.harmless;
    }
    b->v[c] = b->held[c];
    b->any_bad = true;
}

/* Marks conditions that are no whole number. */
SPT_INLINE void mark_fractions(struct block *b)
{
    const double *restrict condition = b->v[SPT_BATCH_CONDITION];
    long long found = 0;
#pragma omp simd reduction(+ : found)
    for (int i = 0; i < POINTS; i++)
        found += condition[i] != (double)(int)condition[i] ? 1 : 0;
    if (found == 0)
        return;
    b->any_bad = true;
    for (int i = 0; i < POINTS; i++)
        b->bad[i] |= condition[i] != (double)(int)condition[i];
}

/* Marks oils that do not thin when they warm up. */
SPT_INLINE void mark_lines(struct block *b)
{
    const double *restrict nu40 = b->v[SPT_BATCH_NU40_MM2_S];
    const double *restrict nu100 = b->v[SPT_BATCH_NU100_MM2_S];
    for (int i = 0; i < POINTS; i++) {
        bool good = nu40[i] > nu100[i];
        b->bad[i] |= !good;
        b->any_bad |= !good;
    }
}

/* Leaves values in all columns that the arithmetic can bear, and marks the points they stand in
 * for. */
SPT_INLINE void check_columns(const struct spt_batch_plan *plan, struct block *b)
{
    b->any_bad = b->all_bad;
    memset(b->bad, b->all_bad, sizeof b->bad);
    for (int c = 0; c < SPT_BATCH_VARIABLE_COUNT; c++)
        if (plan->varies[c] &&
            !column_is_within(b->v[c], spt_batch_limits[c].low, spt_batch_limits[c].high))
            replace_bad(b, c);
    if (plan->present[SPT_BATCH_CONDITION])
        mark_fractions(b);
    if (plan->present[SPT_BATCH_NU40_MM2_S])
        mark_lines(b);
}

#endif
