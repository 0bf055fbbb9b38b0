/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/arena.h"
#include "base/allocate.h"

#include <stdalign.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#define BLOCK_SIZE ((size_t)16384)

struct spt_arena_block {
    struct spt_arena_block *next;
    size_t size;
    max_align_t bytes[];
};

static spt_allocate_function *allocate_hook;

void spt_arena_allocate_with(spt_allocate_function *allocate)
{
    allocate_hook = allocate;
}

void *spt_allocate(size_t size)
{
    return allocate_hook ? allocate_hook(size) : malloc(size);
}

static struct spt_arena_block *add_block(struct spt_arena *arena, size_t least)
{
    size_t size = least > BLOCK_SIZE ? least : BLOCK_SIZE;
    struct spt_arena_block *block = spt_allocate(sizeof *block + size);
    if (!block)
        return NULL;
    block->next = arena->blocks;
    block->size = size;
    arena->blocks = block;
    arena->used = 0;
    return block;
}

void *spt_arena_allocate(struct spt_arena *arena, size_t size)
{
    const size_t unit = alignof(max_align_t);
    if (size > SIZE_MAX / 2)
        return NULL;
    size = (size + unit - 1) / unit * unit;
    struct spt_arena_block *block = arena->blocks;
    if (!block || block->size - arena->used < size)
        block = add_block(arena, size);
    if (!block)
        return NULL;
    void *piece = (char *)block->bytes + arena->used;
    arena->used += size;
    return memset(piece, 0, size);
}

char *spt_arena_text(struct spt_arena *arena, const char *text, size_t length)
{
    char *copy = spt_arena_allocate(arena, length + 1);
    if (copy && length)
        memcpy(copy, text, length);
    return copy;
}

void spt_arena_free(struct spt_arena *arena)
{
    while (arena->blocks) {
        struct spt_arena_block *next = arena->blocks->next;
        free(arena->blocks);
        arena->blocks = next;
    }
    arena->used = 0;
}
