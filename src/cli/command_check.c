/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "cli/command.h"
#include "cli/input.h"

static void report_fine(const char *path, const struct spt_scenario *scenario)
{
    int phases = scenario->base.question.bearings[0].phase_count;
    int variants = scenario->variant_count;
    printf("%s: fine, %d phase%s, %d variant%s\n", path, phases, phases == 1 ? "" : "s", variants,
           variants == 1 ? "" : "s");
}

int spt_command_check(const struct spt_options *options)
{
    int worst = SPT_EXIT_DONE;
    for (int i = 0; i < options->argument_count; i++) {
        struct spt_input input;
        int status = spt_input_read(options, options->arguments[i], &input);
        if (!status && !options->quiet)
            report_fine(options->arguments[i], &input.scenario);
        spt_input_free(&input);
        if (status > worst)
            worst = status;
    }
    return worst; /* main flushes, and reports a failure to write */
}
