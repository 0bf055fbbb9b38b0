/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FILE_PLACE_H
#define FILE_PLACE_H

#include <stdbool.h>
#include <sys/types.h>

#include "file/call.h"

#define SPT_PATH_LENGTH 4096

/* True, with a message, if `path`, or standard output, is a file that this run has read or is
 * reading (spt_file_note). Called before a file is created, truncated, replaced or appended to. */
bool spt_place_is_read(const struct spt_call *call, const char *path);
bool spt_place_stdout_is_read(const struct spt_call *call);

/* True if both names lead to one existing file. */
bool spt_place_is_same(const char *one, const char *other);

/* True if both names lead to one file, which need not exist: one existing file, or the same name in
 * one folder, even if the paths of the folder differ. */
bool spt_place_is_one(const char *one, const char *other);

/* True for a symbolic link that does not lead to a device or pipe. */
bool spt_place_is_link(const char *path);

/* True for a device or pipe (/dev/stdout), which cannot be replaced by renaming, only written
 * to. */
bool spt_place_is_special(const char *path);

/* False, with errno, where the file exists and this user may not write to it. */
bool spt_place_may_write(const char *path);

/* The permissions for a new file at `path`: those of an existing file, else those of a file created
 * by fopen. */
mode_t spt_place_mode(const char *path);

#endif
