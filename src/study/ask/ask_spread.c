/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <unistd.h>

#include "spalltime/assess.h"
#include "study/ask/ask_room.h"

#define HUB_COST 4 /* approximate time of a sample of a hub over that of another case */

static int count_threads(int asked)
{
    long count = asked > 0 ? asked : sysconf(_SC_NPROCESSORS_ONLN);
    return count < 1                           ? 1
           : count > SPT_UNCERTAIN_THREADS_MAX ? SPT_UNCERTAIN_THREADS_MAX
                                               : (int)count;
}

static bool make_room(const struct spt_spread_question *asked, struct spt_arena *arena,
                      struct spt_uncertainty_room *room)
{
    const struct spt_case *question = asked->question;
    size_t n = (size_t)asked->uncertainty.samples, threads = (size_t)count_threads(asked->threads);
    size_t bearings = (size_t)question->bearing_count;
    size_t phases = threads * (size_t)spt_case_phase_count(question);
    size_t design = SPT_UNCERTAIN_COUNT * n;
    size_t design_of_shares = (size_t)2 * SPT_UNCERTAIN_COUNT * SPT_UNCERTAIN_SHARE_SAMPLES;
    if (asked->shares && design < design_of_shares)
        design = design_of_shares;
    room->threads = (int)threads;
    room->phases = spt_arena_take(arena, phases * sizeof *room->phases);
    room->results = spt_arena_take(arena, phases * sizeof *room->results);
    room->design = spt_arena_take(arena, design * sizeof *room->design);
    room->lives = spt_arena_take(arena, (1 + bearings) * n * sizeof *room->lives);
    room->scratch =
        spt_arena_take(arena, (bearings < 2 ? 4 : 2 + bearings) * n * sizeof *room->scratch);
    room->shares =
        asked->shares
            ? spt_arena_take(arena, (size_t)3 * SPT_UNCERTAIN_SHARE_SAMPLES * sizeof *room->shares)
            : NULL;
    return room->phases && room->results && room->design && room->lives && room->scratch &&
           (!asked->shares || room->shares);
}

/* A bench for each thread and the table they share; nothing without a hub. */
static bool make_hub_room(const struct spt_case *question, struct spt_arena *arena,
                          struct spt_uncertainty_room *room)
{
    size_t threads = (size_t)room->threads;
    room->hub_rooms = NULL;
    room->setting_table = NULL;
    if (!question->hub)
        return true;
    struct spt_hub_room *rooms = spt_arena_take(arena, threads * sizeof *rooms);
    bool complete = rooms != NULL;
    for (size_t i = 0; i < threads && complete; i++)
        complete = spt_ask_hub_room(question, arena, &rooms[i]);
    room->hub_rooms = rooms;
    room->setting_table =
        spt_arena_take(arena, spt_uncertainty_table_length(question) * sizeof(double));
    return complete && room->setting_table;
}

enum spt_status spt_ask_spread(const struct spt_spread_question *asked, struct spt_arena *arena,
                               struct spt_uncertainty_result *result, struct spt_error *error)
{
    struct spt_uncertainty_room room;
    enum spt_status status = SPT_NO_MEMORY;
    if (make_room(asked, arena, &room) && make_hub_room(asked->question, arena, &room))
        status = spt_uncertainty(asked->question, &asked->uncertainty, &room, result);
    return status ? spt_error_set(error, status, NULL) : SPT_OK;
}

int spt_ask_band_samples(int samples, int among, bool hub)
{
    if (hub && among > 1)
        among *= HUB_COST;
    return samples / among >= SPT_BAND_SAMPLES_MIN ? samples / among : SPT_BAND_SAMPLES_MIN;
}
