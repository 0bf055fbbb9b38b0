/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/file.h"
#include "base/allocate.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

#define FIRST_ROOM ((size_t)8192)

/* Reads to the end into one growing buffer; NULL and `*error` set on failure. */
static char *read_all(FILE *file, size_t limit, size_t *length, int *error)
{
    size_t room = FIRST_ROOM;
    char *text = spt_allocate(room);
    *length = 0;
    *error = text ? 0 : ENOMEM;
    while (!*error) {
        *length += fread(text + *length, 1, room - *length, file);
        if (ferror(file))
            *error = errno ? errno : EIO;
        else if (*length > limit)
            *error = EFBIG;
        if (*error || *length < room)
            break;
        char *larger = spt_allocate(2 * room);
        if (larger)
            memcpy(larger, text, *length);
        else
            *error = ENOMEM;
        free(text);
        text = larger;
        room *= 2;
    }
    if (!*error)
        return text;
    free(text);
    return NULL;
}

int spt_file_read(const char *path, size_t limit, struct spt_arena *arena,
                  struct spt_source *source)
{
    bool standard_input = !strcmp(path, "-");
    const char *name = standard_input ? "standard input" : path;
    *source = (struct spt_source){spt_arena_text(arena, name, strlen(name)), NULL, 0};
    if (!source->name)
        return ENOMEM;
    errno = 0;
    FILE *file = standard_input ? stdin : fopen(path, "rb");
    if (!file)
        return errno;
    int error = 0;
    char *text = read_all(file, limit, &source->length, &error);
    if (!standard_input)
        fclose(file);
    if (!error) {
        source->text = spt_arena_text(arena, text, source->length);
        error = source->text ? 0 : ENOMEM;
    }
    free(text);
    return error;
}
