/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/cost.h"

#include <math.h>
#include <stddef.h>

#include "model/numeric.h"
#include "study/service/schedule_policy.h"
#include "study/service/schedule_survival.h"

#define NONE ((double)NAN)
#define SAME 0.01 /* relative change below which a hazard counts as no smaller (our choice) */

double spt_cost_annuity(double interest, double years)
{
    if (!(interest >= 0) || isinf(interest) || !(years > 0) || isinf(years))
        return NONE;
    return interest > 0 ? interest / -expm1(-years * log1p(interest)) : 1 / years;
}

static double or_nothing(double amount)
{
    return isnan(amount) ? 0 : amount;
}

static bool are_valid(const struct spt_costs *costs)
{
    const double all[] = {costs->visit,      costs->downtime, costs->job_h,
                          costs->wage_per_h, costs->grease,   costs->investment};
    bool valid = costs->planned > 0 && costs->failure > 0;
    for (size_t i = 0; i < sizeof all / sizeof *all; i++)
        valid = valid && !(all[i] < 0) && !isinf(all[i]);
    return valid && (!(costs->investment > 0) ||
                     !isnan(spt_cost_annuity(or_nothing(costs->interest), costs->years)));
}

static bool renews(enum spt_task task)
{
    return task == SPT_TASK_REGREASE || task == SPT_TASK_REPACK || task == SPT_TASK_OIL_CHANGE ||
           task == SPT_TASK_OIL_OR_FILTER;
}

/* Times in a year that the lubricant is renewed; what falls on one visit counts once. */
static double count_greasings(const struct spt_schedule *schedule, double year_h)
{
    double rate = 0, last_h = NONE;
    for (int i = 0; i < schedule->task_count; i++) {
        const struct spt_schedule_task *task = &schedule->tasks[i];
        if (!renews(task->task) || !spt_visits_has(schedule, task))
            continue;
        rate += year_h / task->kept_h;
        if (last_h > 0) { /* every so many visits coincide */
            long a = lround(last_h / schedule->visit_h),
                 b = lround(task->kept_h / schedule->visit_h);
            long product = a * b;
            while (b) {
                const long rest = a % b;
                a = b;
                b = rest;
            }
            rate -= year_h / ((double)(product / a) * schedule->visit_h);
        }
        last_h = task->kept_h;
    }
    return rate;
}

static double survive(double t_h, void *context)
{
    return spt_schedule_smooth(t_h, context);
}

/* Share of the units that reach the age of replacement, and the mean time to a change. */
static enum spt_status find_cycle(struct spt_schedule *scaled, const struct spt_costs *costs,
                                  double *share, double *cycle_h)
{
    const struct spt_replacement_costs pair = {costs->planned, costs->failure};
    gsl_function function = {survive, scaled};
    struct spt_replacement never;
    if (scaled->replace_h > 0) {
        *share = spt_schedule_smooth(scaled->replace_h, scaled);
        return spt_numeric_integral(&function, 0, scaled->replace_h, cycle_h);
    }
    enum spt_status status = spt_replacement_optimum(spt_schedule_smooth, scaled, &pair, &never);
    *share = 0;
    *cycle_h = never.mean_life;
    return status == SPT_NOT_APPLICABLE ? SPT_OK : status;
}

/* The age of replacement of a new bearing; NaN: never. The date of a plan counts from now. */
static double find_age(const struct spt_schedule *schedule)
{
    if (!(schedule->remaining.hours_run > 0))
        return schedule->replace_h;
    return schedule->optimum_found
               ? fmin(schedule->at_target.plan.age, schedule->at_optimum.plan.age)
               : schedule->at_target.plan.age;
}

/* Changes of one unit in a year, with the life of every grease times `factor`. */
static enum spt_status count_changes(const struct spt_schedule *schedule,
                                     const struct spt_costs *costs, double factor,
                                     struct spt_cost_year *year)
{
    struct spt_schedule scaled = *schedule;
    scaled.replace_h = find_age(schedule);
    scaled.remaining = (struct spt_remaining){.survival = 1};
    const double year_h = schedule->question->yearly_use_h;
    double share, cycle_h;
    year->planned = year->failures = 0;
    if (!spt_schedule_wears(schedule) && !schedule->grease_count)
        return SPT_OK;
    for (int i = 0; i < scaled.grease_count; i++)
        scaled.grease[i].interval_h *= factor;
    enum spt_status status = find_cycle(&scaled, costs, &share, &cycle_h);
    if (status)
        return status;
    year->planned = year_h * share / cycle_h;
    year->failures = year_h * (1 - share) / cycle_h;
    return SPT_OK;
}

static enum spt_status fill_year(const struct spt_schedule *schedule, const struct spt_costs *costs,
                                 double factor, struct spt_cost_year *year)
{
    const double year_h = schedule->question->yearly_use_h;
    const double units = schedule->question->units > 0 ? schedule->question->units : 1;
    enum spt_status status = count_changes(schedule, costs, factor, year);
    year->visits = schedule->visit_h > 0 ? year_h / schedule->visit_h : 0;
    year->greasings = count_greasings(schedule, year_h);
    year->planned *= units;
    year->failures *= units;
    year->attendance = year->visits * (or_nothing(costs->visit) + or_nothing(costs->downtime));
    year->greasing =
        year->greasings * units *
        (or_nothing(costs->job_h) * or_nothing(costs->wage_per_h) + or_nothing(costs->grease));
    year->replacement = year->planned * costs->planned + year->failures * costs->failure;
    year->capital = costs->investment > 0
                        ? units * costs->investment *
                              spt_cost_annuity(or_nothing(costs->interest), costs->years)
                        : 0;
    year->cost = year->attendance + year->greasing + year->replacement + year->capital;
    return status;
}

enum spt_status spt_cost_plan(const struct spt_schedule *schedule, const struct spt_costs *costs,
                              struct spt_money *money)
{
    const struct spt_cost_year none = {NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE, NONE};
    *money = (struct spt_money){none, none, none};
    if (!are_valid(costs))
        return SPT_BAD_ARGUMENT;
    if (!schedule->life_known || !(schedule->question->yearly_use_h > 0))
        return SPT_OK;
    enum spt_status status = fill_year(schedule, costs, 1, &money->middle);
    if (!status)
        status = fill_year(schedule, costs, 2, &money->low);
    if (!status)
        status = fill_year(schedule, costs, 0.5, &money->high);
    if (status)
        *money = (struct spt_money){none, none, none};
    return status;
}

bool spt_cost_is_parts_only(const struct spt_costs *costs)
{
    return !(costs->visit > 0) && !(costs->downtime > 0);
}

static bool is_longer(double life_h, double than_h)
{
    return life_h > than_h * (1 + SAME) || (isinf(life_h) && !isinf(than_h));
}

void spt_cost_compare(const struct spt_cost_result *first, const struct spt_costs *costs, int units,
                      struct spt_cost_result *result)
{
    const struct spt_money *before = &first->money, *now = &result->money;
    const double saved =
        before->middle.cost - before->middle.capital - (now->middle.cost - now->middle.capital);
    const double invested = (units > 0 ? units : 1) * costs->investment;
    result->payback_years = invested > 0 && saved > 0 ? invested / saved : NONE;
    result->pays = result != first && now->middle.cost < before->middle.cost &&
                   now->low.cost < before->low.cost;
    const bool smaller[SPT_HAZARD_COUNT] = {
        [SPT_HAZARD_FATIGUE] = is_longer(result->l10_h, first->l10_h),
        [SPT_HAZARD_GREASE] = is_longer(result->interval_h, first->interval_h),
        [SPT_HAZARD_RUST] = !result->rusts,
    };
    const bool there[SPT_HAZARD_COUNT] = {
        [SPT_HAZARD_FATIGUE] = !isinf(first->l10_h),
        [SPT_HAZARD_GREASE] = !isnan(first->interval_h),
        [SPT_HAZARD_RUST] = first->rusts,
    };
    result->unhelped = 0;
    result->helps = false;
    for (int i = 0; i < SPT_HAZARD_COUNT; i++) {
        result->helps = result->helps || (there[i] && smaller[i]);
        if (there[i] && !smaller[i])
            result->unhelped |= 1u << i;
    }
}
