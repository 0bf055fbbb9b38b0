/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/assess.h"
#include "cli/message.h"

#include <math.h>
#include <stdio.h>

bool spt_cli_assess(const struct spt_case *question, struct spt_arena *arena,
                    struct spt_assessment *assessment)
{
    size_t count = 0;
    for (int i = 0; i < question->bearing_count; i++)
        count += (size_t)question->bearings[i].phase_count;
    struct spt_phase_result *phases = spt_arena_take(arena, count * sizeof *phases);
    enum spt_status status = phases ? spt_assess(question, phases, assessment) : SPT_NO_MEMORY;
    if (status)
        fprintf(spt_messages(), "spalltime: %s: %s\n", question->title, spt_status_text(status));
    return !status;
}

bool spt_cli_misses_target(const struct spt_assessment *assessment)
{
    double target_h = assessment->question->target_life_h;
    return !isnan(target_h) && !(assessment->modified_rating_life_h >= target_h);
}
