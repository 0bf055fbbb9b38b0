/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>
#include <string.h>

#include "answer/field/duty.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/output.h"
#include "history/history.h"
#include "sentence/notes.h"

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    const struct spt_binning *binning = answer;
    struct spt_notes notes = {0};
    (void)options;
    spt_duty_page(page, &binning->report);
    if (binning->report.title)
        spt_history_notes(&binning->summary, &binning->base.base.question, &notes);
    spt_page_open(page, "Flags");
    spt_page_notes(page, &notes, NULL);
    spt_page_close(page);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    (void)options;
    spt_duty_json(json, page, &((const struct spt_binning *)answer)->report);
}

/* The duty as a section of a scenario. */
static int write_yaml(const struct spt_options *options, const struct spt_binning *binning)
{
    struct spt_output output;
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    fputs(binning->source.text, output.stream);
    return spt_output_close(&output, options, SPT_EXIT_DONE);
}

static int answer(const struct spt_options *options, struct spt_binning *binning)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    if (options->format == SPT_FORMAT_YAML)
        return write_yaml(options, binning);
    return spt_cli_answer(options, &forms, &binning->arena,
                          spt_cli_title(options, binning->report.title, "Binned duty"), binning,
                          SPT_EXIT_DONE);
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
