/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "cli/command.h"
#include "cli/input.h"

int spt_command_check(const struct spt_options *options)
{
    int worst = SPT_EXIT_DONE;
    for (int i = 0; i < options->argument_count; i++) {
        struct spt_input input;
        int status = spt_input_read(options, options->arguments[i], &input);
        if (!status && !options->quiet)
            printf("%s: fine, %d phases, %d variants\n", options->arguments[i],
                   input.scenario.base.question.bearings[0].phase_count,
                   input.scenario.variant_count);
        spt_input_free(&input);
        if (status > worst)
            worst = status;
    }
    return fflush(stdout) ? SPT_EXIT_SYSTEM : worst;
}
