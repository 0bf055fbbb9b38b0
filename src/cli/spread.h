/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_SPREAD_H
#define CLI_SPREAD_H

#include "cli/input.h"
#include "cli/options.h"
#include "spalltime/ask.h"

/* Computes the samples of the section `uncertainty` of a scenario, on all processors. `question`:
 * its settled base. The memory is from the arena of the input.
 * Result: SPT_EXIT_DONE, or another status with a message on standard error. */
int spt_cli_spread(const struct spt_options *options, const char *command, struct spt_input *input,
                   const struct spt_case *question, struct spt_uncertainty_result *result);

/* The uncertain inputs for the band of a case (which may be a variant) by the section `uncertainty`
 * of its scenario and the options; each of `among` cases gets its part of the samples
 * (spt_ask_band_samples).
 * Result: false where there is no such section. */
bool spt_cli_band_inputs(const struct spt_options *options, const struct spt_scenario *scenario,
                         const struct spt_case *question, int among,
                         struct spt_uncertainty *uncertainty);

/* The band of a settled case, by the section `uncertainty` of its scenario; `*spread` is in the
 * arena of the input, NULL where there is no such section. Result as spt_cli_spread. */
int spt_cli_band(const struct spt_options *options, const char *command, struct spt_input *input,
                 const struct spt_case *question, int among,
                 const struct spt_uncertainty_result **spread);

#endif
