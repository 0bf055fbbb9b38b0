/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_ALLOCATE_H
#define BASE_ALLOCATE_H

#include <stddef.h>

/* All memory of arenas and readers is allocated through this function, so that a test can make the
 * n-th request fail. NULL restores the allocator of the C library. */
typedef void *spt_allocate_function(size_t size);
void spt_arena_allocate_with(spt_allocate_function *allocate);
void *spt_allocate(size_t size);

#endif
