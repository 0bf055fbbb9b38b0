/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#include <math.h>

#include "base/table.h"
#include "model/bearing/bearing_type.h"

#define OIL_HALF_AGE 5.99     /* median grease life over 1 % grease life, by the survival below */
#define FRESH_LAYER 4.0       /* r of fresh grease */
#define SURVIVAL_RATE 0.01005 /* -ln 0.99: t_f is the 1 % life */
#define SURVIVAL_SLOPE 2.366  /* ln(ln 0.9 / ln 0.99) / ln 2.7 */
#define FACTOR_TEMPERATURE_C 70.0
#define FACTOR_HALVING_K 15.0

static const double dust_factors[] = {1.0, 0.7, 0.4, 0.2};
SPT_ONE_EACH(dust_factors, SPT_DUST_COUNT);
static const double moisture_factors[] = {1.0, 0.7, 0.4, 0.1};
SPT_ONE_EACH(moisture_factors, SPT_MOISTURE_COUNT);
static const double vibration_factors[] = {1.0, 0.6, 0.3};
SPT_ONE_EACH(vibration_factors, SPT_VIBRATION_COUNT);
static const double shaft_factors[] = {1.0, 0.5, 0.3};
SPT_ONE_EACH(shaft_factors, SPT_SHAFT_COUNT);

static bool is_positive(double value)
{
    return value > 0.0 && isfinite(value);
}

static bool are_surroundings(const struct spt_surroundings *around)
{
    return (int)around->dust >= 0 && around->dust < SPT_DUST_COUNT && (int)around->moisture >= 0 &&
           around->moisture < SPT_MOISTURE_COUNT && (int)around->vibration >= 0 &&
           around->vibration < SPT_VIBRATION_COUNT && (int)around->shaft >= 0 &&
           around->shaft < SPT_SHAFT_COUNT;
}

static double get_temperature_factor(double temperature_c)
{
    return fmin(1.0, exp2((FACTOR_TEMPERATURE_C - temperature_c) / FACTOR_HALVING_K));
}

enum spt_status spt_grease_interval(enum spt_bearing_type type, double bore_mm, double speed_rpm,
                                    double temperature_c, const struct spt_surroundings *around,
                                    struct spt_grease_interval *result)
{
    const double none = (double)NAN;
    *result = (struct spt_grease_interval){none, none, none, none, none, none, none, none};
    if (!spt_bearing_is_type(type) || !is_positive(bore_mm) || !is_positive(speed_rpm) ||
        !(temperature_c >= SPT_COLDEST_C && temperature_c <= SPT_HOTTEST_C) ||
        !are_surroundings(around))
        return SPT_BAD_ARGUMENT;
    result->bracket_h = 14e6 / (speed_rpm * sqrt(bore_mm)) - 4.0 * bore_mm;
    result->type_factor = spt_bearing_type_data(type)->grease.interval_factor;
    result->temperature_factor = get_temperature_factor(temperature_c);
    result->dust_factor = dust_factors[around->dust];
    result->moisture_factor = moisture_factors[around->moisture];
    result->vibration_factor = vibration_factors[around->vibration];
    result->shaft_factor = shaft_factors[around->shaft];
    if (!(result->bracket_h > 0.0))
        return SPT_NOT_APPLICABLE;
    result->interval_h = result->bracket_h * result->type_factor * result->temperature_factor *
                         result->dust_factor * result->moisture_factor * result->vibration_factor *
                         result->shaft_factor;
    return SPT_OK;
}

/* Starvation law: film thickness over the fully flooded one, for an oil layer r times the flooded
 * film. */
static double get_starved_ratio(double r)
{
    return r / cbrt(1.0 + r * r * r);
}

enum spt_status spt_grease_state(double tau, struct spt_grease_state *state)
{
    const double none = (double)NAN;
    *state = (struct spt_grease_state){none, none, none, none};
    if (!(tau >= 0.0 && isfinite(tau)))
        return SPT_BAD_ARGUMENT;
    state->tau = tau;
    state->oil_left = exp2(-tau / OIL_HALF_AGE);
    double bleedable = fmax(0.0, 2.0 * state->oil_left - 1.0);
    state->film_ratio = get_starved_ratio(FRESH_LAYER * bleedable) / get_starved_ratio(FRESH_LAYER);
    state->survival = exp(-SURVIVAL_RATE * pow(tau, SURVIVAL_SLOPE));
    return SPT_OK;
}

enum spt_status spt_grease_quantity(double outside_diameter_mm, double width_mm, double *grams)
{
    *grams = (double)NAN;
    if (!is_positive(outside_diameter_mm) || !is_positive(width_mm))
        return SPT_BAD_ARGUMENT;
    *grams = 0.005 * outside_diameter_mm * width_mm;
    return SPT_OK;
}

double spt_grease_speed_limit(enum spt_bearing_type type)
{
    return spt_bearing_is_type(type) ? spt_bearing_type_data(type)->grease.speed_limit
                                     : (double)NAN;
}
