/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/assess.h"
#include "spalltime/vehicle.h"
#include "study/hub/hub_failure.h"

/* The load distribution of an assessed hub. */
static enum spt_status distribute(const struct spt_hub_bench *bench, struct spt_arena *arena,
                                  struct spt_assessment *assessment, struct spt_error *error)
{
    struct spt_hub_failure failure = spt_hub_failure_start();
    size_t count = (size_t)assessment->bearings[0].phase_count;
    struct spt_hub_answer *answer = spt_arena_allocate(arena, sizeof *answer);
    struct spt_hub_phase_answer *phases = spt_arena_allocate(arena, count * sizeof *phases);
    if (answer && phases && spt_hub_answer(bench, assessment, phases, answer, &failure) == SPT_OK) {
        assessment->hub = answer;
        return SPT_OK;
    }
    return spt_hub_failure_say(&failure, assessment->question, error);
}

enum spt_status spt_ask_life(const struct spt_case *question, struct spt_arena *arena,
                             struct spt_assessment *assessment, struct spt_error *error)
{
    size_t count = (size_t)spt_case_phase_count(question);
    struct spt_phase_result *phases = spt_arena_allocate(arena, count * sizeof *phases);
    if (!phases)
        return spt_error_set(error, SPT_NO_MEMORY, question->title);
    struct spt_settled *settled = spt_ask_settled(question, true, arena, error);
    if (!settled)
        return error->status;
    enum spt_status status = spt_assess(&settled->question, phases, assessment);
    if (status)
        return spt_error_set(error, status, question->title);
    if (question->vehicle) {
        struct spt_vehicle_answer *vehicle = spt_arena_allocate(arena, sizeof *vehicle);
        if (!vehicle)
            return spt_error_set(error, SPT_NO_MEMORY, question->title);
        status = spt_ask_vehicle(question, arena, vehicle, error);
        if (status)
            return status;
        assessment->vehicle = vehicle;
    }
    return settled->has_bench ? distribute(&settled->bench, arena, assessment, error) : SPT_OK;
}

enum spt_status spt_ask_life_h(const struct spt_case *settled, struct spt_arena *arena,
                               double *life_h, struct spt_error *error)
{
    size_t count = (size_t)spt_case_phase_count(settled);
    struct spt_phase_result *results = spt_arena_allocate(arena, count * sizeof *results);
    enum spt_status status = results ? spt_case_life(settled, results, life_h) : SPT_NO_MEMORY;
    return status ? spt_error_set(error, status, NULL) : SPT_OK;
}
