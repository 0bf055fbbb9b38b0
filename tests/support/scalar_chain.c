/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/scalar_chain.h"

#include <math.h>

#include "spalltime/life.h"
#include "spalltime/lubricant.h"

static double get(const struct spt_batch *batch, enum spt_batch_variable c, size_t i)
{
    return batch->columns[c].values[i * batch->columns[c].stride];
}

static bool has(const struct spt_batch *batch, enum spt_batch_variable c)
{
    return batch->columns[c].values != NULL;
}

static enum spt_status find_viscosity(const struct spt_batch *batch, size_t i, double *nu)
{
    struct spt_walther line;
    if (has(batch, SPT_BATCH_LINE_A)) {
        line =
            (struct spt_walther){get(batch, SPT_BATCH_LINE_A, i), get(batch, SPT_BATCH_LINE_B, i)};
    } else if (spt_viscosity_line(40.0, get(batch, SPT_BATCH_NU40_MM2_S, i), 100.0,
                                  get(batch, SPT_BATCH_NU100_MM2_S, i), &line) != SPT_OK) {
        *nu = (double)NAN;
        return SPT_BAD_ARGUMENT;
    }
    return spt_viscosity_at(&line, get(batch, SPT_BATCH_TEMPERATURE_C, i), nu);
}

static bool find_film(const struct spt_batch *batch, size_t i, double *nu, double *kappa)
{
    double nu1;
    double full;
    double ratio = has(batch, SPT_BATCH_FILM_RATIO) ? get(batch, SPT_BATCH_FILM_RATIO, i) : 1.0;
    return find_viscosity(batch, i, nu) == SPT_OK &&
           spt_film_reference_viscosity(get(batch, SPT_BATCH_SPEED_RPM, i),
                                        batch->pitch_diameter_mm, &nu1) == SPT_OK &&
           spt_film_viscosity_ratio(*nu, nu1, batch->density_factor, &full) == SPT_OK &&
           spt_film_effective_ratio(full, ratio, kappa) == SPT_OK;
}

static bool find_e_c(const struct spt_batch *batch, size_t i, double kappa, double *e_c)
{
    if (!has(batch, SPT_BATCH_CONDITION)) {
        *e_c = get(batch, SPT_BATCH_CONTAMINATION_FACTOR, i);
        return *e_c >= 0.0 && *e_c <= 1.0;
    }
    double condition = get(batch, SPT_BATCH_CONDITION, i);
    *e_c = 0.0; /* no film: kappa^0.68 is 0, but the scalar function requires kappa > 0 */
    if (!(condition >= 0.0 && condition < SPT_CLEANLINESS_COUNT && condition == floor(condition)))
        return false;
    return kappa == 0.0 ||
           spt_cleanliness_factor((enum spt_cleanliness)condition, fmin(kappa, SPT_KAPPA_MAX),
                                  batch->pitch_diameter_mm, e_c) == SPT_OK;
}

static unsigned char find_bits(const struct spt_batch *batch, size_t i, double nu, double kappa,
                               const struct spt_life_factor *factor)
{
    unsigned bits = 0;
    double water = has(batch, SPT_BATCH_WATER_PPM) ? get(batch, SPT_BATCH_WATER_PPM, i) : 0.0;
    if (kappa < SPT_KAPPA_MIN)
        bits |= SPT_BATCH_FILM_TOO_THIN;
    if (kappa > SPT_KAPPA_MAX)
        bits |= SPT_BATCH_FILM_CAPPED;
    if (factor->capped)
        bits |= SPT_BATCH_LIFE_FACTOR_CAPPED;
    if (factor->ep_applied)
        bits |= SPT_BATCH_EP_CREDIT;
    if (water > SPT_WATER_TESTED_PPM)
        bits |= SPT_BATCH_WATER_EXTRAPOLATED;
    if (get(batch, SPT_BATCH_EQUIVALENT_LOAD_N, i) >
        0.5 * get(batch, SPT_BATCH_DYNAMIC_LOAD_RATING_N, i))
        bits |= SPT_BATCH_OVERLOAD;
    if (nu < 2.0)
        bits |= SPT_BATCH_VISCOSITY_RANGE;
    return (unsigned char)bits;
}

static bool find_life(const struct spt_batch *batch, size_t i, struct scalar_point *point,
                      struct spt_life_factor *factor)
{
    double l10_mrev;
    double speed = get(batch, SPT_BATCH_SPEED_RPM, i);
    struct spt_life_factor_inputs in = {batch->type,
                                        point->contamination_factor,
                                        get(batch, SPT_BATCH_FATIGUE_LOAD_LIMIT_N, i),
                                        get(batch, SPT_BATCH_EQUIVALENT_LOAD_N, i),
                                        point->viscosity_ratio,
                                        batch->ep_additive};
    if (in.viscosity_ratio == 0.0)
        in.viscosity_ratio = 1e-300; /* no film: not applicable rather than a bad argument */
    enum spt_status status = spt_life_factor(&in, factor);
    if (status != SPT_OK && status != SPT_NOT_APPLICABLE)
        return false;
    if (spt_life_basic(batch->type, get(batch, SPT_BATCH_DYNAMIC_LOAD_RATING_N, i),
                       in.equivalent_load_n, &l10_mrev) != SPT_OK ||
        spt_life_hours(l10_mrev, speed, &point->basic_rating_life_h) != SPT_OK)
        return false;
    point->life_modification_factor = factor->a_iso;
    point->modified_rating_life_h = batch->reliability_factor * factor->a_iso *
                                    point->water_factor * point->basic_rating_life_h;
    return true;
}

struct scalar_point scalar_chain(const struct spt_batch *batch, size_t i)
{
    const double none = (double)NAN;
    const struct scalar_point bad = {none, none, none, none, none, none, SPT_BATCH_BAD_INPUT};
    struct scalar_point point = bad;
    struct spt_life_factor factor;
    double nu;
    double water = has(batch, SPT_BATCH_WATER_PPM) ? get(batch, SPT_BATCH_WATER_PPM, i) : 0.0;
    if (!find_film(batch, i, &nu, &point.viscosity_ratio) ||
        !find_e_c(batch, i, point.viscosity_ratio, &point.contamination_factor) ||
        spt_water_factor(water, &point.water_factor) != SPT_OK ||
        !find_life(batch, i, &point, &factor))
        return bad;
    point.status = find_bits(batch, i, nu, point.viscosity_ratio, &factor);
    return point;
}
