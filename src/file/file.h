/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FILE_FILE_H
#define FILE_FILE_H

#include <stdio.h>
#include <sys/stat.h>

#include "base/source.h"
#include "file/call.h"
#include "spalltime/arena.h"

/* Functions that take a call may be given NULL: the disk alone, and no list of what was read. */

/* Puts an open file on the list of the call, by device and inode, so that none of them is ever
 * replaced by an answer, whatever name leads to it; only a regular file can be replaced, others are
 * passed over. `name` is what messages call it. One thread at a time. Result: 0, or ENOMEM. */
int spt_file_note(struct spt_call *call, int descriptor, const char *name);

/* What a file that is on the list was read as; NULL: it is not on it. */
const char *spt_file_noted(const struct spt_call *call, const struct stat *about);

/* Frees the list. */
void spt_file_forget(struct spt_call *call);

/* Opens a file to read ("-" is standard input), one in memory before one of the disk, and puts it
 * on the list. NULL with errno. */
FILE *spt_file_open(struct spt_call *call, const char *path);

/* The same as a descriptor, to be closed unless it is that of standard input; -1 with errno. It is
 * not put on the list. */
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
