/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <math.h>
#include <string.h>

#include "base/table.h"
#include "spalltime/history.h"
#include "spalltime/hub.h"
#include "spalltime/statistics.h"
#include "study/life/assess_notes.h"
#include "study/life/check.h"
#include "study/life/greasing.h"
#include "study/life/phase.h"
#include "study/machine/machine_notes.h"
#include "study/machine/vehicle_notes.h"

#define SKID_SPEED_MM_RPM 1e5 /* n d_m: slower elements roll with the ring (our choice) */
#define SKID_SHARE 0.1        /* of the time: less leaves few marks (our choice) */

static void sum_damage(struct spt_bearing_result *bearing)
{
    double shares[SPT_PHASES_MAX], lives[SPT_PHASES_MAX], damage[SPT_PHASES_MAX];
    int n = bearing->phase_count;
    shares[0] = lives[0] = 0; /* for static analysis: a duty has at least one phase */
    for (int i = 0; i < n; i++) {
        shares[i] = bearing->phases[i].phase->time_share;
        lives[i] = bearing->phases[i].basic_rating_life_h;
    }
    spt_damage_life(shares, lives, n, &bearing->basic_rating_life_h);
    for (int i = 0; i < n; i++)
        lives[i] = bearing->phases[i].modified_rating_life_h;
    spt_damage_life(shares, lives, n, &bearing->modified_rating_life_h);
    bool known = !spt_damage_shares(shares, lives, n, damage);
    bearing->worst_phase = -1;
    for (int i = 0; i < n; i++) {
        bearing->phases[i].damage_share = known ? damage[i] : (double)NAN;
        if (known && damage[i] > (bearing->worst_phase < 0 ? 0 : damage[bearing->worst_phase]))
            bearing->worst_phase = i;
    }
}

static void find_means(struct spt_bearing_result *bearing, const struct spt_bearing *part)
{
    double shares[SPT_PHASES_MAX], speeds[SPT_PHASES_MAX], loads[SPT_PHASES_MAX];
    int n = bearing->phase_count;
    for (int i = 0; i < n; i++) {
        shares[i] = bearing->phases[i].phase->time_share;
        speeds[i] = bearing->phases[i].phase->speed_rpm;
        loads[i] = bearing->phases[i].dynamic.load_n;
    }
    spt_damage_mean(shares, speeds, loads, n, spt_life_exponent(part->type),
                    &bearing->mean_speed_rpm, &bearing->mean_equivalent_load_n);
    /* revolutions of the duty at its basic life, the same as (C/P_m)^p where C is not derated */
    bearing->basic_rating_life_mrev =
        bearing->basic_rating_life_h * bearing->mean_speed_rpm * 60 / 1e6;
    if (isinf(bearing->basic_rating_life_h))
        bearing->basic_rating_life_mrev = (double)INFINITY;
}

static void clear_bearing(struct spt_bearing_result *bearing)
{
    memset(bearing, 0, sizeof *bearing);
    double *const numbers[] = {&bearing->grease_interval_h,      &bearing->basic_rating_life_h,
                               &bearing->basic_rating_life_mrev, &bearing->modified_rating_life_h,
                               &bearing->mean_equivalent_load_n, &bearing->mean_speed_rpm};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        *numbers[i] = (double)NAN;
    bearing->worst_phase = -1;
}

enum spt_status spt_assess_bearing(const struct spt_case *question, int bearing_index,
                                   unsigned cured, struct spt_phase_result *phases,
                                   struct spt_bearing_result *bearing)
{
    double a1 = (double)NAN;
    clear_bearing(bearing);
    enum spt_status status = phases ? spt_check_bearing(question, bearing_index) : SPT_BAD_ARGUMENT;
    if (!status)
        status = spt_life_reliability_factor(question->reliability_percent, &a1);
    if (status)
        return status;
    const struct spt_bearing_case *part = &question->bearings[bearing_index];
    bearing->bearing_case = part;
    bearing->phases = phases;
    bearing->phase_count = part->phase_count;
    struct spt_phase_work w = {question, &part->bearing, bearing_index, NULL, cured, NULL};
    for (int i = 0; !status && i < part->phase_count; i++) {
        w.phase = &part->phases[i];
        w.out = &phases[i];
        status = spt_phase_start(&w);
    }
    if (status)
        return status;
    bearing->grease_interval_h = spt_duty_grease_interval(phases, part->phase_count);
    for (int i = 0; !status && i < part->phase_count; i++) {
        w.phase = &part->phases[i];
        w.out = &phases[i];
        status = spt_phase_finish(&w, bearing->grease_interval_h, a1);
    }
    if (status)
        return status;
    sum_damage(bearing);
    find_means(bearing, &part->bearing);
    return SPT_OK;
}

static int harsher(int level, int other)
{
    return level > other ? level : other;
}

/* Tells what of the surroundings was inferred, with the harshest level of all phases. */
static void note_inferred(struct spt_bearing_result *bearing)
{
    struct spt_surroundings worst = {0};
    unsigned unstated = 0;
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_surroundings *around = &bearing->phases[i].surroundings;
        unstated |= bearing->phases[i].phase->condition.surroundings_assumed;
        worst.dust = (enum spt_dust)harsher((int)worst.dust, (int)around->dust);
        worst.moisture = (enum spt_moisture)harsher((int)worst.moisture, (int)around->moisture);
        worst.vibration = (enum spt_vibration)harsher((int)worst.vibration, (int)around->vibration);
        worst.shaft = (enum spt_shaft)harsher((int)worst.shaft, (int)around->shaft);
    }
    if (unstated)
        spt_notes_add(&bearing->notes, SPT_FLAG_SURROUNDINGS_ASSUMED,
                      unstated + SPT_SURROUNDINGS_PACK(worst), (double)NAN);
}

/* Dirt and water inside that contradict the surroundings stated, or trust in seals. */
static void note_contradictions(const struct spt_phase_result *result, struct spt_notes *notes)
{
    const struct spt_condition *state = &result->phase->condition;
    const bool sealed = state->sealing.stated && state->sealing.seal >= 0;
    const int dust = spt_condition_dust_implied(state);
    const int moisture = spt_condition_moisture_implied(state);
    const bool dusty = !(state->surroundings_assumed >> SPT_SURROUNDING_DUST & 1u);
    const bool wet = !(state->surroundings_assumed >> SPT_SURROUNDING_MOISTURE & 1u);
    if (dusty && (int)state->surroundings.dust < dust - 1)
        spt_notes_add(
            notes, SPT_FLAG_DUST_CONTRADICTED,
            (double)((int)spt_cleanliness_first(SPT_LUBRICATION_GREASE) + dust),
            (double)((int)state->surroundings.dust + 16 * (int)result->surroundings.dust));
    if (wet && (int)state->surroundings.moisture < moisture - 1)
        spt_notes_add(
            notes, SPT_FLAG_WET_CONTRADICTED, state->water_ppm,
            (double)((int)state->surroundings.moisture + 16 * (int)result->surroundings.moisture));
    if (dusty && dust == 0 && !sealed && !spt_condition_is_unknown(state) &&
        state->surroundings.dust == SPT_DUST_HEAVY_ABRASIVE)
        spt_notes_add(notes, SPT_FLAG_SEALS_TRUSTED,
                      (double)spt_cleanliness_first(SPT_LUBRICATION_GREASE), (double)NAN);
}

/* Seal and surroundings of a condition as a number for a note. */
static double pack_sealing(const struct spt_condition *state)
{
    const struct spt_inflow inflow = spt_seal_inflow(&state->sealing);
    return (double)SPT_SEALING_PACK(state->sealing, inflow);
}

/* A class or moisture that is stated, against what seal and surroundings say. */
static void note_seal(enum spt_lubrication kind, const struct spt_condition *state,
                      struct spt_notes *notes)
{
    const struct spt_inflow inflow = spt_seal_inflow(&state->sealing);
    const int first = (int)spt_cleanliness_first(kind);
    const bool moist = !(state->surroundings_assumed >> SPT_SURROUNDING_MOISTURE & 1u) &&
                       (int)state->surroundings.moisture < inflow.moisture - 1;
    const bool clean = state->class_source == SPT_CLASS_STATED &&
                       isnan(state->contamination_factor) &&
                       (int)state->cleanliness - first < inflow.class_index - 1;
    if (inflow.class_index >= 0 && spt_lubrication_like(kind) != SPT_LUBRICATION_CIRCULATING &&
        (clean || (moist && kind == SPT_LUBRICATION_GREASE)))
        spt_notes_add(notes, SPT_FLAG_SEAL_CONTRADICTED, (double)(first + inflow.class_index),
                      pack_sealing(state));
}

/* What the filter keeps the oil at, beside a class that is stated cleaner. */
static void note_filter(const struct spt_condition *state, struct spt_notes *notes)
{
    struct spt_filter_class kept;
    if (!state->filtered || state->filter.place == SPT_FILTER_NONE)
        return;
    const bool known = !spt_filter_class(&state->filter, &kept);
    const int holds = known ? (int)kept.condition -
                                  (int)spt_cleanliness_first(spt_cleanliness_kind(kept.condition))
                            : 0;
    const int stated = (int)state->cleanliness -
                       (int)spt_cleanliness_first(spt_cleanliness_kind(state->cleanliness));
    if (known && state->class_source == SPT_CLASS_STATED && isnan(state->contamination_factor) &&
        stated < holds)
        spt_notes_add(notes, SPT_FLAG_FILTER_HOLDS, (double)kept.condition,
                      (double)state->cleanliness);
    if (kept.overwhelmed)
        spt_notes_add(notes, SPT_FLAG_FILTER_OVERWHELMED, kept.sump_number, kept.earned_number);
}

/* Where the class comes from, if it is not stated. */
static void note_class(enum spt_lubrication kind, const struct spt_condition *state,
                       struct spt_notes *notes)
{
    if (spt_condition_is_unknown(state))
        spt_notes_add(notes, SPT_FLAG_CLASS_UNKNOWN, (double)NAN, (double)NAN);
    if (state->class_source == SPT_CLASS_FROM_SEAL)
        spt_notes_add(notes, SPT_FLAG_CLASS_FROM_SEAL, (double)state->cleanliness,
                      pack_sealing(state));
    if (state->class_source == SPT_CLASS_FROM_FILTER)
        spt_notes_add(notes, SPT_FLAG_CLASS_FROM_FILTER, (double)state->cleanliness, (double)NAN);
    note_seal(kind, state, notes);
    note_filter(state, notes);
}

/* Water that is not stated, against what the moisture would give. */
static void note_water(const struct spt_phase_result *result, bool grease, struct spt_notes *notes)
{
    static const double ppm[] = {100, 200, 400, 1000};
    const struct spt_condition *state = &result->phase->condition;
    const struct spt_inflow inflow = spt_seal_inflow(&state->sealing);
    const int level = grease ? (int)result->surroundings.moisture : inflow.moisture;
    double expected_ppm = level < 0 ? 0 : ppm[level];
    if (inflow.moisture == level && level >= 0)
        expected_ppm = inflow.water_ppm;
    if (state->water_assumed && level >= (int)SPT_MOISTURE_CONDENSATION)
        spt_notes_add(notes, SPT_FLAG_WATER_EXPECTED, expected_ppm, level);
}

/* Adds the notes for inputs of a phase that were assumed. */
static void note_unstated(const struct spt_case *question, const struct spt_phase_result *result,
                          struct spt_notes *notes)
{
    const struct spt_phase *phase = result->phase;
    const struct spt_condition *state = &phase->condition;
    enum spt_lubrication kind = question->lubricant.kind;
    bool grease = kind == SPT_LUBRICATION_GREASE;
    bool class_used = isnan(state->contamination_factor);
    if (state->code_rounded)
        spt_notes_add(notes, SPT_FLAG_CODE_ROUNDED, (double)state->cleanliness, (double)NAN);
    if (spt_lubrication_like(kind) == SPT_LUBRICATION_CIRCULATING && class_used && !state->filtered)
        spt_notes_add(notes, SPT_FLAG_FILTRATION_ASSUMED, (double)state->cleanliness, (double)NAN);
    if (state->water_assumed)
        spt_notes_add(notes, SPT_FLAG_WATER_ASSUMED, SPT_WATER_REFERENCE_PPM, (double)NAN);
    note_class(kind, state, notes);
    note_water(result, grease, notes);
    if (grease && state->age_assumed)
        spt_notes_add(notes, SPT_FLAG_AGE_ASSUMED, (double)NAN, (double)NAN);
    if (grease)
        note_contradictions(result, notes);
    if (isnan(phase->temperature_c) && phase->ambient_assumed)
        spt_notes_add(notes, SPT_FLAG_AMBIENT_ASSUMED, phase->ambient_c, (double)NAN);
}

/* Clearance at work; a ring that turns under a load that stands still needs interference. */
static void note_seat(const struct spt_bearing *part, struct spt_notes *notes)
{
    struct spt_clearance c;
    struct spt_geometry insides;
    if (!part->has_seat || spt_clearance_at_work(part, &c))
        return;
    const bool known = !spt_bearing_insides(part, &insides);
    spt_notes_add(notes, known ? SPT_FLAG_CLEARANCE : SPT_FLAG_ZONE_UNKNOWN, c.work.low_mm,
                  c.work.high_mm);
    if (known && !part->has_geometry)
        spt_notes_add(notes, SPT_FLAG_ZONE_ESTIMATED, insides.elements,
                      insides.element_diameter_mm);
    if (c.work.low_mm < 0)
        spt_notes_add(notes, SPT_FLAG_TIGHT_WARM, c.work.low_mm, (double)NAN);
    if (!part->outer_turns && c.shaft.low_mm < 0)
        spt_notes_add(notes, SPT_FLAG_INNER_CREEPS, c.shaft.low_mm, (double)NAN);
    if (part->outer_turns && c.housing.low_mm < 0)
        spt_notes_add(notes, SPT_FLAG_OUTER_CREEPS, c.housing.low_mm, (double)NAN);
}

static void note_assumptions(const struct spt_case *question, struct spt_bearing_result *bearing)
{
    const struct spt_bearing *part = &bearing->bearing_case->bearing;
    if (part->pitch_assumed)
        spt_notes_add(&bearing->notes, SPT_FLAG_PITCH_ASSUMED, part->pitch_diameter_mm,
                      (double)NAN);
    if (part->fatigue_limit_assumed)
        spt_notes_add(&bearing->notes, SPT_FLAG_FATIGUE_LIMIT_ASSUMED, part->fatigue_load_limit_n,
                      (double)NAN);
    spt_bearing_doubts(part, &bearing->notes);
    note_seat(part, &bearing->notes);
    if (question->sheet_hub && !(part->load_centre_mm > 0))
        spt_notes_add(&bearing->notes, SPT_FLAG_LOAD_CENTRE_ESTIMATED,
                      spt_bearing_load_centre(part, NULL), (double)NAN);
    for (int i = 0; i < bearing->phase_count; i++)
        note_unstated(question, &bearing->phases[i], &bearing->notes);
    if (question->lubricant.kind == SPT_LUBRICATION_GREASE)
        note_inferred(bearing);
    if (!isnan(question->age_limit_h) && !isnan(question->yearly_use_h)) {
        double years_h = 24 * SPT_DAYS_PER_YEAR;
        double age_h = bearing->modified_rating_life_h / question->yearly_use_h * years_h;
        if (age_h > question->age_limit_h)
            spt_notes_add(&bearing->notes, SPT_FLAG_CALENDAR_AGE, age_h / years_h,
                          question->age_limit_h / years_h);
    }
}

/* Static safety at the sample with the largest load of a history, which a power mean does not
 * contain. */
static double note_hardest(const struct spt_case *question, int i,
                           struct spt_bearing_result *bearing)
{
    const struct spt_bearing *part = &question->bearings[i].bearing;
    double guide = spt_load_static_guide(part->type, question->running);
    double safety = question->history ? part->static_load_rating_n / question->history->resting_n[i]
                                      : (double)NAN;
    if (safety < guide)
        spt_notes_add(&bearing->notes, SPT_FLAG_STATIC_SAFETY, safety, guide);
    return safety;
}

/* Without a stated kind of running normal running is assumed; adds a note if another kind would
 * need a higher safety than there is. */
static void note_running(const struct spt_case *question, double least_safety,
                         struct spt_bearing_result *bearing)
{
    enum spt_bearing_type type = bearing->bearing_case->bearing.type;
    double highest = 0;
    for (int i = 0; i < SPT_RUNNING_COUNT; i++)
        highest = fmax(highest, spt_load_static_guide(type, (enum spt_running)i));
    for (int i = 0; i < bearing->phase_count; i++)
        least_safety = fmin(least_safety, bearing->phases[i].static_safety_factor);
    if (!question->running_stated && least_safety < highest)
        spt_notes_add(&bearing->notes, SPT_FLAG_RUNNING_ASSUMED,
                      spt_load_static_guide(type, question->running), highest);
}

/* True for a fast phase with a load below the minimum against skidding, or none. */
static bool may_skid(const struct spt_bearing *part, const struct spt_phase_result *result)
{
    double product = result->phase->speed_rpm * (part->bore_mm + part->outside_diameter_mm) / 2;
    double share = result->dynamic.load_n / result->dynamic_load_rating_n;
    if (spt_notes_has(&result->notes, SPT_FLAG_RADIAL_NOT_RATED))
        return false; /* P is not the load that it carries */
    return product >= SKID_SPEED_MM_RPM && share < spt_load_least_share(part->type);
}

static void note_light_loads(struct spt_bearing_result *bearing)
{
    const struct spt_bearing *part = &bearing->bearing_case->bearing;
    double time_share = 0;
    for (int i = 0; i < bearing->phase_count; i++)
        if (may_skid(part, &bearing->phases[i]))
            time_share += bearing->phases[i].phase->time_share;
    for (int i = 0; time_share >= SKID_SHARE && i < bearing->phase_count; i++) {
        struct spt_phase_result *result = &bearing->phases[i];
        if (may_skid(part, result))
            spt_notes_add(&result->notes, SPT_FLAG_LIGHT_LOAD,
                          result->dynamic.load_n / result->dynamic_load_rating_n,
                          spt_load_least_share(part->type));
    }
}

void spt_assess_notes(const struct spt_case *question, int i, struct spt_bearing_result *bearing)
{
    note_assumptions(question, bearing);
    note_light_loads(bearing);
    note_running(question, note_hardest(question, i, bearing), bearing);
    if (question->machine)
        spt_machine_notes(question->machine, i, bearing->bearing_case->bearing.type,
                          &bearing->notes);
}

void spt_case_setting_notes(const struct spt_case *question, struct spt_notes *notes)
{
    if (question->sheet_hub)
        spt_notes_add(notes, SPT_FLAG_HUB_BY_SHEET, (double)NAN, (double)NAN);
    if (question->setting.preload_mm > 0)
        spt_notes_add(notes, SPT_FLAG_PRELOAD, question->setting.preload_mm, (double)NAN);
    else if (question->setting.cured_preload_mm > 0)
        spt_notes_add(notes, SPT_FLAG_PRELOAD_CURE, question->setting.cured_preload_mm,
                      (double)NAN);
    if (question->setting.end_play_mm > SPT_HUB_PLAY_HIGH_MM)
        spt_notes_add(notes, SPT_FLAG_END_PLAY, question->setting.end_play_mm,
                      SPT_HUB_PLAY_HIGH_MM);
}

static double combine_cured(const struct spt_assessment *assessment, int cause)
{
    double cured_h[SPT_BEARINGS_MAX] = {0};
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        cured_h[i] = bearing->loss.causes[cause].applies
                         ? bearing->loss.causes[cause].life_if_cured_h
                         : bearing->modified_rating_life_h;
    }
    return spt_survival_series(cured_h, assessment->bearing_count,
                               assessment->question->reliability_percent);
}

static void combine_bearings(struct spt_assessment *assessment)
{
    double basic[SPT_BEARINGS_MAX] = {0}, modified[SPT_BEARINGS_MAX] = {0};
    for (int i = 0; i < assessment->bearing_count; i++) {
        basic[i] = assessment->bearings[i].basic_rating_life_h;
        modified[i] = assessment->bearings[i].modified_rating_life_h;
    }
    assessment->basic_rating_life_h =
        spt_survival_series(basic, assessment->bearing_count, SPT_BASIC_RELIABILITY);
    assessment->modified_rating_life_h = spt_survival_series(
        modified, assessment->bearing_count, assessment->question->reliability_percent);
    spt_survival_shares(modified, assessment->bearing_count,
                        assessment->question->reliability_percent, assessment->risk_shares);
    for (int i = 0; i < assessment->bearing_count; i++)
        if (assessment->risk_shares[i] >
            (assessment->limiting < 0 ? 0 : assessment->risk_shares[assessment->limiting]))
            assessment->limiting = i;
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
        assessment->cured_life_h[cause] = combine_cured(assessment, cause);
}

static void clear(const struct spt_case *question, struct spt_assessment *assessment)
{
    memset(assessment, 0, sizeof *assessment);
    assessment->question = question;
    assessment->bearing_count = question->bearing_count;
    assessment->limiting = -1;
    assessment->basic_rating_life_h = assessment->modified_rating_life_h = (double)NAN;
    assessment->phase_dents.life_h = (double)NAN;
    assessment->remaining.life_h = assessment->judged_life_h = (double)NAN;
    assessment->greasing.interval_h = assessment->greasing.every_h = (double)NAN;
    assessment->greasing.every_days = assessment->greasing.kept_h = (double)NAN;
    for (int i = 0; i < SPT_BEARINGS_MAX; i++)
        clear_bearing(&assessment->bearings[i]);
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++)
        assessment->cured_life_h[cause] = (double)NAN;
}

enum spt_status spt_assess(const struct spt_case *question, struct spt_phase_result *phases,
                           struct spt_assessment *assessment)
{
    clear(question, assessment);
    enum spt_status status =
        spt_life_reliability_factor(question->reliability_percent, &assessment->reliability_factor);
    if (!status && question->bearing_count < 1)
        status = SPT_BAD_ARGUMENT;
    if (!status)
        status = spt_phase_dents(question, phases, &assessment->phase_dents);
    if (!status)
        status = spt_past_dents(question, phases, &assessment->dents);
    if (!status)
        status = spt_remaining(question, phases, &assessment->remaining);
    for (int i = 0; !status && i < question->bearing_count; i++) {
        struct spt_bearing_result *bearing = &assessment->bearings[i];
        struct spt_loss loss;
        /* the split uses the same buffer as scratch, so that it comes first */
        status = spt_loss_split(question, i, phases, &loss);
        if (!status)
            status = spt_assess_bearing(question, i, 0, phases, bearing);
        if (status)
            break;
        bearing->loss = loss;
        spt_assess_notes(question, i, bearing);
        phases += question->bearings[i].phase_count;
    }
    if (status)
        return status;
    combine_bearings(assessment);
    assessment->judged_life_h = assessment->remaining.hours_run > 0
                                    ? assessment->remaining.hours_run + assessment->remaining.life_h
                                    : assessment->modified_rating_life_h;
    assessment->greasing = spt_greasing_of(question, assessment->bearings);
    if (question->lubricant.index_assumed)
        spt_notes_add(&assessment->notes, SPT_FLAG_INDEX_ASSUMED,
                      question->lubricant.viscosity_index, (double)NAN);
    if (question->history)
        spt_history_notes(question->history, question, &assessment->notes);
    if (question->kept_conditions)
        spt_notes_add(&assessment->notes, SPT_FLAG_CONDITION_KEPT, question->kept_conditions,
                      (double)NAN);
    if (question->shares_sum > 0 && fabs(question->shares_sum - 1) > 1e-4)
        spt_notes_add(&assessment->notes, SPT_FLAG_SHARES_SCALED, question->shares_sum,
                      (double)NAN);
    spt_case_setting_notes(question, &assessment->notes);
    if (question->vehicle)
        spt_vehicle_notes(question->vehicle, &assessment->notes);
    spt_phase_dents_judge(question, assessment->modified_rating_life_h, &assessment->phase_dents);
    if (assessment->phase_dents.tells)
        spt_notes_add(&assessment->notes, SPT_FLAG_PHASE_DENTS, assessment->phase_dents.life_h,
                      assessment->modified_rating_life_h);
    if (assessment->judged_life_h < question->target_life_h)
        spt_notes_add(&assessment->notes, SPT_FLAG_MISSED_TARGET, assessment->judged_life_h,
                      question->target_life_h);
    return SPT_OK;
}

double spt_case_units(const struct spt_case *question)
{
    return (question->fleet > 0 ? question->fleet : 1.0) *
           (question->units > 0 ? question->units : 1.0);
}

void spt_assessment_notes(const struct spt_assessment *assessment, struct spt_notes *notes)
{
    *notes = (struct spt_notes){0};
    spt_notes_add_all(notes, &assessment->notes);
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        spt_notes_add_all(notes, &bearing->notes);
        for (int j = 0; j < bearing->phase_count; j++)
            spt_notes_add_all(notes, &bearing->phases[j].notes);
    }
}
