/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/schedule_policy.h"

#include <math.h>

#include "study/course/damage_path.h"
#include "study/service/schedule_survival.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)

/* ln of the grease survival with a constant failure rate between regreasings; equal to the actual
 * one at each regreasing. */
static double smooth_log_grease(const struct spt_grease_plan *plan, double t_h)
{
    if (isinf(plan->period_h)) /* never renewed */
        return -SPT_GREASE_HAZARD * pow(t_h / plan->interval_h, SPT_GREASE_SLOPE);
    return -SPT_GREASE_HAZARD * pow(plan->period_h / plan->interval_h, SPT_GREASE_SLOPE) * t_h /
           plan->period_h;
}

double spt_schedule_smooth(double t_h, const void *context)
{
    const struct spt_schedule *out = context;
    double sum = spt_schedule_log_fatigue(out, SPT_SCHEDULE_ALL, t_h);
    for (int i = 0; i < out->grease_count; i++)
        sum += smooth_log_grease(&out->grease[i], t_h);
    return exp(sum);
}

static enum spt_status fill_year(const struct spt_schedule_inputs *in,
                                 const struct spt_schedule *out, struct spt_schedule_policy *policy,
                                 const struct spt_replacement_costs *costs)
{
    const struct spt_case *question = in->question;
    const struct spt_replacement_fleet fleet = {spt_case_units(question), question->yearly_use_h};
    if (!(question->yearly_use_h > 0))
        return SPT_OK;
    enum spt_status status = spt_replacement_yearly(&policy->plan, costs, &fleet, &policy->year);
    if (!out->costs_known)
        policy->year.cost = policy->year.cost_none = NONE;
    return status;
}

/* True where there is a mean life to be paid for. */
static bool has_mean_life(const struct spt_schedule *out)
{
    if (!out->life_known || !(spt_schedule_wears(out) || out->grease_count))
        return false;
    return !out->followed || !spt_damage_path_ceases(&out->path) || out->grease_count;
}

enum spt_status spt_schedule_optimum(struct spt_schedule *out)
{
    static const struct spt_replacement_costs same = {1, 2};
    if (!has_mean_life(out))
        return SPT_OK;
    struct spt_schedule fresh = *out;
    fresh.remaining = (struct spt_remaining){.survival = 1}; /* the age is that of a new bearing */
    enum spt_status status = spt_replacement_optimum(
        spt_schedule_smooth, &fresh, out->costs_known ? &out->costs : &same, &out->at_optimum.plan);
    out->optimum_found = status == SPT_OK && out->costs_known;
    return status == SPT_NOT_APPLICABLE ? SPT_OK : status;
}

static enum spt_status weigh(const struct spt_schedule_inputs *in, struct spt_schedule *out)
{
    static const struct spt_replacement_costs same = {1, 2};
    const struct spt_replacement_costs *costs = out->costs_known ? &in->costs : &same;
    if (!has_mean_life(out))
        return SPT_OK;
    struct spt_replacement none = out->at_optimum.plan;
    none.age = NEVER;
    none.survival = 0;
    none.mean_cycle = none.mean_life;
    none.cost_rate = none.cost_rate_none;
    out->run_to_failure.plan = none;
    enum spt_status status = fill_year(in, out, &out->run_to_failure, costs);
    if (!status && out->optimum_found)
        status = fill_year(in, out, &out->at_optimum, costs);
    if (!status && out->reliable_h > 0)
        status = spt_replacement_at(spt_schedule_smooth, out, costs, out->reliable_h,
                                    &out->at_target.plan);
    if (!status && out->reliable_h > 0)
        status = fill_year(in, out, &out->at_target, costs);
    return status;
}

/* The policies are for the long run, in which each bearing is a new one: what has run before only
 * moves the first date. */
enum spt_status spt_schedule_weigh(const struct spt_schedule_inputs *in, struct spt_schedule *out)
{
    if (!(out->remaining.hours_run > 0))
        return weigh(in, out);
    struct spt_schedule fresh = *out;
    enum spt_status status = SPT_OK;
    fresh.remaining = (struct spt_remaining){.survival = 1};
    if (out->life_known && spt_schedule_wears(out))
        status = spt_schedule_life(&fresh, SPT_SCHEDULE_ALL, false,
                                   out->question->reliability_percent / 100, &fresh.reliable_h);
    fresh.age_limit_h += out->remaining.hours_run;
    fresh.reliable_h = fmin(fresh.reliable_h, fresh.age_limit_h);
    fresh.reliable_h = isfinite(fresh.reliable_h) ? fresh.reliable_h : NONE;
    if (!status)
        status = weigh(in, &fresh);
    out->run_to_failure = fresh.run_to_failure;
    out->at_target = fresh.at_target;
    out->at_optimum = fresh.at_optimum;
    out->optimum_found = fresh.optimum_found;
    return status;
}
