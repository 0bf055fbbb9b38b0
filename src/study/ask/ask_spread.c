/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "platform/platform.h"
#include "spalltime/assess.h"
#include "study/ask/ask_workspace.h"

#define HUB_COST 4 /* approximate time of a sample of a hub over that of another case */

static int count_threads(int asked)
{
    const int count = asked > 0 ? asked : spt_processor_count();
    return count > SPT_UNCERTAIN_THREADS_MAX ? SPT_UNCERTAIN_THREADS_MAX : count;
}

static bool make_workspace(const struct spt_spread_inputs *asked, struct spt_arena *arena,
                           struct spt_uncertainty_workspace *workspace)
{
    const struct spt_case *question = asked->question;
    size_t n = (size_t)asked->uncertainty.samples, threads = (size_t)count_threads(asked->threads);
    size_t bearings = (size_t)question->bearing_count;
    size_t phases = threads * (size_t)spt_case_phase_count(question);
    size_t design = SPT_UNCERTAIN_COUNT * n;
    size_t design_of_shares = (size_t)2 * SPT_UNCERTAIN_COUNT * SPT_UNCERTAIN_SHARE_SAMPLES;
    if (asked->shares && design < design_of_shares)
        design = design_of_shares;
    workspace->threads = (int)threads;
    workspace->phases = spt_arena_allocate(arena, phases * sizeof *workspace->phases);
    workspace->results = spt_arena_allocate(arena, phases * sizeof *workspace->results);
    workspace->design = spt_arena_allocate(arena, design * sizeof *workspace->design);
    workspace->lives = spt_arena_allocate(arena, (1 + bearings) * n * sizeof *workspace->lives);
    workspace->scratch = spt_arena_allocate(arena, (bearings < 2 ? 4 : 2 + bearings) * n *
                                                       sizeof *workspace->scratch);
    workspace->shares = asked->shares
                            ? spt_arena_allocate(arena, (size_t)3 * SPT_UNCERTAIN_SHARE_SAMPLES *
                                                            sizeof *workspace->shares)
                            : NULL;
    return workspace->phases && workspace->results && workspace->design && workspace->lives &&
           workspace->scratch && (!asked->shares || workspace->shares);
}

/* A bench for each thread and the table they share; nothing without a hub. */
static bool make_hub_workspaces(const struct spt_case *question, struct spt_arena *arena,
                                struct spt_uncertainty_workspace *workspace)
{
    size_t threads = (size_t)workspace->threads;
    workspace->hub_workspaces = NULL;
    workspace->setting_table = NULL;
    if (!question->hub)
        return true;
    struct spt_hub_workspace *workspaces = spt_arena_allocate(arena, threads * sizeof *workspaces);
    bool complete = workspaces != NULL;
    for (size_t i = 0; i < threads && complete; i++)
        complete = spt_ask_hub_workspace(question, arena, &workspaces[i]);
    workspace->hub_workspaces = workspaces;
    workspace->setting_table =
        spt_arena_allocate(arena, spt_uncertainty_table_length(question) * sizeof(double));
    return complete && workspace->setting_table;
}

enum spt_status spt_ask_spread(const struct spt_spread_inputs *asked, struct spt_arena *arena,
                               struct spt_uncertainty_result *result, struct spt_error *error)
{
    struct spt_uncertainty_workspace workspace;
    enum spt_status status = SPT_NO_MEMORY;
    if (make_workspace(asked, arena, &workspace) &&
        make_hub_workspaces(asked->question, arena, &workspace))
        status = spt_uncertainty(asked->question, &asked->uncertainty, &workspace, result);
    return status ? spt_error_set(error, status, NULL) : SPT_OK;
}

int spt_ask_band_samples(int samples, int among, bool hub)
{
    if (hub && among > 1)
        among *= HUB_COST;
    return samples / among >= SPT_BAND_SAMPLES_MIN ? samples / among : SPT_BAND_SAMPLES_MIN;
}
