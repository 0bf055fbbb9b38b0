/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_PLACE_H
#define CLI_PLACE_H

#include <stdbool.h>
#include <sys/types.h>

#include "cli/command.h"
#include "cli/options.h"

#define SPT_PATH_LENGTH 4096

/* The files an answer goes to, behind any symbolic links. */
struct spt_place {
    char output[SPT_PATH_LENGTH];
    char rejects[SPT_PATH_LENGTH];
};

/* Makes --output and --rejects of `options` name the files behind their links, so that renaming
 * replaces those and not the links. `place` must live as long as `options`.
 * Result: false, with a message, where one of them is a link that leads nowhere, or both are one.
 */
bool spt_place_settle(struct spt_options *options, const struct spt_command *command,
                      struct spt_place *place);

/* True, with a message, where `path`, or standard output, is a file that this run has read or is
 * reading (spt_file_note): asked wherever a file is about to be made, cut, replaced or added to. */
bool spt_place_is_read(const char *path);
bool spt_place_stdout_is_read(void);

/* A device or pipe (/dev/stdout) cannot be replaced by renaming, only written to. */
bool spt_place_is_special(const char *path);

/* False, with errno, where a file is there that this user may not write. */
bool spt_place_may_write(const char *path);

/* The permissions for a file that is to stand at `path`: those of the one that is there, else
 * those that a file created by fopen would get. */
mode_t spt_place_mode(const char *path);

#endif
