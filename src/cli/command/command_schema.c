/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/catalog/schema.h"
#include "cli/command.h"
#include "cli/output.h"

int spt_command_schema(const struct spt_options *options)
{
    struct spt_output output;
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    struct spt_text text = spt_output_text(&output, options);
    if (options->format == SPT_FORMAT_JSON)
        spt_schema_json(output.stream, (enum spt_schema_of)options->schema_of);
    else
        spt_schema_text(&text, (enum spt_schema_of)options->schema_of);
    return spt_output_close(&output, options, SPT_EXIT_DONE);
}
