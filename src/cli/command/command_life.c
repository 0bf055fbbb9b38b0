/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/explain.h"
#include "answer/life/life.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/spread.h"
#include "cli/verdict.h"

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *answer)
{
    spt_life_page(page, answer, 0, options->explain);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *answer)
{
    const struct spt_report *report = answer;
    spt_life_json(json, page, report->cases[0].assessment);
    if (options->explain)
        spt_explain_json(json, report->cases[0].assessment);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    static const struct spt_answer_forms forms = {
        .page = fill_page, .json = write_json, .stairs = true};
    struct spt_assessment assessment;
    struct spt_error error;
    if (spt_ask_life(&input->scenario.base.question, &input->arena, &assessment, &error))
        return spt_cli_fail(options->call, "life", &error);
    int status = spt_cli_band(options, "life", input, assessment.question, 1, &assessment.spread);
    if (status)
        return status;
    const struct spt_judged *judged;
    status = spt_cli_verdict(options, "life", input, NULL, &assessment, &judged);
    if (status)
        return status;
    const char *title = assessment.question->title;
    const struct spt_report_case part = {.assessment = &assessment};
    const struct spt_report report = {.title = title, .case_count = 1, .cases = &part};
    return spt_cli_judged(options, &forms, &input->arena, title, &judged->judgement, &report,
                          spt_cli_verdict_status(&judged->judgement));
}

int spt_command_life(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
