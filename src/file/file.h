/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FILE_FILE_H
#define FILE_FILE_H

#include <stdio.h>
#include <sys/stat.h>

#include "base/source.h"
#include "spalltime/arena.h"

/* The list of files that this run reads, by device and inode, so that none of them is ever replaced
 * by an answer, whatever name leads to it. Off until the program switches it on: a library that
 * writes no file needs none. Switched on and read before threads start. */
void spt_file_watch(void);

/* Puts an open file on the list; only a regular one can be replaced, others are passed over.
 * `name` is what messages call it. Result: 0, or ENOMEM. */
int spt_file_note(int descriptor, const char *name);

/* What a file that is on the list was read as; NULL: it is not on it. */
const char *spt_file_noted(const struct stat *about);

/* Opens a file to read ("-" is standard input) and puts it on the list. NULL with errno. */
FILE *spt_file_open(const char *path);

/* Closes it, unless it is standard input. */
void spt_file_close(FILE *file);

/* Reads a whole file ("-" is standard input) into the arena, at most `limit` bytes.
 * Result: 0, or an errno value; EFBIG where the file is larger, EISDIR for a directory. The
 * source's name is "standard input" for "-". */
int spt_file_read(const char *path, size_t limit, struct spt_arena *arena,
                  struct spt_source *source);

#endif
