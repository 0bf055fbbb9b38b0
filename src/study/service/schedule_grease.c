/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/schedule_grease.h"

#include <math.h>

#include "spalltime/lubricant.h"
#include "study/service/run.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)

struct spt_schedule_task *spt_schedule_add(struct spt_schedule *out, enum spt_task task,
                                           int bearing, double every_h, enum spt_governor governor)
{
    struct spt_schedule_task *to = &out->tasks[out->task_count++];
    *to = (struct spt_schedule_task){task, bearing, every_h, governor, NONE, 0};
    return to;
}

/* Age of the oldest grease among the phases of one bearing. */
static double age_of(const struct spt_bearing_case *bearing)
{
    double age_h = 0;
    for (int i = 0; i < bearing->phase_count; i++)
        age_h = fmax(age_h, bearing->phases[i].condition.grease_age_h);
    return age_h;
}

/* Regreasing of all bearings that have an interval, at one visit. */
struct service {
    int count, first; /* bearings in it, and the first of them */
    double shortest_h;
    double sum; /* sum of t_f^-slope: all greases together fail like one with the interval
                   sum^(-1/slope) */
    double age_h, quantity_g;
};

static struct service gather(const struct spt_schedule *out)
{
    struct service service = {.shortest_h = NEVER};
    for (int i = 0; i < out->bearing_count; i++) {
        const struct spt_bearing_schedule *bearing = &out->bearings[i];
        if (!isfinite(bearing->interval_h))
            continue;
        if (!service.count++)
            service.first = i;
        service.shortest_h = fmin(service.shortest_h, bearing->interval_h);
        service.sum += pow(bearing->interval_h, -SPT_GREASE_SLOPE);
        service.age_h = fmax(service.age_h, age_of(&out->question->bearings[i]));
        service.quantity_g += bearing->quantity_g;
    }
    return service;
}

/* The interval that the reliability requires; NaN without a horizon. */
static enum spt_status find_needed(const struct spt_schedule *out, const struct service *service,
                                   double *needed_h)
{
    struct spt_regreasing_period period;
    double share = pow(out->question->reliability_percent / 100, SPT_SCHEDULE_GREASE_SHARE);
    *needed_h = NONE;
    if (!(out->horizon_h > 0))
        return SPT_OK;
    enum spt_status status = spt_regreasing_period(pow(service->sum, -1 / SPT_GREASE_SLOPE),
                                                   out->horizon_h, share, &period);
    *needed_h = period.needed_h;
    return status;
}

/* The interval at which the greases are renewed in this plan, without a regreasing that is too
 * frequent in practice. */
static double find_renewal(const struct spt_schedule *out, double repack_h)
{
    const struct spt_schedule_task asked = {.task = SPT_TASK_REGREASE, .every_h = out->regrease_h};
    if (isnan(out->regrease_h))
        return NONE;
    return spt_schedule_is_impractical(out->question, &asked) ? repack_h
                                                              : fmin(out->regrease_h, repack_h);
}

static void renew_each(struct spt_schedule *out, double needed_h)
{
    for (int i = 0; i < out->bearing_count; i++) {
        struct spt_bearing_schedule *bearing = &out->bearings[i];
        if (!isfinite(bearing->interval_h)) {
            spt_schedule_add(out, SPT_TASK_REGREASE, i, NONE, SPT_GOVERNOR_NO_INTERVAL);
            continue;
        }
        bearing->needed_h = needed_h;
        bearing->regrease_h = out->regrease_h;
        bearing->renewed_h = out->renewed_h;
        out->grease[out->grease_count++] =
            (struct spt_grease_plan){bearing->interval_h, bearing->renewed_h};
    }
}

/* Where repacking replaces regreasing, the age of the present grease may make the first repacking
 * due earlier. */
static void hasten_repacking(struct spt_schedule *out)
{
    double left_h = spt_regreasing_first(out->regrease_h, out->grease_age_h);
    for (int i = 0; i < out->task_count; i++)
        if (out->tasks[i].task == SPT_TASK_REPACK)
            out->tasks[i].spent_h = fmax(0, out->tasks[i].every_h - left_h);
}

/* Running hours in SPT_SCHEDULE_GREASE_YEARS calendar years; INFINITY: not known. */
static double calendar_h(const struct spt_case *question)
{
    return question->yearly_use_h > 0 ? SPT_SCHEDULE_GREASE_YEARS * question->yearly_use_h : NEVER;
}

/* The shortest practical interval, see spt_schedule_is_impractical. */
static double practical_h(const struct spt_case *question)
{
    double week_h = SPT_SCHEDULE_WEEK_DAYS / SPT_DAYS_PER_YEAR * question->yearly_use_h;
    return question->yearly_use_h > 0 ? fmin(SPT_SCHEDULE_PRACTICAL_H, week_h)
                                      : SPT_SCHEDULE_PRACTICAL_H;
}

static enum spt_governor find_governor(const struct spt_schedule *out,
                                       const struct service *service, double needed_h)
{
    if (calendar_h(out->question) <= out->regrease_h)
        return SPT_GOVERNOR_GREASE_AGE;
    if (needed_h <= practical_h(out->question) && needed_h < service->shortest_h)
        return SPT_GOVERNOR_LEAST;
    return needed_h < service->shortest_h ? SPT_GOVERNOR_RELIABILITY : SPT_GOVERNOR_GREASE_LIFE;
}

static void add_service(struct spt_schedule *out, const struct service *service, double needed_h)
{
    bool all = service->count == out->bearing_count && service->count > 1;
    struct spt_schedule_task *task =
        spt_schedule_add(out, SPT_TASK_REGREASE, all ? -1 : service->first, out->regrease_h,
                         find_governor(out, service, needed_h));
    task->quantity_g = service->quantity_g;
    task->spent_h = out->grease_age_h;
}

enum spt_status spt_schedule_plan_grease(struct spt_schedule *out, const struct spt_service *stated,
                                         double repack_h)
{
    const struct service service = gather(out);
    double needed_h = NONE;
    if (out->question->lubricant.kind != SPT_LUBRICATION_GREASE)
        return SPT_OK;
    if (service.count) {
        enum spt_status status = find_needed(out, &service, &needed_h);
        if (status)
            return status;
        if (needed_h > 0)
            needed_h = fmax(needed_h, practical_h(out->question));
        out->regrease_h =
            fmin(service.shortest_h, needed_h); /* the bearing whose interval is a number */
        out->regrease_h = fmin(out->regrease_h, calendar_h(out->question));
        out->grease_age_h =
            stated ? spt_run_age_at_start(stated, SPT_RUN_WHOLE, service.age_h) : service.age_h;
        out->repacking_renews = repack_h <= out->regrease_h;
        if (out->repacking_renews)
            hasten_repacking(out);
        else
            add_service(out, &service, needed_h);
    }
    out->renewed_h = find_renewal(out, repack_h);
    renew_each(out, needed_h);
    return SPT_OK;
}
