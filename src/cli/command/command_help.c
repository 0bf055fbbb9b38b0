/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdio.h>

#include "cli/command.h"
#include "cli/manual.h"
#include "cli/message.h"
#include "format/text.h"

static void list_commands(void)
{
    puts("spalltime: how long a rolling bearing lasts, and whether its lubrication will do\n");
    puts("usage: spalltime COMMAND [OPTION]... [FILE]...\n");
    for (int i = 0; i < spt_command_count; i++)
        printf("  %-11s %s\n", spt_command_table[i].name, spt_command_table[i].summary);
    puts("\n`spalltime help COMMAND` explains one command; FILE may be - for standard input.");
    puts("Exit status: 0 done, 1 target missed, 2 usage, 3 bad input, 4 files or memory.");
}

static void explain_command(const struct spt_command *command)
{
    const struct spt_text text = {stdout, false};
    printf("usage: spalltime %s%s%s%s\n\n", command->name, command->takes ? " [OPTION]..." : "",
           *command->arguments ? " " : "", command->arguments);
    spt_text_wrap(&text, "", command->details);
    if (command->takes)
        puts("\noptions:");
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
    if (options->print) {
        printers[options->print](stdout);
        return SPT_EXIT_DONE;
    }
    if (!options->argument_count) {
        list_commands();
        return SPT_EXIT_DONE;
    }
    const struct spt_command *command = spt_command_find(options->arguments[0]);
    if (!command) {
        fprintf(spt_messages(),
                "spalltime: there is no command `%s`; `spalltime help` lists them\n",
                options->arguments[0]);
        return SPT_EXIT_USAGE;
    }
    explain_command(command);
    return SPT_EXIT_DONE;
}
