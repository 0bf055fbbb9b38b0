/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "answer/service/timeline.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/spread.h"
#include "cli/verdict.h"

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    spt_timeline_page(page, answer, options->explain);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    spt_timeline_json(json, page, answer, options->explain);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    static const struct spt_answer_forms forms = {
        .page = fill_page, .json = write_json, .stairs = true};
    struct spt_service_life *life;
    if (!input->scenario.has_service) {
        spt_input_lacks(options->call, &input->scenario,
                        "the scenario lacks `service`; add it with `regrease`, "
                        "`events` or `drifts` (see `spalltime schema`)");
        return SPT_EXIT_BAD_INPUT;
    }
    life = spt_arena_allocate(&input->arena, sizeof *life);
    if (!life) {
        spt_say(options->call, "spalltime timeline: out of memory\n");
        return SPT_EXIT_SYSTEM;
    }
    struct spt_error error;
    const struct spt_scenario *scenario = &input->scenario;
    const struct spt_judged *judged;
    int status = spt_cli_verdict(options, "timeline", input, NULL, NULL, &judged);
    if (status)
        return status;
    const struct spt_service service = spt_schedule_service(&judged->plan, &scenario->service);
    if (spt_ask_timeline(&scenario->base.question, &service, &input->arena, life, &error))
        return spt_cli_fail(options->call, "timeline", &error);
    life->plan = &judged->plan;
    status = spt_cli_band(options, "timeline", input, &life->question, 1, &life->spread);
    if (status)
        return status;
    return spt_cli_judged(options, &forms, &input->arena, life->question.title, &judged->judgement,
                          life, spt_cli_verdict_status(&judged->judgement));
}

int spt_command_timeline(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
