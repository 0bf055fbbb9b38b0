/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/assess.h"
#include "study/ask/ask_workspace.h"

#define CURVE_POINTS 201

/* Number of cases after events: of each event, and with each of the others left out (timeline.h).
 */
static int count_cases(const struct spt_service *service)
{
    return service->event_count * (service->event_count + 1);
}

enum spt_status spt_ask_service_settled(const struct spt_case *question,
                                        const struct spt_service *service, struct spt_arena *arena,
                                        struct spt_case *settled, struct spt_service *serviced,
                                        struct spt_error *error)
{
    *settled = *question;
    *serviced = *service;
    if (!question->hub)
        return SPT_OK;
    int count = count_cases(service);
    struct spt_case *cases = spt_arena_allocate(arena, (size_t)(count + 1) * sizeof *cases);
    if (!cases)
        return spt_error_set(error, SPT_NO_MEMORY, NULL);
    for (int i = -1; i < count; i++) {
        const struct spt_settled *one =
            spt_ask_settled(i < 0 ? question : &service->cases[i], false, arena, error);
        if (!one)
            return error->status;
        *(i < 0 ? settled : &cases[i]) = one->question;
    }
    serviced->cases = count ? cases : NULL;
    return SPT_OK;
}

bool spt_ask_timeline_workspace(const struct spt_case *question, const struct spt_service *service,
                                struct spt_arena *arena, struct spt_timeline_workspace *workspace)
{
    int most = spt_case_phase_count(question);
    for (int i = 0; i < count_cases(service); i++)
        if (spt_case_phase_count(&service->cases[i]) > most)
            most = spt_case_phase_count(&service->cases[i]);
    workspace->phases = spt_arena_allocate(arena, (size_t)most * sizeof *workspace->phases);
    workspace->results = spt_arena_allocate(arena, (size_t)most * sizeof *workspace->results);
    return workspace->phases && workspace->results;
}

/* Time at which the curve ends: the end of the life, the loss of the film, or the horizon. */
static double end_of(const struct spt_timeline *timeline)
{
    if (isnan(timeline->life_h))
        return timeline->stopped_h;
    return isinf(timeline->life_h) ? timeline->until_h : timeline->life_h;
}

static enum spt_status draw(struct spt_service_life *life,
                            const struct spt_timeline_workspace *workspace, double *times_h,
                            double *damage)
{
    double end_h = end_of(&life->timeline);
    for (int i = 0; i < CURVE_POINTS; i++)
        times_h[i] = end_h * i / (CURVE_POINTS - 1);
    life->curve = (struct spt_damage_curve){CURVE_POINTS, times_h, damage};
    return spt_timeline_curve(&life->question, &life->service, workspace, times_h, CURVE_POINTS,
                              damage);
}

static enum spt_status follow(struct spt_service_life *life, struct spt_arena *arena)
{
    struct spt_timeline_workspace workspace;
    double *times_h = spt_arena_allocate(arena, CURVE_POINTS * sizeof *times_h);
    double *damage = spt_arena_allocate(arena, CURVE_POINTS * sizeof *damage);
    if (!spt_ask_timeline_workspace(&life->question, &life->service, arena, &workspace) ||
        !times_h || !damage)
        return SPT_NO_MEMORY;
    enum spt_status status = spt_case_life(&life->question, workspace.results, &life->stated_h);
    if (!status)
        status = spt_case_greasing(&life->question, workspace.results, &life->greasing);
    if (!status)
        status = spt_phase_dents(&life->question, workspace.results, &life->phase_dents);
    spt_phase_dents_judge(&life->question, life->stated_h, &life->phase_dents);
    if (!status)
        status = spt_timeline(&life->question, &life->service, &workspace, &life->timeline);
    return status ? status : draw(life, &workspace, times_h, damage);
}

enum spt_status spt_ask_timeline(const struct spt_case *question, const struct spt_service *service,
                                 struct spt_arena *arena, struct spt_service_life *life,
                                 struct spt_error *error)
{
    *life = (struct spt_service_life){.stated_h = (double)NAN};
    enum spt_status status =
        spt_ask_service_settled(question, service, arena, &life->question, &life->service, error);
    if (status)
        return status;
    status = follow(life, arena);
    if (!status)
        return SPT_OK;
    return spt_error_say(error, status, false, NULL, "%s%s", spt_status_text(status),
                         status == SPT_NOT_CONVERGED
                             ? "; with a very short `regrease` or `oil_change` there are too many "
                               "periods: look at a longer one"
                             : "");
}
