/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/target.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

static void follow(const char **path, char *buffer)
{
    char *real = spt_place_is_link(*path) ? realpath(*path, NULL) : NULL;
    if (real && strlen(real) < SPT_PATH_LENGTH)
        *path = strcpy(buffer, real);
    free(real);
}

static bool leads_somewhere(const struct spt_call *call, const struct spt_command *command,
                            const char *option, const char *path)
{
    struct stat about;
    if (!spt_place_is_link(path) || !stat(path, &about))
        return true;
    spt_say(call,
            "spalltime %s: %s %s is a link that leads nowhere; name the file itself, or remove "
            "the link\n",
            command->name, option, path);
    return false;
}

/* Two new files of one name are one as well. */
static bool are_apart(const struct spt_options *options)
{
    if (!options->output || !options->sweep.rejects || spt_place_is_special(options->sweep.rejects))
        return true;
    if (strcmp(options->output, options->sweep.rejects) != 0 &&
        !spt_place_is_same(options->output, options->sweep.rejects))
        return true;
    spt_say(options->call,
            "spalltime sweep: --output and --rejects are both %s; give each its "
            "own file\n",
            options->output);
    return false;
}

bool spt_target_resolve(struct spt_options *options, const struct spt_command *command,
                        struct spt_target *target)
{
    if (!leads_somewhere(options->call, command, "--output", options->output) ||
        !leads_somewhere(options->call, command, "--rejects", options->sweep.rejects) ||
        !are_apart(options))
        return false;
    follow(&options->output, target->output);
    follow(&options->sweep.rejects, target->rejects);
    return true;
}
