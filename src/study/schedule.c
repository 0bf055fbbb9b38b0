/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/schedule.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "model/numeric.h"
#include "spalltime/grease.h"
#include "spalltime/regreasing.h"
#include "study/damage_path.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)
#define DAYS_PER_YEAR 365.25
#define USUAL_LIFE_H 1e5 /* where none is known, to start with */
#define LIFE_MAX_H 1e12
#define INSPECTION_SURVIVAL 0.99
#define ALL (-1)

/* The schedule under way. */
struct work {
    const struct spt_schedule_inputs *in;
    struct spt_phase_result *results;
    struct spt_schedule *out;
    double reliability; /* 0 to 1 */
    bool stated_known;  /* every bearing states a life in its condition as stated */
};

static void add_task(struct spt_schedule *out, enum spt_task task, int bearing, double every_h,
                     enum spt_governor governor)
{
    out->tasks[out->task_count++] =
        (struct spt_schedule_task){task, bearing, every_h, governor, NONE};
}

/* L10 and relubrication interval of each bearing. */
static enum spt_status assess(struct work *w)
{
    struct spt_case at_90 = *w->in->question;
    at_90.reliability_percent = 90;
    w->out->life_known = true;
    for (int i = 0; i < at_90.bearing_count; i++) {
        struct spt_bearing_result bearing;
        struct spt_bearing_schedule *to = &w->out->bearings[i];
        enum spt_status status = spt_assess_bearing(&at_90, i, 0, w->results, &bearing);
        if (status)
            return status;
        *to = (struct spt_bearing_schedule){.l10_h = bearing.modified_rating_life_h,
                                            .interval_h = NONE,
                                            .needed_h = NONE,
                                            .regrease_h = NONE,
                                            .quantity_g = NONE,
                                            .renewed_h = NONE,
                                            .inspect_h = NONE,
                                            .replace_h = NONE,
                                            .replace_governor = SPT_GOVERNOR_NO_LIFE};
        w->out->life_known = w->out->life_known && !isnan(to->l10_h);
        if (isfinite(to->l10_h))
            w->out->fatigue[w->out->fatigue_count++] =
                (struct spt_life_law){to->l10_h, SPT_WEIBULL_SLOPE, w->in->floor};
        if (at_90.lubricant.kind != SPT_LUBRICATION_GREASE)
            continue;
        to->interval_h = bearing.grease_interval_h;
        status = spt_grease_quantity(at_90.bearings[i].bearing.outside_diameter_mm,
                                     at_90.bearings[i].bearing.width_mm, &to->quantity_g);
        if (status)
            to->quantity_g = NONE; /* a width that is not stated */
    }
    return SPT_OK;
}

static struct spt_survival_system fatigue_of(const struct spt_schedule *out)
{
    return (struct spt_survival_system){out->fatigue_count, out->fatigue, 0, NULL};
}

static struct spt_survival_system grease_of(const struct spt_schedule *out)
{
    return (struct spt_survival_system){0, NULL, out->grease_count, out->grease};
}

/* The time over which the greases have to last. */
static enum spt_status find_horizon(struct work *w)
{
    struct spt_schedule *out = w->out;
    const struct spt_survival_system fatigue = fatigue_of(out);
    out->horizon_h = w->in->question->target_life_h;
    if (out->horizon_h > 0 || !out->fatigue_count || !out->life_known)
        return SPT_OK;
    return spt_survival_life(&fatigue, w->reliability, &out->horizon_h);
}

/* `repack_h`: INFINITY where the grease is never cleaned out. */
static enum spt_status plan_regreasing(struct work *w, double repack_h)
{
    struct spt_schedule *out = w->out;
    for (int i = 0; i < out->bearing_count; i++) {
        struct spt_bearing_schedule *bearing = &out->bearings[i];
        enum spt_governor governor = SPT_GOVERNOR_GREASE_LIFE;
        if (!isfinite(bearing->interval_h))
            continue;
        bearing->regrease_h = bearing->interval_h;
        if (out->horizon_h > 0) {
            struct spt_regreasing_period period;
            enum spt_status status =
                spt_regreasing_period(bearing->interval_h, out->horizon_h, w->reliability, &period);
            if (status)
                return status;
            bearing->needed_h = period.needed_h;
            bearing->regrease_h = period.recommended_h;
            if (!period.capped)
                governor = SPT_GOVERNOR_RELIABILITY;
        }
        bearing->renewed_h = fmin(bearing->regrease_h, repack_h);
        out->grease[out->grease_count++] =
            (struct spt_grease_plan){bearing->interval_h, bearing->renewed_h};
        if (repack_h <= bearing->regrease_h) {
            out->repacking_renews = true;
            continue;
        }
        add_task(out, SPT_TASK_REGREASE, i, bearing->regrease_h, governor);
        out->tasks[out->task_count - 1].quantity_g = bearing->quantity_g;
    }
    return SPT_OK;
}

static bool starts_beyond(const struct spt_case *question, const struct spt_service_limits *limits)
{
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const struct spt_condition *state = &question->bearings[i].phases[j].condition;
            if (state->water_ppm > limits->water_ppm)
                return true;
            if (limits->cleanliness >= 0 && isnan(state->contamination_factor) &&
                (int)state->cleanliness > limits->cleanliness)
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

/* Gives the interval of repacking, INFINITY where there is none. */
static double plan_oil(struct work *w)
{
    static const enum spt_task tasks[] = {[SPT_LUBRICATION_GREASE] = SPT_TASK_REPACK,
                                          [SPT_LUBRICATION_OIL_BATH] = SPT_TASK_OIL_CHANGE,
                                          [SPT_LUBRICATION_CIRCULATING] = SPT_TASK_OIL_OR_FILTER};
    enum spt_governor governor;
    double every_h =
        spt_schedule_limit_time(w->in->question, w->in->service, &w->in->limits, &governor);
    if (isinf(every_h))
        return NEVER;
    add_task(w->out, tasks[w->in->question->lubricant.kind], -1, every_h > 0 ? every_h : NONE,
             governor);
    return every_h > 0 ? every_h : NEVER;
}

/* The longest regreasing of the plan, or the stated one where it has none. */
static double regrease_of(const struct spt_schedule *out, double repack_h)
{
    double longest_h = NONE;
    for (int i = 0; i < out->bearing_count; i++)
        longest_h = fmax(longest_h, out->bearings[i].regrease_h); /* the one that is a number */
    return isnan(longest_h) ? out->stated_regrease_h : fmin(longest_h, repack_h);
}

/* Follows the drifts and events of the service, if there are any. */
static enum spt_status follow(struct work *w, double change_h)
{
    struct spt_schedule *out = w->out;
    const struct spt_service *stated = w->in->service;
    if (!stated || !w->in->timeline_room || !(stated->drift_count + stated->event_count))
        return SPT_OK;
    struct spt_service service = *stated;
    service.regrease_every_h = regrease_of(out, change_h);
    if (isfinite(change_h))
        service.oil_change_every_h = change_h;
    out->followed_regrease_h = service.regrease_every_h;
    out->followed_change_h = service.oil_change_every_h;
    double scale_h = NEVER;
    for (int i = 0; i < out->fatigue_count; i++)
        scale_h = fmin(scale_h, out->fatigue[i].l10);
    enum spt_status status =
        spt_damage_path(w->in->question, &service, w->in->timeline_room,
                        isfinite(scale_h) ? scale_h : USUAL_LIFE_H, &out->path);
    out->followed = status == SPT_OK;
    out->follow_failed = status == SPT_NOT_CONVERGED;
    if (out->followed)
        out->life_known = out->path.stopped_h > 0;
    return out->follow_failed ? SPT_OK : status;
}

static bool wears(const struct spt_schedule *out)
{
    return out->followed ? spt_damage_path_wears(&out->path) : out->fatigue_count > 0;
}

/* ln of the share that the fatigue of one bearing leaves, of a known life. */
static double log_fatigue_of(const struct spt_schedule *out, int bearing, double t_h)
{
    struct spt_life_law law = {out->bearings[bearing].l10_h, SPT_WEIBULL_SLOPE, out->floor};
    double log_survival;
    if (!out->followed && isinf(law.l10))
        return 0;
    if (out->followed) {
        law.l10 = 1;
        t_h = spt_damage_path_at(&out->path, bearing, t_h);
    }
    return spt_survival_log_fatigue(&law, t_h, &log_survival) ? NONE : log_survival;
}

/* The same of one bearing, or of all (ALL). */
static double log_fatigue(const struct spt_schedule *out, int bearing, double t_h)
{
    double sum = 0;
    if (out->followed && t_h > out->path.stopped_h)
        return -NEVER;
    for (int i = 0; i < out->bearing_count; i++)
        if (bearing == ALL || bearing == i)
            sum += log_fatigue_of(out, i, t_h);
    return sum;
}

/* ln of the share of the greases that last. */
static double log_grease(const struct spt_schedule *out, int bearing, double t_h)
{
    double sum = 0, part;
    for (int i = 0; i < out->bearing_count; i++) {
        const struct spt_grease_plan plan = {out->bearings[i].interval_h,
                                             out->bearings[i].renewed_h};
        if ((bearing == ALL || bearing == i) && isfinite(plan.interval_h))
            sum += spt_regreasing_survival(&plan, t_h, &part) ? NONE : log(part);
    }
    return sum;
}

/* What a life is looked for. */
struct aim {
    const struct spt_schedule *out;
    int bearing; /* ALL: the machine */
    bool greases;
    double log_survival;
};

static double miss_aim(double t_h, void *context)
{
    const struct aim *aim = context;
    double sum = log_fatigue(aim->out, aim->bearing, t_h);
    if (aim->greases)
        sum += log_grease(aim->out, aim->bearing, t_h);
    return fmax(sum, -700) - aim->log_survival; /* finite where the share underflows */
}

/* Age that a share of one bearing or of the machines reaches, of fatigue alone or with the greases.
 * Status: SPT_NOT_CONVERGED where that lies beyond LIFE_MAX_H. */
static enum spt_status find_life(const struct spt_schedule *out, int bearing, bool greases,
                                 double survival, double *life_h)
{
    struct aim aim = {out, bearing, greases, log(survival)};
    gsl_function function = {miss_aim, &aim};
    double high_h = 1;
    while (high_h < LIFE_MAX_H && miss_aim(high_h, &aim) > 0)
        high_h *= 2;
    *life_h = NONE;
    if (out->followed && isfinite(out->path.stopped_h) && miss_aim(out->path.stopped_h, &aim) > 0) {
        *life_h = out->path.stopped_h; /* so many are left when it ends */
        return SPT_OK;
    }
    if (high_h >= LIFE_MAX_H)
        return SPT_NOT_CONVERGED;
    return spt_numeric_root(&function, 0,
                            out->followed ? fmin(high_h, out->path.stopped_h) : high_h, life_h);
}

static enum spt_status find_all_lives(const struct spt_schedule *out, bool greases,
                                      struct spt_survival_lives *lives)
{
    enum spt_status status = find_life(out, ALL, greases, 0.50, &lives->l50_h);
    if (!status)
        status = find_life(out, ALL, greases, 0.90, &lives->l10_h);
    if (!status)
        status = find_life(out, ALL, greases, 0.95, &lives->l5_h);
    if (!status)
        status = find_life(out, ALL, greases, 0.99, &lives->l1_h);
    return status;
}

static enum spt_status find_lives(struct work *w)
{
    struct spt_schedule *out = w->out;
    const struct spt_survival_system fatigue = fatigue_of(out), grease = grease_of(out);
    enum spt_status status = SPT_OK;
    if (out->fatigue_count && w->stated_known)
        status = spt_survival_lives(&fatigue, &out->stated_fatigue_lives);
    if (!status && wears(out) && out->life_known)
        status = find_all_lives(out, false, &out->fatigue_lives);
    if (!status && out->grease_count)
        status = spt_survival_lives(&grease, &out->grease_lives);
    if (!status && out->life_known && (wears(out) || out->grease_count))
        status = find_all_lives(out, true, &out->combined_lives);
    return status;
}

static void plan_inspection(struct work *w)
{
    double every_h = w->out->fatigue_lives.l1_h;
    enum spt_governor governor = SPT_GOVERNOR_LIFE_99;
    if (!w->out->life_known)
        governor = SPT_GOVERNOR_NO_LIFE;
    if (w->in->question->yearly_use_h > 0 && !(every_h <= w->in->question->yearly_use_h)) {
        every_h = w->in->question->yearly_use_h;
        governor = SPT_GOVERNOR_YEAR;
    }
    if (!isnan(every_h) || governor == SPT_GOVERNOR_NO_LIFE)
        add_task(w->out, SPT_TASK_INSPECT, -1, every_h, governor);
}

static double age_limit_h(const struct spt_case *question)
{
    const double year_h = 24 * DAYS_PER_YEAR;
    if (!(question->age_limit_h > 0) || !(question->yearly_use_h > 0))
        return NEVER;
    return question->age_limit_h / year_h * question->yearly_use_h;
}

/* What takes the larger part of the failures of one bearing or all up to an age. */
static enum spt_governor blame(const struct spt_schedule *out, int bearing, double age_h)
{
    if (!isfinite(age_h))
        return SPT_GOVERNOR_FATIGUE;
    if (log_grease(out, bearing, age_h) < log_fatigue(out, bearing, age_h))
        return SPT_GOVERNOR_GREASE;
    return out->followed && age_h >= out->path.stopped_h ? SPT_GOVERNOR_LIFE_ENDS
                                                         : SPT_GOVERNOR_FATIGUE;
}

/* Inspection and replacement of each bearing, as if it were alone. */
static void plan_each(struct work *w)
{
    struct spt_schedule *out = w->out;
    for (int i = 0; i < out->bearing_count; i++) {
        struct spt_bearing_schedule *bearing = &out->bearings[i];
        if (!out->life_known)
            continue;
        /* what lasts beyond LIFE_MAX_H has none: NaN */
        find_life(out, i, false, INSPECTION_SURVIVAL, &bearing->inspect_h);
        if (find_life(out, i, true, w->reliability, &bearing->replace_h) == SPT_OK)
            bearing->replace_governor = blame(out, i, bearing->replace_h);
    }
}

static enum spt_status plan_replacement(struct work *w)
{
    struct spt_schedule *out = w->out;
    double age_h = NONE, limit_h = age_limit_h(w->in->question);
    enum spt_governor governor;
    enum spt_status status = SPT_OK;
    if (!out->life_known && isinf(limit_h)) {
        add_task(out, SPT_TASK_REPLACE, -1, NONE, SPT_GOVERNOR_NO_LIFE);
        return SPT_OK;
    }
    if (out->life_known && (wears(out) || out->grease_count))
        status = find_life(out, ALL, true, w->reliability, &age_h);
    if (status)
        return status;
    governor = blame(out, ALL, age_h);
    if (!(age_h <= limit_h)) {
        age_h = limit_h;
        governor = SPT_GOVERNOR_AGE_LIMIT;
    }
    if (isinf(age_h))
        return SPT_OK; /* nothing wears it out */
    out->replace_h = age_h;
    add_task(out, SPT_TASK_REPLACE, -1, age_h, governor);
    return SPT_OK;
}

/* ln of the grease survival with a steady rate between regreasings; the same at each of them. */
static double smooth_log_grease(const struct spt_grease_plan *plan, double t_h)
{
    return -SPT_GREASE_HAZARD * pow(plan->period_h / plan->interval_h, SPT_GREASE_SLOPE) * t_h /
           plan->period_h;
}

static double survive_smoothly(double t_h, const void *context)
{
    const struct spt_schedule *out = context;
    double sum = log_fatigue(out, ALL, t_h);
    for (int i = 0; i < out->grease_count; i++)
        sum += smooth_log_grease(&out->grease[i], t_h);
    return exp(sum);
}

static enum spt_status fill_year(struct work *w, struct spt_schedule_policy *policy,
                                 const struct spt_replacement_costs *costs)
{
    const struct spt_case *question = w->in->question;
    const struct spt_replacement_fleet fleet = {question->fleet > 0 ? question->fleet : 1,
                                                question->yearly_use_h};
    if (!(question->yearly_use_h > 0))
        return SPT_OK;
    enum spt_status status = spt_replacement_yearly(&policy->plan, costs, &fleet, &policy->year);
    if (!w->out->costs_known)
        policy->year.cost = policy->year.cost_none = NONE;
    return status;
}

/* Failures and costs of each way of replacing. */
static enum spt_status weigh_policies(struct work *w)
{
    struct spt_schedule *out = w->out;
    const struct spt_replacement_costs same = {1, 2};
    const struct spt_replacement_costs *costs = out->costs_known ? &w->in->costs : &same;
    if (!out->life_known || !(wears(out) || out->grease_count))
        return SPT_OK;
    enum spt_status status =
        spt_replacement_optimum(survive_smoothly, out, costs, &out->at_optimum.plan);
    out->optimum_found = status == SPT_OK && out->costs_known;
    if (status && status != SPT_NOT_APPLICABLE)
        return status;
    struct spt_replacement none = out->at_optimum.plan;
    none.age = NEVER;
    none.survival = 0;
    none.mean_cycle = none.mean_life;
    none.cost_rate = none.cost_rate_none;
    out->run_to_failure.plan = none;
    status = fill_year(w, &out->run_to_failure, costs);
    if (!status && out->optimum_found)
        status = fill_year(w, &out->at_optimum, costs);
    if (!status && out->replace_h > 0)
        status =
            spt_replacement_at(survive_smoothly, out, costs, out->replace_h, &out->at_target.plan);
    if (!status && out->replace_h > 0)
        status = fill_year(w, &out->at_target, costs);
    return status;
}

static void clear(struct spt_schedule *out, const struct spt_case *question)
{
    static const struct spt_survival_lives no_lives = {NONE, NONE, NONE, NONE};
    static const struct spt_schedule_policy no_policy = {{NONE, NONE, NONE, NONE, NONE, NONE},
                                                         {NONE, NONE, NONE, NONE, NONE}};
    memset(out, 0, sizeof *out);
    out->question = question;
    out->bearing_count = question->bearing_count;
    out->horizon_h = out->replace_h = out->stated_regrease_h = NONE;
    out->survival_fatigue = out->survival_grease = NONE;
    out->followed_regrease_h = out->followed_change_h = NONE;
    out->stated_fatigue_lives = no_lives;
    out->fatigue_lives = out->grease_lives = out->combined_lives = no_lives;
    out->run_to_failure = out->at_target = out->at_optimum = no_policy;
}

enum spt_status spt_schedule(const struct spt_schedule_inputs *inputs,
                             struct spt_phase_result *results, struct spt_schedule *schedule)
{
    struct work w = {inputs, results, schedule, inputs->question->reliability_percent / 100, false};
    clear(schedule, inputs->question);
    if (!(inputs->floor >= 0) || !(inputs->floor < 1))
        return SPT_BAD_ARGUMENT;
    schedule->floor = inputs->floor;
    schedule->costs_known = inputs->costs.planned > 0 && inputs->costs.failure > 0;
    if (inputs->service)
        schedule->stated_regrease_h = inputs->service->regrease_every_h;
    enum spt_status status = assess(&w);
    if (!status)
        status = find_horizon(&w);
    w.stated_known = schedule->life_known;
    double change_h = plan_oil(&w);
    if (!status)
        status = plan_regreasing(&w, change_h);
    if (!status)
        status = follow(&w, change_h);
    if (!status)
        status = find_lives(&w);
    if (status)
        return status;
    plan_inspection(&w);
    plan_each(&w);
    status = plan_replacement(&w);
    if (!status && schedule->replace_h > 0) {
        struct spt_schedule_point point;
        status = spt_schedule_survival(schedule, schedule->replace_h, &point);
        schedule->survival_fatigue = point.fatigue;
        schedule->survival_grease = point.grease;
    }
    return status ? status : weigh_policies(&w);
}

enum spt_status spt_schedule_survival(const struct spt_schedule *schedule, double t_h,
                                      struct spt_schedule_point *point)
{
    const struct spt_survival_system fatigue = fatigue_of(schedule), grease = grease_of(schedule);
    enum spt_status status = SPT_OK;
    *point = (struct spt_schedule_point){t_h, 1, 1, NONE};
    if (schedule->followed && (!(t_h >= 0) || isinf(t_h)))
        status = SPT_BAD_ARGUMENT;
    else if (schedule->followed)
        point->fatigue = exp(log_fatigue(schedule, ALL, t_h));
    else if (schedule->fatigue_count)
        status = spt_survival_of_system(&fatigue, t_h, &point->fatigue);
    if (!status && schedule->grease_count)
        status = spt_survival_of_system(&grease, t_h, &point->grease);
    if (!status)
        point->combined = point->fatigue * point->grease;
    return status;
}

/* The task that comes next after what `done` says; -1 when all lie beyond the end. */
static int find_next(const struct spt_schedule *schedule, const int *done, double end_h,
                     double *at_h)
{
    int next = -1;
    *at_h = NEVER;
    for (int i = 0; i < schedule->task_count; i++) {
        const struct spt_schedule_task *task = &schedule->tasks[i];
        double time_h = (done[i] + 1) * task->every_h;
        bool last = task->task == SPT_TASK_REPLACE;
        if (isnan(time_h) || (last && done[i]) || time_h >= *at_h ||
            (last ? time_h > end_h : time_h > end_h * (1 - 1e-9)))
            continue;
        next = i;
        *at_h = time_h;
    }
    return next;
}

int spt_schedule_calendar(const struct spt_schedule *schedule, struct spt_schedule_entry *entries,
                          int room, bool *cut)
{
    int done[SPT_SCHEDULE_TASKS_MAX] = {0};
    double end_h =
        schedule->replace_h > 0 ? schedule->replace_h : schedule->question->target_life_h;
    double at_h;
    int count = 0;
    *cut = false;
    if (!(end_h > 0))
        return 0;
    for (;;) {
        int next = find_next(schedule, done, end_h, &at_h);
        if (next < 0)
            return count;
        if (count == room) {
            *cut = true;
            return count;
        }
        entries[count++] = (struct spt_schedule_entry){next, ++done[next], at_h};
    }
}

double spt_schedule_days(const struct spt_case *question, double at_h)
{
    return question->yearly_use_h > 0 ? at_h / question->yearly_use_h * DAYS_PER_YEAR : NONE;
}
