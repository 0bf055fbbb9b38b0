/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/assess.h"
#include "study/ask/ask_workspace.h"

#define CURVE_POINTS 101
#define FACTOR_MAX 1e9 /* on the fatigue lives: above it fatigue determines no interval */

static enum spt_status make_schedule(const struct spt_plan_inputs *asked,
                                     const struct spt_case *settled,
                                     const struct spt_service *serviced, struct spt_arena *arena,
                                     struct spt_maintenance *plan, double *stated_h)
{
    struct spt_timeline_workspace workspace;
    size_t count = (size_t)spt_case_phase_count(settled);
    struct spt_phase_result *results = spt_arena_allocate(arena, count * sizeof *results);
    if (!spt_ask_timeline_workspace(settled, serviced, arena, &workspace) || !results)
        return SPT_NO_MEMORY;
    const struct spt_schedule_inputs inputs = {
        .question = settled,
        .service = asked->service ? serviced : NULL,
        .limits = asked->limits,
        .costs = asked->costs,
        .floor = asked->floor,
        .timeline_workspace = &workspace,
    };
    enum spt_status status = spt_schedule(&inputs, results, &plan->schedule);
    return status ? status : spt_case_life(settled, results, stated_h);
}

static enum spt_status list_dates(struct spt_arena *arena, struct spt_maintenance *plan)
{
    struct spt_schedule_entry *entries =
        spt_arena_allocate(arena, SPT_SCHEDULE_ENTRIES_MAX * sizeof *entries);
    if (!entries)
        return SPT_NO_MEMORY;
    plan->entry_count =
        spt_schedule_calendar(&plan->schedule, entries, SPT_SCHEDULE_ENTRIES_MAX, &plan->cut);
    plan->entries = entries;
    return SPT_OK;
}

static enum spt_status draw_curve(struct spt_arena *arena, struct spt_maintenance *plan)
{
    double end_h = plan->schedule.fatigue_lives.l50_h;
    enum spt_status status = SPT_OK;
    if (!isfinite(end_h))
        end_h = plan->schedule.grease_lives.l50_h;
    if (!isfinite(end_h))
        return SPT_OK;
    struct spt_schedule_point *curve = spt_arena_allocate(arena, CURVE_POINTS * sizeof *curve);
    if (!curve)
        return SPT_NO_MEMORY;
    plan->curve_count = CURVE_POINTS;
    plan->curve = curve;
    for (int i = 0; i < CURVE_POINTS && !status; i++)
        status = spt_schedule_survival(&plan->schedule, end_h * i / (CURVE_POINTS - 1), &curve[i]);
    return status;
}

/* Intervals where the rated life is `end_h`, one end of its band, instead of `stated_h`. */
static enum spt_status find_end(const struct spt_schedule *schedule, double end_h, double stated_h,
                                struct spt_schedule_intervals *intervals)
{
    double factor = isinf(end_h) && isinf(stated_h) ? 1 : end_h / stated_h;
    return factor > 0 /* false for NaN: no life at that end */
               ? spt_schedule_intervals(schedule, fmin(factor, FACTOR_MAX), intervals)
               : SPT_OK;
}

static enum spt_status find_band(const struct spt_uncertainty *uncertainty, double stated_h,
                                 struct spt_arena *arena, struct spt_maintenance *plan,
                                 struct spt_error *error)
{
    const struct spt_spread_inputs asked = {.question = plan->schedule.question,
                                            .uncertainty = *uncertainty};
    struct spt_uncertainty_result *spread = spt_arena_allocate(arena, sizeof *spread);
    if (!spread)
        return spt_error_set(error, SPT_NO_MEMORY, NULL);
    enum spt_status status = spt_ask_spread(&asked, arena, spread, error);
    if (status)
        return status;
    plan->spread = spread;
    status = find_end(&plan->schedule, spread->system.p5_h, stated_h, &plan->low);
    if (!status)
        status = find_end(&plan->schedule, spread->system.p95_h, stated_h, &plan->high);
    return status ? spt_error_set(error, status, NULL) : SPT_OK;
}

enum spt_status spt_ask_schedule(const struct spt_plan_inputs *asked, struct spt_arena *arena,
                                 struct spt_maintenance *plan, struct spt_error *error)
{
    static const struct spt_service no_service;
    const struct spt_service *service = asked->service ? asked->service : &no_service;
    const struct spt_schedule_intervals none = {(double)NAN, (double)NAN};
    struct spt_case *settled = spt_arena_allocate(arena, sizeof *settled);
    struct spt_service *serviced = spt_arena_allocate(arena, sizeof *serviced);
    double stated_h;
    *plan = (struct spt_maintenance){.low = none, .high = none};
    int bearing, phase;
    if (spt_case_lacks_dirt(asked->question, &bearing, &phase))
        return spt_error_say(error, SPT_NOT_APPLICABLE, true,
                             asked->question->bearings[bearing].bearing.name,
                             "nothing says how dirty the grease is, which a plan needs: state "
                             "`cleanliness`, `contamination_factor`, `dust`, or `seal` and "
                             "`surroundings`");
    if (!settled || !serviced)
        return spt_error_set(error, SPT_NO_MEMORY, NULL);
    enum spt_status status =
        spt_ask_service_settled(asked->question, service, arena, settled, serviced, error);
    if (status)
        return status;
    status = make_schedule(asked, settled, serviced, arena, plan, &stated_h);
    if (!status)
        status = list_dates(arena, plan);
    if (!status)
        status = draw_curve(arena, plan);
    if (status)
        return spt_error_set(error, status, NULL);
    return asked->uncertainty ? find_band(asked->uncertainty, stated_h, arena, plan, error)
                              : SPT_OK;
}
