/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "file/file.h"
#include "base/allocate.h"

#include <errno.h>
#include <stdbool.h>
#include <stdlib.h>
#include <string.h>

#define FIRST_ROOM ((size_t)8192)

struct noted {
    struct noted *next;
    dev_t device;
    ino_t inode;
    char name[];
};

static bool watching;
static struct noted *first_noted;

void spt_file_watch(void)
{
    watching = true;
}

const char *spt_file_noted(const struct stat *about)
{
    for (const struct noted *at = first_noted; at; at = at->next)
        if (at->device == about->st_dev && at->inode == about->st_ino)
            return at->name;
    return NULL;
}

int spt_file_note(int descriptor, const char *name)
{
    struct stat about;
    if (!watching || fstat(descriptor, &about) || !S_ISREG(about.st_mode) || spt_file_noted(&about))
        return 0;
    size_t size = strlen(name) + 1;
    struct noted *fresh = spt_allocate(sizeof *fresh + size);
    if (!fresh)
        return ENOMEM;
    *fresh = (struct noted){first_noted, about.st_dev, about.st_ino};
    memcpy(fresh->name, name, size);
    first_noted = fresh;
    return 0;
}

FILE *spt_file_open(const char *path)
{
    bool standard_input = !strcmp(path, "-");
    errno = 0;
    FILE *file = standard_input ? stdin : fopen(path, "rb");
    if (!file || !spt_file_note(fileno(file), standard_input ? "standard input" : path))
        return file;
    spt_file_close(file);
    errno = ENOMEM;
    return NULL;
}

void spt_file_close(FILE *file)
{
    if (file != stdin)
        fclose(file);
}

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
    const char *name = strcmp(path, "-") != 0 ? path : "standard input";
    *source = (struct spt_source){spt_arena_text(arena, name, strlen(name)), NULL, 0};
    if (!source->name)
        return ENOMEM;
    FILE *file = spt_file_open(path);
    if (!file)
        return errno;
    int error = 0;
    char *text = read_all(file, limit, &source->length, &error);
    spt_file_close(file);
    if (!error) {
        source->text = spt_arena_text(arena, text, source->length);
        error = source->text ? 0 : ENOMEM;
    }
    free(text);
    return error;
}
