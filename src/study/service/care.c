/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/care.h"

#include <math.h>
#include <stddef.h>

#include "base/table.h"
#include "spalltime/lubricant.h"
#include "study/life/greasing.h"
#include "study/visit/visits.h"

#define NONE ((double)NAN)
#define OPEN_KM 20000.0       /* of trailers (trade pages) */
#define SEASONAL_USE_H 2200.0 /* a year: less is taken to stand for months (our choice) */

typedef bool (*rule)(const struct spt_schedule *out);

static bool is_oil(const struct spt_schedule *out)
{
    return out->question->lubricant.kind != SPT_LUBRICATION_GREASE;
}

static bool is_greased(const struct spt_schedule *out)
{
    return !is_oil(out) && !out->question->lubricant.greased_for_life;
}

static bool is_hub(const struct spt_schedule *out)
{
    return out->question->hub || out->question->vehicle_hub;
}

static bool is_opened(const struct spt_schedule *out)
{
    return is_greased(out) && is_hub(out);
}

/* True where a condition of the duty answers to `asks`. */
static bool any_state(const struct spt_schedule *out,
                      bool (*asks)(const struct spt_case *question, const struct spt_phase *phase))
{
    for (int i = 0; i < out->bearing_count; i++)
        for (int j = 0; j < out->question->bearings[i].phase_count; j++)
            if (asks(out->question, &out->question->bearings[i].phases[j]))
                return true;
    return false;
}

/* A labyrinth in abrasive or wet surroundings. */
static bool has_seal_to_purge(const struct spt_case *question, const struct spt_phase *phase)
{
    const struct spt_condition *state = &phase->condition;
    const struct spt_sealing *sealing = &state->sealing;
    (void)question;
    return sealing->stated && sealing->seal == SPT_SEAL_LABYRINTH &&
           (sealing->place >= (int)SPT_PLACE_QUARRY ||
            spt_seal_inflow(sealing).wet >= (int)SPT_WET_RAIN ||
            state->surroundings.dust >= SPT_DUST_LIGHT_ABRASIVE ||
            state->surroundings.moisture == SPT_MOISTURE_SPLASH);
}

static bool has_breather(const struct spt_case *question, const struct spt_phase *phase)
{
    const struct spt_sealing *sealing = &phase->condition.sealing;
    (void)question;
    return sealing->stated && sealing->breather >= 0 && sealing->breather != SPT_BREATHER_CLOSED;
}

static bool has_filter(const struct spt_case *question, const struct spt_phase *phase)
{
    (void)question;
    return phase->condition.filtered && phase->condition.filter.place != SPT_FILTER_NONE;
}

static bool is_wet_cold(const struct spt_case *question, const struct spt_phase *phase)
{
    double free_ppm;
    return spt_condition_is_wet_cold(question, &phase->condition, &free_ppm);
}

static bool purges_seal(const struct spt_schedule *out)
{
    return any_state(out, has_seal_to_purge);
}

static bool breathes(const struct spt_schedule *out)
{
    return is_oil(out) && any_state(out, has_breather);
}

static bool filters(const struct spt_schedule *out)
{
    return is_oil(out) && any_state(out, has_filter);
}

static bool is_laid_up(const struct spt_schedule *out)
{
    return out->question->yearly_use_h < SEASONAL_USE_H;
}

static bool drops_water(const struct spt_schedule *out)
{
    return any_state(out, is_wet_cold);
}

/* The tasks with their times. Common practice, no single source; opening and washing: trade pages
 * of trailers; standing: the lay-up guide of an insurer and storage pages. */
static const struct {
    rule applies;
    double first_h, every_h;
    int months;
} tasks[] = {
    [SPT_CARE_END_PLAY] = {is_hub, 50, NONE, 12},
    [SPT_CARE_LOOK] = {is_greased, NONE, NONE, 3},
    [SPT_CARE_OPEN] = {is_opened, NONE, NONE, 12},
    [SPT_CARE_PURGE_SEAL] = {purges_seal, NONE, 200, 1},
    [SPT_CARE_SAMPLE] = {is_oil, 50, 500, 3},
    [SPT_CARE_BREATHER] = {breathes, NONE, NONE, 12},
    [SPT_CARE_FILTER] = {filters, NONE, NONE, 12},
    [SPT_CARE_TURN] = {is_laid_up, NONE, NONE, 1},
    [SPT_CARE_LAY_UP] = {is_laid_up, NONE, NONE, 0},
    [SPT_CARE_FREE_WATER] = {drops_water, NONE, NONE, 0},
};
SPT_ONE_EACH(tasks, SPT_CARE_COUNT);

/* Opening after so many hours, at one of the visits or rounded down to what a workshop keeps. */
static double keep_opening(const struct spt_schedule *out, double every_h)
{
    const double visit_h = spt_visits_multiple(out->visit_h, every_h);
    return isnan(visit_h) ? spt_regreasing_kept_h(every_h) : visit_h;
}

/* Hours that depend on the plan. */
static double find_hours(const struct spt_schedule *out, enum spt_care care)
{
    if (care == SPT_CARE_LOOK)
        return out->regrease_h;
    if (care == SPT_CARE_OPEN && out->question->road_speed_km_h > 0)
        return keep_opening(out, OPEN_KM / out->question->road_speed_km_h);
    return tasks[care].every_h;
}

/* Days between two times. Hours of a season are no even part of a year. */
static double find_days(const struct spt_schedule *out, double every_h, int months)
{
    const double raw_days =
        spt_season_has(out->question) ? NONE : spt_schedule_days(out->question, every_h);
    const double by_calendar = months ? months * SPT_DAYS_PER_YEAR / 12 : NONE;
    return fmin(spt_regreasing_kept_days(raw_days), by_calendar); /* passes over NaN */
}

/* What follows on a new machine is done in one that has run so long. */
static double find_first(const struct spt_schedule *out, enum spt_care care)
{
    return out->remaining.hours_run >= tasks[care].first_h ? NONE : tasks[care].first_h;
}

void spt_schedule_plan_care(struct spt_schedule *out)
{
    for (int i = 0; i < SPT_CARE_COUNT; i++) {
        if (!tasks[i].applies(out))
            continue;
        const double every_h = find_hours(out, (enum spt_care)i);
        out->care[out->care_count++] = (struct spt_care_task){
            .care = (enum spt_care)i,
            .first_h = find_first(out, (enum spt_care)i),
            .every_h = every_h,
            .months = tasks[i].months,
            .every_days = find_days(out, every_h, tasks[i].months),
        };
    }
}
