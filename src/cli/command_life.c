/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/assess.h"
#include "cli/command.h"
#include "cli/input.h"
#include "cli/output.h"
#include "cli/spread.h"
#include "report/explain.h"
#include "report/life.h"

static void write_json(FILE *out, const struct spt_options *options,
                       const struct spt_assessment *assessment)
{
    struct spt_json json = spt_json_begin(out);
    spt_json_open(&json, NULL, '{');
    spt_json_tool(&json);
    spt_life_json(&json, assessment);
    if (options->explain)
        spt_explain_json(&json, assessment);
    spt_json_close(&json, '}');
}

static void write_text(const struct spt_output *output, const struct spt_options *options,
                       const struct spt_assessment *assessment)
{
    struct spt_text text = spt_output_text(output, options);
    spt_life_text(&text, assessment, options->quiet);
    if (options->explain)
        spt_explain_text(&text, assessment);
    if (!options->quiet)
        spt_text_cautions(&text);
}

static int answer(const struct spt_options *options, const struct spt_assessment *assessment)
{
    struct spt_output output;
    if (!spt_output_open(&output))
        return SPT_EXIT_SYSTEM;
    if (options->format == SPT_FORMAT_JSON)
        write_json(output.stream, options, assessment);
    else if (options->format == SPT_FORMAT_CSV)
        spt_life_csv(output.stream, assessment);
    else
        write_text(&output, options, assessment);
    return spt_output_close(&output, options,
                            spt_cli_misses_target(assessment) ? SPT_EXIT_TARGET_MISSED
                                                              : SPT_EXIT_DONE);
}

int spt_command_life(const struct spt_options *options)
{
    struct spt_input input;
    struct spt_assessment assessment;
    struct spt_uncertainty_result spread;
    int status = spt_input_read(options, options->arguments[0], &input);
    if (!status)
        status = spt_cli_assess(&input.scenario.base.question, &input.arena, &assessment);
    if (!status && input.scenario.has_uncertainty) {
        status = spt_cli_spread(options, "life", &input, assessment.question, &spread);
        assessment.spread = &spread;
    }
    if (!status)
        status = answer(options, &assessment);
    spt_input_free(&input);
    return status;
}
