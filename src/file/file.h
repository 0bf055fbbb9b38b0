/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FILE_FILE_H
#define FILE_FILE_H

#include <stdio.h>
#include <sys/stat.h>

#include "base/source.h"
#include "file/call.h"
#include "spalltime/arena.h"

/* The call may be NULL: only files on disk, and no list of the files that were read. */

/* Adds an open file to the files that the call has read, by device and inode, so that no answer
 * replaces it under any name. Files that are not regular cannot be replaced and are ignored.
 * `name`: the name for messages. Not thread-safe.
 * Result: 0, or ENOMEM. */
int spt_file_note(struct spt_call *call, int descriptor, const char *name);

/* The name under which a file was read; NULL: it is not on the list. */
const char *spt_file_noted(const struct spt_call *call, const struct stat *about);

/* Frees the list. */
void spt_file_forget(struct spt_call *call);

/* Opens a file for reading ("-" is standard input) and adds it to the list; files in memory take
 * precedence over those on disk. NULL with errno. */
FILE *spt_file_open(struct spt_call *call, const char *path);

/* The same as a file descriptor, to be closed unless it is that of standard input; -1 with errno.
 * It is not added to the list. */
int spt_file_descriptor(struct spt_call *call, const char *path);

/* Closes it, unless it is standard input. */
void spt_file_close(FILE *file);

/* Reads a whole file into the arena, at most `limit` bytes.
 * Result: 0, or an errno value; EFBIG where the file is larger, EISDIR for a directory. The
 * source's name is "standard input" for "-", or "the text" where that is in memory. */
int spt_file_read(struct spt_call *call, const char *path, size_t limit, struct spt_arena *arena,
                  struct spt_source *source);

/* A file without a name that holds `length` bytes, open at its start; -1 with errno. */
int spt_file_temporary(const char *bytes, size_t length);

#endif
