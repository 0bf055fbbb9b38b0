/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/service.h"

#include <math.h>
#include <stdio.h>

#include "cli/hub.h"
#include "cli/message.h"
#include "cli/options.h"
#include "spalltime/adjust.h"

#define CURVE_POINTS 201

/* Where the curve ends: at the end of the life, where the film goes, or at the horizon. */
static double end_of(const struct spt_timeline *timeline)
{
    if (isnan(timeline->life_h))
        return timeline->stopped_h;
    return isinf(timeline->life_h) ? timeline->until_h : timeline->life_h;
}

static enum spt_status draw(struct spt_service_life *life, const struct spt_timeline_room *room,
                            double *times_h, double *damage)
{
    double end_h = end_of(&life->timeline);
    for (int i = 0; i < CURVE_POINTS; i++)
        times_h[i] = end_h * i / (CURVE_POINTS - 1);
    life->curve = (struct spt_damage_curve){CURVE_POINTS, times_h, damage};
    return spt_timeline_curve(&life->question, &life->service, room, times_h, CURVE_POINTS, damage);
}

int spt_cli_settle_service(struct spt_service_life *life, struct spt_arena *arena)
{
    struct spt_service *service = &life->service;
    struct spt_case *question = &life->question;
    struct spt_hub_bench bench;
    if (!question->hub)
        return SPT_EXIT_DONE;
    int count = service->event_count * (service->event_count + 1);
    struct spt_case unsettled = *question;
    struct spt_case *cases = spt_arena_take(arena, (size_t)(count + 1) * sizeof *cases);
    if (!cases) {
        fputs("spalltime: out of memory\n", spt_messages());
        return SPT_EXIT_SYSTEM;
    }
    int status = spt_cli_settle(&unsettled, arena, false, &bench, question);
    for (int i = 0; i < count && !status; i++)
        status = spt_cli_settle(&service->cases[i], arena, false, &bench, &cases[i]);
    service->cases = count ? cases : NULL;
    return status;
}

/* An event may bring a longer duty: the most phases of any case. */
static size_t count_phases(const struct spt_service_life *life)
{
    const struct spt_service *service = &life->service;
    int most = spt_case_phase_count(&life->question);
    for (int i = 0; i < service->event_count * (service->event_count + 1); i++)
        if (spt_case_phase_count(&service->cases[i]) > most)
            most = spt_case_phase_count(&service->cases[i]);
    return (size_t)most;
}

bool spt_cli_service_room(const struct spt_service_life *life, struct spt_arena *arena,
                          struct spt_timeline_room *room)
{
    size_t count = count_phases(life);
    room->phases = spt_arena_take(arena, count * sizeof *room->phases);
    room->results = spt_arena_take(arena, count * sizeof *room->results);
    return room->phases && room->results;
}

static int follow(struct spt_service_life *life, struct spt_arena *arena)
{
    struct spt_timeline_room room;
    double *times_h = spt_arena_take(arena, CURVE_POINTS * sizeof *times_h);
    double *damage = spt_arena_take(arena, CURVE_POINTS * sizeof *damage);
    enum spt_status status = SPT_NO_MEMORY;
    if (spt_cli_service_room(life, arena, &room) && times_h && damage)
        status = spt_timeline(&life->question, &life->service, &room, &life->timeline);
    if (!status)
        status = draw(life, &room, times_h, damage);
    life->status = status;
    if (!status)
        return SPT_EXIT_DONE;
    fprintf(spt_messages(), "spalltime timeline: %s%s\n", spt_status_text(status),
            status == SPT_NOT_CONVERGED ? "; with a very short `regrease` or `oil_change` there "
                                          "are too many periods: look at a longer one"
                                        : "");
    return SPT_EXIT_SYSTEM;
}

int spt_cli_follow(const struct spt_scenario *scenario, struct spt_arena *arena,
                   struct spt_service_life *life)
{
    life->question = scenario->base.question;
    life->service = scenario->service;
    life->status = SPT_NO_MEMORY;
    int status = spt_cli_settle_service(life, arena);
    return status ? status : follow(life, arena);
}
