/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/life/check.h"

#include <math.h>

#include "spalltime/assess.h"

static bool is_from(double least, double value)
{
    return isfinite(value) && value >= least;
}

static bool is_none_or_from(double least, double value)
{
    return isnan(value) || is_from(least, value);
}

static bool is_above(double least, double value)
{
    return isfinite(value) && value > least;
}

static bool is_of(int value, int last)
{
    return value >= 0 && value <= last;
}

/* Validates the values that are used only for grease. */
static bool is_grease_state(const struct spt_condition *state)
{
    const struct spt_surroundings *around = &state->surroundings;
    return is_from(0, state->grease_age_h) && is_of((int)around->dust, SPT_DUST_HEAVY_ABRASIVE) &&
           is_of((int)around->moisture, SPT_MOISTURE_SPLASH) &&
           is_of((int)around->vibration, SPT_VIBRATION_HIGH) &&
           is_of((int)around->shaft, SPT_SHAFT_VERTICAL);
}

static bool is_phase(const struct spt_case *question, const struct spt_phase *phase)
{
    return is_from(0, phase->time_share) && is_from(0, phase->speed_rpm) &&
           is_above(0, phase->setting_factor) && is_above(0, phase->cured_setting_factor) &&
           (question->lubricant.kind != SPT_LUBRICATION_GREASE ||
            is_grease_state(&phase->condition));
}

/* All phases run in the same grease. */
static bool is_one_grease(const struct spt_case *question, const struct spt_bearing_case *part)
{
    bool one = true;
    if (question->lubricant.kind == SPT_LUBRICATION_GREASE)
        for (int i = 1; i < part->phase_count; i++)
            one = one &&
                  part->phases[i].condition.grease_age_h == part->phases[0].condition.grease_age_h;
    return one;
}

enum spt_status spt_check_bearing(const struct spt_case *question, int bearing_index)
{
    if (question->bearing_count < 1 || question->bearing_count > SPT_BEARINGS_MAX ||
        !is_of(bearing_index, question->bearing_count - 1))
        return SPT_BAD_ARGUMENT;
    const struct spt_bearing_case *part = &question->bearings[bearing_index];
    double sum = 0;
    if (part->phase_count > SPT_PHASES_MAX)
        return SPT_TOO_SMALL;
    if (!part->phases)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < part->phase_count; i++) {
        if (!is_phase(question, &part->phases[i]))
            return SPT_BAD_ARGUMENT;
        sum += part->phases[i].time_share;
    }
    if (!is_one_grease(question, part))
        return SPT_BAD_ARGUMENT;
    return fabs(sum - 1) <= SPT_SHARE_TOLERANCE ? SPT_OK : SPT_BAD_ARGUMENT;
}

static bool is_event(const struct spt_service *service, int i)
{
    const struct spt_event *event = &service->events[i];
    return is_from(i ? service->events[i - 1].at_h : 0, event->at_h) &&
           is_none_or_from(0, event->grease_age_h);
}

/* Valid where both ends are given, or neither. */
static bool is_pair(double from, double to, double least)
{
    return isnan(from) == isnan(to) && is_none_or_from(least, from) && is_none_or_from(least, to);
}

static bool is_class(const struct spt_case *question, int class)
{
    int first = (int)spt_cleanliness_first(question->lubricant.kind);
    return class >= first && class < first + spt_cleanliness_count(question->lubricant.kind);
}

static bool is_drift(const struct spt_case *question, const struct spt_drift *drift)
{
    bool classes = drift->class_from == -1 && drift->class_to == -1;
    classes =
        classes || (is_class(question, drift->class_from) && is_class(question, drift->class_to));
    return is_from(0, drift->from_h) && is_from(drift->from_h, drift->to_h) &&
           is_pair(drift->water_from_ppm, drift->water_to_ppm, 0) && classes &&
           is_pair(drift->load_from, drift->load_to, 0) &&
           is_pair(drift->rise_from_k, drift->rise_to_k, -SPT_HOTTEST_C);
}

static bool is_period(double every_h)
{
    return isnan(every_h) || is_above(0, every_h);
}

/* True where every one of `count` bearings is valid. */
static bool is_case(const struct spt_case *question, int count)
{
    bool fine = question->bearing_count == count && count > 0;
    for (int i = 0; fine && i < count; i++)
        fine = !spt_check_bearing(question, i);
    return fine;
}

/* The case after each event, with each of the others left out and with none. */
static bool are_cases(const struct spt_case *question, const struct spt_service *service)
{
    int count = (service->event_count + 1) * service->event_count;
    bool fine = !count || service->cases;
    for (int i = 0; fine && i < count; i++)
        fine = is_case(&service->cases[i], question->bearing_count);
    return fine;
}

enum spt_status spt_check_service(const struct spt_case *question,
                                  const struct spt_service *service)
{
    bool fine = is_case(question, question->bearing_count) &&
                is_period(service->regrease_every_h) && is_period(service->oil_change_every_h) &&
                is_period(service->until_h) && is_of(service->event_count, SPT_EVENTS_MAX) &&
                is_of(service->drift_count, SPT_DRIFTS_MAX) && are_cases(question, service);
    for (int i = 0; fine && i < service->event_count; i++)
        fine = is_event(service, i);
    for (int i = 0; fine && i < service->drift_count; i++)
        fine = is_drift(question, &service->drifts[i]);
    return fine ? SPT_OK : SPT_BAD_ARGUMENT;
}

enum spt_status spt_check_times(const double *times_h, int count)
{
    if (count > 0 && !times_h)
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < count; i++)
        if (!is_from(i ? times_h[i - 1] : 0, times_h[i]))
            return SPT_BAD_ARGUMENT;
    return SPT_OK;
}
