/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "answer/field/spread.h"
#include "cli/answer.h"
#include "cli/command.h"
#include "cli/spread.h"
#include "cli/verdict.h"

/* Result passed to the functions that write it. */
struct answer {
    const struct spt_case *question;
    double stated_h; /* the life with every input known */
    const struct spt_uncertainty_result *result;
};

static void fill_page(struct spt_page *page, const struct spt_options *options, const void *what)
{
    const struct answer *answer = what;
    (void)options;
    spt_spread_page(page, answer->question, answer->stated_h, answer->result);
}

static void write_json(struct spt_json *json, const struct spt_options *options,
                       const struct spt_page *page, const void *what)
{
    const struct answer *answer = what;
    (void)options;
    spt_spread_json(json, page, answer->question, answer->stated_h, answer->result);
}

static bool has_uncertainty(struct spt_call *call, const struct spt_input *input)
{
    if (input->scenario.has_uncertainty)
        return true;
    spt_input_lacks(call, &input->scenario,
                    "the scenario lacks `uncertainty`; add it, such as `uncertainty: {load: "
                    "{plus_minus: 15 %}}` (see `spalltime schema`)");
    return false;
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    static const struct spt_answer_forms forms = {.page = fill_page, .json = write_json};
    if (!has_uncertainty(options->call, input))
        return SPT_EXIT_BAD_INPUT;
    const struct spt_case *question = &input->scenario.base.question;
    struct spt_uncertainty_result result;
    struct spt_error error;
    double stated_h;
    const struct spt_settled *settled = spt_ask_settled(question, false, &input->arena, &error);
    if (!settled || spt_ask_life_h(&settled->question, &input->arena, &stated_h, &error))
        return spt_cli_fail(options->call, "spread", &error);
    int status = spt_cli_spread(options, "spread", input, &settled->question, &result);
    if (status)
        return status;
    const struct answer answer = {&settled->question, stated_h, &result};
    const struct spt_judged *judged;
    status = spt_cli_verdict(options, "spread", input, NULL, NULL, &judged);
    if (status)
        return status;
    return spt_cli_judged(options, &forms, &input->arena, settled->question.title,
                          &judged->judgement, &answer, spt_cli_verdict_status(&judged->judgement));
}

int spt_command_spread(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
