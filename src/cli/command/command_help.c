/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "cli/command.h"
#include "cli/manual.h"
#include "cli/output.h"
#include "format/text.h"

static void list_commands(FILE *out)
{
    fputs("spalltime: life of rolling bearings, and whether their lubrication is adequate\n\n",
          out);
    fputs("usage: spalltime COMMAND [OPTION]... [FILE]...\n\n", out);
    for (int i = 0; i < spt_command_count; i++)
        fprintf(out, "  %-11s %s\n", spt_command_table[i].name, spt_command_table[i].summary);
    fputs("\n`spalltime help COMMAND` explains one command; FILE may be - for standard input.\n",
          out);
    fputs("Exit status: 0 success, 1 target missed, or a plan that cannot be kept,\n"
          "2 wrong usage, 3 invalid input, 4 error with files or memory.\n",
          out);
}

static void explain_command(const struct spt_command *command, FILE *out)
{
    const struct spt_text text = {out, false, 0};
    fprintf(out, "usage: spalltime %s%s%s%s\n\n", command->name,
            command->takes ? " [OPTION]..." : "", *command->arguments ? " " : "",
            command->arguments);
    spt_text_wrap(&text, "", command->details);
    if (command->takes)
        fputs("\noptions:\n", out);
    for (int i = 0; i < spt_option_count; i++) {
        const struct spt_option *option = &spt_option_table[i];
        if (!(command->takes & option->bit))
            continue;
        char mark[64];
        snprintf(mark, sizeof mark, "  %s%s%s%s%s  ", option->alias ? option->alias : "",
                 option->alias ? ", " : "", option->name, option->value ? " " : "",
                 option->value ? option->value : "");
        char padded[64];
        snprintf(padded, sizeof padded, "%-34s", mark);
        spt_text_wrap(&text, padded, option->help);
    }
}

int spt_command_help(const struct spt_options *options)
{
    static void (*const printers[])(FILE *) = {NULL, spt_manual_page, spt_manual_bash,
                                               spt_manual_zsh};
    const char *name = options->argument_count ? options->arguments[0] : NULL;
    const struct spt_command *command = name ? spt_command_find(name) : NULL;
    struct spt_output output;
    if (name && !command && !options->print) {
        spt_say(options->call, "spalltime: there is no command `%s`; `spalltime help` lists them\n",
                name);
        return SPT_EXIT_USAGE;
    }
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    if (options->print)
        printers[options->print](output.stream);
    else if (command)
        explain_command(command, output.stream);
    else
        list_commands(output.stream);
    return spt_output_close(&output, options, SPT_EXIT_DONE);
}
