/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* fopencookie, which the GNU C library and musl have */
#include "format/gather.h"

#include <stdlib.h>
#include <string.h>
#include <sys/types.h>

#define FIRST_CAPACITY ((size_t)16384)

static bool make_workspace(struct spt_gather *gather, size_t more)
{
    size_t capacity = gather->capacity;
    while (capacity - gather->length <= more) /* one byte is reserved for the NUL */
        capacity *= 2;
    if (capacity == gather->capacity)
        return true;
    char *larger = realloc(gather->text, capacity);
    if (!larger)
        return false;
    gather->text = larger;
    gather->capacity = capacity;
    return true;
}

static ssize_t write_piece(void *cookie, const char *piece, size_t size)
{
    struct spt_gather *gather = cookie;
    if (gather->lost || !make_workspace(gather, size)) {
        gather->lost = true;
        return 0;
    }
    memcpy(gather->text + gather->length, piece, size);
    gather->length += size;
    return (ssize_t)size;
}

bool spt_gather_open(struct spt_gather *gather)
{
    *gather = (struct spt_gather){.capacity = FIRST_CAPACITY, .text = malloc(FIRST_CAPACITY)};
    if (gather->text)
        gather->stream = fopencookie(gather, "w", (cookie_io_functions_t){.write = write_piece});
    if (gather->stream)
        return true;
    free(gather->text);
    gather->text = NULL;
    return false;
}

char *spt_gather_close(struct spt_gather *gather)
{
    bool lost = ferror(gather->stream) != 0;
    if (fclose(gather->stream) || lost || gather->lost) {
        free(gather->text);
        gather->text = NULL;
        return NULL;
    }
    gather->text[gather->length] = 0;
    return gather->text;
}
