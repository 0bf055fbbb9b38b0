/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_MODEL_BATCH_BLOCK_H
#define SPT_MODEL_BATCH_BLOCK_H

/* One block of points from inputs to results: inline stages for batch.c and batch_grid.c. */

#include <math.h>
#include <string.h>

#include "model/batch_plan.h"
#include "model/variants.h"
#include "model/vector_math.h"
#include "spalltime/film.h"
#include "spalltime/life.h"
#include "spalltime/water.h"

/* Short loops over blocks of POINTS keep every intermediate array in the first-level cache and let
 * each loop be vectorised; x86-64 code is built in three variants, chosen when the program loads.
 */
#define POINTS 256
#define CACHE_LINE 64 /* arrays that begin with one need no access across two */

#define EACH_POINT(i) _Pragma("omp simd") for (int i = 0; i < POINTS; i++)

#define LOG2_10 3.32192809488736234787
#define LOG2_LOG2_10                                                                               \
    1.73202084564461934114 /* log2(log2(10)), for log2 log2 Z from log10 log10 Z                   \
                            */
#define LIFE_LOG_LIMIT 1000.0
#define LOG_SMALLEST (-1000.0) /* 2^ what lies below counts as 0 */

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

/* ---- film --------------------------------------------------------------------------------- */

SPT_INLINE bool is_due(const struct spt_batch_plan *plan, const struct block *b, int c)
{
    return plan->varies[c] || b->fresh;
}

SPT_INLINE void take_logs(const double *restrict x, double *restrict logs)
{
    EACH_POINT(i)
    logs[i] = spt_vector_log2(x[i]);
}

/* The Walther line in base-2 logarithms, temperature over 256 K so that its logarithm is small. */
SPT_INLINE void find_given_line(struct block *b)
{
    const double *restrict a = b->v[SPT_BATCH_LINE_A];
    const double *restrict slope = b->v[SPT_BATCH_LINE_B];
    double *restrict offset = b->line_offset;
    EACH_POINT(i)
    offset[i] = LOG2_10 * a[i] - 8.0 * slope[i] + LOG2_LOG2_10;
    memcpy(b->line_slope, slope, sizeof b->line_slope);
}

SPT_INLINE void find_line_of_two(const struct spt_batch_plan *plan, struct block *b)
{
    const double *restrict nu40 = b->v[SPT_BATCH_NU40_MM2_S];
    const double *restrict nu100 = b->v[SPT_BATCH_NU100_MM2_S];
    double *restrict y40 = b->line_offset;
    double *restrict y100 = b->line_slope;
    EACH_POINT(i)
    {
        y40[i] = spt_vector_log2(spt_vector_log2(nu40[i] + SPT_WALTHER_CONSTANT));
        y100[i] = spt_vector_log2(spt_vector_log2(nu100[i] + SPT_WALTHER_CONSTANT));
    }
    double per_range = plan->per_log_range;
    double log_40 = plan->log_40;
    EACH_POINT(i)
    {
        double slope = (y40[i] - y100[i]) * per_range;
        y100[i] = slope;
        y40[i] += slope * log_40;
    }
}

SPT_INLINE bool line_varies(const struct spt_batch_plan *plan)
{
    return plan->varies[SPT_BATCH_LINE_A] || plan->varies[SPT_BATCH_LINE_B] ||
           plan->varies[SPT_BATCH_NU40_MM2_S] || plan->varies[SPT_BATCH_NU100_MM2_S];
}

SPT_INLINE void find_viscosity(const struct spt_batch_plan *plan, struct block *b)
{
    if (line_varies(plan) || b->fresh) {
        if (plan->present[SPT_BATCH_LINE_A])
            find_given_line(b);
        else
            find_line_of_two(plan, b);
    }
    const double *restrict temperature = b->v[SPT_BATCH_TEMPERATURE_C];
    const double *restrict offset = b->line_offset;
    const double *restrict slope = b->line_slope;
    double *restrict nu = b->nu;
    double *restrict log_nu = b->log_nu;
    EACH_POINT(i)
    log_nu[i] = spt_vector_log2((temperature[i] + SPT_ZERO_C_IN_K) * 0x1p-8);
    /* limits from memory: where they are constants, gcc makes branches of them */
    double lowest = plan->log_log_z_min;
    double highest = plan->log_log_z_max;
    EACH_POINT(i)
    {
        double log_log_z = offset[i] - slope[i] * log_nu[i];
        log_log_z = log_log_z > lowest ? log_log_z : lowest;
        log_nu[i] = spt_vector_exp2(log_log_z < highest ? log_log_z : highest);
    }
    EACH_POINT(i)
    nu[i] = spt_vector_exp2(log_nu[i]) - SPT_WALTHER_CONSTANT;
    EACH_POINT(i)
    log_nu[i] = spt_vector_log2(nu[i]);
}

SPT_INLINE void find_viscosity_where_due(const struct spt_batch_plan *plan, struct block *b)
{
    if (line_varies(plan) || is_due(plan, b, SPT_BATCH_TEMPERATURE_C))
        find_viscosity(plan, b);
    if (column_is_within(b->nu, 0.0, SPT_VISCOSITY_LARGEST_MM2_S))
        return;
    b->any_bad = true;
    for (int i = 0; i < POINTS; i++)
        if (b->nu[i] > SPT_VISCOSITY_LARGEST_MM2_S)
            b->bad[i] = 1;
}

SPT_INLINE void find_film_ratio(const struct spt_batch_plan *plan, struct block *b)
{
    if (!plan->present[SPT_BATCH_FILM_RATIO]) {
        if (b->fresh)
            fill(b->log_film, 0.0);
        return;
    }
    if (!is_due(plan, b, SPT_BATCH_FILM_RATIO))
        return;
    const double *restrict ratio = b->v[SPT_BATCH_FILM_RATIO];
    double *restrict log_film = b->log_film;
    EACH_POINT(i)
    {
        double logarithm = SPT_FILM_RATIO_EXPONENT * spt_vector_log2(ratio[i]);
        log_film[i] = ratio[i] > 0.0 ? logarithm : SPT_LOG_OF_ZERO;
    }
}

SPT_INLINE void find_kappa(const struct spt_batch_plan *plan, struct block *b)
{
    find_viscosity_where_due(plan, b);
    find_film_ratio(plan, b);
    const double *restrict speed = b->v[SPT_BATCH_SPEED_RPM];
    const double *restrict log_nu = b->log_nu;
    const double *restrict log_film = b->log_film;
    double *restrict log_speed = b->log_speed;
    double *restrict log_full = b->log_full;
    double *restrict log_kappa = b->log_kappa;
    if (!plan->kappa_varies && !b->fresh)
        return;
    if (is_due(plan, b, SPT_BATCH_SPEED_RPM))
        take_logs(speed, log_speed);
    double slow = plan->log_kappa_slow;
    double fast = plan->log_kappa_fast;
    EACH_POINT(i)
    {
        double by_slow = slow + SPT_NU1_SLOW_EXPONENT * log_speed[i];
        double by_fast = fast + 0.5 * log_speed[i];
        log_full[i] = log_nu[i] + (speed[i] < SPT_NU1_STEP_RPM ? by_slow : by_fast);
        log_kappa[i] = log_full[i] + log_film[i];
    }
}

/* ---- contamination and water -------------------------------------------------------------- */

SPT_INLINE void find_condition_e_c(const struct spt_batch_plan *plan, struct block *b)
{
    const double *restrict condition = b->v[SPT_BATCH_CONDITION];
    const double *restrict log_kappa = b->log_kappa;
    const double *restrict log_a_of = plan->log_condition_a;
    const double *restrict log_bracket_of = plan->log_condition_bracket;
    double *restrict log_e_c = b->log_e_c;
    double most = plan->log_kappa_max;
    EACH_POINT(i)
    {
        int row = (int)condition[i];
        double held = log_kappa[i] < most ? log_kappa[i] : most;
        double log_a = log_a_of[row] + SPT_EC_KAPPA_EXPONENT * held;
        log_e_c[i] = (log_a < 0.0 ? log_a : 0.0) + log_bracket_of[row];
    }
}

SPT_INLINE void find_given_e_c(struct block *b)
{
    const double *restrict given = b->v[SPT_BATCH_CONTAMINATION_FACTOR];
    double *restrict log_e_c = b->log_e_c;
    EACH_POINT(i)
    {
        double logarithm = spt_vector_log2(given[i]);
        log_e_c[i] = given[i] > 0.0 ? logarithm : SPT_LOG_OF_ZERO;
    }
    memcpy(b->e_c, given, sizeof b->e_c);
}

/* 2^x, 0 where x stands for the logarithm of 0 */
SPT_INLINE void take_powers(const double *restrict logs, double *restrict powers)
{
    EACH_POINT(i)
    {
        double power = spt_vector_exp2(logs[i]);
        powers[i] = logs[i] > LOG_SMALLEST ? power : 0.0;
    }
}

SPT_INLINE void find_contamination(const struct spt_batch_plan *plan, struct block *b,
                                   bool value_wanted)
{
    if (!plan->e_c_varies && !b->fresh)
        return;
    if (!plan->present[SPT_BATCH_CONDITION]) {
        find_given_e_c(b);
        return;
    }
    find_condition_e_c(plan, b);
    if (value_wanted)
        take_powers(b->log_e_c, b->e_c);
}

SPT_INLINE void find_water(const struct spt_batch_plan *plan, struct block *b)
{
    if (!plan->present[SPT_BATCH_WATER_PPM]) {
        if (b->fresh)
            fill(b->log_a_w, 0.0);
        return;
    }
    if (!is_due(plan, b, SPT_BATCH_WATER_PPM))
        return;
    const double *restrict water = b->v[SPT_BATCH_WATER_PPM];
    double *restrict log_a_w = b->log_a_w;
    double log_reference = spt_vector_log2(SPT_WATER_REFERENCE_PPM);
    double floor_of_log = spt_vector_log2(SPT_WATER_FLOOR);
    EACH_POINT(i)
    {
        double fall = SPT_WATER_EXPONENT * (log_reference - spt_vector_log2(water[i]));
        fall = fall > floor_of_log ? fall : floor_of_log;
        log_a_w[i] = water[i] <= SPT_WATER_REFERENCE_PPM ? 0.0 : fall;
    }
}

/* ---- life modification factor --------------------------------------------------------------- */

/* (limit - A(kappa))^outer; for balls its logarithm, which saves a power. */
SPT_INLINE void find_bracket_factor(const struct spt_batch_plan *plan, struct block *b)
{
    const double *restrict log_kappa = b->log_kappa;
    double *restrict factor = b->bracket_factor;
    const struct spt_aiso_family family = plan->family;
    double thin = plan->log_kappa_thin;
    double least = plan->difference_min;
    double most = plan->log_kappa_max;
    if (!plan->kappa_varies && !b->fresh)
        return;
    EACH_POINT(i)
    {
        double held = log_kappa[i] < most ? log_kappa[i] : most;
        double slope = held < 0.0 ? SPT_AISO_EXPONENT_MIXED : SPT_AISO_EXPONENT_FULL;
        slope = held < thin ? SPT_AISO_EXPONENT_THIN : slope;
        double coefficient = held < thin ? family.coefficient_thin : family.coefficient;
        double difference = family.limit - coefficient * spt_vector_exp2(-slope * held);
        factor[i] = difference > least ? difference : least;
    }
    if (plan->ball)
        EACH_POINT(i)
    factor[i] = family.outer * spt_vector_log2(factor[i]);
}

/* log of e_C C_u/(divisor P) */
SPT_INLINE void find_log_x(const struct spt_batch_plan *plan, struct block *b)
{
    const double *restrict log_e_c = b->log_e_c;
    const double *restrict log_limit = b->log_limit;
    const double *restrict log_load = b->log_load;
    double *restrict log_x = b->log_x;
    double divisor = plan->log_divisor;
    double lowest = plan->log_x_min;
    EACH_POINT(i)
    {
        double sum = log_e_c[i] + (log_limit[i] - divisor) - log_load[i];
        log_x[i] = sum > lowest ? sum : lowest;
    }
}

SPT_INLINE void find_brackets(const struct spt_batch_plan *plan, struct block *b)
{
    const double *restrict factor = b->bracket_factor;
    const double *restrict log_x = b->log_x;
    double *restrict bracket = b->bracket;
    double inner = plan->family.inner;
    double least = plan->bracket_least;
    if (plan->ball)
        EACH_POINT(i)
    bracket[i] = 1.0 - spt_vector_exp2(factor[i] + inner * log_x[i]);
    else EACH_POINT(i) bracket[i] = 1.0 - factor[i] * spt_vector_exp2(inner * log_x[i]);
    EACH_POINT(i)
    bracket[i] = bracket[i] > least ? bracket[i] : least;
}

SPT_INLINE void find_log_a_iso(const struct spt_batch_plan *plan, struct block *b)
{
    find_bracket_factor(plan, b);
    find_log_x(plan, b);
    find_brackets(plan, b);
    const double *restrict bracket = b->bracket;
    double *restrict log_a_iso = b->log_a_iso;
    double power = plan->family.power;
    double scale = spt_vector_log2(SPT_AISO_SCALE);
    EACH_POINT(i)
    log_a_iso[i] = scale + power * spt_vector_log2(bracket[i]);
}

/* The EP rule: kappa 1 in place of a smaller one where e_C allows it, at most 3, never less than
 * the a_ISO of the true kappa. */
SPT_INLINE void apply_ep_rule(const struct spt_batch_plan *plan, struct block *b)
{
    double difference = plan->family.limit - plan->family.coefficient;
    double factor = pow(difference, plan->family.outer);
    double most = log2(SPT_LIFE_FACTOR_EP_MAX);
    for (int i = 0; i < POINTS; i++) {
        double x_power = spt_vector_exp2(plan->family.inner * b->log_x[i]);
        double bracket = 1.0 - factor * x_power;
        bracket = bracket > plan->bracket_least ? bracket : plan->bracket_least;
        double credit = log2(SPT_AISO_SCALE) + plan->family.power * spt_vector_log2(bracket);
        bool capped = credit >= most;
        credit = capped ? most : credit;
        bool applied = b->log_kappa[i] < 0.0 && b->log_kappa[i] >= plan->log_kappa_min &&
                       b->e_c[i] >= SPT_EP_CLEANLINESS_MIN && credit > b->log_a_iso[i];
        unsigned bits =
            capped ? SPT_BATCH_EP_CREDIT | SPT_BATCH_LIFE_FACTOR_CAPPED : SPT_BATCH_EP_CREDIT;
        b->ep[i] = (unsigned char)(applied ? bits : 0u);
        b->log_a_iso[i] = applied ? credit : b->log_a_iso[i];
    }
}

/* ---- life ----------------------------------------------------------------------------------- */

SPT_INLINE void find_log_life(const struct spt_batch_plan *plan, struct block *b)
{
    const double *restrict log_rating = b->log_rating;
    const double *restrict log_load = b->log_load;
    const double *restrict log_speed = b->log_speed;
    double *restrict log_l10h = b->log_l10h;
    double exponent = plan->life_exponent;
    double hours = plan->log_hours;
    EACH_POINT(i)
    log_l10h[i] = exponent * (log_rating[i] - log_load[i]) + (hours - log_speed[i]);
}

SPT_INLINE void check_log_life(struct block *b)
{
    const double *restrict log_l10h = b->log_l10h;
    if (column_is_within(log_l10h, -LIFE_LOG_LIMIT, LIFE_LOG_LIMIT))
        return;
    b->any_bad = true;
    for (int i = 0; i < POINTS; i++)
        b->bad[i] |= !(log_l10h[i] >= -LIFE_LOG_LIMIT && log_l10h[i] <= LIFE_LOG_LIMIT);
}

/* ---- results -------------------------------------------------------------------------------- */

/* Writes `count` results and NaN for bad points. */
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
            take_powers(b->log_kappa, b->kappa);
        store(b, b->kappa, to->viscosity_ratio + at, count);
    }
    if (to->fresh_viscosity_ratio) {
        if (plan->kappa_varies || b->fresh)
            take_powers(b->log_full, b->full_kappa);
        store(b, b->full_kappa, to->fresh_viscosity_ratio + at, count);
    }
    if (to->contamination_factor)
        store(b, b->e_c, to->contamination_factor + at, count);
    if (to->water_factor) {
        if (is_due(plan, b, SPT_BATCH_WATER_PPM))
            take_powers(b->log_a_w, b->a_w);
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
        take_powers(log_l10h, result);
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

/* In 64-bit lanes beside the doubles, narrowed at the end: so the loop is vectorised. */
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

/* ---- points --------------------------------------------------------------------------------- */

/* What does not need the load. */
SPT_INLINE void find_state(const struct spt_batch_plan *plan, struct block *b, bool e_c_wanted)
{
    check_columns(plan, b);
    find_kappa(plan, b);
    find_contamination(plan, b, e_c_wanted);
    find_water(plan, b);
    if (is_due(plan, b, SPT_BATCH_DYNAMIC_LOAD_RATING_N))
        take_logs(b->v[SPT_BATCH_DYNAMIC_LOAD_RATING_N], b->log_rating);
    if (is_due(plan, b, SPT_BATCH_FATIGUE_LOAD_LIMIT_N))
        take_logs(b->v[SPT_BATCH_FATIGUE_LOAD_LIMIT_N], b->log_limit);
}

/* One block whose columns are loaded; results to element `at` on. */
SPT_INLINE void run_block(const struct spt_batch_plan *plan, struct block *b,
                          const struct spt_batch_results *to, size_t at, int count)
{
    bool ep = plan->batch->ep_additive;
    find_state(plan, b, ep || to->contamination_factor);
    if (is_due(plan, b, SPT_BATCH_EQUIVALENT_LOAD_N))
        take_logs(b->v[SPT_BATCH_EQUIVALENT_LOAD_N], b->log_load);
    find_log_life(plan, b);
    check_log_life(b);
    if (to->life_modification_factor || to->modified_rating_life_h || to->status) {
        find_log_a_iso(plan, b);
        if (ep)
            apply_ep_rule(plan, b);
    }
    store_film(plan, b, to, at, count);
    store_life(plan, b, to, at, count);
    if (to->status)
        store_status(plan, b, to->status + at, count);
    b->fresh = false;
}

#endif
