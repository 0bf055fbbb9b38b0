/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/course/run.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdlib.h>

#include "base/quotient.h"
#include "model/numeric.h"
#include "spalltime/life.h"
#include "spalltime/statistics.h"

static void consider(double time_h, double now_h, double *next_h)
{
    if (!spt_run_has_come(time_h, now_h) && time_h < *next_h)
        *next_h = time_h;
}

/* Times at which a drift starts, ends, or steps to its next class, counted by its own clock. */
static void consider_drift(const struct spt_drift *drift, double offset_h, double now_h,
                           double *next_h)
{
    consider(offset_h + drift->from_h, now_h, next_h);
    consider(offset_h + drift->to_h, now_h, next_h);
    int steps = drift->class_from < 0 ? 1 : abs(drift->class_to - drift->class_from) + 1;
    for (int i = 1; i < steps; i++)
        consider(offset_h + drift->from_h + (drift->to_h - drift->from_h) * i / steps, now_h,
                 next_h);
}

/* The next time after now at which the state jumps, not beyond `end_h`. */
static double next_jump(const struct spt_run *run, double end_h)
{
    const struct spt_service *service = run->service;
    double now_h = run->time_h, next_h = end_h;
    for (int i = 0; i < service->event_count; i++)
        consider(service->events[i].at_h, now_h, &next_h);
    for (int i = 0; i < service->drift_count; i++) {
        consider_drift(&service->drifts[i], 0, now_h, &next_h);
        if (service->oil_change_every_h > 0)
            consider_drift(&service->drifts[i], spt_run_clock_start(run, now_h), now_h, &next_h);
    }
    if (service->regrease_every_h > 0)
        consider(spt_run_regreasing_at(run, spt_run_regreasings(run, now_h) + 1), now_h, &next_h);
    double change_h = service->oil_change_every_h;
    if (change_h > 0)
        consider((spt_run_renewals(change_h, now_h) + 1) * change_h, now_h, &next_h);
    return next_h;
}

static bool has_life(struct spt_run *run, double time_h)
{
    for (int b = 0; b < run->question->bearing_count; b++)
        if (isnan(spt_run_rate(run, b, time_h, NULL)))
            return false;
    return true;
}

/* The last time from now on that has a life, by bisection between now and a time that has none; now
 * where there is none to begin with. */
static double last_with_life(struct spt_run *run, double to_h)
{
    double low_h = run->time_h, high_h = to_h;
    if (!has_life(run, low_h))
        return low_h;
    for (int i = 0; i < 60; i++) {
        double middle_h = (low_h + high_h) / 2;
        *(has_life(run, middle_h) ? &low_h : &high_h) = middle_h;
    }
    return low_h;
}

/* Computes the damage of all bearings from now to `to_h`.
 * Result: the earliest evaluated time without a life. */
static double spend_all(struct spt_run *run, double to_h, double spent[SPT_BEARINGS_MAX])
{
    double no_life_h = (double)NAN;
    if (--run->budget->pieces_left < 0)
        run->status = SPT_NOT_CONVERGED;
    for (int b = 0; b < run->question->bearing_count && !run->status; b++) {
        double gone_h;
        spent[b] = spt_run_spend(run, b, to_h, &gone_h);
        no_life_h = fmin(no_life_h, gone_h); /* fmin ignores a NaN */
    }
    return no_life_h;
}

/* Advances to `to_h`, which is at most the next jump; stops earlier where the film is lost. */
static void step(struct spt_run *run, double to_h)
{
    double spent[SPT_BEARINGS_MAX] = {0};
    spt_run_renew(run);
    double no_life_h = spend_all(run, to_h, spent);
    /* a life may come and go: what is found lies before the moment without one, but there may be
     * another such moment before it */
    while (!run->status && !isnan(no_life_h)) {
        run->stopped = true;
        to_h = last_with_life(run, no_life_h);
        no_life_h = spend_all(run, to_h * (1 - 1e-9), spent);
    }
    if (run->status)
        return;
    for (int b = 0; b < run->question->bearing_count; b++)
        run->damage[b] += spent[b];
    spt_run_rule(run, to_h);
    run->time_h = to_h;
}

/* The spent share of the remaining life of bearings that have run before. */
static double spend_of_survivors(const struct spt_run *run)
{
    double added[SPT_BEARINGS_MAX] = {0};
    for (int b = 0; b < run->question->bearing_count; b++)
        added[b] = run->factor * run->damage[b]; /* in units of L10 */
    return spt_survival_spent(run->past.spent, added, run->question->bearing_count,
                              SPT_WEIBULL_FLOOR, run->question->reliability_percent / 100);
}

double spt_run_damage(const struct spt_run *run)
{
    int count = run->question->bearing_count;
    double lives[SPT_BEARINGS_MAX] = {0};
    if (run->past.hours_run > 0 && !run->is_new)
        return spend_of_survivors(run);
    if (count == 1)
        return run->damage[0];
    for (int b = 0; b < count; b++)
        lives[b] = spt_quotient(1, run->damage[b]);
    return spt_quotient(1, spt_survival_series(lives, count, run->question->reliability_percent));
}

double spt_run_quiet_until(const struct spt_run *run)
{
    const struct spt_service *service = run->service;
    double now_h = run->time_h, next_h = (double)INFINITY;
    for (int i = 0; i < service->event_count; i++)
        consider(service->events[i].at_h, now_h, &next_h);
    for (int i = 0; i < service->drift_count; i++) {
        const struct spt_drift *drift = &service->drifts[i];
        bool strains = !isnan(drift->load_from) || !isnan(drift->rise_from_k);
        if (spt_run_skips(run, service->event_count + i) ||
            (service->oil_change_every_h > 0 && !strains) || spt_run_has_come(drift->to_h, now_h))
            continue;
        next_h = fmin(next_h, spt_run_has_come(drift->from_h, now_h) ? now_h : drift->from_h);
    }
    return next_h;
}

/* The damages after `periods` more periods like the one that leads from `run` to `one`. */
static struct spt_run after_periods(const struct spt_run *run, const struct spt_run *one,
                                    double periods)
{
    struct spt_run after = *run;
    for (int b = 0; b < run->question->bearing_count; b++)
        after.damage[b] += periods * (one->damage[b] - run->damage[b]);
    for (int i = 0; i <= SPT_EVENTS_MAX; i++)
        for (int j = 0; j < SPT_RUN_DIRT_LEVELS; j++)
            after.ruled_h[i][j] += periods * (one->ruled_h[i][j] - run->ruled_h[i][j]);
    return after;
}

/* The largest number of periods, up to `fit`, after which the damage is still below 1. */
static double periods_below_one(const struct spt_run *run, const struct spt_run *one, double fit)
{
    double low = 0, high = fit;
    struct spt_run all = after_periods(run, one, fit);
    if (spt_run_damage(&all) < 1)
        return fit;
    while (high - low > 1) {
        double middle = floor((low + high) / 2);
        struct spt_run after = after_periods(run, one, middle);
        *(spt_run_damage(&after) < 1 ? &low : &high) = middle;
    }
    return low;
}

/* The largest number of periods, up to `fit`, that leave the dents as they are now. */
static double periods_same_dents(const struct spt_run *run, const struct spt_run *one, double fit)
{
    double low = 0, high = fit;
    struct spt_run all = after_periods(run, one, fit);
    if (spt_run_same_dents(run, &all))
        return fit;
    while (high - low > 1) {
        double middle = floor((low + high) / 2);
        struct spt_run after = after_periods(run, one, middle);
        *(spt_run_same_dents(run, &after) ? &low : &high) = middle;
    }
    return low;
}

/* From a renewal on, advances by all equal whole periods at once: as many as end by `end_h`
 * and, with `to_one`, leave the damage below 1. */
static void repeat_periods(struct spt_run *run, double end_h, bool to_one)
{
    const struct spt_service *service = run->service;
    double regrease_h = service->regrease_every_h, change_h = service->oil_change_every_h;
    bool greased = regrease_h > 0;
    double every_h = greased ? regrease_h : change_h;
    double done =
        greased ? spt_run_regreasings(run, run->time_h) : spt_run_renewals(every_h, run->time_h);
    double start_h = greased ? spt_run_regreasing_at(run, done) : done * every_h;
    /* renewals at the same time count as one */
    bool together = regrease_h == change_h && spt_run_regreasing_at(run, 0) == 0;
    if (!(every_h > 0) || (greased && change_h > 0 && !together) || run->stopped || run->status)
        return;
    double fit = spt_run_renewals(every_h, fmin(end_h, spt_run_quiet_until(run)) - start_h);
    bool renewed = done > 0 && spt_run_has_come(run->time_h, start_h) &&
                   spt_run_grease_age(run, start_h, start_h) <= 0;
    if (fit < 3 || (!renewed && greased) || !spt_run_has_come(run->time_h, start_h))
        return;
    spt_run_renew(run);
    struct spt_run one = *run;
    while (one.time_h < start_h + every_h && !one.stopped && !one.status)
        step(&one, next_jump(&one, start_h + every_h));
    if (one.stopped || one.status)
        return; /* the ordinary steps find it */
    fit = periods_same_dents(run, &one, fit);
    double periods = to_one ? periods_below_one(run, &one, fit) : fit;
    if (periods < 1)
        return;
    *run = after_periods(run, &one, periods);
    double next_h =
        greased ? spt_run_regreasing_at(run, done + periods) : (done + periods) * every_h;
    run->time_h = fmin(next_h, end_h);
}

void spt_run_advance(struct spt_run *run, double to_h)
{
    while (run->time_h < to_h && !run->stopped && !run->status) {
        repeat_periods(run, to_h, false);
        if (run->time_h < to_h)
            step(run, next_jump(run, to_h));
    }
}

/* Damage beyond 1 at a time inside the stretch of `context`. */
static double damage_beyond_one(double time_h, void *context)
{
    struct spt_run ahead = *(const struct spt_run *)context;
    step(&ahead, time_h);
    return spt_run_damage(&ahead) - 1;
}

/* Runs to `end_h` or to a damage of 1, whichever is first; gives true where the damage reaches 1.
 */
static bool run_to(struct spt_run *run, double end_h)
{
    while (run->time_h < end_h && !run->stopped && !run->status) {
        repeat_periods(run, end_h, true);
        struct spt_run before = *run;
        step(run, next_jump(run, end_h));
        if (spt_run_damage(run) < 1 || run->status)
            continue;
        gsl_function function = {damage_beyond_one, &before};
        double life_h = run->time_h;
        if (spt_run_damage(run) > 1 &&
            spt_numeric_root(&function, before.time_h, run->time_h, &life_h)) {
            run->status = SPT_NOT_CONVERGED;
            return false;
        }
        *run = before;
        step(run, life_h);
        return true;
    }
    return false;
}

struct spt_run_budget spt_run_budget(void)
{
    return (struct spt_run_budget){.pieces_left = SPT_RUN_PIECES_MAX};
}

struct spt_run spt_run_start(const struct spt_case *question, const struct spt_service *service,
                             const struct spt_timeline_workspace *workspace,
                             struct spt_run_budget *budget)
{
    struct spt_run run = {.question = question,
                          .service = service,
                          .workspace = workspace,
                          .skipped = SPT_RUN_WHOLE,
                          .budget = budget};
    if (!(question->past.hours_run > 0))
        return run;
    run.status = spt_remaining(question, workspace->results, &run.past);
    for (int b = 0; b < question->bearing_count; b++)
        run.stopped = run.stopped || isnan(run.past.spent[b]); /* no life in the past */
    if (!run.status)
        run.status = spt_life_reliability_factor(question->reliability_percent, &run.factor);
    return run;
}

double spt_run_life(struct spt_run *run, double until_h)
{
    if (run_to(run, until_h))
        return run->time_h;
    return run->stopped || run->status ? (double)NAN : (double)INFINITY;
}
