/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_TARGET_H
#define CLI_TARGET_H

#include "cli/command.h"
#include "cli/options.h"
#include "file/place.h"

/* The files an answer goes to, behind any symbolic links. */
struct spt_target {
    char output[SPT_PATH_LENGTH];
    char rejects[SPT_PATH_LENGTH];
};

/* Makes --output and --rejects of `options` name the files that their symbolic links lead to, so
 * that renaming replaces those files and not the links. `place` must live as long as `options`.
 * Result: false, with a message, if one of them is a link that leads nowhere, both name one file,
 * or one is a file that a sweep writes beside the other. */
bool spt_target_resolve(struct spt_options *options, const struct spt_command *command,
                        struct spt_target *target);

#endif
