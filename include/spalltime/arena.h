/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_ARENA_H
#define SPT_ARENA_H

#include <stddef.h>

#ifdef __cplusplus
extern "C" {
#endif

/* Memory that is handed out piece by piece and freed at once. Zero-initialise. One arena serves one
 * thread at a time. */
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

#ifdef __cplusplus
}
#endif

#endif
