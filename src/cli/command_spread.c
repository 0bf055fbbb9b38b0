/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "cli/answer.h"
#include "cli/command.h"
#include "cli/hub.h"
#include "cli/message.h"
#include "cli/spread.h"
#include "report/spread.h"
#include "spalltime/adjust.h"

/* What the forms write. */
struct answer {
    const struct spt_case *question;
    double stated_h; /* the life with every input known */
    const struct spt_uncertainty_result *result;
};

static void write_json(struct spt_json *json, const struct spt_options *options, const void *what)
{
    const struct answer *answer = what;
    (void)options;
    spt_spread_json(json, answer->question, answer->stated_h, answer->result);
}

static void write_csv(FILE *out, const void *what)
{
    spt_spread_csv(out, ((const struct answer *)what)->result);
}

static void write_text(const struct spt_text *text, const struct spt_options *options,
                       const void *what)
{
    const struct answer *answer = what;
    (void)options;
    spt_spread_text(text, answer->question, answer->stated_h, answer->result);
}

static bool has_uncertainty(const struct spt_input *input)
{
    if (input->scenario.has_uncertainty)
        return true;
    spt_input_lacks(&input->scenario,
                    "the scenario lacks `uncertainty`; add it, such as `uncertainty: {load: "
                    "{plus_minus: 15 %}}` (see `spalltime schema`)");
    return false;
}

static bool misses_target(const struct answer *answer)
{
    double target_h = answer->question->target_life_h;
    return !isnan(target_h) && !(answer->result->system.p50_h >= target_h);
}

static int work(const struct spt_options *options, struct spt_input *input)
{
    static const struct spt_answer_forms forms = {write_text, write_json, write_csv, NULL};
    if (!has_uncertainty(input))
        return SPT_EXIT_BAD_INPUT;
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
    if (status)
        return status;
    const struct answer answer = {&settled, stated_h, &result};
    return spt_cli_answer(options, &forms, &answer,
                          misses_target(&answer) ? SPT_EXIT_TARGET_MISSED : SPT_EXIT_DONE);
}

int spt_command_spread(const struct spt_options *options)
{
    return spt_cli_work(options, work);
}
