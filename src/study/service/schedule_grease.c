/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/schedule_grease.h"

#include <math.h>

#include "spalltime/lubricant.h"
#include "study/course/run.h"
#include "study/visit/visits.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)

struct spt_schedule_task *spt_schedule_add(struct spt_schedule *out, enum spt_task task,
                                           int bearing, double every_h, enum spt_governor governor)
{
    struct spt_schedule_task *to = &out->tasks[out->task_count++];
    *to = (struct spt_schedule_task){
        .task = task, .bearing = bearing, .every_h = every_h, .governor = governor};
    to->quantity_g = NONE;
    spt_visits_round(out->question, to);
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
    double age_h, quantity_g;
};

static struct service gather(const struct spt_schedule *out)
{
    struct service service = {0};
    for (int i = 0; i < out->bearing_count; i++) {
        const struct spt_bearing_schedule *bearing = &out->bearings[i];
        if (!isfinite(bearing->interval_h))
            continue;
        if (!service.count++)
            service.first = i;
        service.age_h = fmax(service.age_h, age_of(&out->question->bearings[i]));
        service.quantity_g += bearing->quantity_g;
    }
    return service;
}

/* The interval at which the greases are renewed in this plan; INFINITY: never. */
static double find_renewal(const struct spt_schedule *out, double repack_h)
{
    if (isnan(out->greasing.interval_h))
        return NONE;
    return isnan(out->regrease_h) ? repack_h : fmin(out->regrease_h, repack_h);
}

static void renew_each(struct spt_schedule *out)
{
    for (int i = 0; i < out->bearing_count; i++) {
        struct spt_bearing_schedule *bearing = &out->bearings[i];
        if (!isfinite(bearing->interval_h)) {
            spt_schedule_add(out, SPT_TASK_REGREASE, i, NONE, SPT_GOVERNOR_NO_INTERVAL);
            continue;
        }
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
            out->tasks[i].spent_h = fmax(0, out->tasks[i].own_h - left_h);
}

/* True where the service states a shorter interval than ours, which then wins. */
static bool is_own(const struct spt_schedule *out)
{
    return out->stated_regrease_h > 0 && !(out->greasing.kept_h <= out->stated_regrease_h);
}

static enum spt_governor find_governor(const struct spt_schedule *out)
{
    const struct spt_greasing *greasing = &out->greasing;
    if (is_own(out))
        return SPT_GOVERNOR_OWN;
    if (isnan(greasing->kept_h))
        return SPT_GOVERNOR_TOO_OFTEN;
    const double by_life_h = spt_regreasing_kept_h(greasing->interval_h);
    const bool aged = greasing->every_h < by_life_h || greasing->kept_h < greasing->every_h;
    const double year_h = out->question->yearly_use_h;
    if (spt_season_has(out->question)) {
        const double months = out->question->season.months;
        const bool by_hours = spt_season_greasings(year_h, months, by_life_h, 0) >=
                              spt_season_greasings(year_h, months, by_life_h, greasing->months);
        return by_hours ? SPT_GOVERNOR_GREASE_LIFE : SPT_GOVERNOR_GREASE_AGE;
    }
    const double days = spt_regreasing_kept_days(greasing->interval_h / year_h * SPT_DAYS_PER_YEAR);
    return aged && !(greasing->every_days >= days) ? SPT_GOVERNOR_GREASE_AGE
                                                   : SPT_GOVERNOR_GREASE_LIFE;
}

static void add_service(struct spt_schedule *out, const struct service *service)
{
    bool all = service->count == out->bearing_count && service->count > 1;
    bool own = is_own(out);
    struct spt_schedule_task *task =
        spt_schedule_add(out, SPT_TASK_REGREASE, all ? -1 : service->first,
                         own ? out->stated_regrease_h : out->greasing.every_h, find_governor(out));
    task->quantity_g = service->quantity_g;
    task->own_h = task->kept_h = out->regrease_h;
    if (!own) {
        task->raw_h = out->greasing.interval_h;
        task->every_days = out->greasing.every_days;
    }
    task->spent_h = out->grease_age_h;
}

/* Greases that nobody renews. The machine lasts until so many of them work as are wanted: t with
 * exp(-0.01005 sum (t/t_f)^2.366) = R. */
static void keep_for_life(struct spt_schedule *out)
{
    const double reliability = out->question->reliability_percent / 100;
    double sum = 0;
    for (int i = 0; i < out->bearing_count; i++) {
        struct spt_bearing_schedule *bearing = &out->bearings[i];
        sum += pow(bearing->interval_h, -SPT_GREASE_SLOPE);
        if (!isfinite(bearing->interval_h))
            continue;
        bearing->renewed_h = NEVER;
        out->grease[out->grease_count++] = (struct spt_grease_plan){bearing->interval_h, NEVER};
    }
    out->renewed_h = NEVER;
    out->grease_life_h = pow(-log(reliability) / (SPT_GREASE_HAZARD * sum), 1 / SPT_GREASE_SLOPE);
}

void spt_schedule_plan_grease(struct spt_schedule *out, const struct spt_service *stated,
                              double repack_h)
{
    const struct service service = gather(out);
    if (out->question->lubricant.kind != SPT_LUBRICATION_GREASE)
        return;
    if (out->question->lubricant.greased_for_life) {
        keep_for_life(out);
        return;
    }
    if (service.count) {
        out->regrease_h = is_own(out) ? out->stated_regrease_h : out->greasing.kept_h;
        out->grease_age_h =
            stated ? spt_run_age_at_start(stated, SPT_RUN_WHOLE, service.age_h) : service.age_h;
        out->repacking_renews = repack_h <= out->regrease_h;
        if (out->repacking_renews)
            hasten_repacking(out);
        else
            add_service(out, &service);
    }
    out->renewed_h = find_renewal(out, repack_h);
    renew_each(out);
}
