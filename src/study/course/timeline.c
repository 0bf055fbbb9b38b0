/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/quotient.h"
#include "spalltime/statistics.h"
#include "study/course/run.h"
#include "study/life/check.h"

#define USUAL_HORIZON_H 1e6
#define SAME 1e-9 /* relative difference of lives that are one: that of the integrals */

static int compare_times(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Fills in the rising marks inside (0, end_h): times of events and of starts and ends of drifts. */
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

/* Adds the notes of the setting of a hub, for both rows and every phase. */
static void note_setting(const struct spt_case *question, struct spt_placed_notes *placed)
{
    const struct spt_note_place whole = {.others = (1u << question->bearing_count) - 2};
    struct spt_notes notes = {0};
    spt_case_setting_notes(question, &notes);
    for (int i = 0; i < notes.count; i++)
        spt_run_place_note(placed, &notes.list[i], &whole);
}

/* Life of all bearings if the state at a time stayed constant, and its flags. */
static double life_in_state(const struct spt_run *run, double time_h,
                            struct spt_placed_notes *placed)
{
    double lives_h[SPT_BEARINGS_MAX] = {0};
    struct spt_run moment = *run;
    int count = run->question->bearing_count;
    moment.time_h = time_h;
    spt_run_renew(&moment);
    note_setting(spt_run_case(&moment, time_h), placed);
    for (int b = 0; b < count; b++)
        lives_h[b] = spt_quotient(1, spt_run_rate(&moment, b, time_h, placed));
    return spt_survival_series(lives_h, count, run->question->reliability_percent);
}

/* Life in the state at a time; adds its flags to the stage where they are new. */
static double visit_state(const struct spt_run *run, double time_h, struct spt_stage *stage)
{
    struct spt_placed_notes found = {.notes = {0}};
    double life_h = life_in_state(run, time_h, &found);
    for (int i = 0; i < found.notes.count; i++)
        spt_run_place_note(&stage->placed, &found.notes.list[i], &found.places[i]);
    return life_h;
}

/* True where an event puts in a new bearing now. */
static bool starts_new(const struct spt_run *run)
{
    struct spt_run renewed = *run;
    spt_run_renew(&renewed);
    return run->time_h > 0 && renewed.is_new &&
           memcmp(renewed.replaced, run->replaced, sizeof run->replaced) != 0;
}

/* Repeats the run and stores the damage at each mark. */
static enum spt_status divide_into_stages(const struct spt_run *start, const struct spt_run *ended,
                                          struct spt_timeline *timeline)
{
    const double end_h = ended->time_h;
    double marks[SPT_STAGES_MAX];
    struct spt_run run = *start;
    int count = collect_marks(start->service, end_h, marks);
    double from_h = 0, before = 0;
    marks[count] = end_h;
    timeline->stage_count = count + 1;
    for (int i = 0; i <= count && !run.status; i++) {
        struct spt_stage *stage = &timeline->stages[i];
        *stage = (struct spt_stage){.from_h = from_h, .to_h = marks[i]};
        stage->renewed = starts_new(&run);
        before = stage->renewed ? 0 : before;
        stage->start_life_h = visit_state(&run, from_h, stage);
        stage->start_notes = stage->placed.notes;
        if (i < count)
            spt_run_advance(&run, marks[i]);
        double after = i < count ? spt_run_damage(&run) : timeline->damage_at_end;
        stage->damage = after - before;
        stage->end_life_h = visit_state(i < count ? &run : ended, marks[i] * (1 - 1e-9), stage);
        if (i == count && !isnan(timeline->stopped_h))
            visit_state(ended, timeline->stopped_h * (1 + 1e-9), stage);
        if (stage->damage > timeline->stages[timeline->worst_stage].damage)
            timeline->worst_stage = i;
        from_h = marks[i];
        before = after;
    }
    return run.status;
}

/* Accumulated damage at a time that is one of the marks; NaN where the life ends before. */
static double damage_before(const struct spt_timeline *timeline, double at_h)
{
    double sum = 0;
    for (int i = 0; i < timeline->stage_count; i++) {
        if (timeline->stages[i].from_h >= at_h)
            return sum;
        if (timeline->stages[i].renewed)
            sum = 0;
        sum += timeline->stages[i].damage;
    }
    return timeline->stages[timeline->stage_count - 1].to_h >= at_h ? sum : (double)NAN;
}

static enum spt_status weigh_influences(const struct spt_run *start, struct spt_timeline *timeline)
{
    const struct spt_service *service = start->service;
    enum spt_status status = SPT_OK;
    timeline->influence_count = service->event_count + service->drift_count;
    for (int i = 0; i < timeline->influence_count && !status; i++) {
        struct spt_influence_result *influence = &timeline->influences[i];
        bool event = i < service->event_count;
        int drift = i - service->event_count;
        struct spt_run without = *start;
        without.skipped = i;
        influence->name = event ? service->events[i].name : service->drifts[drift].name;
        influence->at_h = event ? service->events[i].at_h : service->drifts[drift].from_h;
        influence->damage_at = damage_before(timeline, influence->at_h);
        influence->life_without_h = spt_run_life(&without, timeline->until_h);
        status = without.status;
    }
    return status;
}

/* Runs without any event or drift, and notes why the run ends where no life can be stated to its
 * end. */
static void follow_undisturbed(struct spt_run *quiet, struct spt_timeline *timeline)
{
    const struct spt_run start = *quiet;
    struct spt_placed_notes found = {.notes = {0}};
    timeline->undisturbed_h = spt_run_life(quiet, timeline->until_h);
    timeline->undisturbed_stopped_h = (double)NAN;
    if (!quiet->stopped || !isnan(timeline->undisturbed_h))
        return;
    timeline->undisturbed_stopped_h = quiet->time_h;
    life_in_state(&start, quiet->time_h * (1 + 1e-9), &found);
    timeline->undisturbed_notes = found.notes;
}

static double live_with(const struct spt_run *start, enum spt_run_dents dents, double until_h,
                        enum spt_status *status)
{
    struct spt_run run = *start;
    struct spt_run_budget budget = spt_run_budget();
    run.dents = dents;
    run.budget = &budget;
    const double life_h = spt_run_life(&run, until_h);
    if (!*status)
        *status = run.status;
    return life_h;
}

/* The dirt that made the dents, and what its dents cost. */
static enum spt_status weigh_dents(const struct spt_run *start, const struct spt_run *ended,
                                   struct spt_timeline *timeline)
{
    struct spt_dent_bounds *dents = &timeline->dents;
    enum spt_status status = SPT_OK;
    dents->if_cured_h = dents->half_credit_h = timeline->life_h;
    if (!spt_run_may_clean_up(start->question, start->service))
        return SPT_OK;
    dents->if_cured_h = live_with(start, SPT_RUN_DENTS_CURED, timeline->until_h, &status);
    dents->half_credit_h = live_with(start, SPT_RUN_DENTS_HALF, timeline->until_h, &status);
    dents->differ = !(fabs(dents->if_cured_h - timeline->life_h) <= SAME * timeline->life_h) &&
                    !(isinf(dents->if_cured_h) && isinf(timeline->life_h)) &&
                    !(isnan(dents->if_cured_h) && isnan(timeline->life_h));
    if (!dents->differ)
        dents->if_cured_h = dents->half_credit_h = timeline->life_h;
    spt_run_name_dirt(ended, dents);
    return status;
}

static void clear(struct spt_timeline *timeline)
{
    memset(timeline, 0, sizeof *timeline);
    double *const numbers[] = {&timeline->life_h,           &timeline->until_h,
                               &timeline->stopped_h,        &timeline->damage_at_end,
                               &timeline->undisturbed_h,    &timeline->undisturbed_stopped_h,
                               &timeline->dents.if_cured_h, &timeline->dents.half_credit_h};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        *numbers[i] = (double)NAN;
}

static enum spt_status follow(const struct spt_run *start, struct spt_timeline *timeline)
{
    struct spt_run run = *start, quiet = *start;
    timeline->life_h = spt_run_life(&run, timeline->until_h);
    timeline->stopped_h = run.stopped && isnan(timeline->life_h) ? run.time_h : (double)NAN;
    timeline->damage_at_end = spt_run_damage(&run);
    if (run.status)
        return run.status;
    quiet.skipped = SPT_RUN_QUIET;
    follow_undisturbed(&quiet, timeline);
    enum spt_status status = quiet.status;
    if (!status)
        status = divide_into_stages(start, &run, timeline);
    if (!status)
        status = weigh_dents(start, &run, timeline);
    if (!status)
        status = weigh_influences(start, timeline);
    return status;
}

static bool is_complete(const struct spt_timeline_workspace *workspace)
{
    return workspace->phases && workspace->results;
}

enum spt_status spt_timeline(const struct spt_case *question, const struct spt_service *service,
                             const struct spt_timeline_workspace *workspace,
                             struct spt_timeline *timeline)
{
    struct spt_run_budget budget = spt_run_budget();
    clear(timeline);
    if (!is_complete(workspace))
        return SPT_BAD_ARGUMENT;
    enum spt_status status = spt_check_service(question, service);
    if (status)
        return status;
    timeline->until_h = isnan(service->until_h) ? USUAL_HORIZON_H : service->until_h;
    const struct spt_run start = spt_run_start(question, service, workspace, &budget);
    timeline->hours_run = start.past.hours_run;
    status = start.status ? start.status : follow(&start, timeline);
    if (status)
        clear(timeline);
    return status;
}

enum spt_status spt_timeline_curve(const struct spt_case *question,
                                   const struct spt_service *service,
                                   const struct spt_timeline_workspace *workspace,
                                   const double *times_h, int count, double *damage)
{
    struct spt_run_budget budget = spt_run_budget();
    if (!is_complete(workspace) || (count > 0 && !damage))
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < count; i++)
        damage[i] = (double)NAN;
    if (spt_check_service(question, service) || spt_check_times(times_h, count))
        return SPT_BAD_ARGUMENT;
    struct spt_run run = spt_run_start(question, service, workspace, &budget);
    for (int i = 0; i < count && !run.status; i++) {
        spt_run_advance(&run, times_h[i]);
        damage[i] = run.stopped ? (double)NAN : spt_run_damage(&run);
    }
    return run.status;
}

static bool has_enough(const struct spt_run *run, double enough)
{
    for (int b = 0; b < run->question->bearing_count; b++)
        if (run->damage[b] >= enough)
            return true;
    return false;
}

enum spt_status spt_run_rows(struct spt_run *run, const double *times_h, int count, double enough,
                             double (*damage)[SPT_BEARINGS_MAX], int *reached, double *stopped_h)
{
    *reached = 0;
    *stopped_h = (double)INFINITY;
    while (*reached < count && !has_enough(run, enough)) {
        spt_run_advance(run, times_h[*reached]);
        if (run->status)
            return run->status;
        if (run->stopped) {
            *stopped_h = run->time_h;
            return SPT_OK;
        }
        for (int b = 0; b < SPT_BEARINGS_MAX; b++)
            damage[*reached][b] = run->replaced[b] + run->damage[b];
        ++*reached;
    }
    return SPT_OK;
}

enum spt_status spt_timeline_rows(const struct spt_case *question,
                                  const struct spt_service *service,
                                  const struct spt_timeline_workspace *workspace,
                                  const double *times_h, int count, double enough,
                                  double (*damage)[SPT_BEARINGS_MAX], int *reached,
                                  double *stopped_h)
{
    struct spt_run_budget budget = spt_run_budget();
    *reached = 0;
    *stopped_h = (double)INFINITY;
    if (!is_complete(workspace) || (count > 0 && !damage))
        return SPT_BAD_ARGUMENT;
    if (spt_check_service(question, service) || spt_check_times(times_h, count))
        return SPT_BAD_ARGUMENT;
    struct spt_run run = spt_run_start(question, service, workspace, &budget);
    return spt_run_rows(&run, times_h, count, enough, damage, reached, stopped_h);
}
