/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/spread.h"

#include <math.h>
#include <stdio.h>
#include <unistd.h>

#include "cli/hub.h"
#include "cli/message.h"
#include "spalltime/adjust.h"

#define HUB_COST 4 /* a sample of a hub takes so many times as long, about */

static int count_threads(void)
{
    long count = sysconf(_SC_NPROCESSORS_ONLN);
    return count < 1                           ? 1
           : count > SPT_UNCERTAIN_THREADS_MAX ? SPT_UNCERTAIN_THREADS_MAX
                                               : (int)count;
}

static bool make_room(struct spt_arena *arena, const struct spt_case *question, int samples,
                      bool shares, struct spt_uncertainty_room *room)
{
    size_t n = (size_t)samples, threads = (size_t)count_threads();
    size_t phases = threads * (size_t)spt_case_phase_count(question);
    size_t design = SPT_UNCERTAIN_COUNT * n;
    size_t design_of_shares = (size_t)2 * SPT_UNCERTAIN_COUNT * SPT_UNCERTAIN_SHARE_SAMPLES;
    if (shares && design < design_of_shares)
        design = design_of_shares;
    room->threads = (int)threads;
    room->phases = spt_arena_take(arena, phases * sizeof *room->phases);
    room->results = spt_arena_take(arena, phases * sizeof *room->results);
    room->design = spt_arena_take(arena, design * sizeof *room->design);
    room->lives = spt_arena_take(arena, (1 + SPT_BEARINGS_MAX) * n * sizeof *room->lives);
    room->scratch = spt_arena_take(arena, 4 * n * sizeof *room->scratch);
    room->shares =
        shares
            ? spt_arena_take(arena, (size_t)3 * SPT_UNCERTAIN_SHARE_SAMPLES * sizeof *room->shares)
            : NULL;
    return room->phases && room->results && room->design && room->lives && room->scratch &&
           (!shares || room->shares);
}

/* A bench for each thread and the table they share; nothing without a hub. */
static bool make_hub_room(struct spt_arena *arena, const struct spt_case *question,
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
        complete = spt_cli_hub_room(question, arena, &rooms[i]);
    room->hub_rooms = rooms;
    room->setting_table =
        spt_arena_take(arena, spt_uncertainty_table_length(question) * sizeof(double));
    return complete && room->setting_table;
}

static int draw(const struct spt_options *options, const char *command, struct spt_arena *arena,
                const struct spt_case *question, const struct spt_uncertainty *uncertainty,
                struct spt_uncertainty_result *result)
{
    struct spt_uncertainty_room room;
    enum spt_status found = SPT_NO_MEMORY;
    if (make_room(arena, question, uncertainty->samples, options->shares, &room) &&
        make_hub_room(arena, question, &room))
        found = spt_uncertainty(question, uncertainty, &room, result);
    if (!found)
        return SPT_EXIT_DONE;
    fprintf(spt_messages(), "spalltime %s: %s\n", command, spt_status_text(found));
    return SPT_EXIT_SYSTEM;
}

int spt_cli_spread(const struct spt_options *options, const char *command, struct spt_input *input,
                   const struct spt_case *question, struct spt_uncertainty_result *result)
{
    struct spt_uncertainty uncertainty = input->scenario.uncertainty;
    if (options->samples)
        uncertainty.samples = options->samples;
    return draw(options, command, &input->arena, question, &uncertainty, result);
}

int spt_cli_band(const struct spt_options *options, const char *command, struct spt_input *input,
                 const struct spt_case *question, int among,
                 const struct spt_uncertainty_result **spread)
{
    struct spt_uncertainty uncertainty = input->scenario.uncertainty;
    *spread = NULL;
    if (!input->scenario.has_uncertainty)
        return SPT_EXIT_DONE;
    struct spt_uncertainty_result *result = spt_arena_take(&input->arena, sizeof *result);
    if (!result) {
        fprintf(spt_messages(), "spalltime %s: %s\n", command, spt_status_text(SPT_NO_MEMORY));
        return SPT_EXIT_SYSTEM;
    }
    if (question->hub && among > 1)
        among *= HUB_COST;
    if (uncertainty.samples / among >= SPT_BAND_SAMPLES_MIN)
        uncertainty.samples /= among;
    else
        uncertainty.samples = SPT_BAND_SAMPLES_MIN;
    if (options->samples)
        uncertainty.samples = options->samples;
    if (!question->hub) /* a variant may have none */
        uncertainty.inputs[SPT_UNCERTAIN_END_PLAY].spread = SPT_RANDOM_FIXED;
    *spread = result;
    return draw(options, command, &input->arena, question, &uncertainty, result);
}
