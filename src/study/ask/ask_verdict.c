/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/ask/ask_workspace.h"

/* The plan in outline, for a settled case. */
static enum spt_status make_outline(const struct spt_plan_inputs *asked,
                                    const struct spt_case *settled,
                                    const struct spt_service *serviced, struct spt_arena *arena,
                                    struct spt_phase_result *results, struct spt_schedule *plan)
{
    struct spt_timeline_workspace workspace;
    if (!spt_ask_timeline_workspace(settled, serviced, arena, &workspace))
        return SPT_NO_MEMORY;
    const struct spt_schedule_inputs inputs = {
        .question = settled,
        .service = asked->service ? serviced : NULL,
        .limits = asked->limits,
        .costs = asked->costs,
        .floor = asked->floor,
        .timeline_workspace = &workspace,
        .outline = true,
    };
    return spt_schedule(&inputs, results, plan);
}

enum spt_status spt_ask_plan_verdict(const struct spt_assessment *assessment,
                                     const struct spt_schedule *plan, struct spt_arena *arena,
                                     struct spt_judgement *judgement, struct spt_error *error)
{
    const struct spt_case *question = plan->question;
    size_t count = (size_t)spt_case_phase_count(question);
    struct spt_phase_result *results = spt_arena_allocate(arena, count * sizeof *results);
    spt_verdict_of(assessment, plan, judgement);
    enum spt_status status =
        results ? spt_stairs_of(question, plan, results, &judgement->stairs) : SPT_NO_MEMORY;
    return status ? spt_error_set(error, status, question->title) : SPT_OK;
}

enum spt_status spt_ask_verdict(const struct spt_plan_inputs *asked,
                                const struct spt_assessment *assessment, struct spt_arena *arena,
                                struct spt_judged *judged, struct spt_error *error)
{
    static const struct spt_service no_service;
    const struct spt_service *service = asked->service ? asked->service : &no_service;
    size_t count = (size_t)spt_case_phase_count(asked->question);
    struct spt_case *settled = spt_arena_allocate(arena, sizeof *settled);
    struct spt_service *serviced = spt_arena_allocate(arena, sizeof *serviced);
    struct spt_phase_result *results = spt_arena_allocate(arena, count * sizeof *results);
    if (!settled || !serviced || !results)
        return spt_error_set(error, SPT_NO_MEMORY, asked->question->title);
    enum spt_status status =
        spt_ask_service_settled(asked->question, service, arena, settled, serviced, error);
    if (status)
        return status;
    status = make_outline(asked, settled, serviced, arena, results, &judged->plan);
    return status
               ? spt_error_set(error, status, asked->question->title)
               : spt_ask_plan_verdict(assessment, &judged->plan, arena, &judged->judgement, error);
}
