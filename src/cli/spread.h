/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_SPREAD_H
#define CLI_SPREAD_H

#include "cli/input.h"
#include "cli/options.h"
#include "spalltime/uncertainty.h"

/* Draws the samples that a scenario's `uncertainty` asks for, on all processors; `question` is its
 * base, with the setting factors of a hub put in; the room is in the input's arena. Result:
 * SPT_EXIT_DONE, or another status with a message on standard error. */
int spt_cli_spread(const struct spt_options *options, const char *command, struct spt_input *input,
                   const struct spt_case *question, struct spt_uncertainty_result *result);

#endif
