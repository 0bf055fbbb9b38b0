/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "cli/command.h"
#include "cli/input.h"
#include "cli/message.h"
#include "cli/output.h"
#include "cli/service.h"
#include "report/life.h"
#include "report/timeline.h"

static int answer(const struct spt_options *options, const struct spt_case *question,
                  const struct spt_timeline *timeline, const struct spt_damage_curve *curve)
{
    struct spt_output output;
    if (!spt_output_open(&output))
        return SPT_EXIT_SYSTEM;
    struct spt_text text = spt_output_text(&output, options);
    if (options->format == SPT_FORMAT_JSON) {
        struct spt_json json = spt_json_begin(output.stream);
        spt_json_open(&json, NULL, '{');
        spt_json_tool(&json);
        spt_timeline_json(&json, question, timeline, curve);
        if (options->explain)
            spt_timeline_explain_json(&json, timeline);
        spt_json_close(&json, '}');
    } else if (options->format == SPT_FORMAT_CSV) {
        spt_timeline_csv(output.stream, curve);
    } else {
        spt_timeline_text(&text, question, timeline, options->quiet);
        if (options->explain)
            spt_timeline_explain_text(&text, timeline);
        if (!options->quiet)
            spt_text_cautions(&text);
    }
    double lasted_h = isinf(timeline->life_h) ? timeline->until_h : timeline->life_h;
    bool missed = !isnan(question->target_life_h) && !(lasted_h >= question->target_life_h);
    return spt_output_close(&output, options, missed ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    struct spt_service_life *life = spt_arena_take(&input->arena, sizeof *life);
    if (!life) {
        fputs("spalltime timeline: out of memory\n", spt_messages());
        return SPT_EXIT_SYSTEM;
    }
    int status = spt_cli_follow(&input->scenario, &input->arena, life);
    return status ? status : answer(options, &life->question, &life->timeline, &life->curve);
}

int spt_command_timeline(const struct spt_options *options)
{
    struct spt_input input;
    int status = spt_input_read(options, options->arguments[0], &input);
    if (!status && !input.scenario.has_service) {
        fputs("spalltime timeline: the scenario has no section `service`; add one with `regrease`, "
              "`events` or `drifts` (see `spalltime schema`)\n",
              spt_messages());
        status = SPT_EXIT_BAD_INPUT;
    }
    if (!status)
        status = work(options, &input);
    spt_input_free(&input);
    return status;
}
