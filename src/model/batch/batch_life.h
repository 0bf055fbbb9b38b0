/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_BATCH_LIFE_H
#define MODEL_BATCH_BATCH_LIFE_H

/* a_ISO and the lives of one block, in logarithms. */

#include "model/batch/batch_film.h"
#include "spalltime/life.h"

#define LIFE_LOG_LIMIT 1000.0

/* ---- life modification factor --------------------------------------------------------------- */

/* (limit - A(kappa))^outer; for balls the logarithm of it, which saves a power. */
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

/* The EP rule: where e_C allows it, kappa = 1 in place of a smaller kappa; a_ISO is at most 3 and
 * never less than that of the actual kappa. */
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

#endif
