/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"
#include "study/hub/hub_failure.h"

enum spt_status spt_ask_setting(const struct spt_case *question, struct spt_arena *arena,
                                struct spt_hub_curve *curve, struct spt_error *error)
{
    struct spt_assessment assessment;
    struct spt_hub_failure failure = spt_hub_failure_start();
    if (!question->hub)
        return spt_error_set(error, SPT_NOT_APPLICABLE, question->title);
    struct spt_settled *settled = spt_ask_settled(question, false, arena, error);
    if (!settled)
        return error->status;
    size_t count = (size_t)spt_case_phase_count(question);
    struct spt_phase_result *results = spt_arena_allocate(arena, count * sizeof *results);
    if (results)
        failure.status = spt_assess(&settled->question, results, &assessment);
    if (!failure.status)
        failure.status = spt_hub_curve(&settled->bench, &assessment, curve, &failure);
    return failure.status ? spt_hub_failure_say(&failure, question, error) : SPT_OK;
}
