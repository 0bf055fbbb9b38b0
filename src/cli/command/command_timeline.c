/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "answer/service/timeline.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/spread.h"

static void write_json(struct spt_json *json, const struct spt_options *options, const void *answer)
{
    const struct spt_service_life *life = answer;
    spt_timeline_json(json, life);
    if (options->explain)
        spt_timeline_explain_json(json, &life->timeline);
}

static void write_csv(FILE *out, const void *answer)
{
    const struct spt_service_life *life = answer;
    spt_timeline_csv(out, &life->curve);
}

static void write_text(const struct spt_text *text, const struct spt_options *options,
                       const void *answer)
{
    const struct spt_service_life *life = answer;
    spt_timeline_text(text, life, options->quiet);
    if (options->explain)
        spt_timeline_explain_text(text, &life->timeline);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    static const struct spt_answer_forms forms = {write_text, write_json, write_csv, NULL};
    struct spt_service_life *life;
    if (!input->scenario.has_service) {
        spt_input_lacks(options->call, &input->scenario,
                        "the scenario lacks `service`; add it with `regrease`, "
                        "`events` or `drifts` (see `spalltime schema`)");
        return SPT_EXIT_BAD_INPUT;
    }
    life = spt_arena_take(&input->arena, sizeof *life);
    if (!life) {
        spt_say(options->call, "spalltime timeline: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    struct spt_error error;
    const struct spt_scenario *scenario = &input->scenario;
    if (spt_ask_timeline(&scenario->base.question, &scenario->service, &input->arena, life, &error))
        return spt_cli_fail(options->call, "timeline", &error);
    int status = spt_cli_band(options, "timeline", input, &life->question, 1, &life->spread);
    if (status)
        return status;
    return spt_cli_answer(options, &forms, life,
                          spt_ask_timeline_misses(life) ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE);
}

int spt_command_timeline(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
