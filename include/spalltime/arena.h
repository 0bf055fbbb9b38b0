/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_ARENA_H
#define SPT_ARENA_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* An arena: memory that is allocated piece by piece and freed all at once. Zero-initialise it. One
 * arena serves one thread at a time. */
struct spt_arena {
    struct spt_arena_block *blocks;
    size_t used; /* bytes allocated from the newest block */
};

/* Allocates `size` zeroed bytes aligned for any object. Result: NULL when memory is exhausted. */
void *spt_arena_allocate(struct spt_arena *arena, size_t size);

/* Copies `length` bytes of `text` into the arena and ends them with a NUL. Result: NULL when memory
 * is exhausted. */
char *spt_arena_text(struct spt_arena *arena, const char *text, size_t length);

/* Frees everything; the arena may be used again. */
void spt_arena_free(struct spt_arena *arena);

#ifdef __cplusplus
}
#endif

#endif
