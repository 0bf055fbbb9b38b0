/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/ask.h"
#include "spalltime/assess.h"

enum spt_status spt_ask_reach(const struct spt_case *question, double target_h,
                              struct spt_arena *arena, struct spt_reach *reach,
                              struct spt_error *error)
{
    size_t count = (size_t)spt_case_phase_count(question);
    struct spt_settled *settled = spt_ask_settled(question, false, arena, error);
    if (!settled)
        return error->status;
    const struct spt_reach_workspace workspace = {
        spt_arena_allocate(arena, count * sizeof *workspace.phases),
        spt_arena_allocate(arena, count * sizeof *workspace.results),
        settled->has_bench ? &settled->bench : NULL,
    };
    if (workspace.bench)
        spt_hub_bench_rate(
            workspace.bench); /* where it cannot be rated there is no lever "end play" */
    enum spt_status status = workspace.phases && workspace.results
                                 ? spt_reach(&settled->question, target_h, &workspace, reach)
                                 : SPT_NO_MEMORY;
    return status ? spt_error_set(error, status, NULL) : SPT_OK;
}
