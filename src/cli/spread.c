/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/spread.h"

#include <stdio.h>

#include "cli/answer.h"

int spt_cli_spread(const struct spt_options *options, const char *command, struct spt_input *input,
                   const struct spt_case *question, struct spt_uncertainty_result *result)
{
    struct spt_error error;
    struct spt_spread_inputs asked = {
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

bool spt_cli_band_inputs(const struct spt_options *options, const struct spt_scenario *scenario,
                         const struct spt_case *question, int among,
                         struct spt_uncertainty *uncertainty)
{
    *uncertainty = scenario->uncertainty;
    uncertainty->samples =
        options->samples ? options->samples
                         : spt_ask_band_samples(uncertainty->samples, among, question->hub != NULL);
    if (!question->hub) /* a variant may have none */
        uncertainty->inputs[SPT_UNCERTAIN_END_PLAY].spread = SPT_RANDOM_FIXED;
    return scenario->has_uncertainty;
}

int spt_cli_band(const struct spt_options *options, const char *command, struct spt_input *input,
                 const struct spt_case *question, int among,
                 const struct spt_uncertainty_result **spread)
{
    struct spt_error error;
    struct spt_spread_inputs asked = {.question = question, .shares = options->shares};
    *spread = NULL;
    if (!spt_cli_band_inputs(options, &input->scenario, question, among, &asked.uncertainty))
        return SPT_EXIT_DONE;
    struct spt_uncertainty_result *result = spt_arena_allocate(&input->arena, sizeof *result);
    if (!result) {
        spt_error_set(&error, SPT_NO_MEMORY, NULL);
        return spt_cli_fail(options->call, command, &error);
    }
    *spread = result;
    return spt_ask_spread(&asked, &input->arena, result, &error)
               ? spt_cli_fail(options->call, command, &error)
               : SPT_EXIT_DONE;
}
