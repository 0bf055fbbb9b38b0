/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/verdict.h"

#include "cli/answer.h"

int spt_cli_verdict(const struct spt_options *options, const char *command, struct spt_input *input,
                    const struct spt_plan_inputs *asked, const struct spt_assessment *assessment,
                    const struct spt_judged **judged)
{
    struct spt_arena *arena = &input->arena;
    const struct spt_plan_inputs written = spt_scenario_plan(&input->scenario, SPT_WEIBULL_FLOOR);
    struct spt_judged *result = spt_arena_allocate(arena, sizeof *result);
    struct spt_assessment *own = spt_arena_allocate(arena, sizeof *own);
    struct spt_error error;
    if (!asked)
        asked = &written;
    if (!result || !own) {
        spt_error_set(&error, SPT_NO_MEMORY, NULL);
        return spt_cli_fail(options->call, command, &error);
    }
    if (!assessment && spt_ask_life(asked->question, arena, own, &error))
        return spt_cli_fail(options->call, command, &error);
    *judged = result;
    return spt_ask_verdict(asked, assessment ? assessment : own, arena, result, &error)
               ? spt_cli_fail(options->call, command, &error)
               : SPT_EXIT_DONE;
}

int spt_cli_verdict_status(const struct spt_judgement *judgement)
{
    return judgement && spt_verdict_fails(judgement) ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE;
}
