/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/dispatch.h"

#include <stdlib.h>
#include <string.h>

#include "cli/command.h"
#include "cli/output.h"
#include "cli/target.h"
#include "cli/version.h"
#include "scenario/text/fields.h"

static int refuse_command(struct spt_call *call, const char *name)
{
    const char *names[32];
    for (int i = 0; i < spt_command_count; i++)
        names[i] = spt_command_table[i].name;
    const char *near = spt_nearest(name, names, spt_command_count);
    spt_say(call, "spalltime: there is no command `%s`", name);
    if (near)
        spt_say(call, "; did you mean `%s`?\n", near);
    else
        spt_say(call, "; `spalltime help` lists them\n");
    return SPT_EXIT_USAGE;
}

static int refuse_count(const struct spt_command *command, const struct spt_options *options)
{
    if (options->argument_count > command->most)
        spt_say(options->call, "spalltime %s: `%.200s` is one argument too many%s\n", command->name,
                options->arguments[command->most],
                command->run == spt_command_life ? "; `spalltime compare` takes several files"
                                                 : "");
    spt_say(options->call, "usage: spalltime %s%s%s\n", command->name,
            *command->arguments ? " " : "", command->arguments);
    return SPT_EXIT_USAGE;
}

static int run_words(struct spt_call *call, const struct spt_command *command, int count,
                     char *const *words, const char **arguments)
{
    struct spt_options options = {.call = call, .arguments = arguments};
    struct spt_target target;
    for (int i = 0; i < count; i++)
        if (!strcmp(words[i], "--help") || !strcmp(words[i], "-h")) {
            arguments[options.argument_count++] = command->name;
            return spt_command_help(&options);
        }
    if (!spt_options_read(&options, command->takes, command->name, count, words))
        return SPT_EXIT_USAGE;
    if (options.argument_count < command->least || options.argument_count > command->most)
        return refuse_count(command, &options);
    if (!spt_target_resolve(&options, command, &target))
        return SPT_EXIT_USAGE;
    return command->run(&options);
}

static int run_command(struct spt_call *call, const struct spt_command *command, int count,
                       char *const *words)
{
    const char **arguments = calloc((size_t)count + 1, sizeof *arguments);
    int status = SPT_EXIT_SYSTEM;
    if (arguments)
        status = run_words(call, command, count, words, arguments);
    else
        spt_say(call, "spalltime: out of memory\n");
    free(arguments);
    return status;
}

static int print_version(const struct spt_options *options)
{
    struct spt_output output;
    if (!spt_output_open(options->call, &output))
        return SPT_EXIT_SYSTEM;
    spt_version_print(output.stream);
    return spt_output_close(&output, options, SPT_EXIT_DONE);
}

int spt_dispatch(struct spt_call *call, int count, char *const *words)
{
    const char *name = count > 0 ? words[0] : "help";
    const struct spt_options none = {.call = call};
    if (!strcmp(name, "--version") || !strcmp(name, "-V"))
        return print_version(&none);
    if (!strcmp(name, "--help") || !strcmp(name, "-h"))
        return spt_command_help(&none);
    const struct spt_command *command = spt_command_find(name);
    if (!command)
        return refuse_command(call, name);
    return run_command(call, command, count > 0 ? count - 1 : 0, words + (count > 0));
}
