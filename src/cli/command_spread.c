/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "cli/command.h"
#include "cli/hub.h"
#include "cli/input.h"
#include "cli/message.h"
#include "cli/output.h"
#include "cli/spread.h"
#include "report/life.h"
#include "report/spread.h"
#include "spalltime/adjust.h"

static int answer(const struct spt_options *options, const struct spt_case *question,
                  double stated_h, const struct spt_uncertainty_result *result)
{
    struct spt_output output;
    if (!spt_output_open(&output))
        return SPT_EXIT_SYSTEM;
    struct spt_text text = spt_output_text(&output, options);
    if (options->format == SPT_FORMAT_JSON) {
        struct spt_json json = spt_json_begin(output.stream);
        spt_json_open(&json, NULL, '{');
        spt_json_tool(&json);
        spt_spread_json(&json, question, stated_h, result);
        spt_json_close(&json, '}');
    } else if (options->format == SPT_FORMAT_CSV) {
        spt_spread_csv(output.stream, result);
    } else {
        spt_spread_text(&text, question, stated_h, result);
        if (!options->quiet)
            spt_text_cautions(&text);
    }
    bool missed =
        !isnan(question->target_life_h) && !(result->system.p50_h >= question->target_life_h);
    return spt_output_close(&output, options, missed ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    const struct spt_case *question = &input->scenario.base.question;
    struct spt_case settled;
    struct spt_hub_bench bench;
    struct spt_uncertainty_result result;
    double stated_h;
    struct spt_phase_result *results =
        spt_arena_take(&input->arena, (size_t)spt_case_phase_count(question) * sizeof *results);
    int status = spt_cli_settle(question, &input->arena, false, &bench, &settled);
    if (status)
        return status;
    enum spt_status found = results ? spt_case_life(&settled, results, &stated_h) : SPT_NO_MEMORY;
    if (found) {
        fprintf(spt_messages(), "spalltime spread: %s\n", spt_status_text(found));
        return SPT_EXIT_SYSTEM;
    }
    status = spt_cli_spread(options, "spread", input, &settled, &result);
    return status ? status : answer(options, &settled, stated_h, &result);
}

int spt_command_spread(const struct spt_options *options)
{
    struct spt_input input;
    int status = spt_input_read(options, options->arguments[0], &input);
    if (!status && !input.scenario.has_uncertainty) {
        fputs("spalltime spread: the scenario has no section `uncertainty`; add one, such as "
              "`uncertainty: {load: {plus_minus: 15 %}}` (see `spalltime schema`)\n",
              spt_messages());
        status = SPT_EXIT_BAD_INPUT;
    }
    if (!status)
        status = work(options, &input);
    spt_input_free(&input);
    return status;
}
