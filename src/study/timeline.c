/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/timeline.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "model/numeric.h"
#include "spalltime/adjust.h"

#define NONE (-1)
#define ALL (-2)

/* One run through time. */
struct run {
    const struct spt_case *question;
    const struct spt_service *service;
    const struct spt_timeline_room *room;
    int skipped; /* index of the event or drift (events first) left out; NONE or ALL */
    double time_h;
    double damage[SPT_BEARINGS_MAX];
    int stretches; /* worked out so far */
    bool stopped;  /* no life from time_h on */
    enum spt_status status;
};

/* Rate of one bearing as GSL wants it. */
struct rate_context {
    struct run *run;
    int bearing;
    bool no_life; /* set when a moment without a life was met */
};

static bool is_skipped(const struct run *run, int influence)
{
    return run->skipped == ALL || run->skipped == influence;
}

static double clock_of_drift(const struct run *run, double time_h)
{
    double every_h = run->service->oil_change_every_h;
    return every_h > 0 ? time_h - every_h * floor(time_h / every_h) : time_h;
}

/* How far a drift has come: 0 before its start, 1 after its end; `before` where it has not begun.
 */
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

/* Age of the grease at a time inside the stretch that starts at `start_h`. */
static double grease_age_h(const struct run *run, double start_h, double time_h)
{
    double every_h = run->service->regrease_every_h;
    double greasings = every_h > 0 ? floor(start_h / every_h * (1 + 1e-12)) : 0;
    return greasings > 0 ? time_h - greasings * every_h : first_age_h(run->question) + time_h;
}

static struct spt_adjustment adjustment_at(const struct run *run, double start_h, double time_h)
{
    const struct spt_service *service = run->service;
    struct spt_adjustment change = spt_adjustment_none();
    change.least_age_h = change.most_age_h = fmax(grease_age_h(run, start_h, time_h), 0);
    for (int i = 0; i < service->drift_count; i++) {
        if (is_skipped(run, service->event_count + i))
            continue;
        apply_dirt(&service->drifts[i], clock_of_drift(run, start_h) + (time_h - start_h), &change);
        apply_strain(&service->drifts[i], time_h, &change);
    }
    return change;
}

/* The case that holds from `time_h` on. */
static const struct spt_case *case_at(const struct run *run, double time_h)
{
    const struct spt_service *service = run->service;
    int row = run->skipped >= 0 && run->skipped < service->event_count ? run->skipped
                                                                       : service->event_count;
    const struct spt_case *current = run->question;
    for (int i = 0; i < service->event_count && run->skipped != ALL; i++)
        if (service->events[i].at_h <= time_h && !is_skipped(run, i))
            current = &service->cases[service->event_count * row + i];
    return current;
}

/* 1/L of one bearing at a moment of the current stretch; NaN where there is no life. */
static double rate_at(struct run *run, int bearing, double time_h)
{
    struct spt_case changed;
    struct spt_bearing_result result;
    struct spt_adjustment change = adjustment_at(run, run->time_h, time_h);
    spt_adjust_case(case_at(run, run->time_h), &change, run->room->phases, &changed);
    run->status = spt_assess_bearing(&changed, bearing, 0, run->room->results, &result);
    return run->status ? (double)NAN : 1 / result.modified_rating_life_h;
}

static double rate_for_gsl(double time_h, void *context)
{
    struct rate_context *rate = context;
    double value = rate_at(rate->run, rate->bearing, time_h);
    if (!isnan(value))
        return value;
    rate->no_life = true;
    return 0;
}

/* True where nothing changes inside the stretch that starts now. */
static bool is_steady(const struct run *run)
{
    const struct spt_service *service = run->service;
    if (run->question->lubricant.kind == SPT_LUBRICATION_GREASE)
        return false;
    for (int i = 0; i < service->drift_count; i++)
        if (!is_skipped(run, service->event_count + i) &&
            (clock_of_drift(run, run->time_h) < service->drifts[i].to_h ||
             run->time_h < service->drifts[i].to_h))
            return false;
    return true;
}

/* Damage of one bearing from now to `to_h`, inside one stretch; `*no_life` where the film goes. */
static double spend(struct run *run, int bearing, double to_h, bool *no_life)
{
    struct rate_context context = {run, bearing, false};
    gsl_function function = {rate_for_gsl, &context};
    double value = 0;
    *no_life = false;
    if (to_h <= run->time_h)
        return 0;
    if (is_steady(run)) {
        value = rate_at(run, bearing, run->time_h) * (to_h - run->time_h);
        *no_life = isnan(value);
        return value;
    }
    double end = rate_at(run, bearing, to_h * (1 - 1e-12));
    enum spt_status status =
        isnan(end) ? SPT_OK : spt_numeric_integral(&function, run->time_h, to_h, &value);
    *no_life = isnan(end) || context.no_life;
    if (status && !run->status)
        run->status = status;
    return value;
}

static void consider(double time_h, double now_h, double *next_h)
{
    if (time_h > now_h * (1 + 1e-12) && time_h < *next_h)
        *next_h = time_h;
}

/* Times at which a drift starts, ends, or steps to its next class, on its clock. */
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
static double next_jump(const struct run *run, double end_h)
{
    const struct spt_service *service = run->service;
    double now_h = run->time_h, next_h = end_h;
    double clock_start_h = now_h - clock_of_drift(run, now_h);
    for (int i = 0; i < service->event_count; i++)
        consider(service->events[i].at_h, now_h, &next_h);
    for (int i = 0; i < service->drift_count; i++) {
        consider_drift(&service->drifts[i], 0, now_h, &next_h);
        if (service->oil_change_every_h > 0)
            consider_drift(&service->drifts[i], clock_start_h, now_h, &next_h);
    }
    bool drifts = service->drift_count > 0 && run->skipped != ALL;
    const double renewals[] = {service->regrease_every_h,
                               drifts ? service->oil_change_every_h : (double)NAN};
    for (int i = 0; i < 2; i++)
        if (renewals[i] > 0)
            consider((floor(now_h / renewals[i] * (1 + 1e-12)) + 1) * renewals[i], now_h, &next_h);
    return next_h;
}

/* The last moment of the stretch up to `to_h` that has a life, by bisection. */
static double last_with_life(struct run *run, double to_h)
{
    double low_h = run->time_h, high_h = to_h;
    for (int i = 0; i < 60; i++) {
        double middle_h = (low_h + high_h) / 2;
        bool known = true;
        for (int b = 0; b < run->question->bearing_count; b++)
            known = known && !isnan(rate_at(run, b, middle_h));
        if (known)
            low_h = middle_h;
        else
            high_h = middle_h;
    }
    return low_h;
}

/* Moves to `to_h`, which is at most the next jump; stops earlier where the film goes. */
static void step(struct run *run, double to_h)
{
    double spent[SPT_BEARINGS_MAX] = {0};
    bool no_life = false;
    if (run->stretches++ == SPT_STRETCHES_MAX) {
        run->status = SPT_NO_ROOM;
        return;
    }
    for (int b = 0; b < run->question->bearing_count; b++) {
        bool gone;
        spent[b] = spend(run, b, to_h, &gone);
        no_life = no_life || gone;
    }
    if (no_life) {
        double last_h = last_with_life(run, to_h);
        for (int b = 0; b < run->question->bearing_count; b++)
            spent[b] = last_h > run->time_h ? spend(run, b, last_h * (1 - 1e-9), &no_life) : 0;
        run->stopped = true;
        to_h = last_h;
    }
    for (int b = 0; b < run->question->bearing_count; b++)
        run->damage[b] += spent[b];
    run->time_h = to_h;
}

static double system_damage(const struct run *run)
{
    if (run->question->bearing_count == 1)
        return run->damage[0];
    double sum = 0;
    for (int b = 0; b < run->question->bearing_count; b++)
        sum += pow(run->damage[b], SPT_WEIBULL_SLOPE);
    return pow(sum, 1 / SPT_WEIBULL_SLOPE);
}

/* Damage beyond 1 at a time inside the stretch of `context`. */
static double damage_beyond_one(double time_h, void *context)
{
    struct run ahead = *(const struct run *)context;
    step(&ahead, time_h);
    return system_damage(&ahead) - 1;
}

/* Hours after which the state comes back, apart from events and drifts; 0 where it does not. */
static double period_h(const struct run *run)
{
    const struct spt_service *service = run->service;
    bool drifts = service->drift_count > 0 && run->skipped != ALL;
    bool regreased = run->question->lubricant.kind == SPT_LUBRICATION_GREASE;
    double oil_h = service->oil_change_every_h > 0 && drifts ? service->oil_change_every_h : 0;
    double grease_h = service->regrease_every_h > 0 && regreased ? service->regrease_every_h : 0;
    if (regreased && (oil_h > 0 || !(grease_h > 0)))
        return 0;
    return regreased ? grease_h : oil_h;
}

/* Whole periods from now to the next event, drift mark or `end_h` that all cost the same. */
static double equal_periods(const struct run *run, double every_h, double end_h)
{
    const struct spt_service *service = run->service;
    double now_h = run->time_h, begun = round(now_h / every_h);
    if (!(every_h > 0) || begun < 1 || fabs(begun * every_h - now_h) > 1e-9 * every_h)
        return 0;
    for (int i = 0; i < service->event_count; i++)
        if (!is_skipped(run, i))
            consider(service->events[i].at_h, now_h, &end_h);
    for (int i = 0; i < service->drift_count; i++) {
        const struct spt_drift *drift = &service->drifts[i];
        bool strains = !isnan(drift->load_from) || !isnan(drift->rise_from_k);
        if (is_skipped(run, service->event_count + i))
            continue;
        consider(drift->from_h, now_h, &end_h);
        if (now_h >= drift->from_h && now_h < drift->to_h &&
            (strains || !(service->oil_change_every_h > 0)))
            return 0;
    }
    return floor((end_h - now_h) / every_h * (1 + 1e-12));
}

/* Moves on by one stretch, or by many periods that cost the same, which keeps the work small where
 * an interval is short; many periods end before the damage reaches `most_damage`. */
static void advance(struct run *run, double end_h, double most_damage)
{
    double every_h = period_h(run), periods = equal_periods(run, every_h, end_h);
    if (periods < 2) {
        step(run, next_jump(run, end_h));
        return;
    }
    double first = round(run->time_h / every_h);
    struct run once = *run, gain = *run;
    while (once.time_h < (first + 1) * every_h * (1 - 1e-12) && !once.stopped && !once.status)
        step(&once, next_jump(&once, (first + 1) * every_h));
    for (int b = 0; b < run->question->bearing_count; b++)
        gain.damage[b] = once.damage[b] - run->damage[b];
    double cost = system_damage(&gain);
    /* the damage of two bearings together grows by at most the cost of each period */
    if (cost > 0)
        periods = fmin(periods, floor((most_damage - system_damage(run)) / cost * (1 - 1e-9)));
    if (once.stopped || once.status || periods < 2) {
        step(run, next_jump(run, end_h));
        return;
    }
    for (int b = 0; b < run->question->bearing_count; b++)
        run->damage[b] += periods * gain.damage[b];
    run->time_h = (first + periods) * every_h;
    run->stretches = once.stretches;
}

/* Runs to `end_h` or to a damage of 1, whichever is first; gives true where the damage reaches 1.
 */
static bool run_to(struct run *run, double end_h)
{
    while (run->time_h < end_h && !run->stopped && !run->status) {
        struct run before = *run;
        advance(run, end_h, 1);
        if (system_damage(run) < 1 || run->status)
            continue;
        gsl_function function = {damage_beyond_one, &before};
        double life_h = run->time_h;
        if (system_damage(run) > 1 &&
            spt_numeric_root(&function, before.time_h, run->time_h, &life_h))
            run->status = SPT_NOT_CONVERGED;
        *run = before;
        step(run, life_h);
        return true;
    }
    return false;
}

static struct run start_run(const struct spt_case *question, const struct spt_service *service,
                            const struct spt_timeline_room *room, int skipped)
{
    return (struct run){question, service, room, skipped, 0, {0, 0}, 0, false, SPT_OK};
}

/* Life of a whole run: INFINITY beyond the horizon, NaN where it stops. */
static double life_of(struct run *run, double until_h)
{
    if (run_to(run, until_h))
        return run->time_h;
    return run->stopped || run->time_h < until_h ? (double)NAN : (double)INFINITY;
}

static int compare_times(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Rising marks inside (0, end_h): events, starts and ends of drifts. */
static int collect_marks(const struct spt_service *service, double end_h, double *marks)
{
    int count = 0;
    for (int i = 0; i < service->event_count; i++)
        marks[count++] = service->events[i].at_h;
    for (int i = 0; i < service->drift_count; i++) {
        marks[count++] = service->drifts[i].from_h;
        marks[count++] = service->drifts[i].to_h;
    }
    qsort(marks, (size_t)count, sizeof *marks, compare_times);
    int kept = 0;
    for (int i = 0; i < count; i++)
        if (marks[i] > 0 && marks[i] < end_h && (!kept || marks[i] > marks[kept - 1]))
            marks[kept++] = marks[i];
    return kept;
}

static double damage_at(const struct run *start, double time_h, enum spt_status *status)
{
    struct run run = *start;
    while (run.time_h < time_h && !run.stopped && !run.status)
        advance(&run, time_h, (double)INFINITY);
    if (run.status)
        *status = run.status;
    return run.stopped ? (double)NAN : system_damage(&run);
}

static enum spt_status divide_into_stages(const struct run *start, double end_h,
                                          struct spt_timeline *timeline)
{
    double marks[SPT_STAGES_MAX];
    enum spt_status status = SPT_OK;
    int count = collect_marks(start->service, end_h, marks);
    double from_h = 0, before = 0;
    marks[count] = end_h;
    timeline->stage_count = count + 1;
    for (int i = 0; i <= count && !status; i++) {
        double after = i == count ? timeline->damage_at_end : damage_at(start, marks[i], &status);
        timeline->stages[i] = (struct spt_stage){from_h, marks[i], after - before};
        if (timeline->stages[i].damage > timeline->stages[timeline->worst_stage].damage)
            timeline->worst_stage = i;
        from_h = marks[i];
        before = after;
    }
    return status;
}

static enum spt_status weigh_influences(const struct run *start, double end_h,
                                        struct spt_timeline *timeline)
{
    const struct spt_service *service = start->service;
    enum spt_status status = SPT_OK;
    timeline->influence_count = service->event_count + service->drift_count;
    for (int i = 0; i < timeline->influence_count && !status; i++) {
        struct spt_influence_result *influence = &timeline->influences[i];
        bool event = i < service->event_count;
        int drift = i - service->event_count;
        struct run without = *start;
        without.skipped = i;
        influence->name = event ? service->events[i].name : service->drifts[drift].name;
        influence->at_h = event ? service->events[i].at_h : service->drifts[drift].from_h;
        influence->damage_at =
            influence->at_h <= end_h ? damage_at(start, influence->at_h, &status) : (double)NAN;
        influence->life_without_h = life_of(&without, timeline->until_h);
        if (without.status)
            status = without.status;
    }
    return status;
}

enum spt_status spt_timeline(const struct spt_case *question, const struct spt_service *service,
                             const struct spt_timeline_room *room, struct spt_timeline *timeline)
{
    memset(timeline, 0, sizeof *timeline);
    timeline->until_h = isnan(service->until_h) ? SPT_HORIZON_H : service->until_h;
    struct run start = start_run(question, service, room, NONE), run = start;
    timeline->life_h = life_of(&run, timeline->until_h);
    timeline->stopped_h = run.stopped ? run.time_h : (double)NAN;
    timeline->damage_at_end = system_damage(&run);
    if (run.status)
        return run.status;
    struct run quiet = start_run(question, service, room, ALL);
    timeline->undisturbed_h = life_of(&quiet, timeline->until_h);
    enum spt_status status = quiet.status;
    if (!status)
        status = divide_into_stages(&start, run.time_h, timeline);
    if (!status)
        status = weigh_influences(&start, run.time_h, timeline);
    return status;
}

enum spt_status spt_timeline_curve(const struct spt_case *question,
                                   const struct spt_service *service,
                                   const struct spt_timeline_room *room, const double *times_h,
                                   int count, double *damage)
{
    struct run run = start_run(question, service, room, NONE);
    for (int i = 0; i < count && !run.status; i++) {
        while (run.time_h < times_h[i] && !run.stopped && !run.status)
            advance(&run, times_h[i], (double)INFINITY);
        damage[i] = run.stopped ? (double)NAN : system_damage(&run);
    }
    return run.status;
}
