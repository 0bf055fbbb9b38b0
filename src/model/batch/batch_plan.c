/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/batch/batch_plan.h"

#include <math.h>

#include "base/table.h"
#include "model/bearing/bearing_type.h"
#include "spalltime/life.h"
#include "spalltime/lubricant.h"

#define MAGNITUDE_MIN 1e-100
#define MAGNITUDE_MAX 1e100

const struct spt_batch_limits spt_batch_limits[] = {
    [SPT_BATCH_DYNAMIC_LOAD_RATING_N] = {MAGNITUDE_MIN, MAGNITUDE_MAX, 1e5},
    [SPT_BATCH_FATIGUE_LOAD_LIMIT_N] = {MAGNITUDE_MIN, MAGNITUDE_MAX, 1e4},
    [SPT_BATCH_SPEED_RPM] = {MAGNITUDE_MIN, MAGNITUDE_MAX, 500.0},
    [SPT_BATCH_EQUIVALENT_LOAD_N] = {MAGNITUDE_MIN, MAGNITUDE_MAX, 1e4},
    /* the smallest double above absolute zero */
    [SPT_BATCH_TEMPERATURE_C] = {-SPT_ZERO_C_IN_K * (1.0 - 0x1p-53), SPT_TEMPERATURE_MAX_C, 70.0},
    [SPT_BATCH_LINE_A] = {-MAGNITUDE_MAX, MAGNITUDE_MAX, 9.5},
    [SPT_BATCH_LINE_B] = {MAGNITUDE_MIN, MAGNITUDE_MAX, 3.7},
    [SPT_BATCH_NU40_MM2_S] = {SPT_VISCOSITY_SMALLEST_MM2_S, SPT_VISCOSITY_LARGEST_MM2_S, 150.0},
    [SPT_BATCH_NU100_MM2_S] = {SPT_VISCOSITY_SMALLEST_MM2_S, SPT_VISCOSITY_LARGEST_MM2_S, 15.0},
    [SPT_BATCH_CONDITION] = {0.0, SPT_CLEANLINESS_COUNT - 1, 0.0},
    [SPT_BATCH_CONTAMINATION_FACTOR] = {0.0, 1.0, 0.5},
    [SPT_BATCH_WATER_PPM] = {0.0, 1e6, 100.0},
    [SPT_BATCH_FILM_RATIO] = {0.0, 1.0, 1.0},
};
SPT_ONE_EACH(spt_batch_limits, SPT_BATCH_VARIABLE_COUNT);

static bool is_magnitude(double value)
{
    return value >= MAGNITUDE_MIN && value <= MAGNITUDE_MAX;
}

static bool is_factor(double value)
{
    return value >= 0.01 && value <= 100.0;
}

static bool members_are_valid(const struct spt_batch *batch)
{
    return spt_bearing_is_type(batch->type) && is_magnitude(batch->pitch_diameter_mm) &&
           is_factor(batch->density_factor) && is_factor(batch->reliability_factor);
}

static bool columns_are_complete(const bool *present)
{
    static const enum spt_batch_variable needed[] = {
        SPT_BATCH_DYNAMIC_LOAD_RATING_N, SPT_BATCH_FATIGUE_LOAD_LIMIT_N, SPT_BATCH_SPEED_RPM,
        SPT_BATCH_EQUIVALENT_LOAD_N, SPT_BATCH_TEMPERATURE_C};
    for (size_t i = 0; i < sizeof needed / sizeof needed[0]; i++)
        if (!present[needed[i]])
            return false;
    return present[SPT_BATCH_LINE_A] == present[SPT_BATCH_LINE_B] &&
           present[SPT_BATCH_NU40_MM2_S] == present[SPT_BATCH_NU100_MM2_S] &&
           present[SPT_BATCH_LINE_A] != present[SPT_BATCH_NU40_MM2_S] &&
           present[SPT_BATCH_CONDITION] != present[SPT_BATCH_CONTAMINATION_FACTOR];
}

static void find_varying(struct spt_batch_plan *plan)
{
    static const enum spt_batch_variable film[] = {
        SPT_BATCH_SPEED_RPM,  SPT_BATCH_TEMPERATURE_C, SPT_BATCH_LINE_A,    SPT_BATCH_LINE_B,
        SPT_BATCH_NU40_MM2_S, SPT_BATCH_NU100_MM2_S,   SPT_BATCH_FILM_RATIO};
    const bool *varies = plan->varies;
    plan->kappa_varies = false;
    for (size_t i = 0; i < sizeof film / sizeof film[0]; i++)
        plan->kappa_varies |= varies[film[i]];
    plan->e_c_varies = plan->present[SPT_BATCH_CONDITION]
                           ? plan->kappa_varies || varies[SPT_BATCH_CONDITION]
                           : varies[SPT_BATCH_CONTAMINATION_FACTOR];
}

static void fill_bearing_terms(struct spt_batch_plan *plan)
{
    static const struct spt_aiso_family ball = SPT_AISO_BALL;
    static const struct spt_aiso_family roller = SPT_AISO_ROLLER;
    enum spt_bearing_type type = plan->batch->type;
    plan->ball = spt_bearing_is_ball(type);
    plan->family = plan->ball ? ball : roller;
    plan->life_exponent = spt_life_exponent(type);
    plan->log_divisor = 0.0;
    if (spt_bearing_is_thrust(type))
        plan->log_divisor =
            log2(plan->ball ? SPT_AISO_THRUST_BALL_DIVISOR : SPT_AISO_THRUST_ROLLER_DIVISOR);
    plan->log_a1 = log2(plan->batch->reliability_factor);
    plan->log_hours = log2(SPT_MREV / SPT_MINUTES_PER_HOUR);
    plan->log_x_min = -1000.0;
    plan->difference_min = plan->ball ? 0x1p-60 : 0.0;
    plan->bracket_least = pow(SPT_LIFE_FACTOR_MAX / SPT_AISO_SCALE, 1.0 / plan->family.power);
}

static void fill_film_terms(struct spt_batch_plan *plan)
{
    double log_pitch = log2(plan->batch->pitch_diameter_mm);
    double log_density = log2(plan->batch->density_factor);
    plan->log_kappa_slow = 0.5 * log_pitch + log_density - log2(SPT_NU1_SLOW_COEFFICIENT);
    plan->log_kappa_fast = 0.5 * log_pitch + log_density - log2(SPT_NU1_FAST_COEFFICIENT);
    plan->log_kappa_min = log2(SPT_KAPPA_MIN);
    plan->log_kappa_max = log2(SPT_KAPPA_MAX);
    plan->log_kappa_thin = log2(SPT_AISO_KAPPA_THIN);
    plan->log_log_z_min = -60.0; /* nu 0.3 */
    plan->log_log_z_max = 6.0;   /* nu 2^64 */
    plan->log_40 = log2((40.0 + SPT_ZERO_C_IN_K) / 256.0);
    plan->per_log_range = 1.0 / log2((100.0 + SPT_ZERO_C_IN_K) / (40.0 + SPT_ZERO_C_IN_K));
}

static void fill_condition_terms(struct spt_batch_plan *plan)
{
    double pitch = plan->batch->pitch_diameter_mm;
    for (int i = 0; i < SPT_CLEANLINESS_COUNT; i++) {
        struct spt_cleanliness_constants k =
            spt_cleanliness_constants((enum spt_cleanliness)i, pitch);
        double bracket = 1.0 - k.b / cbrt(pitch);
        plan->log_condition_a[i] = log2(k.c) + SPT_EC_PITCH_EXPONENT * log2(pitch);
        plan->log_condition_bracket[i] = bracket > 0.0 ? log2(bracket) : SPT_LOG_OF_ZERO;
    }
}

enum spt_status spt_batch_plan_make(const struct spt_batch *batch, struct spt_batch_plan *plan)
{
    plan->batch = batch;
    for (int i = 0; i < SPT_BATCH_VARIABLE_COUNT; i++) {
        plan->present[i] = batch->columns[i].values != NULL;
        plan->varies[i] = plan->present[i] && batch->columns[i].stride != 0;
    }
    if (!members_are_valid(batch) || !columns_are_complete(plan->present))
        return SPT_BAD_ARGUMENT;
    find_varying(plan);
    fill_bearing_terms(plan);
    fill_film_terms(plan);
    if (plan->present[SPT_BATCH_CONDITION])
        fill_condition_terms(plan);
    return SPT_OK;
}
