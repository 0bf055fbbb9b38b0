/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/life/greasing.h"

#include <math.h>

#include "spalltime/service.h"

#define ESTIMATE_MARGIN_K 10.0 /* the heat balance is good to 10 to 15 K (our choice) */
#define MONTH_DAYS 30.5        /* so that a cap of whole months is a step of the days kept */

static bool stands(const struct spt_phase *phase)
{
    return !(phase->speed_rpm > 0) && phase->time_share > 0;
}

static void take_harsher(struct spt_surroundings *around, const struct spt_surroundings *other)
{
    if (other->dust > around->dust)
        around->dust = other->dust;
    if (other->moisture > around->moisture)
        around->moisture = other->moisture;
}

static bool is_unstated(const struct spt_condition *state, enum spt_surrounding surrounding)
{
    return state->surroundings_assumed >> surrounding & 1u;
}

bool spt_condition_is_unknown(const struct spt_condition *state)
{
    return state->class_source == SPT_CLASS_UNKNOWN && isnan(state->contamination_factor);
}

/* Of dirt that is not known nothing milder is said than the worst. */
int spt_condition_dust_implied(const struct spt_condition *state)
{
    if (spt_condition_is_unknown(state))
        return is_unstated(state, SPT_SURROUNDING_DUST) ? SPT_SURROUNDINGS_HARSHEST : 0;
    return isnan(state->contamination_factor)
               ? (int)state->cleanliness - (int)spt_cleanliness_first(SPT_LUBRICATION_GREASE)
               : spt_surroundings_dust_implied(state->contamination_factor);
}

bool spt_condition_is_wet_cold(const struct spt_case *question, const struct spt_condition *state,
                               double *free_ppm)
{
    const enum spt_solubility kind = question->lubricant.solubility;
    const double known_ppm = state->water_assumed && !(state->water_ppm > 0) ? 0 : state->water_ppm;
    double slight_ppm;
    if (spt_water_free(kind, known_ppm, state->coldest_c, free_ppm) ||
        spt_water_free(kind, known_ppm / SPT_WATER_FINDING, state->coldest_c, &slight_ppm))
        return false;
    return slight_ppm > 0;
}

/* By the water; where no moisture is stated by seal and surroundings too, and humid where nothing
 * is known of either. */
int spt_condition_moisture_implied(const struct spt_condition *state)
{
    const int implied = spt_surroundings_moisture_implied(state->water_ppm);
    int least = 0;
    if (!is_unstated(state, SPT_SURROUNDING_MOISTURE))
        return implied;
    least = spt_seal_inflow(&state->sealing).moisture;
    if (least < 0)
        least = state->water_assumed ? (int)SPT_MOISTURE_HUMID : 0;
    return implied < least ? least : implied;
}

bool spt_case_lacks_dirt(const struct spt_case *question, int *bearing, int *phase)
{
    if (question->lubricant.kind != SPT_LUBRICATION_GREASE)
        return false;
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const struct spt_condition *state = &question->bearings[i].phases[j].condition;
            if (!spt_condition_is_unknown(state) || !is_unstated(state, SPT_SURROUNDING_DUST))
                continue;
            *bearing = i;
            *phase = j;
            return true;
        }
    return false;
}

/* The surroundings of one phase by itself, those that are not stated inferred. */
static struct spt_surroundings infer(const struct spt_case *question,
                                     const struct spt_bearing *bearing,
                                     const struct spt_condition *state)
{
    struct spt_surroundings around = state->surroundings;
    double free_ppm;
    int dust = is_unstated(state, SPT_SURROUNDING_DUST) ? -1 : (int)around.dust;
    int moisture = is_unstated(state, SPT_SURROUNDING_MOISTURE) ? -1 : (int)around.moisture;
    around.dust = (enum spt_dust)spt_surroundings_level(dust, spt_condition_dust_implied(state));
    around.moisture =
        (enum spt_moisture)spt_surroundings_level(moisture, spt_condition_moisture_implied(state));
    if (around.moisture < SPT_MOISTURE_CONDENSATION &&
        spt_condition_is_wet_cold(question, state, &free_ppm))
        around.moisture = SPT_MOISTURE_CONDENSATION;
    if (is_unstated(state, SPT_SURROUNDING_VIBRATION))
        around.vibration = question->vehicle_hub ? SPT_VIBRATION_MEDIUM : SPT_VIBRATION_LOW;
    if (is_unstated(state, SPT_SURROUNDING_SHAFT))
        around.shaft =
            spt_bearing_is_thrust(bearing->type) ? SPT_SHAFT_VERTICAL : SPT_SHAFT_HORIZONTAL;
    return around;
}

/* The condition with dirt and water cured, where they are in the set. */
static struct spt_condition cure(const struct spt_condition *state, unsigned cured)
{
    struct spt_condition better = *state;
    if (cured >> SPT_CAUSE_DEBRIS & 1u) {
        better.cleanliness = spt_cleanliness_first(SPT_LUBRICATION_GREASE);
        better.contamination_factor = (double)NAN;
        better.class_source = SPT_CLASS_STATED;
    }
    if (cured >> SPT_CAUSE_WATER & 1u)
        better.water_ppm = fmin(better.water_ppm, SPT_WATER_REFERENCE_PPM);
    return better;
}

struct spt_surroundings spt_phase_surroundings(const struct spt_case *question, int bearing_index,
                                               const struct spt_phase *phase, unsigned cured)
{
    const struct spt_bearing_case *part = &question->bearings[bearing_index];
    struct spt_condition state = cure(&phase->condition, cured);
    if (question->lubricant.kind != SPT_LUBRICATION_GREASE)
        return state.surroundings;
    struct spt_surroundings around = infer(question, &part->bearing, &state);
    for (int i = 0; i < part->phase_count; i++)
        if (stands(&part->phases[i])) {
            state = cure(&part->phases[i].condition, cured);
            const struct spt_surroundings at_rest = infer(question, &part->bearing, &state);
            take_harsher(&around, &at_rest);
        }
    return around;
}

enum spt_status spt_phase_grease_interval(const struct spt_bearing *bearing,
                                          const struct spt_phase *phase, double temperature_c,
                                          double load_n, const struct spt_surroundings *around,
                                          struct spt_grease_interval *interval)
{
    const double margin_k = isnan(phase->temperature_c) ? ESTIMATE_MARGIN_K : 0;
    const struct spt_grease_inputs in = {
        .type = bearing->type,
        .bore_mm = bearing->bore_mm,
        .outside_diameter_mm = bearing->outside_diameter_mm,
        .outer_turns = bearing->outer_turns,
        .speed_rpm = phase->speed_rpm,
        .load_share = load_n / bearing->dynamic_load_rating_n,
        .temperature_c = fmin(temperature_c + margin_k, SPT_HOTTEST_C),
        .around = *around,
    };
    return spt_grease_interval(&in, interval);
}

double spt_duty_grease_interval(const struct spt_phase_result *phases, int count)
{
    double rate_per_h = 0;
    bool any = false;
    for (int i = 0; i < count; i++) {
        const struct spt_phase *phase = phases[i].phase;
        if (!(phase->speed_rpm > 0) || !(phase->time_share > 0))
            continue;
        rate_per_h += phase->time_share / phases[i].interval.interval_h;
        any = true;
    }
    return any ? 1 / rate_per_h : (double)NAN;
}

/* Notes why a bearing cannot be greased: a phase that turns has no interval, or is too hot. */
static void note_failure(const struct spt_bearing_result *bearing, struct spt_greasing *greasing)
{
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *result = &bearing->phases[i];
        if (!(result->phase->speed_rpm > 0) || !(result->phase->time_share > 0))
            continue;
        greasing->too_fast |= isnan(result->interval.interval_h);
        greasing->too_hot |= spt_notes_has(&result->notes, SPT_FLAG_GREASE_HOT);
    }
}

static bool turns(const struct spt_bearing_result *bearing)
{
    for (int i = 0; i < bearing->phase_count; i++)
        if (bearing->phases[i].phase->speed_rpm > 0 && bearing->phases[i].phase->time_share > 0)
            return true;
    return false;
}

static int find_months(const struct spt_case *question, const struct spt_bearing_result *bearing,
                       int months)
{
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *result = &bearing->phases[i];
        int cap = spt_regreasing_months(&result->surroundings, question->vehicle_hub);
        if (result->phase->time_share > 0 && (!months || cap < months))
            months = cap;
    }
    return months;
}

/* Rounds down to what a workshop keeps, in hours and with yearly hours in days. */
static void round_down(const struct spt_case *question, struct spt_greasing *greasing)
{
    const double year_h = question->yearly_use_h;
    const double cap_h = SPT_YEAR_H * greasing->months / 12;
    greasing->every_h = spt_regreasing_kept_h(fmin(greasing->interval_h, cap_h));
    greasing->kept_h = greasing->every_h;
    if (!(year_h > 0) || isnan(greasing->every_h))
        return;
    if (spt_season_has(question)) {
        greasing->kept_h = year_h / spt_season_greasings(year_h, question->season.months,
                                                         greasing->every_h, greasing->months);
        return;
    }
    const double days = greasing->interval_h / year_h * SPT_DAYS_PER_YEAR;
    greasing->every_days = spt_regreasing_kept_days(fmin(days, MONTH_DAYS * greasing->months));
    greasing->kept_h = fmin(greasing->every_h, spt_regreasing_days_exact(greasing->every_days) /
                                                   SPT_DAYS_PER_YEAR * year_h);
}

/* Days from one greasing to the next at the pace at which it runs; NaN: no yearly hours. */
static double find_pace_days(const struct spt_case *question, const struct spt_greasing *greasing)
{
    const double month_days = SPT_DAYS_PER_YEAR / 12;
    return spt_season_has(question)
               ? greasing->kept_h / question->yearly_use_h * question->season.months * month_days
               : greasing->every_days;
}

static enum spt_greasing_state judge(const struct spt_case *question,
                                     const struct spt_greasing *greasing)
{
    const bool failing = greasing->too_hot || greasing->too_fast;
    if (isnan(greasing->interval_h) && !failing)
        return SPT_GREASING_NONE;
    if (failing || isnan(greasing->kept_h))
        return SPT_GREASING_CANNOT;
    bool often = greasing->interval_h < SPT_GREASING_BY_HAND_H ||
                 find_pace_days(question, greasing) < SPT_GREASING_WEEK_DAYS;
    return often ? SPT_GREASING_OFTEN : SPT_GREASING_KEPT;
}

static struct spt_greasing none_yet(void)
{
    const double none = (double)NAN;
    return (struct spt_greasing){SPT_GREASING_NONE, false, false, none, 0, 0, none, none, none};
}

static void add_bearing(const struct spt_case *question, const struct spt_bearing_result *bearing,
                        int i, struct spt_greasing *greasing)
{
    const double interval_h = bearing->grease_interval_h;
    if (turns(bearing))
        greasing->months = find_months(question, bearing, greasing->months);
    if (isfinite(interval_h) && !(interval_h >= greasing->interval_h)) {
        greasing->interval_h = interval_h;
        greasing->bearing = i;
    }
    note_failure(bearing, greasing);
}

static void finish(const struct spt_case *question, struct spt_greasing *greasing)
{
    if (!isnan(greasing->interval_h))
        round_down(question, greasing);
    greasing->state = judge(question, greasing);
}

struct spt_greasing spt_greasing_of(const struct spt_case *question,
                                    const struct spt_bearing_result *bearings)
{
    struct spt_greasing greasing = none_yet();
    if (question->lubricant.kind != SPT_LUBRICATION_GREASE || question->lubricant.greased_for_life)
        return greasing;
    for (int i = 0; i < question->bearing_count; i++)
        add_bearing(question, &bearings[i], i, &greasing);
    finish(question, &greasing);
    return greasing;
}

enum spt_status spt_case_greasing(const struct spt_case *question, struct spt_phase_result *results,
                                  struct spt_greasing *greasing)
{
    *greasing = none_yet();
    if (question->lubricant.kind != SPT_LUBRICATION_GREASE || question->lubricant.greased_for_life)
        return SPT_OK;
    for (int i = 0; i < question->bearing_count; i++) {
        struct spt_bearing_result bearing;
        enum spt_status status = spt_assess_bearing(question, i, 0, results, &bearing);
        if (status)
            return status;
        add_bearing(question, &bearing, i, greasing);
    }
    finish(question, greasing);
    return SPT_OK;
}
