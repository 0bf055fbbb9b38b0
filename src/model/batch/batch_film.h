/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_BATCH_FILM_H
#define MODEL_BATCH_BATCH_FILM_H

/* Viscosity, kappa, e_C and water factor of one block: the quantities that do not depend on the
 * load. */

#include "model/batch/batch_arrays.h"
#include "spalltime/lubricant.h"

#define LOG2_10 3.32192809488736234787
/* log2(log2(10)), for log2 log2 Z from log10 log10 Z */
#define LOG2_LOG2_10 1.73202084564461934114
#define LOG_SMALLEST (-1000.0) /* 2^x counts as 0 for smaller x */

/* ---- film --------------------------------------------------------------------------------- */

SPT_INLINE bool is_due(const struct spt_batch_plan *plan, const struct block *b, int c)
{
    return plan->varies[c] || b->fresh;
}

SPT_INLINE void compute_logs(const double *restrict x, double *restrict logs)
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
    /* limits are loaded from memory, because gcc turns constant ones into branches */
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
        compute_logs(speed, log_speed);
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
SPT_INLINE void compute_powers(const double *restrict logs, double *restrict powers)
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
        compute_powers(b->log_e_c, b->e_c);
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

#endif
