/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "cli/target.h"

#include <limits.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

#include "platform/platform.h"

static void follow(const char **path, char *buffer)
{
    char *real = spt_place_is_link(*path) ? spt_whole_path(*path) : NULL;
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

/* True if `path` with `ending` is the same file as `other`. */
static bool is_beside(const char *path, const char *ending, const char *other)
{
    char beside[SPT_PATH_LENGTH];
    return snprintf(beside, sizeof beside, "%s%s", path, ending) < SPT_PATH_LENGTH &&
           spt_place_is_one(beside, other);
}

/* Neither may be the other one, nor a file that a run writes beside the other one until it ends. */
static bool are_apart(const struct spt_options *options)
{
    static const char *const endings[] = {".part", ".part.state", ".part.state.new"};
    const char *output = options->output, *rejects = options->sweep.rejects;
    if (!output || !rejects || spt_place_is_special(rejects))
        return true;
    if (spt_place_is_one(output, rejects)) {
        spt_say(options->call,
                "spalltime sweep: --output and --rejects are both %s; give each its "
                "own file\n",
                output);
        return false;
    }
    bool beside = is_beside(rejects, ".part", output);
    for (size_t i = 0; i < sizeof endings / sizeof *endings; i++)
        beside = beside || is_beside(output, endings[i], rejects);
    if (beside)
        spt_say(options->call,
                "spalltime sweep: of --output %s and --rejects %s one is a file that the run keeps "
                "beside the other until it ends (.part, .part.state); give it another name\n",
                output, rejects);
    return !beside;
}

bool spt_target_resolve(struct spt_options *options, const struct spt_command *command,
                        struct spt_target *target)
{
    if (!leads_somewhere(options->call, command, "--output", options->output) ||
        !leads_somewhere(options->call, command, "--rejects", options->sweep.rejects))
        return false;
    follow(&options->output, target->output);
    follow(&options->sweep.rejects, target->rejects);
    return are_apart(options);
}
