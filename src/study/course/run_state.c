/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/course/run.h"

#include <math.h>
#include <stdlib.h>

#include "spalltime/lubricant.h"

static bool is_skipped(int skipped, int influence)
{
    return skipped == SPT_RUN_QUIET || skipped == influence;
}

bool spt_run_skips(const struct spt_run *run, int influence)
{
    return is_skipped(run->skipped, influence);
}

bool spt_run_has_come(double at_h, double time_h)
{
    return at_h <= time_h * (1 + SPT_RUN_SAME_TIME);
}

double spt_run_renewals(double every_h, double time_h)
{
    return every_h > 0 ? floor(time_h / every_h * (1 + SPT_RUN_SAME_TIME)) : 0;
}

double spt_run_clock_start(const struct spt_run *run, double time_h)
{
    double every_h = run->service->oil_change_every_h;
    return every_h > 0 ? every_h * spt_run_renewals(every_h, time_h) : 0;
}

double spt_run_clock(const struct spt_run *run, double time_h)
{
    return fmax(time_h - spt_run_clock_start(run, time_h), 0);
}

/* Progress of a drift: 0 before its start, 1 after its end; `before` where it has not begun. */
static double progress(const struct spt_drift *drift, double time_h, bool *before)
{
    *before = time_h < drift->from_h;
    if (time_h >= drift->to_h)
        return 1;
    return *before ? 0 : (time_h - drift->from_h) / (drift->to_h - drift->from_h);
}

static int class_at(const struct spt_drift *drift, double part)
{
    int steps = abs(drift->class_to - drift->class_from) + 1;
    int step = (int)fmin(floor(part * steps), steps - 1);
    return drift->class_to >= drift->class_from ? drift->class_from + step
                                                : drift->class_from - step;
}

static void apply_dirt(const struct spt_drift *drift, double clock_h, struct spt_adjustment *change)
{
    bool before;
    double part = progress(drift, clock_h, &before);
    if (before)
        return;
    if (!isnan(drift->water_from_ppm))
        change->least_water_ppm =
            fmax(change->least_water_ppm,
                 drift->water_from_ppm + part * (drift->water_to_ppm - drift->water_from_ppm));
    if (drift->class_from >= 0 && class_at(drift, part) > change->cleanest)
        change->cleanest = class_at(drift, part);
}

static void apply_strain(const struct spt_drift *drift, double time_h,
                         struct spt_adjustment *change)
{
    bool before;
    double part = progress(drift, time_h, &before);
    if (before)
        return;
    if (!isnan(drift->load_from))
        change->load_factor *= drift->load_from + part * (drift->load_to - drift->load_from);
    if (!isnan(drift->rise_from_k))
        change->temperature_rise_k +=
            drift->rise_from_k + part * (drift->rise_to_k - drift->rise_from_k);
}

static double first_age_h(const struct spt_case *question)
{
    double age_h = 0;
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++)
            age_h = fmax(age_h, question->bearings[i].phases[j].condition.grease_age_h);
    return age_h;
}

double spt_run_age_at_start(const struct spt_service *service, int skipped, double age_h)
{
    for (int i = 0; i < service->event_count && service->events[i].at_h <= 0; i++)
        if (!isnan(service->events[i].grease_age_h) && !is_skipped(skipped, i))
            age_h = service->events[i].grease_age_h;
    return age_h;
}

static double age_at_start(const struct spt_run *run)
{
    if (run->service->renewed_at_start)
        return 0;
    return spt_run_age_at_start(run->service, run->skipped, first_age_h(run->question));
}

double spt_run_regreasing_at(const struct spt_run *run, double n)
{
    double every_h = run->service->regrease_every_h;
    return spt_regreasing_first(every_h, age_at_start(run)) + (n - 1) * every_h;
}

double spt_run_regreasings(const struct spt_run *run, double time_h)
{
    double every_h = run->service->regrease_every_h;
    if (!(every_h > 0))
        return 0;
    return fmax(floor((time_h * (1 + SPT_RUN_SAME_TIME) - spt_run_regreasing_at(run, 0)) / every_h),
                0);
}

double spt_run_grease_age(const struct spt_run *run, double start_h, double time_h)
{
    const struct spt_service *service = run->service;
    double renewals = spt_run_regreasings(run, start_h);
    double renewed_h = renewals > 0 ? spt_run_regreasing_at(run, renewals) : 0;
    double new_h = renewals > 0 ? renewed_h : -age_at_start(run);
    for (int i = 0; i < service->event_count; i++) {
        const struct spt_event *event = &service->events[i];
        if (isnan(event->grease_age_h) || spt_run_skips(run, i) || event->at_h <= 0 ||
            !spt_run_has_come(event->at_h, start_h) || !spt_run_has_come(renewed_h, event->at_h))
            continue;
        renewed_h = event->at_h;
        new_h = event->at_h - event->grease_age_h;
    }
    return fmax(time_h - new_h, 0);
}

struct spt_adjustment spt_run_adjustment(const struct spt_run *run, double start_h, double time_h)
{
    const struct spt_service *service = run->service;
    struct spt_adjustment change = spt_adjustment_none();
    change.least_age_h = change.most_age_h = spt_run_grease_age(run, start_h, time_h);
    for (int i = 0; i < service->drift_count; i++) {
        if (spt_run_skips(run, service->event_count + i))
            continue;
        apply_dirt(&service->drifts[i], spt_run_clock(run, start_h) + (time_h - start_h), &change);
        apply_strain(&service->drifts[i], time_h, &change);
    }
    return change;
}

int spt_run_case_index(const struct spt_run *run, double time_h)
{
    const struct spt_service *service = run->service;
    int current = SPT_EVENTS_MAX;
    for (int i = 0; i < service->event_count && run->skipped != SPT_RUN_QUIET; i++)
        if (spt_run_has_come(service->events[i].at_h, time_h) && !spt_run_skips(run, i))
            current = i;
    return current;
}

const struct spt_case *spt_run_case_at(const struct spt_run *run, int index)
{
    const struct spt_service *service = run->service;
    int row = run->skipped >= 0 && run->skipped < service->event_count ? run->skipped
                                                                       : service->event_count;
    return index == SPT_EVENTS_MAX ? run->question
                                   : &service->cases[service->event_count * row + index];
}

const struct spt_case *spt_run_case(const struct spt_run *run, double time_h)
{
    return spt_run_case_at(run, spt_run_case_index(run, time_h));
}
