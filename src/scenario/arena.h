/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_ARENA_H
#define SCENARIO_ARENA_H

#include <stddef.h>

/* Memory of one loaded document: handed out piece by piece, freed at once. */
struct spt_arena {
    struct spt_arena_block *blocks;
    size_t used; /* bytes handed out of the newest block */
};

/* `size` zeroed bytes aligned for any object, or NULL when memory is out. */
void *spt_arena_take(struct spt_arena *arena, size_t size);

/* A NUL-terminated copy of `length` bytes of `text`, or NULL when memory is out. */
char *spt_arena_text(struct spt_arena *arena, const char *text, size_t length);

/* Frees everything; the arena may be used again. */
void spt_arena_free(struct spt_arena *arena);

/* The one seam through which the scenario layer gets memory, so that a test can let the n-th
 * request fail. NULL restores the C library's. */
typedef void *spt_allocate_function(size_t size);
void spt_arena_allocate_with(spt_allocate_function *allocate);
void *spt_allocate(size_t size);

#endif
