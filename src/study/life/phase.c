/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/life/phase.h"

#include <math.h>
#include <string.h>

#include "spalltime/bearing.h"
#include "spalltime/lubricant.h"
#include "study/life/greasing.h"

#define OIL_SPEED_MM_RPM 1e6 /* n d_m with oil (common practice, no source) */
#define OIL_SLUGGISH_MM2_S                                                                         \
    1e4 /* about where oils no longer pour or are drawn in (common practice, no source) */
#define INDUCED_ROUNDING 0.99      /* an axial load stated as the flag prints it (our choice) */
#define OVERLOAD_SHARE 0.5         /* of C; ISO 281 a_ISO holds to here (from memory) */
#define HEAVY_CONTAMINATION 0.1    /* e_C; wear may end the life first (ISO 281 Annex A, memory) */
#define THIN_FILM 0.4              /* kappa; wear and peeling below (common practice, no source) */
#define LOWEST_VISCOSITY_MM2_S 2.0 /* plain form of ASTM D341 */
#define DERATED_ABOVE_C 150.0
#define GREASE_HOT_C 120.0    /* usual limit of ordinary greases (common practice, no source) */
#define GREASE_COLD_C (-20.0) /* the same at the cold end */
#define STIFFEST_MM2_S 2e7    /* end of ASTM D341 */

static bool is_cured(const struct spt_phase_work *w, enum spt_cause cause)
{
    return w->cured >> cause & 1u;
}

/* A radial load that a thrust bearing is not rated for is missing from P, but not from the bearing.
 */
static bool turns_under_load(const struct spt_phase_result *out)
{
    bool loaded = out->dynamic.load_n > 0 || spt_notes_has(&out->notes, SPT_FLAG_RADIAL_NOT_RATED);
    return out->phase->speed_rpm > 0 && loaded;
}

static void clear_result(struct spt_phase_result *out, const struct spt_phase *phase)
{
    memset(out, 0, sizeof *out);
    out->phase = phase;
    double *const numbers[] = {
        &out->static_safety_factor,
        &out->static_safety_guide,
        &out->temperature_factor,
        &out->dynamic_load_rating_n,
        &out->temperature_c,
        &out->viscosity_mm2_s,
        &out->reference_viscosity_mm2_s,
        &out->density_factor,
        &out->viscosity_ratio,
        &out->interval.interval_h,
        &out->grease.tau,
        &out->grease.oil_left,
        &out->grease.film_ratio,
        &out->grease.survival,
        &out->effective_viscosity_ratio,
        &out->contamination_factor,
        &out->present_contamination_factor,
        &out->factor.a_iso,
        &out->factor.x,
        &out->factor.bracket,
        &out->factor.viscosity_ratio,
        &out->saturation_ppm,
        &out->water_factor,
        &out->zone.extent,
        &out->zone.half_deg,
        &out->zone.most_n,
        &out->rib_speed_m_s,
        &out->basic_rating_life_mrev,
        &out->basic_rating_life_h,
        &out->modified_rating_life_h,
        &out->heat.temperature_c,
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        *numbers[i] = (double)NAN;
    out->zone.factor = 1;
}

static void use_given_load(double load_n, struct spt_equivalent_load *load)
{
    *load = (struct spt_equivalent_load){(double)NAN, (double)NAN, (double)NAN,
                                         (double)NAN, (double)NAN, load_n};
}

static enum spt_status find_loads(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    const struct spt_phase *phase = w->phase;
    if (!isnan(phase->equivalent_load_n)) {
        use_given_load(phase->equivalent_load_n, &out->dynamic);
        use_given_load(phase->equivalent_load_n, &out->resting);
    } else {
        enum spt_status status = spt_load_equivalent(
            w->bearing, phase->radial_load_n, phase->axial_load_n, &out->dynamic, &out->notes);
        if (!status)
            status = spt_load_static(w->bearing, fmax(phase->radial_load_n, phase->peak_radial_n),
                                     phase->axial_load_n, &out->resting, &out->notes);
        if (status)
            return status;
    }
    if (is_cured(w, SPT_CAUSE_OVERLOAD) && out->dynamic.load_n > w->question->reference_load_n)
        out->dynamic.load_n = w->question->reference_load_n;
    return SPT_OK;
}

static bool is_radial_ball(enum spt_bearing_type type)
{
    return spt_bearing_is_ball(type) && !spt_bearing_is_thrust(type);
}

/* The rows of a hub share their thrust, and a given P says nothing of it. */
static void note_induced_thrust(struct spt_phase_work *w)
{
    double thrust_n;
    const struct spt_phase *phase = w->phase;
    if (!w->question->hub && isnan(phase->equivalent_load_n) &&
        !spt_load_induced_thrust(w->bearing, phase->radial_load_n, &thrust_n) &&
        phase->axial_load_n < INDUCED_ROUNDING * thrust_n)
        spt_notes_add(&w->out->notes, SPT_FLAG_INDUCED_THRUST, phase->axial_load_n, thrust_n);
}

static void check_loads(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    const struct spt_bearing *bearing = w->bearing;
    double share = out->dynamic.load_n / out->dynamic_load_rating_n;
    if (out->resting.load_n > 0) {
        double guide = spt_load_static_guide(bearing->type, w->question->running);
        out->static_safety_guide = guide;
        out->static_safety_factor = bearing->static_load_rating_n / out->resting.load_n;
        if (out->static_safety_factor < guide)
            spt_notes_add(&out->notes, SPT_FLAG_STATIC_SAFETY, out->static_safety_factor, guide);
    }
    if (turns_under_load(out) && share > OVERLOAD_SHARE)
        spt_notes_add(&out->notes, SPT_FLAG_OVERLOAD, share, OVERLOAD_SHARE);
    if (turns_under_load(out) && is_radial_ball(bearing->type) &&
        out->dynamic.load_n > bearing->static_load_rating_n)
        spt_notes_add(&out->notes, SPT_FLAG_ABOVE_STATIC,
                      out->dynamic.load_n / bearing->static_load_rating_n, 1);
    note_induced_thrust(w);
}

static enum spt_status find_temperature(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    const struct spt_phase *phase = w->phase;
    out->temperature_c = phase->temperature_c;
    if (!isnan(phase->temperature_c))
        return SPT_OK;
    const struct spt_heat_inputs in = {
        .bearing = w->bearing,
        .lubrication = w->question->lubricant.kind,
        .oil = w->question->lubricant.line,
        .speed_rpm = phase->speed_rpm,
        .equivalent_load_n = out->dynamic.load_n,
        .ambient_c = phase->ambient_c,
        .extra_heat_w = phase->extra_heat_w,
        .cooling_factor = phase->cooling_factor,
    };
    enum spt_status status = spt_heat_temperature(&in, &out->heat);
    if (status == SPT_NOT_CONVERGED) {
        spt_notes_add(&out->notes, SPT_FLAG_TOO_HOT, (double)NAN, SPT_HOTTEST_C);
        return SPT_OK;
    }
    if (status == SPT_NOT_APPLICABLE) {
        spt_notes_add(&out->notes, SPT_FLAG_OIL_TOO_STIFF, phase->ambient_c, STIFFEST_MM2_S);
        return SPT_OK;
    }
    if (status)
        return status;
    out->temperature_c = out->heat.temperature_c;
    spt_notes_add(&out->notes, SPT_FLAG_TEMPERATURE_ESTIMATED, out->temperature_c, (double)NAN);
    return SPT_OK;
}

static void derate(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    if (spt_rating_temperature_factor(out->temperature_c, &out->temperature_factor)) {
        spt_notes_add(&out->notes, SPT_FLAG_TOO_HOT, out->temperature_c, SPT_HOTTEST_C);
    } else if (out->temperature_c > DERATED_ABOVE_C) {
        spt_notes_add(&out->notes, SPT_FLAG_HOT_RATING, out->temperature_c, DERATED_ABOVE_C);
    }
    out->dynamic_load_rating_n = out->temperature_factor * w->bearing->dynamic_load_rating_n;
}

static enum spt_status find_viscosity_ratio(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    const struct spt_lubricant *oil = &w->question->lubricant;
    enum spt_status status =
        spt_viscosity_at(&oil->line, out->temperature_c, &out->viscosity_mm2_s);
    if (status == SPT_NOT_APPLICABLE) {
        spt_notes_add(&out->notes, SPT_FLAG_OIL_TOO_STIFF, out->temperature_c, STIFFEST_MM2_S);
        return SPT_OK;
    }
    if (status)
        return status;
    if (out->viscosity_mm2_s < LOWEST_VISCOSITY_MM2_S)
        spt_notes_add(&out->notes, SPT_FLAG_VISCOSITY_RANGE, out->viscosity_mm2_s,
                      LOWEST_VISCOSITY_MM2_S);
    out->density_factor = 1;
    if (!isnan(oil->density_g_cm3))
        status = spt_film_density_factor(oil->density_g_cm3, &out->density_factor);
    if (status || !(w->phase->speed_rpm > 0))
        return status;
    status = spt_film_reference_viscosity(w->phase->speed_rpm, w->bearing->pitch_diameter_mm,
                                          &out->reference_viscosity_mm2_s);
    if (!status)
        status = spt_film_viscosity_ratio(out->viscosity_mm2_s, out->reference_viscosity_mm2_s,
                                          out->density_factor, &out->viscosity_ratio);
    return status;
}

static void find_grease_interval(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    const double load_n = out->dynamic.load_n;
    if (w->question->lubricant.kind != SPT_LUBRICATION_GREASE || !(w->phase->speed_rpm > 0))
        return;
    enum spt_status status = spt_phase_grease_interval(w->bearing, w->phase, out->temperature_c,
                                                       load_n, &out->surroundings, &out->interval);
    if (status == SPT_NOT_APPLICABLE)
        spt_notes_add(&out->notes, SPT_FLAG_GREASE_NO_INTERVAL, w->phase->speed_rpm,
                      w->bearing->bore_mm);
    else if (load_n > SPT_GREASE_LOAD_SHARE_MAX * w->bearing->dynamic_load_rating_n)
        spt_notes_add(&out->notes, SPT_FLAG_GREASE_LOAD, load_n / w->bearing->dynamic_load_rating_n,
                      SPT_GREASE_LOAD_SHARE_MAX);
}

/* Free water at rest, whatever runs: all phases count, also those that stand. */
static void check_cold_water(struct spt_phase_work *w)
{
    struct spt_condition state = w->phase->condition;
    double free_ppm;
    if (is_cured(w, SPT_CAUSE_WATER))
        state.water_ppm = fmin(state.water_ppm, SPT_WATER_REFERENCE_PPM);
    if (spt_condition_is_wet_cold(w->question, &state, &free_ppm))
        spt_notes_add(&w->out->notes, SPT_FLAG_WATER_COLD, state.water_ppm, free_ppm);
}

/* Heat of the oil itself. */
static void check_oil_heat(struct spt_phase_work *w)
{
    const struct spt_lubricant *lubricant = &w->question->lubricant;
    const double temperature_c = w->out->temperature_c;
    const struct spt_oil_limits limits = spt_oil_limits(lubricant->base_oil);
    const struct spt_oil oil = spt_case_oil(w->question);
    double life_h;
    if (lubricant->kind == SPT_LUBRICATION_GREASE || !(w->phase->time_share > 0) ||
        spt_oil_life(&oil, temperature_c, &life_h))
        return;
    if (temperature_c > limits.peak_c)
        spt_notes_add(&w->out->notes, SPT_FLAG_OIL_PEAK, temperature_c, limits.peak_c);
    else if (temperature_c > limits.hot_c)
        spt_notes_add(&w->out->notes, SPT_FLAG_OIL_HOT, temperature_c, life_h);
    else if (temperature_c > limits.warm_c)
        spt_notes_add(&w->out->notes, SPT_FLAG_OIL_WARM, temperature_c, life_h);
}

static void check_speeds(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    const struct spt_bearing *bearing = w->bearing;
    enum spt_lubrication kind = w->question->lubricant.kind;
    if (kind == SPT_LUBRICATION_GREASE && out->temperature_c > GREASE_HOT_C)
        spt_notes_add(&out->notes, SPT_FLAG_GREASE_HOT, out->temperature_c, GREASE_HOT_C);
    if (kind == SPT_LUBRICATION_GREASE && out->temperature_c < GREASE_COLD_C)
        spt_notes_add(&out->notes, SPT_FLAG_GREASE_COLD, out->temperature_c, GREASE_COLD_C);
    if (bearing->speed_limit_rpm > 0 && w->phase->speed_rpm > bearing->speed_limit_rpm)
        spt_notes_add(&out->notes, SPT_FLAG_SPEED_LIMIT, w->phase->speed_rpm,
                      bearing->speed_limit_rpm);
    double mean_mm = (bearing->bore_mm + bearing->outside_diameter_mm) / 2;
    double product = w->phase->speed_rpm * mean_mm;
    double limit = spt_grease_speed_limit(bearing->type);
    if (kind == SPT_LUBRICATION_GREASE && out->interval.ring_speed_rpm * mean_mm > limit)
        spt_notes_add(&out->notes, SPT_FLAG_GREASE_SPEED, out->interval.ring_speed_rpm * mean_mm,
                      limit);
    if (kind != SPT_LUBRICATION_GREASE && product > OIL_SPEED_MM_RPM)
        spt_notes_add(&out->notes, SPT_FLAG_OIL_SPEED, product, OIL_SPEED_MM_RPM);
    if (kind != SPT_LUBRICATION_GREASE && w->phase->speed_rpm > 0 &&
        out->viscosity_mm2_s > OIL_SLUGGISH_MM2_S)
        spt_notes_add(&out->notes, SPT_FLAG_OIL_SLUGGISH, out->viscosity_mm2_s, OIL_SLUGGISH_MM2_S);
    if (bearing->type != SPT_TAPERED_ROLLER)
        return;
    double rib_mm =
        isnan(bearing->rib_diameter_mm) ? bearing->pitch_diameter_mm : bearing->rib_diameter_mm;
    out->rib_speed_m_s = acos(-1.0) * rib_mm * w->phase->speed_rpm / 60000;
    if (out->rib_speed_m_s > spt_lubrication_rib_limit_m_s(kind))
        spt_notes_add(&out->notes, SPT_FLAG_RIB_SPEED, out->rib_speed_m_s,
                      spt_lubrication_rib_limit_m_s(kind));
}

enum spt_status spt_phase_start(struct spt_phase_work *w)
{
    clear_result(w->out, w->phase);
    w->out->surroundings =
        spt_phase_surroundings(w->question, w->bearing_index, w->phase, w->cured);
    enum spt_status status = find_loads(w);
    if (!status)
        status = find_temperature(w);
    if (status || isnan(w->out->temperature_c))
        return status;
    derate(w);
    check_loads(w);
    status = find_viscosity_ratio(w);
    find_grease_interval(w);
    check_speeds(w);
    check_cold_water(w);
    check_oil_heat(w);
    return status;
}

static void wear_grease(struct spt_phase_work *w, double duty_interval_h)
{
    struct spt_phase_result *out = w->out;
    out->effective_viscosity_ratio = out->viscosity_ratio;
    double age_h = is_cured(w, SPT_CAUSE_WORN_GREASE) ? 0 : w->phase->condition.grease_age_h;
    if (is_cured(w, SPT_CAUSE_THIN_FILM) && out->viscosity_ratio < 1)
        out->effective_viscosity_ratio = 1;
    if (w->question->lubricant.kind != SPT_LUBRICATION_GREASE || isnan(duty_interval_h))
        return;
    if (spt_grease_state(age_h / duty_interval_h, &out->grease))
        return;
    double fresh = out->effective_viscosity_ratio;
    spt_film_effective_ratio(fresh, out->grease.film_ratio, &out->effective_viscosity_ratio);
    if (out->grease.tau > 1)
        spt_notes_add(&out->notes, SPT_FLAG_GREASE_OVERDUE, age_h, duty_interval_h);
    if (fresh >= SPT_KAPPA_MIN && out->effective_viscosity_ratio < SPT_KAPPA_MIN)
        spt_notes_add(&out->notes, SPT_FLAG_GREASE_EXHAUSTED, out->grease.tau, (double)NAN);
}

/* Lowers an e_C to that of earlier dirt at the kappa of now. */
static enum spt_status lay_dents(const struct spt_phase_work *w, const struct spt_dents *dents,
                                 double kappa, double *e_c)
{
    double of_class = 1;
    enum spt_status status = SPT_OK;
    if (dents->of_factor)
        *e_c = fmin(*e_c, dents->contamination_factor);
    if (dents->of_class)
        status = spt_cleanliness_factor(dents->cleanliness, kappa, w->bearing->pitch_diameter_mm,
                                        &of_class);
    *e_c = fmin(*e_c, of_class);
    return status;
}

static enum spt_status find_contamination(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    const struct spt_condition *state = &w->phase->condition;
    double kappa = fmin(out->effective_viscosity_ratio, SPT_KAPPA_MAX);
    double clean = (double)NAN;
    enum spt_cleanliness cleanest = spt_cleanliness_first(w->question->lubricant.kind);
    enum spt_status status = SPT_OK;
    out->contamination_factor = state->contamination_factor;
    if (spt_condition_is_unknown(state))
        out->contamination_factor = 0; /* the cure below counts */
    else if (isnan(state->contamination_factor))
        status = spt_cleanliness_factor(state->cleanliness, kappa, w->bearing->pitch_diameter_mm,
                                        &out->contamination_factor);
    out->present_contamination_factor = out->contamination_factor;
    if (!status && !w->question->past.cured)
        status = lay_dents(w, &state->dents, kappa, &out->contamination_factor);
    if (!status && !w->question->past.cured)
        status = lay_dents(w, &w->question->past.dents, kappa, &out->contamination_factor);
    if (status || !is_cured(w, SPT_CAUSE_DEBRIS))
        return status;
    status = spt_cleanliness_factor(cleanest, kappa, w->bearing->pitch_diameter_mm, &clean);
    out->contamination_factor = fmax(clean, out->contamination_factor);
    return status;
}

static enum spt_status find_life_factor(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    const struct spt_life_factor_inputs in = {
        .type = w->bearing->type,
        .contamination_factor = out->contamination_factor,
        .fatigue_load_limit_n = w->bearing->fatigue_load_limit_n,
        .equivalent_load_n = out->dynamic.load_n,
        .viscosity_ratio = out->effective_viscosity_ratio,
        .ep_additive = w->question->lubricant.ep_additive,
    };
    enum spt_status status = spt_life_factor(&in, &out->factor);
    if (status)
        return status;
    if (in.viscosity_ratio > SPT_KAPPA_MAX)
        spt_notes_add(&out->notes, SPT_FLAG_FILM_CAPPED, in.viscosity_ratio, SPT_KAPPA_MAX);
    if (out->factor.capped)
        spt_notes_add(&out->notes, SPT_FLAG_LIFE_FACTOR_CAPPED, out->factor.a_iso, (double)NAN);
    if (out->factor.ep_applied)
        spt_notes_add(&out->notes, SPT_FLAG_EP_CREDIT, in.viscosity_ratio, (double)NAN);
    if (w->question->lubricant.ep_additive && in.viscosity_ratio < 1 && !out->factor.ep_applied)
        spt_notes_add(&out->notes, SPT_FLAG_EP_NOT_CREDITED, out->contamination_factor,
                      SPT_EP_CLEANLINESS_MIN);
    if (in.viscosity_ratio < THIN_FILM && !out->factor.ep_applied)
        spt_notes_add(&out->notes, SPT_FLAG_FILM_THIN, in.viscosity_ratio, THIN_FILM);
    if (out->present_contamination_factor <= 0 && isnan(w->phase->condition.contamination_factor))
        spt_notes_add(&out->notes, SPT_FLAG_CONTAMINATION_FLOOR, w->bearing->pitch_diameter_mm,
                      (double)NAN);
    if (out->present_contamination_factor < HEAVY_CONTAMINATION)
        spt_notes_add(&out->notes, SPT_FLAG_HEAVY_CONTAMINATION, out->present_contamination_factor,
                      HEAVY_CONTAMINATION);
    return SPT_OK;
}

static enum spt_status find_water_factor(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    double water_ppm = w->phase->condition.water_ppm;
    if (is_cured(w, SPT_CAUSE_WATER))
        water_ppm = fmin(water_ppm, SPT_WATER_REFERENCE_PPM);
    enum spt_status status = spt_water_factor(water_ppm, &out->water_factor);
    if (status)
        return status;
    if (water_ppm > SPT_WATER_TESTED_PPM)
        spt_notes_add(&out->notes, SPT_FLAG_WATER_EXTRAPOLATED, water_ppm, SPT_WATER_TESTED_PPM);
    if (out->water_factor <= SPT_WATER_FLOOR)
        spt_notes_add(&out->notes, SPT_FLAG_WATER_FLOOR, water_ppm, SPT_WATER_FLOOR);
    if (!spt_water_saturation(w->question->lubricant.solubility, out->temperature_c,
                              &out->saturation_ppm) &&
        water_ppm > out->saturation_ppm)
        spt_notes_add(&out->notes, SPT_FLAG_WATER_SATURATED, water_ppm, out->saturation_ppm);
    return SPT_OK;
}

static enum spt_status find_basic_life(struct spt_phase_work *w)
{
    struct spt_phase_result *out = w->out;
    enum spt_status status = spt_life_basic(w->bearing->type, out->dynamic_load_rating_n,
                                            out->dynamic.load_n, &out->basic_rating_life_mrev);
    if (!status)
        status = spt_life_hours(out->basic_rating_life_mrev, w->phase->speed_rpm,
                                &out->basic_rating_life_h);
    return status;
}

static void leave_undamaged(struct spt_phase_result *out)
{
    enum spt_flag flag = out->phase->speed_rpm > 0 ? SPT_FLAG_NO_LOAD : SPT_FLAG_STANDSTILL;
    spt_notes_add(&out->notes, flag, (double)NAN, (double)NAN);
    out->basic_rating_life_mrev = (double)INFINITY;
    out->basic_rating_life_h = (double)INFINITY;
    out->modified_rating_life_h = (double)INFINITY;
}

enum spt_status spt_phase_finish(struct spt_phase_work *w, double duty_interval_h, double a1)
{
    struct spt_phase_result *out = w->out;
    if (!turns_under_load(out)) {
        leave_undamaged(out);
        return SPT_OK;
    }
    if (isnan(out->temperature_factor) || spt_notes_has(&out->notes, SPT_FLAG_RADIAL_NOT_RATED))
        return SPT_OK; /* too hot, or a load that no rating covers; noted */
    enum spt_status status = find_basic_life(w);
    if (status || isnan(out->viscosity_mm2_s))
        return status; /* too cold; noted */
    wear_grease(w, duty_interval_h);
    status = find_water_factor(w);
    if (status)
        return status;
    if (!(out->effective_viscosity_ratio >= SPT_KAPPA_MIN)) {
        if (!spt_notes_has(&out->notes, SPT_FLAG_GREASE_EXHAUSTED))
            spt_notes_add(&out->notes, SPT_FLAG_FILM_TOO_THIN, out->effective_viscosity_ratio,
                          SPT_KAPPA_MIN);
        return SPT_OK;
    }
    if (spt_condition_is_unknown(&w->phase->condition) && !is_cured(w, SPT_CAUSE_DEBRIS))
        return SPT_OK; /* noted with the inputs that are not stated */
    status = find_contamination(w);
    if (!status)
        status = find_life_factor(w);
    if (status)
        return status;
    status = spt_phase_zone(w);
    if (status)
        return status;
    double setting =
        is_cured(w, SPT_CAUSE_SETTING) ? w->phase->cured_setting_factor : w->phase->setting_factor;
    out->modified_rating_life_h = a1 * out->factor.a_iso * out->water_factor * setting *
                                  out->zone.factor * out->basic_rating_life_h;
    return SPT_OK;
}
