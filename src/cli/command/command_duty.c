/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <string.h>

#include "answer/field/history.h"
#include "answer/life/life.h"
#include "cli/command.h"
#include "cli/input.h"
#include "cli/output.h"
#include "history/history.h"
#include "sentence/notes.h"

static void write_text(const struct spt_output *output, const struct spt_options *options,
                       const struct spt_binning *binning)
{
    struct spt_text text = spt_output_text(output, options);
    struct spt_notes notes = {0};
    spt_duty_text(&text, &binning->report);
    if (options->quiet)
        return;
    if (binning->report.title)
        spt_history_notes(&binning->summary, &binning->base.base.question, &notes);
    if (notes.count) {
        spt_text_heading(&text, "FLAGS");
        spt_text_notes(&text, &notes, NULL);
    }
    spt_text_cautions(&text);
}

static int answer(const struct spt_options *options, const struct spt_binning *binning)
{
    struct spt_output output;
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    if (options->format == SPT_FORMAT_YAML) {
        fputs(binning->source.text, output.stream);
    } else if (options->format == SPT_FORMAT_JSON) {
        struct spt_json json = spt_json_begin(output.stream);
        spt_json_open(&json, NULL, '{');
        spt_json_tool(&json);
        spt_duty_json(&json, &binning->report);
        spt_json_close(&json, '}');
    } else if (options->format == SPT_FORMAT_CSV) {
        spt_duty_csv(output.stream, &binning->report);
    } else {
        write_text(&output, options, binning);
    }
    return spt_output_close(&output, options, SPT_EXIT_DONE);
}

int spt_command_duty(const struct spt_options *options)
{
    struct spt_input input = {0};
    struct spt_binning alone = {0}, *binning = &alone;
    struct spt_options with_history = *options;
    int status;
    with_history.measured.path = options->arguments[0];
    if (options->argument_count > 1) {
        status = spt_input_read(&with_history, options->arguments[1], &input);
        binning = input.binning;
    } else {
        status = spt_history_read(options->call, &options->measured, options->arguments[0], NULL,
                                  NULL, &alone);
    }
    if (!status)
        status = answer(options, binning);
    spt_input_free(&input);
    spt_binning_free(&alone);
    return status;
}
