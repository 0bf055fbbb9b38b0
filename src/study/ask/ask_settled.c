/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/ask/ask_room.h"

#include "spalltime/assess.h"
#include "study/hub/hub_failure.h"

bool spt_ask_hub_room(const struct spt_case *question, struct spt_arena *arena,
                      struct spt_hub_room *room)
{
    size_t count = (size_t)question->bearings[0].phase_count;
    room->workspace_length = spt_hub_bench_workspace(question);
    room->workspace = spt_arena_take(arena, room->workspace_length * sizeof *room->workspace);
    room->cases = spt_arena_take(arena, count * sizeof *room->cases);
    room->reference_mrev = spt_arena_take(arena, count * sizeof *room->reference_mrev);
    room->factors = spt_arena_take(arena, count * sizeof *room->factors);
    room->phases = spt_arena_take(arena, 2 * count * sizeof *room->phases);
    room->results = spt_arena_take(arena, count * sizeof *room->results);
    return room->workspace && room->cases && room->reference_mrev && room->factors &&
           room->phases && room->results;
}

struct spt_settled *spt_ask_settled(const struct spt_case *question, bool with_cure,
                                    struct spt_arena *arena, struct spt_error *error)
{
    struct spt_hub_failure failure = spt_hub_failure_start();
    struct spt_settled *settled = spt_arena_take(arena, sizeof *settled);
    struct spt_hub_room *room =
        settled && question->hub ? spt_arena_take(arena, sizeof *room) : NULL;
    if (settled && !question->hub) {
        settled->question = *question;
        return settled;
    }
    if (room && spt_ask_hub_room(question, arena, room)) {
        settled->has_bench = true;
        failure.status = spt_hub_settle(question, room, with_cure, &settled->bench,
                                        &settled->question, &failure);
        if (failure.status == SPT_OK)
            return settled;
    }
    spt_hub_failure_say(&failure, question, error);
    return NULL;
}
