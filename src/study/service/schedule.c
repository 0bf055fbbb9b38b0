/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <math.h>
#include <string.h>

#include "spalltime/lubricant.h"
#include "study/course/damage_path.h"
#include "study/life/dents.h"
#include "study/service/care.h"
#include "study/service/plan_life.h"
#include "study/service/schedule_dents.h"
#include "study/service/schedule_grease.h"
#include "study/service/schedule_oil.h"
#include "study/service/schedule_policy.h"
#include "study/service/schedule_survival.h"
#include "study/service/worst_state.h"
#include "study/visit/visits.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)
#define USUAL_LIFE_H 1e5 /* initial value where none is known */
#define INSPECTION_SURVIVAL 0.99

/* State of making the plan. */
struct work {
    const struct spt_schedule_inputs *in;
    struct spt_phase_result *results;
    struct spt_schedule *out;
    double reliability; /* 0 to 1 */
    bool stated_known;  /* every bearing states a life in its condition as stated */
    bool fresh_known;   /* the same with fresh grease, and the laws of those that end */
    int fresh_count;
    struct spt_life_law fresh[SPT_BEARINGS_MAX];
};

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
                                            .regrease_h = NONE,
                                            .quantity_g = NONE,
                                            .renewed_h = NONE,
                                            .inspect_h = NONE,
                                            .replace_h = NONE,
                                            .replace_governor = SPT_GOVERNOR_NO_LIFE};
        spt_oil_change_add(&at_90, &bearing, &w->out->oil);
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

/* The fatigue lives with fresh grease: the plan renews it, whatever its age is now. */
static enum spt_status assess_fresh(struct work *w)
{
    struct spt_case at_90 = *w->in->question;
    at_90.reliability_percent = 90;
    w->fresh_known = true;
    for (int i = 0; i < at_90.bearing_count; i++) {
        struct spt_bearing_result bearing;
        enum spt_status status =
            spt_assess_bearing(&at_90, i, 1u << SPT_CAUSE_WORN_GREASE, w->results, &bearing);
        if (status)
            return status;
        w->fresh_known = w->fresh_known && !isnan(bearing.modified_rating_life_h);
        if (isfinite(bearing.modified_rating_life_h))
            w->fresh[w->fresh_count++] = (struct spt_life_law){bearing.modified_rating_life_h,
                                                               SPT_WEIBULL_SLOPE, w->in->floor};
    }
    return SPT_OK;
}

static const struct spt_service no_service = {
    .regrease_every_h = NONE, .oil_change_every_h = NONE, .until_h = NONE};

/* The service with its drifts and events, but with the renewals of this plan. */
static struct spt_service plan_service(const struct work *w, double change_h)
{
    const struct spt_schedule *out = w->out;
    struct spt_service service = w->in->service ? *w->in->service : no_service;
    if (!isnan(out->renewed_h))
        service.regrease_every_h = isfinite(out->renewed_h) ? out->renewed_h : NONE;
    service.oil_change_every_h = isfinite(change_h) ? change_h : NONE;
    /* as in the survival of the greases; their present age changes the first renewal only */
    service.renewed_at_start =
        service.regrease_every_h > 0 || isfinite(change_h) || out->grease_age_h >= out->regrease_h;
    return service;
}

struct spt_service spt_schedule_service(const struct spt_schedule *schedule,
                                        const struct spt_service *stated)
{
    struct spt_service service = *stated;
    service.regrease_every_h = schedule->followed_regrease_h;
    service.oil_change_every_h = schedule->followed_change_h;
    service.renewed_at_start = schedule->followed_renewed;
    return service;
}

/* True where the condition as stated does not last: drifts, events, or grease, which ages and is
 * renewed. */
static bool has_to_follow(const struct work *w)
{
    const struct spt_service *stated = w->in->service;
    const struct spt_schedule *out = w->out;
    if (!w->in->timeline_workspace)
        return false;
    if (stated && stated->drift_count + stated->event_count)
        return true;
    return out->grease_count > 0 || spt_dents_any(w->in->question);
}

/* The order of the life under the service. */
static double find_scale(const struct work *w, const struct spt_service *service)
{
    const struct spt_life_law *laws = service->renewed_at_start ? w->fresh : w->out->fatigue;
    int count = service->renewed_at_start ? w->fresh_count : w->out->fatigue_count;
    double scale_h = NEVER;
    for (int i = 0; i < count; i++)
        scale_h = fmin(scale_h, laws[i].l10);
    return isfinite(scale_h) ? scale_h : USUAL_LIFE_H;
}

/* Follows the drifts and events of the service, and the ages of the grease, for the survival at any
 * time. */
static enum spt_status follow(struct work *w, const struct spt_service *service)
{
    struct spt_schedule *out = w->out;
    enum spt_status status =
        spt_damage_path(w->in->question, service, w->in->timeline_workspace, SPT_RUN_DENTS_STAY,
                        find_scale(w, service), &out->path);
    out->followed = status == SPT_OK;
    out->follow_failed = status == SPT_NOT_CONVERGED;
    if (out->followed)
        out->life_known = out->path.stopped_h > 0;
    return out->follow_failed ? SPT_OK : status;
}

static bool is_same(double every_h, double other_h)
{
    if (isnan(every_h) || isnan(other_h))
        return isnan(every_h) && isnan(other_h);
    return !(every_h < other_h) && !(every_h > other_h);
}

/* True where the plan renews as the service states. */
static bool renews_alike(const struct spt_schedule *out, const struct spt_service *stated)
{
    return is_same(out->followed_regrease_h, stated->regrease_every_h) &&
           is_same(out->followed_change_h, stated->oil_change_every_h) &&
           (out->followed_renewed == stated->renewed_at_start || !(out->grease_age_h > 0));
}

/* The life under the service to the letter, which may renew the grease later than the plan, or
 * never. Where there are too many renewals to follow it is not known. */
static enum spt_status find_life_to_the_letter(struct work *w)
{
    struct spt_schedule *out = w->out;
    struct spt_plan_life life;
    out->stated_renewals_h = out->life_h;
    out->stated_renewals_stop = out->life_stops;
    if (!w->in->service || renews_alike(out, w->in->service))
        return SPT_OK;
    enum spt_status status =
        spt_plan_life(w->in->question, w->in->service, w->in->timeline_workspace, &life);
    out->stated_renewals_h = status ? NONE : life.life_h;
    out->stated_renewals_stop = life.stops;
    return status == SPT_NOT_CONVERGED ? SPT_OK : status;
}

/* The life under the plan. Where there are too many renewals to follow it is that of the condition
 * as stated. */
static enum spt_status find_life(struct work *w, const struct spt_service *service)
{
    struct spt_schedule *out = w->out;
    struct spt_plan_life life;
    enum spt_status status =
        spt_plan_life(w->in->question, service, w->in->timeline_workspace, &life);
    out->follow_failed = status == SPT_NOT_CONVERGED;
    if (status)
        return out->follow_failed ? SPT_OK : status;
    out->life_h = life.life_h;
    out->life_stops = life.stops;
    out->steady_h = life.steady_h;
    out->cured_h = life.cured_h;
    out->life_known = !isnan(life.life_h);
    return SPT_OK;
}

/* The life under the renewals of this plan, and the damage behind it, which an outline needs for
 * the cheapest age alone. */
static enum spt_status follow_plan(struct work *w, double change_h)
{
    struct spt_schedule *out = w->out;
    enum spt_status status = spt_case_life(w->in->question, w->results, &out->life_h);
    if (out->remaining.hours_run > 0)
        out->life_h = out->remaining.life_h;
    out->steady_h = out->cured_h = out->life_h;
    if (status || !has_to_follow(w))
        return status;
    const struct spt_service service = plan_service(w, change_h);
    out->service_followed = service.drift_count + service.event_count > 0;
    out->followed_regrease_h = service.regrease_every_h;
    out->followed_change_h = service.oil_change_every_h;
    out->followed_renewed = service.renewed_at_start;
    status = find_life(w, &service);
    if (!status)
        status = find_life_to_the_letter(w);
    if (!status && !out->follow_failed && (!w->in->outline || out->costs_known))
        status = follow(w, &service);
    return status;
}

/* What the life would be if cleaning cured dents. */
static enum spt_status weigh_dents(const struct work *w)
{
    const struct spt_service service =
        spt_schedule_service(w->out, w->in->service ? w->in->service : &no_service);
    return spt_schedule_dents(&service, w->in->timeline_workspace, w->out);
}

/* From now; an hour where it is past, as an interval is above 0. */
static double age_limit_h(const struct spt_case *question)
{
    const double year_h = 24 * SPT_DAYS_PER_YEAR;
    if (!(question->age_limit_h > 0) || !(question->yearly_use_h > 0))
        return NEVER;
    const double limit_h = question->age_limit_h / year_h * question->yearly_use_h;
    return question->past.hours_run > 0 ? fmax(limit_h - question->past.hours_run, 1) : limit_h;
}

/* Interval and governor: at least once a year, without yearly hours in the hours of a year of
 * running, as for greasing. A bearing without a life is inspected at once. */
static double find_inspection(const struct spt_schedule *out, enum spt_governor *governor)
{
    double every_h = isinf(out->fatigue_lives.l1_h) ? NONE : out->fatigue_lives.l1_h;
    const double yearly_h = out->question->yearly_use_h;
    const double year_h = yearly_h > 0 ? yearly_h : SPT_YEAR_H;
    *governor = out->life_known ? SPT_GOVERNOR_LIFE_99 : SPT_GOVERNOR_NO_LIFE;
    if (!out->life_known)
        return year_h;
    if (every_h <= year_h)
        return every_h;
    *governor = SPT_GOVERNOR_YEAR;
    return year_h;
}

/* What is done before each season; it is no visit that others keep to. */
static void plan_season(struct work *w)
{
    if (!spt_season_has(w->in->question))
        return;
    struct spt_schedule_task *task = spt_schedule_add(
        w->out, SPT_TASK_READY, -1, w->in->question->yearly_use_h, SPT_GOVERNOR_SEASON);
    task->own_h = NONE;
}

static void plan_inspection(struct work *w)
{
    enum spt_governor governor;
    double every_h = find_inspection(w->out, &governor);
    spt_schedule_add(w->out, SPT_TASK_INSPECT, -1, every_h, governor);
}

/* What ends the fatigue life of a bearing at a finite age. */
static enum spt_governor name_end(const struct spt_schedule *out, double age_h)
{
    return out->followed && age_h >= out->path.stopped_h ? SPT_GOVERNOR_LIFE_ENDS
                                                         : SPT_GOVERNOR_FATIGUE;
}

/* An age that fatigue sets so far away that it asks for no replacement, unless it misses the
 * target.
 */
static enum spt_governor let_go(const struct spt_schedule *out, double age_h,
                                enum spt_governor governor)
{
    const bool fatigue = governor == SPT_GOVERNOR_FATIGUE || governor == SPT_GOVERNOR_LIFE_ENDS;
    const double target_h = out->question->target_life_h - out->remaining.hours_run;
    return fatigue && spt_schedule_is_far(out->question, age_h) && !(age_h < target_h)
               ? SPT_GOVERNOR_FATIGUE_FAR
               : governor;
}

/* Inspection and replacement of each bearing, as if it were alone. */
static void plan_each(struct work *w)
{
    struct spt_schedule *out = w->out;
    for (int i = 0; i < out->bearing_count; i++) {
        struct spt_bearing_schedule *bearing = &out->bearings[i];
        if (!out->life_known)
            continue;
        spt_schedule_life(out, i, false, INSPECTION_SURVIVAL, &bearing->inspect_h);
        if (spt_schedule_life(out, i, false, w->reliability, &bearing->replace_h) == SPT_OK)
            bearing->replace_governor =
                isfinite(bearing->replace_h)
                    ? let_go(out, bearing->replace_h, name_end(out, bearing->replace_h))
                    : SPT_GOVERNOR_NO_WEAR;
    }
}

/* True where the life under the plan is not the age that the target reliability reaches: under
 * another law than that behind a1, or with other lives. */
static bool differs(const struct spt_schedule *out)
{
    return out->floor < SPT_WEIBULL_FLOOR || out->floor > SPT_WEIBULL_FLOOR ||
           out->fatigue_factor < 1 || out->fatigue_factor > 1;
}

/* The age that the target reliability reaches by fatigue: the life under the plan. */
static enum spt_status find_fatigue_age(const struct spt_schedule *out, double *age_h)
{
    *age_h = out->life_h;
    if (!differs(out) || !out->life_known || !spt_schedule_wears(out))
        return SPT_OK;
    return spt_schedule_life(out, SPT_SCHEDULE_ALL, false, out->question->reliability_percent / 100,
                             age_h);
}

/* A bearing greased for life is renewed with its grease, and after ten years where no age is
 * stated. */
static void end_with_grease(const struct spt_schedule *out, double *age_h,
                            enum spt_governor *governor)
{
    const double year_h = out->question->yearly_use_h;
    if (!out->question->lubricant.greased_for_life)
        return;
    if (isfinite(out->grease_life_h) && !(out->grease_life_h >= *age_h)) {
        *age_h = out->grease_life_h;
        *governor = SPT_GOVERNOR_LIFE_GREASE;
    }
    if (isinf(out->age_limit_h) && year_h > 0 && !(SPT_GREASED_FOR_LIFE_YEARS * year_h >= *age_h)) {
        *age_h = SPT_GREASED_FOR_LIFE_YEARS * year_h;
        *governor = SPT_GOVERNOR_LIFE_AGE;
    }
}

/* Age and governor, by fatigue and age alone: a new bearing does not renew the risk of the grease,
 * unless it is greased for life.
 * INFINITY where nothing causes damage, NaN where no life is known. */
static enum spt_status find_replacement(const struct spt_schedule *out, double *age_h,
                                        enum spt_governor *governor)
{
    const double limit_h = out->age_limit_h;
    enum spt_status status = find_fatigue_age(out, age_h);
    if (status)
        return status;
    *governor = isnan(*age_h)                              ? SPT_GOVERNOR_NO_LIFE
                : isinf(*age_h)                            ? SPT_GOVERNOR_NO_WEAR
                : out->life_stops && *age_h >= out->life_h ? SPT_GOVERNOR_LIFE_ENDS
                                                           : SPT_GOVERNOR_FATIGUE;
    if (isfinite(limit_h) && !(limit_h >= *age_h)) {
        *age_h = limit_h;
        *governor = SPT_GOVERNOR_AGE_LIMIT;
    }
    end_with_grease(out, age_h, governor);
    return SPT_OK;
}

/* The cheapest age where that is sooner, in place of the age found above. */
static enum spt_status find_cheapest(struct spt_schedule *out, double *age_h,
                                     enum spt_governor *governor)
{
    enum spt_status status = spt_schedule_optimum(out);
    const double run_h = out->remaining.hours_run; /* of the age, which counts from new */
    const double left_h = fmax(out->at_optimum.plan.age - run_h, 1);
    if (status || !out->optimum_found || !(left_h < *age_h))
        return status;
    *age_h = left_h;
    *governor = SPT_GOVERNOR_COSTS;
    return SPT_OK;
}

static enum spt_status plan_replacement(struct work *w)
{
    double age_h;
    enum spt_status status = find_replacement(w->out, &age_h, &w->out->replace_governor);
    w->out->reliable_h = isfinite(age_h) ? age_h : NONE;
    if (!status && (!w->in->outline || w->out->costs_known))
        status = find_cheapest(w->out, &age_h, &w->out->replace_governor);
    if (status)
        return status;
    w->out->replace_h = isfinite(age_h) ? age_h : NONE;
    w->out->replace_governor = let_go(w->out, w->out->replace_h, w->out->replace_governor);
    spt_schedule_add(w->out, SPT_TASK_REPLACE, -1, w->out->replace_h, w->out->replace_governor);
    return SPT_OK;
}

enum spt_status spt_schedule_intervals(const struct spt_schedule *schedule, double factor,
                                       struct spt_schedule_intervals *intervals)
{
    struct spt_schedule scaled = *schedule;
    enum spt_governor governor;
    enum spt_status status = SPT_OK;
    *intervals = (struct spt_schedule_intervals){NONE, NONE};
    if (!(factor > 0) || isinf(factor))
        return SPT_BAD_ARGUMENT;
    scaled.fatigue_factor = factor;
    if (spt_schedule_wears(&scaled) && scaled.life_known)
        status = spt_schedule_life(&scaled, SPT_SCHEDULE_ALL, false, INSPECTION_SURVIVAL,
                                   &scaled.fatigue_lives.l1_h);
    if (!status)
        status = find_replacement(&scaled, &intervals->replace_h, &governor);
    if (!status)
        status = find_cheapest(&scaled, &intervals->replace_h, &governor);
    intervals->inspect_h = find_inspection(&scaled, &governor);
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
    out->replace_h = out->reliable_h = out->stated_regrease_h = out->regrease_h = NONE;
    out->renewed_h = out->life_h = out->steady_h = out->stated_renewals_h = NONE;
    out->cured_h = out->visit_h = NONE;
    out->replace_governor = SPT_GOVERNOR_NO_LIFE;
    out->grease_life_h = NONE;
    spt_oil_change_begin(question, &out->oil);
    out->age_limit_h = age_limit_h(question);
    out->at_target_life = (struct spt_schedule_point){question->target_life_h, NONE, NONE, NONE};
    out->survival_fatigue = out->survival_grease = NONE;
    out->dents.if_cured_h = out->dents.half_credit_h = NONE;
    out->followed_regrease_h = out->followed_change_h = NONE;
    out->stated_fatigue_lives = no_lives;
    out->fatigue_lives = out->grease_lives = out->combined_lives = no_lives;
    out->run_to_failure = out->at_target = out->at_optimum = no_policy;
}

/* The interval that would keep to the limit of the case. */
static double find_within(const struct spt_schedule *out)
{
    const double limit = out->question->grease_risk_limit, year_h = out->question->yearly_use_h;
    double intervals_h[SPT_BEARINGS_MAX], within_h;
    const struct spt_grease_group group = {intervals_h, out->grease_count,
                                           out->question->units > 0 ? out->question->units : 1};
    for (int i = 0; i < out->grease_count; i++)
        intervals_h[i] = out->grease[i].interval_h;
    if (!(limit > 0) || out->question->lubricant.greased_for_life)
        return NONE;
    return spt_regreasing_period_for(&group, year_h, limit, &within_h) ? NONE : within_h;
}

/* The yearly risk of the greases, whose interval is good to a factor of 2. */
static void weigh_grease(struct spt_schedule *out)
{
    out->grease_risk = spt_schedule_grease_risk(out->question, out->grease, out->grease_count);
    if (out->grease_count)
        out->grease_risk.within_h = find_within(out);
}

/* What the drifts and events of the service bring, beside the life. */
static enum spt_status weigh_worst(const struct work *w, double change_h)
{
    const struct spt_service service = plan_service(w, change_h);
    return spt_schedule_worst(w->in, &service, w->out);
}

/* Survival at the target life, where one is stated. */
static enum spt_status weigh_target(struct spt_schedule *out)
{
    double target_h = out->question->target_life_h;
    enum spt_status status = SPT_OK;
    if (!(target_h > 0))
        return SPT_OK;
    if (out->life_known)
        status = spt_schedule_survival(out, fmax(target_h - out->remaining.hours_run, 0),
                                       &out->at_target_life);
    out->at_target_life.t_h = target_h;
    return status;
}

/* Everything beside the outline. */
static enum spt_status plan_whole(struct work *w)
{
    struct spt_schedule *out = w->out;
    enum spt_status status = spt_schedule_lives(out, w->stated_known);
    if (!status)
        status = weigh_dents(w);
    if (status)
        return status;
    plan_inspection(w);
    plan_season(w);
    plan_each(w);
    spt_visits_align(out, NONE);
    status = plan_replacement(w);
    if (!status && out->replace_h > 0) {
        struct spt_schedule_point point;
        status = spt_schedule_survival(out, out->replace_h, &point);
        out->survival_fatigue = out->life_known ? point.fatigue : NONE;
        out->survival_grease = point.grease;
    }
    spt_schedule_plan_care(out);
    if (!status)
        status = weigh_target(out);
    return status ? status : spt_schedule_weigh(w->in, out);
}

enum spt_status spt_schedule(const struct spt_schedule_inputs *inputs,
                             struct spt_phase_result *results, struct spt_schedule *schedule)
{
    struct work w = {.in = inputs,
                     .results = results,
                     .out = schedule,
                     .reliability = inputs->question->reliability_percent / 100};
    clear(schedule, inputs->question);
    if (!(inputs->floor >= 0) || !(inputs->floor < 1))
        return SPT_BAD_ARGUMENT;
    schedule->floor = inputs->floor;
    schedule->fatigue_factor = 1;
    schedule->costs = inputs->costs;
    schedule->costs_known = inputs->costs.planned > 0 && inputs->costs.failure > 0;
    if (inputs->service)
        schedule->stated_regrease_h = inputs->service->regrease_every_h;
    schedule->stated_oil_change_h = inputs->service ? inputs->service->oil_change_every_h : NONE;
    enum spt_status status = assess(&w);
    if (!status)
        status = spt_remaining(inputs->question, results, &schedule->remaining);
    if (!status)
        status = assess_fresh(&w);
    if (!status)
        status = spt_case_greasing(inputs->question, results, &schedule->greasing);
    w.stated_known = schedule->life_known;
    if (!status)
        spt_oil_change_end(inputs, &schedule->oil);
    double change_h = spt_schedule_plan_oil(inputs, schedule);
    if (!status)
        spt_schedule_plan_grease(schedule, inputs->service, change_h);
    if (!status)
        status = follow_plan(&w, change_h);
    for (int i = 0; i < schedule->bearing_count; i++) /* no life in the past */
        if (isnan(schedule->remaining.spent[i])) {
            schedule->life_known = false;
            schedule->life_h = NONE;
        }
    if (status)
        return status;
    weigh_grease(schedule);
    status = weigh_worst(&w, change_h);
    if (status)
        return status;
    return inputs->outline ? plan_replacement(&w) : plan_whole(&w);
}
