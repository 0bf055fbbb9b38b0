/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_FILE_H
#define SCENARIO_FILE_H

#include "spalltime/arena.h"
#include "scenario/diagnostics.h"

/* Reads a whole file ("-" is standard input) into the arena, at most `limit` bytes.
 * Result: 0, or an errno value; EFBIG where the file is larger, EISDIR for a directory. The
 * source's name is "standard input" for "-". */
int spt_file_read(const char *path, size_t limit, struct spt_arena *arena,
                  struct spt_source *source);

#endif
