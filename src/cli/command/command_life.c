/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/explain.h"
#include "answer/life/life.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/spread.h"

static void write_json(struct spt_json *json, const struct spt_options *options, const void *answer)
{
    spt_life_json(json, answer);
    if (options->explain)
        spt_explain_json(json, answer);
}

static void write_csv(FILE *out, const void *answer)
{
    spt_life_csv(out, answer);
}

static void write_text(const struct spt_text *text, const struct spt_options *options,
                       const void *answer)
{
    spt_life_text(text, answer, options->quiet);
    if (options->explain)
        spt_explain_text(text, answer);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    static const struct spt_old_forms forms = {write_text, write_json, write_csv, NULL};
    struct spt_assessment assessment;
    struct spt_error error;
    if (spt_ask_life(&input->scenario.base.question, &input->arena, &assessment, &error))
        return spt_cli_fail(options->call, "life", &error);
    int status = spt_cli_band(options, "life", input, assessment.question, 1, &assessment.spread);
    if (status)
        return status;
    return spt_cli_answer_old(options, &forms, &assessment,
                              spt_ask_life_misses(&assessment) ? SPT_EXIT_TARGET_MISSED
                                                               : SPT_EXIT_DONE);
}

int spt_command_life(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
