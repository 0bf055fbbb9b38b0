/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdlib.h>

#include "spalltime/service.h"

#define NEVER ((double)INFINITY)

static bool starts_beyond(const struct spt_case *question, const struct spt_service_limits *limits)
{
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const struct spt_condition *state = &question->bearings[i].phases[j].condition;
            if (state->water_ppm > limits->water_ppm)
                return true;
            if (limits->cleanliness >= 0 && isnan(state->contamination_factor) &&
                !spt_condition_is_unknown(state) && (int)state->cleanliness > limits->cleanliness)
                return true;
        }
    return false;
}

/* When the water of a drift reaches the limit. */
static double water_time_h(const struct spt_drift *drift, double limit_ppm)
{
    double rise_ppm = drift->water_to_ppm - drift->water_from_ppm;
    if (isnan(limit_ppm) || isnan(drift->water_from_ppm))
        return NEVER;
    if (drift->water_from_ppm >= limit_ppm)
        return drift->from_h;
    if (drift->water_to_ppm < limit_ppm)
        return NEVER;
    return drift->from_h +
           (limit_ppm - drift->water_from_ppm) / rise_ppm * (drift->to_h - drift->from_h);
}

/* When the class of a drift gets dirtier than the limit; each class holds for an equal time. */
static double class_time_h(const struct spt_drift *drift, int limit)
{
    int steps = abs(drift->class_to - drift->class_from) + 1;
    int step = limit + 1 - drift->class_from;
    if (limit < 0 || drift->class_from < 0)
        return NEVER;
    if (drift->class_from > limit)
        return drift->from_h;
    if (drift->class_to <= limit)
        return NEVER;
    return drift->from_h + (double)step / steps * (drift->to_h - drift->from_h);
}

double spt_schedule_limit_time(const struct spt_case *question, const struct spt_service *service,
                               const struct spt_service_limits *limits, enum spt_governor *governor)
{
    double first_h = NEVER;
    *governor = SPT_GOVERNOR_LIMIT_PASSED;
    if (starts_beyond(question, limits))
        return 0;
    for (int i = 0; service && i < service->drift_count; i++) {
        double water_h = water_time_h(&service->drifts[i], limits->water_ppm);
        double class_h = class_time_h(&service->drifts[i], limits->cleanliness);
        if (fmin(water_h, class_h) >= first_h)
            continue;
        first_h = fmin(water_h, class_h);
        *governor = water_h <= class_h ? SPT_GOVERNOR_WATER : SPT_GOVERNOR_CLEANLINESS;
    }
    if (first_h <= 0)
        *governor = SPT_GOVERNOR_LIMIT_PASSED;
    return first_h;
}
