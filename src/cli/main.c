/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/message.h"
#include "cli/place.h"
#include "cli/version.h"
#include "file/file.h"
#include "scenario/text/fields.h"

static int refuse_command(const char *name)
{
    const char *names[32];
    for (int i = 0; i < spt_command_count; i++)
        names[i] = spt_command_table[i].name;
    const char *near = spt_nearest(name, names, spt_command_count);
    fprintf(spt_messages(), "spalltime: there is no command `%s`", name);
    if (near)
        fprintf(spt_messages(), "; did you mean `%s`?\n", near);
    else
        fputs("; `spalltime help` lists them\n", spt_messages());
    return SPT_EXIT_USAGE;
}

static int refuse_count(const struct spt_command *command, const struct spt_options *options)
{
    if (options->argument_count > command->most)
        fprintf(spt_messages(), "spalltime %s: `%.200s` is one argument too many%s\n",
                command->name, options->arguments[command->most],
                command->run == spt_command_life ? "; `spalltime compare` takes several files"
                                                 : "");
    fprintf(spt_messages(), "usage: spalltime %s%s%s\n", command->name,
            *command->arguments ? " " : "", command->arguments);
    return SPT_EXIT_USAGE;
}

static int run_words(const struct spt_command *command, int count, char *const *words,
                     const char **arguments)
{
    struct spt_options options = {.arguments = arguments};
    struct spt_place place;
    for (int i = 0; i < count; i++)
        if (!strcmp(words[i], "--help") || !strcmp(words[i], "-h")) {
            arguments[options.argument_count++] = command->name;
            return spt_command_help(&options);
        }
    if (!spt_options_read(&options, command->takes, command->name, count, words))
        return SPT_EXIT_USAGE;
    if (options.argument_count < command->least || options.argument_count > command->most)
        return refuse_count(command, &options);
    if (!spt_place_settle(&options, command, &place))
        return SPT_EXIT_USAGE;
    return command->run(&options);
}

static int run_command(const struct spt_command *command, int count, char *const *words)
{
    const char **arguments = calloc((size_t)count + 1, sizeof *arguments);
    int status = SPT_EXIT_SYSTEM;
    if (arguments)
        status = run_words(command, count, words, arguments);
    else
        fputs("spalltime: out of memory\n", spt_messages());
    free(arguments);
    return status;
}

int main(int argc, char **argv)
{
    /* SIGPIPE stays as the caller has it: by default a reader that goes away ends the program in
     * silence, as it ends other tools; switched off it is a write error, with a message. */
    signal(SIGXFSZ, SIG_IGN); /* a file that may not grow any more is a write error */
    spt_file_watch();
    const char *name = argc > 1 ? argv[1] : "help";
    int status = SPT_EXIT_DONE;
    if (!strcmp(name, "--version") || !strcmp(name, "-V"))
        spt_version_print(stdout);
    else if (!strcmp(name, "--help") || !strcmp(name, "-h"))
        status = spt_command_help(&(struct spt_options){0});
    else if (spt_command_find(name))
        status = run_command(spt_command_find(name), argc > 2 ? argc - 2 : 0, argv + 2);
    else
        status = refuse_command(name);
    if ((fflush(stdout) || ferror(stdout)) && status != SPT_EXIT_SYSTEM) {
        perror("spalltime: cannot write to standard output");
        status = SPT_EXIT_SYSTEM;
    }
    return status;
}
