/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_ALLOCATE_H
#define BASE_ALLOCATE_H

#include <stddef.h>

/* The one seam through which arenas and readers get memory, so that a test can let the n-th request
 * fail. NULL restores the C library's. */
typedef void *spt_allocate_function(size_t size);
void spt_arena_allocate_with(spt_allocate_function *allocate);
void *spt_allocate(size_t size);

#endif
