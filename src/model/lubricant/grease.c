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
#define LOAD_FALL 13.863 /* per unit of P/C, beyond the last node (our choice) */
#define LARGE_BORE_MM 300.0

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

struct node {
    double load_share, factor;
};
static const struct node roller_nodes[] = {{0.10, 1.0}, {0.15, 0.7}, {0.25, 0.4}, {0.35, 0.1}};
static const struct node ball_nodes[] = {
    {0.05, 1.0}, {0.10, 0.7}, {0.125, 0.5}, {0.25, 0.2}, {0.35, 0.1}};
#define COUNT(array) (int)(sizeof(array) / sizeof *(array))

/* Log-linear between the nodes. */
static double get_load_factor(enum spt_bearing_type type, double load_share)
{
    const bool ball = spt_bearing_is_ball(type);
    const struct node *nodes = ball ? ball_nodes : roller_nodes;
    const int count = ball ? COUNT(ball_nodes) : COUNT(roller_nodes);
    const struct node *last = &nodes[count - 1];
    if (load_share <= nodes[0].load_share)
        return nodes[0].factor;
    for (int i = 1; i < count; i++)
        if (load_share <= nodes[i].load_share) {
            double part = (load_share - nodes[i - 1].load_share) /
                          (nodes[i].load_share - nodes[i - 1].load_share);
            return nodes[i - 1].factor * pow(nodes[i].factor / nodes[i - 1].factor, part);
        }
    return last->factor * exp(-LOAD_FALL * (load_share - last->load_share));
}

static bool are_inputs(const struct spt_grease_inputs *in)
{
    return spt_bearing_is_type(in->type) && is_positive(in->bore_mm) &&
           is_positive(in->speed_rpm) && in->load_share >= 0.0 && isfinite(in->load_share) &&
           in->temperature_c >= SPT_COLDEST_C && in->temperature_c <= SPT_HOTTEST_C &&
           are_surroundings(&in->around) &&
           (!in->outer_turns ||
            (in->outside_diameter_mm > in->bore_mm && isfinite(in->outside_diameter_mm)));
}

enum spt_status spt_grease_interval(const struct spt_grease_inputs *in,
                                    struct spt_grease_interval *result)
{
    const double none = (double)NAN;
    *result = (struct spt_grease_interval){none, none, none, none, none, none,
                                           none, none, none, none, none};
    if (!are_inputs(in))
        return SPT_BAD_ARGUMENT;
    result->ring_speed_rpm = in->speed_rpm;
    if (in->outer_turns)
        result->ring_speed_rpm *=
            2.0 * in->outside_diameter_mm / (in->bore_mm + in->outside_diameter_mm);
    result->bracket_h = 14e6 / (result->ring_speed_rpm * sqrt(in->bore_mm)) - 4.0 * in->bore_mm;
    result->type_factor = spt_bearing_type_data(in->type)->grease.interval_factor;
    result->temperature_factor = get_temperature_factor(in->temperature_c);
    result->dust_factor = dust_factors[in->around.dust];
    result->moisture_factor = moisture_factors[in->around.moisture];
    result->vibration_factor = vibration_factors[in->around.vibration];
    result->shaft_factor = shaft_factors[in->around.shaft];
    result->load_factor = get_load_factor(in->type, in->load_share);
    result->size_factor = in->bore_mm > LARGE_BORE_MM ? 0.5 : 1.0;
    if (!(result->bracket_h > 0.0))
        return SPT_NOT_APPLICABLE;
    result->interval_h = result->bracket_h * result->type_factor * result->temperature_factor *
                         result->dust_factor * result->moisture_factor * result->vibration_factor *
                         result->shaft_factor * result->load_factor * result->size_factor;
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
