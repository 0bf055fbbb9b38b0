/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_VERDICT_H
#define CLI_VERDICT_H

#include "cli/input.h"
#include "cli/options.h"
#include "spalltime/ask.h"

/* Judges a case of a scenario, in the arena of the input. `asked`: the inputs of its plan; NULL:
 * those of the scenario as written. `assessment`: of the same case; NULL: worked out. Result:
 * SPT_EXIT_DONE, or another status with a message. */
int spt_cli_verdict(const struct spt_options *options, const char *command, struct spt_input *input,
                    const struct spt_plan_inputs *asked, const struct spt_assessment *assessment,
                    const struct spt_judged **judged);

/* The exit status of a verdict. */
int spt_cli_verdict_status(const struct spt_judgement *judgement);

#endif
