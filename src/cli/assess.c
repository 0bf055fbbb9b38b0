/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/assess.h"

#include <math.h>
#include <stdio.h>

#include "cli/hub.h"
#include "cli/message.h"
#include "cli/options.h"
#include "spalltime/adjust.h"

int spt_cli_assess(const struct spt_case *question, struct spt_arena *arena,
                   struct spt_assessment *assessment)
{
    struct spt_hub_bench bench;
    struct spt_case *settled = spt_arena_take(arena, sizeof *settled);
    size_t count = (size_t)spt_case_phase_count(question);
    struct spt_phase_result *phases = spt_arena_take(arena, count * sizeof *phases);
    if (!settled || !phases) {
        fprintf(spt_messages(), "spalltime: %s: %s\n", question->title,
                spt_status_text(SPT_NO_MEMORY));
        return SPT_EXIT_SYSTEM;
    }
    int exit_status = spt_cli_settle(question, arena, true, &bench, settled);
    if (exit_status)
        return exit_status;
    enum spt_status status = spt_assess(settled, phases, assessment);
    if (status) {
        fprintf(spt_messages(), "spalltime: %s: %s\n", question->title, spt_status_text(status));
        return SPT_EXIT_SYSTEM;
    }
    return question->hub ? spt_cli_distribute(&bench, arena, assessment) : SPT_EXIT_DONE;
}

bool spt_cli_misses_target(const struct spt_assessment *assessment)
{
    double target_h = assessment->question->target_life_h;
    return !isnan(target_h) && !(assessment->modified_rating_life_h >= target_h);
}
