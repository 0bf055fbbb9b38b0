/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/spread.h"

#include <stdio.h>

#include "cli/answer.h"

int spt_cli_spread(const struct spt_options *options, const char *command, struct spt_input *input,
                   const struct spt_case *question, struct spt_uncertainty_result *result)
{
    struct spt_error error;
    struct spt_spread_question asked = {
        .question = question,
        .uncertainty = input->scenario.uncertainty,
        .shares = options->shares,
    };
    if (options->samples)
        asked.uncertainty.samples = options->samples;
    return spt_ask_spread(&asked, &input->arena, result, &error)
               ? spt_cli_fail(options->call, command, &error)
               : SPT_EXIT_DONE;
}

int spt_cli_band(const struct spt_options *options, const char *command, struct spt_input *input,
                 const struct spt_case *question, int among,
                 const struct spt_uncertainty_result **spread)
{
    struct spt_error error;
    struct spt_spread_question asked = {
        .question = question,
        .uncertainty = input->scenario.uncertainty,
        .shares = options->shares,
    };
    *spread = NULL;
    if (!input->scenario.has_uncertainty)
        return SPT_EXIT_DONE;
    struct spt_uncertainty_result *result = spt_arena_take(&input->arena, sizeof *result);
    if (!result) {
        spt_error_set(&error, SPT_NO_MEMORY, NULL);
        return spt_cli_fail(options->call, command, &error);
    }
    asked.uncertainty.samples =
        options->samples
            ? options->samples
            : spt_ask_band_samples(asked.uncertainty.samples, among, question->hub != NULL);
    if (!question->hub) /* a variant may have none */
        asked.uncertainty.inputs[SPT_UNCERTAIN_END_PLAY].spread = SPT_RANDOM_FIXED;
    *spread = result;
    return spt_ask_spread(&asked, &input->arena, result, &error)
               ? spt_cli_fail(options->call, command, &error)
               : SPT_EXIT_DONE;
}
