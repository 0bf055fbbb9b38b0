/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "cli/command.h"
#include "cli/input.h"
#include "cli/output.h"

static void report_fine(FILE *out, const char *path, const struct spt_scenario *scenario)
{
    int phases = scenario->base.question.bearings[0].phase_count;
    int variants = scenario->variant_count;
    fprintf(out, "%s: fine, %d phase%s, %d variant%s\n", path, phases, phases == 1 ? "" : "s",
            variants, variants == 1 ? "" : "s");
}

int spt_command_check(const struct spt_options *options)
{
    struct spt_output output;
    int worst = SPT_EXIT_DONE;
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    for (int i = 0; i < options->argument_count; i++) {
        struct spt_input input;
        int status = spt_input_read(options, options->arguments[i], &input);
        if (!status && !options->quiet)
            report_fine(output.stream, options->arguments[i], &input.scenario);
        spt_input_free(&input);
        if (status > worst)
            worst = status;
    }
    int status = spt_output_close(&output, options, worst);
    return status > worst ? status : worst;
}
