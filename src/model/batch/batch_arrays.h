/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_BATCH_ARRAYS_H
#define MODEL_BATCH_BATCH_ARRAYS_H

/* The arrays of one block of points, and the functions that fill them from the columns. */

#include <math.h>
#include <string.h>

#include "base/variants.h"
#include "model/batch/batch_plan.h"
#include "model/batch/vector_math.h"

/* Blocks of POINTS keep every intermediate array in the first-level cache, and each short loop over
 * a block can be vectorised; x86-64 code is compiled in three variants, selected when the program
 * loads. */
#define POINTS 256
#define CACHE_LINE 64 /* aligned to it, no vector access crosses two cache lines */

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
    double log_film[POINTS];  /* including its exponent */
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
    bool fresh;   /* first block: constants are not yet evaluated */
};

/* ---- input -------------------------------------------------------------------------------- */

SPT_INLINE void fill(double *to, double value)
{
    for (int i = 0; i < POINTS; i++)
        to[i] = value;
}

/* Sets the block's pointer to column `c` at point `first`, or copies the values where they are too
 * few or strided. */
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

/* A constant out of range makes every point invalid; it is replaced by a valid value. */
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

/* Marks the points of column `c` that are out of range and replaces their values by valid ones. */
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

/* Marks conditions that are not integers. */
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

/* Marks oils whose viscosity does not decrease with temperature. */
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

/* Marks invalid points and replaces their values by valid ones, so that the arithmetic is safe. */
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
