/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/timeline.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "model/numeric.h"
#include "spalltime/adjust.h"

#define USUAL_HORIZON_H 1e6
#define PIECES_MAX 40000 /* stretches that one answer may integrate */
#define SAME_TIME 1e-12  /* times that differ by no more, relatively, are one moment */
#define NONE (-1)
#define ALL (-2)

/* One run through time. */
struct run {
    const struct spt_case *question;
    const struct spt_service *service;
    const struct spt_timeline_room *room;
    int skipped;      /* index of the event or drift (events first) left out; NONE or ALL */
    int *pieces_left; /* shared by all runs of one answer, so that its time is bounded */
    double time_h;
    double damage[SPT_BEARINGS_MAX];
    bool stopped; /* no life from time_h on */
    enum spt_status status;
};

/* Rate of one bearing as GSL wants it. */
struct rate_context {
    struct run *run;
    int bearing;
    double no_life_h; /* earliest moment without a life that was met; NaN: none */
};

static bool is_skipped(const struct run *run, int influence)
{
    return run->skipped == ALL || run->skipped == influence;
}

/* True where a time has come; one that is a rounding ahead has. */
static bool has_come(double at_h, double time_h)
{
    return at_h <= time_h * (1 + SAME_TIME);
}

/* Renewals done by a time; 0 where there are none (`every_h` NaN). */
static double count_renewals(double every_h, double time_h)
{
    return every_h > 0 ? floor(time_h / every_h * (1 + SAME_TIME)) : 0;
}

/* Time of the last oil change; 0 where there was none. */
static double clock_start_h(const struct run *run, double time_h)
{
    double every_h = run->service->oil_change_every_h;
    return every_h > 0 ? every_h * count_renewals(every_h, time_h) : 0;
}

/* Age of the oil, on which drifts of water and dirt run. */
static double clock_of_drift(const struct run *run, double time_h)
{
    return fmax(time_h - clock_start_h(run, time_h), 0);
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

/* Age of the grease at a time inside the stretch that starts at `start_h`: since the last
 * regreasing, or since an event that states the age of the grease it leaves. */
static double grease_age_h(const struct run *run, double start_h, double time_h)
{
    const struct spt_service *service = run->service;
    double renewals = count_renewals(service->regrease_every_h, start_h);
    double renewed_h = renewals > 0 ? renewals * service->regrease_every_h : 0;
    double new_h = renewals > 0 ? renewed_h : -first_age_h(run->question);
    for (int i = 0; i < service->event_count; i++) {
        const struct spt_event *event = &service->events[i];
        if (isnan(event->grease_age_h) || is_skipped(run, i) || !has_come(event->at_h, start_h) ||
            !has_come(renewed_h, event->at_h))
            continue;
        renewed_h = event->at_h;
        new_h = event->at_h - event->grease_age_h;
    }
    return fmax(time_h - new_h, 0);
}

static struct spt_adjustment adjustment_at(const struct run *run, double start_h, double time_h)
{
    const struct spt_service *service = run->service;
    struct spt_adjustment change = spt_adjustment_none();
    change.least_age_h = change.most_age_h = grease_age_h(run, start_h, time_h);
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
        if (has_come(service->events[i].at_h, time_h) && !is_skipped(run, i))
            current = &service->cases[service->event_count * row + i];
    return current;
}

/* 1/L of one bearing at a moment of the current stretch; NaN where there is no life. Its flags are
 * added to `notes`, which may be NULL. */
static double rate_noted(struct run *run, int bearing, double time_h, struct spt_notes *notes)
{
    struct spt_case changed;
    struct spt_bearing_result result;
    struct spt_adjustment change = adjustment_at(run, run->time_h, time_h);
    spt_adjust_case(case_at(run, run->time_h), &change, run->room->phases, &changed);
    if (!spt_case_within_temperatures(&changed))
        return (double)NAN;
    enum spt_status status = spt_assess_bearing(&changed, bearing, 0, run->room->results, &result);
    if (!run->status)
        run->status = status;
    if (status)
        return (double)NAN;
    for (int i = 0; notes && i < result.phase_count; i++)
        spt_notes_add_all(notes, &result.phases[i].notes);
    return 1 / result.modified_rating_life_h;
}

static double rate_at(struct run *run, int bearing, double time_h)
{
    return rate_noted(run, bearing, time_h, NULL);
}

static double rate_for_gsl(double time_h, void *context)
{
    struct rate_context *rate = context;
    double value = rate_at(rate->run, rate->bearing, time_h);
    if (!isnan(value))
        return value;
    if (!(rate->no_life_h <= time_h))
        rate->no_life_h = time_h;
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

/* Damage of one bearing from now to `to_h`, inside one stretch. `*no_life_h` is a moment at which
 * there is no life (the earliest that was met), NaN where there is one throughout. */
static double spend(struct run *run, int bearing, double to_h, double *no_life_h)
{
    struct rate_context context = {run, bearing, (double)NAN};
    gsl_function function = {rate_for_gsl, &context};
    double value = 0;
    *no_life_h = (double)NAN;
    if (to_h <= run->time_h)
        return 0;
    if (is_steady(run)) {
        value = rate_at(run, bearing, run->time_h) * (to_h - run->time_h);
        if (isnan(value))
            *no_life_h = to_h;
        return value;
    }
    double end_h = to_h * (1 - SAME_TIME);
    if (isnan(rate_at(run, bearing, end_h))) {
        *no_life_h = end_h;
        return 0;
    }
    enum spt_status status = spt_numeric_integral(&function, run->time_h, to_h, &value);
    *no_life_h = context.no_life_h;
    if (status && isnan(*no_life_h) && !run->status)
        run->status = status;
    return value;
}

static void consider(double time_h, double now_h, double *next_h)
{
    if (!has_come(time_h, now_h) && time_h < *next_h)
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
    for (int i = 0; i < service->event_count; i++)
        consider(service->events[i].at_h, now_h, &next_h);
    for (int i = 0; i < service->drift_count; i++) {
        consider_drift(&service->drifts[i], 0, now_h, &next_h);
        if (service->oil_change_every_h > 0)
            consider_drift(&service->drifts[i], clock_start_h(run, now_h), now_h, &next_h);
    }
    const double renewals[] = {service->regrease_every_h, service->oil_change_every_h};
    for (int i = 0; i < 2; i++)
        if (renewals[i] > 0)
            consider((count_renewals(renewals[i], now_h) + 1) * renewals[i], now_h, &next_h);
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
    double no_life_h = (double)NAN;
    if (--*run->pieces_left < 0)
        run->status = SPT_NOT_CONVERGED;
    for (int b = 0; b < run->question->bearing_count && !run->status; b++) {
        double gone_h;
        spent[b] = spend(run, b, to_h, &gone_h);
        no_life_h = fmin(no_life_h, gone_h); /* the one that is a number */
    }
    if (run->status)
        return;
    if (!isnan(no_life_h)) {
        double last_h = last_with_life(run, no_life_h), ignored;
        for (int b = 0; b < run->question->bearing_count; b++)
            spent[b] = spend(run, b, last_h * (1 - 1e-9), &ignored);
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

/* The time from now on at which something other than a renewal changes the state; now where a drift
 * is under way. Drifts of water and dirt start again with each oil change: these repeat themselves.
 */
static double quiet_until_h(const struct run *run)
{
    const struct spt_service *service = run->service;
    double now_h = run->time_h, next_h = (double)INFINITY;
    for (int i = 0; i < service->event_count; i++)
        consider(service->events[i].at_h, now_h, &next_h);
    for (int i = 0; i < service->drift_count; i++) {
        const struct spt_drift *drift = &service->drifts[i];
        bool strains = !isnan(drift->load_from) || !isnan(drift->rise_from_k);
        if (is_skipped(run, service->event_count + i) ||
            (service->oil_change_every_h > 0 && !strains) || has_come(drift->to_h, now_h))
            continue;
        next_h = fmin(next_h, has_come(drift->from_h, now_h) ? now_h : drift->from_h);
    }
    return next_h;
}

/* The damages after `periods` more periods like the one that leads from `run` to `one`. */
static struct run after_periods(const struct run *run, const struct run *one, double periods)
{
    struct run after = *run;
    for (int b = 0; b < run->question->bearing_count; b++)
        after.damage[b] += periods * (one->damage[b] - run->damage[b]);
    return after;
}

/* The most periods, up to `fit`, that leave the damage below 1. */
static double periods_below_one(const struct run *run, const struct run *one, double fit)
{
    double low = 0, high = fit;
    struct run all = after_periods(run, one, fit);
    if (system_damage(&all) < 1)
        return fit;
    while (high - low > 1) {
        double middle = floor((low + high) / 2);
        struct run after = after_periods(run, one, middle);
        *(system_damage(&after) < 1 ? &low : &high) = middle;
    }
    return low;
}

/* From a renewal on, spends all the whole periods that are alike at once: as many as end by `end_h`
 * and, with `to_one`, leave the damage below 1. */
static void repeat_periods(struct run *run, double end_h, bool to_one)
{
    const struct spt_service *service = run->service;
    double regrease_h = service->regrease_every_h, change_h = service->oil_change_every_h;
    bool both = regrease_h > 0 && change_h > 0; /* renewed together they are one */
    if ((both && regrease_h != change_h) || !(regrease_h > 0 || change_h > 0) || run->stopped ||
        run->status)
        return;
    double every_h = regrease_h > 0 ? regrease_h : change_h;
    double done = count_renewals(every_h, run->time_h);
    double start_h = done * every_h;
    double fit = count_renewals(every_h, fmin(end_h, quiet_until_h(run)) - start_h);
    bool renewed = has_come(run->time_h, start_h) && grease_age_h(run, start_h, start_h) <= 0;
    if (fit < 3 || (!renewed && regrease_h > 0) || !has_come(run->time_h, start_h))
        return;
    struct run one = *run;
    while (one.time_h < start_h + every_h && !one.stopped && !one.status)
        step(&one, next_jump(&one, start_h + every_h));
    if (one.stopped || one.status)
        return; /* the plain steps will meet it */
    double periods = to_one ? periods_below_one(run, &one, fit) : fit;
    if (periods < 1)
        return;
    *run = after_periods(run, &one, periods);
    run->time_h = fmin((done + periods) * every_h, end_h);
}

/* Runs to a time, whatever the damage. */
static void advance(struct run *run, double to_h)
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
    struct run ahead = *(const struct run *)context;
    step(&ahead, time_h);
    return system_damage(&ahead) - 1;
}

/* Runs to `end_h` or to a damage of 1, whichever is first; gives true where the damage reaches 1.
 */
static bool run_to(struct run *run, double end_h)
{
    while (run->time_h < end_h && !run->stopped && !run->status) {
        repeat_periods(run, end_h, true);
        struct run before = *run;
        step(run, next_jump(run, end_h));
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
                            const struct spt_timeline_room *room, int *pieces_left)
{
    return (struct run){question, service, room, NONE, pieces_left, 0, {0, 0}, false, SPT_OK};
}

/* Life of a whole run: INFINITY beyond the horizon, NaN where it stops. */
static double life_of(struct run *run, double until_h)
{
    if (run_to(run, until_h))
        return run->time_h;
    return run->stopped || run->status ? (double)NAN : (double)INFINITY;
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

/* Life of all bearings that the state at a time would give, were it to stay, and its flags. */
static double life_in_state(const struct run *run, double time_h, struct spt_notes *notes)
{
    double lives_h[SPT_BEARINGS_MAX] = {0};
    struct run moment = *run;
    int count = run->question->bearing_count;
    moment.time_h = time_h;
    for (int b = 0; b < count; b++)
        lives_h[b] = 1 / rate_noted(&moment, b, time_h, notes);
    return count == 1 ? lives_h[0] : spt_life_system(lives_h, count, SPT_WEIBULL_SLOPE);
}

/* Follows the run once more and keeps the damage at each mark. */
static enum spt_status divide_into_stages(const struct run *start, double end_h,
                                          struct spt_timeline *timeline)
{
    double marks[SPT_STAGES_MAX];
    struct run run = *start;
    int count = collect_marks(start->service, end_h, marks);
    double from_h = 0, before = 0;
    marks[count] = end_h;
    timeline->stage_count = count + 1;
    for (int i = 0; i <= count && !run.status; i++) {
        if (i < count)
            advance(&run, marks[i]);
        double after = i < count ? system_damage(&run) : timeline->damage_at_end;
        struct spt_stage *stage = &timeline->stages[i];
        *stage = (struct spt_stage){.from_h = from_h, .to_h = marks[i], .damage = after - before};
        stage->start_life_h = life_in_state(start, from_h, &stage->notes);
        stage->end_life_h = life_in_state(start, marks[i] * (1 - 1e-9), &stage->notes);
        if (i == count && !isnan(timeline->stopped_h))
            life_in_state(start, timeline->stopped_h * (1 + 1e-9), &stage->notes);
        if (stage->damage > timeline->stages[timeline->worst_stage].damage)
            timeline->worst_stage = i;
        from_h = marks[i];
        before = after;
    }
    return run.status;
}

/* Damage spent by a time that is one of the marks; NaN where the life ends before. */
static double damage_before(const struct spt_timeline *timeline, double at_h)
{
    double sum = 0;
    for (int i = 0; i < timeline->stage_count; i++) {
        if (timeline->stages[i].from_h >= at_h)
            return sum;
        sum += timeline->stages[i].damage;
    }
    return timeline->stages[timeline->stage_count - 1].to_h >= at_h ? sum : (double)NAN;
}

static enum spt_status weigh_influences(const struct run *start, struct spt_timeline *timeline)
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
        influence->damage_at = damage_before(timeline, influence->at_h);
        influence->life_without_h = life_of(&without, timeline->until_h);
        status = without.status;
    }
    return status;
}

enum spt_status spt_timeline(const struct spt_case *question, const struct spt_service *service,
                             const struct spt_timeline_room *room, struct spt_timeline *timeline)
{
    int pieces_left = PIECES_MAX;
    memset(timeline, 0, sizeof *timeline);
    timeline->until_h = isnan(service->until_h) ? USUAL_HORIZON_H : service->until_h;
    struct run start = start_run(question, service, room, &pieces_left), run = start, quiet = start;
    timeline->life_h = life_of(&run, timeline->until_h);
    timeline->stopped_h = run.stopped && isnan(timeline->life_h) ? run.time_h : (double)NAN;
    timeline->damage_at_end = system_damage(&run);
    if (run.status)
        return run.status;
    quiet.skipped = ALL;
    timeline->undisturbed_h = life_of(&quiet, timeline->until_h);
    enum spt_status status = quiet.status;
    if (!status)
        status = divide_into_stages(&start, run.time_h, timeline);
    if (!status)
        status = weigh_influences(&start, timeline);
    return status;
}

enum spt_status spt_timeline_curve(const struct spt_case *question,
                                   const struct spt_service *service,
                                   const struct spt_timeline_room *room, const double *times_h,
                                   int count, double *damage)
{
    int pieces_left = PIECES_MAX;
    struct run run = start_run(question, service, room, &pieces_left);
    for (int i = 0; i < count && !run.status; i++) {
        advance(&run, times_h[i]);
        damage[i] = run.stopped ? (double)NAN : system_damage(&run);
    }
    return run.status;
}

static bool has_enough(const struct run *run, double enough)
{
    for (int b = 0; b < run->question->bearing_count; b++)
        if (run->damage[b] >= enough)
            return true;
    return false;
}

enum spt_status spt_timeline_rows(const struct spt_case *question,
                                  const struct spt_service *service,
                                  const struct spt_timeline_room *room, const double *times_h,
                                  int count, double enough, double (*damage)[SPT_BEARINGS_MAX],
                                  int *reached, double *stopped_h)
{
    int pieces_left = PIECES_MAX;
    struct run run = start_run(question, service, room, &pieces_left);
    *reached = 0;
    *stopped_h = (double)INFINITY;
    while (*reached < count && !has_enough(&run, enough)) {
        advance(&run, times_h[*reached]);
        if (run.status)
            return run.status;
        if (run.stopped) {
            *stopped_h = run.time_h;
            return SPT_OK;
        }
        memcpy(damage[(*reached)++], run.damage, sizeof run.damage);
    }
    return SPT_OK;
}
