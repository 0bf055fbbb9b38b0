/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/hub.h"

#include <math.h>
#include <stdio.h>

#include "cli/message.h"
#include "cli/options.h"
#include "spalltime/adjust.h"

/* Where the method gives no value, by what was being worked out. */
static const char *find_gap(enum spt_hub_step step)
{
    switch (step) {
    case SPT_HUB_STEP_FORCE:
        return "this preload force needs more preload than the model covers (10 mm)";
    case SPT_HUB_STEP_REFERENCE:
        return "one row carries nothing at all there, so its life has nothing to be compared with";
    case SPT_HUB_STEP_LIVES:
        return "no phase turns, or a phase that turns has no finite life, so no setting is better "
               "than another";
    case SPT_HUB_STEP_SETTING:
        return "the inner part has to move farther than the model covers";
    case SPT_HUB_STEP_START:
        break;
    }
    return spt_status_text(SPT_NOT_APPLICABLE);
}

/* What a status means for a hub. */
static const char *find_reason(const struct spt_hub_failure *failure)
{
    switch (failure->status) {
    case SPT_CANNOT_CARRY:
        return "the pair cannot carry this load: the inner part moves along the axis without end";
    case SPT_FREE:
        return "nothing is loaded, so the hub is free and no setting is better than another";
    case SPT_NOT_APPLICABLE:
        return find_gap(failure->step);
    case SPT_NOT_CONVERGED:
        return "the balance of the roller loads was not found to the accuracy that is asked for";
    case SPT_OK:
    case SPT_BAD_ARGUMENT:
    case SPT_NO_MEMORY:
    case SPT_NO_ROOM:
    case SPT_STATUS_COUNT:
        break;
    }
    return spt_status_text(failure->status);
}

int spt_cli_hub_fails(const struct spt_case *question, const struct spt_hub_failure *failure)
{
    fprintf(spt_messages(), "spalltime: %s: ", question->title);
    if (failure->phase)
        fprintf(spt_messages(), "phase `%s`: ", failure->phase);
    if (failure->step == SPT_HUB_STEP_REFERENCE)
        fputs("at the reference (no end play when running, rings aligned): ", spt_messages());
    else if (!isnan(failure->mounted_mm))
        fprintf(spt_messages(), "set to %.4g mm %s: ", fabs(failure->mounted_mm),
                failure->mounted_mm < 0 ? "preload" : "end play");
    fprintf(spt_messages(), "%s\n", find_reason(failure));
    return failure->status == SPT_NO_MEMORY ? SPT_EXIT_SYSTEM : SPT_EXIT_BAD_INPUT;
}

bool spt_cli_hub_room(const struct spt_case *question, struct spt_arena *arena,
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

int spt_cli_settle(const struct spt_case *question, struct spt_arena *arena, bool with_cure,
                   struct spt_hub_bench *bench, struct spt_case *settled)
{
    struct spt_hub_failure failure = {SPT_NO_MEMORY, SPT_HUB_STEP_START, NULL, (double)NAN};
    *settled = *question;
    if (!question->hub)
        return SPT_EXIT_DONE;
    struct spt_hub_room *room = spt_arena_take(arena, sizeof *room);
    if (room && spt_cli_hub_room(question, arena, room)) {
        failure.status = spt_hub_settle(question, room, with_cure, bench, settled, &failure);
        if (failure.status == SPT_OK)
            return SPT_EXIT_DONE;
    }
    return spt_cli_hub_fails(question, &failure);
}

int spt_cli_distribute(const struct spt_hub_bench *bench, struct spt_arena *arena,
                       struct spt_assessment *assessment)
{
    struct spt_hub_failure failure = {SPT_NO_MEMORY, SPT_HUB_STEP_START, NULL, (double)NAN};
    size_t count = (size_t)assessment->bearings[0].phase_count;
    struct spt_hub_answer *answer = spt_arena_take(arena, sizeof *answer);
    struct spt_hub_phase_answer *phases = spt_arena_take(arena, count * sizeof *phases);
    if (answer && phases && spt_hub_answer(bench, assessment, phases, answer, &failure) == SPT_OK) {
        assessment->hub = answer;
        return SPT_EXIT_DONE;
    }
    return spt_cli_hub_fails(assessment->question, &failure);
}

int spt_cli_hub_curve(struct spt_hub_bench *bench, const struct spt_case *settled,
                      struct spt_arena *arena, struct spt_hub_curve *curve)
{
    struct spt_assessment assessment;
    struct spt_hub_failure failure = {SPT_NO_MEMORY, SPT_HUB_STEP_START, NULL, (double)NAN};
    size_t count = (size_t)spt_case_phase_count(settled);
    struct spt_phase_result *results = spt_arena_take(arena, count * sizeof *results);
    if (results)
        failure.status = spt_assess(settled, results, &assessment);
    if (!failure.status)
        failure.status = spt_hub_curve(bench, &assessment, curve, &failure);
    return failure.status ? spt_cli_hub_fails(settled, &failure) : SPT_EXIT_DONE;
}
