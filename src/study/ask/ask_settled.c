/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/ask/ask_workspace.h"

#include "spalltime/assess.h"
#include "study/hub/hub_failure.h"

bool spt_ask_hub_workspace(const struct spt_case *question, struct spt_arena *arena,
                           struct spt_hub_workspace *workspace)
{
    size_t count = (size_t)question->bearings[0].phase_count;
    workspace->buffer_length = spt_hub_bench_workspace_length(question);
    workspace->buffer =
        spt_arena_allocate(arena, workspace->buffer_length * sizeof *workspace->buffer);
    workspace->cases = spt_arena_allocate(arena, count * sizeof *workspace->cases);
    workspace->reference_mrev =
        spt_arena_allocate(arena, count * sizeof *workspace->reference_mrev);
    workspace->factors = spt_arena_allocate(arena, count * sizeof *workspace->factors);
    workspace->phases = spt_arena_allocate(arena, 2 * count * sizeof *workspace->phases);
    workspace->results = spt_arena_allocate(arena, count * sizeof *workspace->results);
    return workspace->buffer && workspace->cases && workspace->reference_mrev &&
           workspace->factors && workspace->phases && workspace->results;
}

/* The hub in the condition of the past has its own settled phases. */
static bool settle_past(struct spt_case *question, bool with_cure, struct spt_arena *arena,
                        struct spt_error *error)
{
    if (!question->past.as_run)
        return true;
    const struct spt_settled *past =
        spt_ask_settled(question->past.as_run, with_cure, arena, error);
    if (past)
        question->past.as_run = &past->question;
    return past != NULL;
}

struct spt_settled *spt_ask_settled(const struct spt_case *question, bool with_cure,
                                    struct spt_arena *arena, struct spt_error *error)
{
    struct spt_hub_failure failure = spt_hub_failure_start();
    struct spt_settled *settled = spt_arena_allocate(arena, sizeof *settled);
    struct spt_hub_workspace *workspace =
        settled && question->hub ? spt_arena_allocate(arena, sizeof *workspace) : NULL;
    if (settled && !question->hub) {
        settled->question = *question;
        return settled;
    }
    if (workspace && spt_ask_hub_workspace(question, arena, workspace)) {
        settled->has_bench = true;
        failure.status = spt_hub_settle(question, workspace, with_cure, &settled->bench,
                                        &settled->question, &failure);
        if (failure.status == SPT_OK)
            return settle_past(&settled->question, with_cure, arena, error) ? settled : NULL;
    }
    spt_hub_failure_say(&failure, question, error);
    return NULL;
}
