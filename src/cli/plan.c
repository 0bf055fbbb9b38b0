/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/plan.h"

#include <stdio.h>

#include "cli/message.h"
#include "cli/options.h"
#include "cli/service.h"
#include "spalltime/adjust.h"

static int work_out(const char *command, const struct spt_schedule_inputs *inputs,
                    struct spt_arena *arena, struct spt_schedule *schedule)
{
    size_t count = (size_t)spt_case_phase_count(inputs->question);
    struct spt_phase_result *results = spt_arena_take(arena, count * sizeof *results);
    enum spt_status status = results ? spt_schedule(inputs, results, schedule) : SPT_NO_MEMORY;
    if (!status)
        return SPT_EXIT_DONE;
    fprintf(spt_messages(), "spalltime %s: %s\n", command, spt_status_text(status));
    return SPT_EXIT_SYSTEM;
}

static int fail_for_memory(const char *command)
{
    fprintf(spt_messages(), "spalltime %s: %s\n", command, spt_status_text(SPT_NO_MEMORY));
    return SPT_EXIT_SYSTEM;
}

int spt_cli_plan(const char *command, const struct spt_scenario *scenario, double floor,
                 struct spt_arena *arena, struct spt_schedule *schedule)
{
    struct spt_timeline_room room;
    struct spt_service_life *life = spt_arena_take(arena, sizeof *life);
    if (!life)
        return fail_for_memory(command);
    life->question = scenario->base.question;
    life->service = scenario->service;
    int status = spt_cli_settle_service(life, arena);
    if (status)
        return status;
    if (!spt_cli_service_room(life, arena, &room))
        return fail_for_memory(command);
    const struct spt_schedule_inputs inputs = {
        .question = &life->question,
        .service = scenario->has_service ? &life->service : NULL,
        .limits = scenario->limits,
        .costs = scenario->costs,
        .floor = floor,
        .timeline_room = &room,
    };
    return work_out(command, &inputs, arena, schedule);
}

int spt_cli_plan_variant(const char *command, const struct spt_scenario *scenario,
                         const struct spt_case *settled, struct spt_arena *arena,
                         struct spt_schedule *schedule)
{
    const struct spt_schedule_inputs inputs = {
        .question = settled,
        .limits = scenario->limits,
        .costs = scenario->costs,
        .floor = SPT_WEIBULL_FLOOR,
    };
    return work_out(command, &inputs, arena, schedule);
}
