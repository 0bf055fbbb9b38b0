/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"
#include "study/ask/ask_room.h"

enum spt_status spt_ask_schedule(const struct spt_plan_question *asked, struct spt_arena *arena,
                                 struct spt_schedule *schedule, struct spt_error *error)
{
    static const struct spt_service no_service;
    const struct spt_service *service = asked->service ? asked->service : &no_service;
    struct spt_case *settled = spt_arena_take(arena, sizeof *settled);
    struct spt_service *serviced = spt_arena_take(arena, sizeof *serviced);
    if (!settled || !serviced)
        return spt_error_set(error, SPT_NO_MEMORY, NULL);
    enum spt_status status =
        spt_ask_service_settled(asked->question, service, arena, settled, serviced, error);
    if (status)
        return status;
    struct spt_timeline_room room;
    size_t count = (size_t)spt_case_phase_count(settled);
    struct spt_phase_result *results = spt_arena_take(arena, count * sizeof *results);
    if (!spt_ask_service_room(settled, serviced, arena, &room) || !results)
        return spt_error_set(error, SPT_NO_MEMORY, NULL);
    const struct spt_schedule_inputs inputs = {
        .question = settled,
        .service = asked->service ? serviced : NULL,
        .limits = asked->limits,
        .costs = asked->costs,
        .floor = asked->floor,
        .timeline_room = &room,
    };
    status = spt_schedule(&inputs, results, schedule);
    return status ? spt_error_set(error, status, NULL) : SPT_OK;
}
