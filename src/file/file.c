/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "file/file.h"
#include "base/allocate.h"
#include "platform/platform.h"

#include <errno.h>
#include <fcntl.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#define FIRST_CAPACITY ((size_t)8192)

struct spt_noted {
    struct spt_noted *next;
    dev_t device;
    ino_t inode;
    char name[];
};

const char *spt_file_noted(const struct spt_call *call, const struct stat *about)
{
    for (const struct spt_noted *at = call ? call->noted : NULL; at; at = at->next)
        if (at->device == about->st_dev && at->inode == about->st_ino)
            return at->name;
    return NULL;
}

int spt_file_note(struct spt_call *call, int descriptor, const char *name)
{
    struct stat about;
    if (!call || !call->guards_inputs || fstat(descriptor, &about) || !S_ISREG(about.st_mode) ||
        spt_file_noted(call, &about))
        return 0;
    size_t size = strlen(name) + 1;
    struct spt_noted *fresh = spt_allocate(sizeof *fresh + size);
    if (!fresh)
        return ENOMEM;
    *fresh = (struct spt_noted){call->noted, about.st_dev, about.st_ino};
    memcpy(fresh->name, name, size);
    call->noted = fresh;
    return 0;
}

void spt_file_forget(struct spt_call *call)
{
    while (call->noted) {
        struct spt_noted *next = call->noted->next;
        free(call->noted);
        call->noted = next;
    }
}

FILE *spt_file_open(struct spt_call *call, const char *path)
{
    const struct spt_file_text *held = spt_call_text(call, path);
    bool standard_input = !strcmp(path, "-");
    errno = 0;
    if (held)
        return fmemopen((void *)(uintptr_t)held->text, held->length, "rb");
    FILE *file = standard_input ? stdin : fopen(path, "rb");
    if (!file || !spt_file_note(call, fileno(file), standard_input ? "standard input" : path))
        return file;
    spt_file_close(file);
    errno = ENOMEM;
    return NULL;
}

/* Writes all of it, in as many pieces as that takes. */
static bool write_all(int descriptor, const char *bytes, size_t length)
{
    while (length) {
        ssize_t written = write(descriptor, bytes, length);
        if (written < 0 && errno != EINTR)
            return false;
        bytes += written < 0 ? 0 : written;
        length -= written < 0 ? 0 : (size_t)written;
    }
    return true;
}

int spt_file_temporary(const char *bytes, size_t length)
{
    int descriptor = spt_file_create_nameless();
    if (descriptor < 0 ||
        (write_all(descriptor, bytes, length) && lseek(descriptor, 0, SEEK_SET) == 0))
        return descriptor;
    int error = errno;
    close(descriptor);
    errno = error;
    return -1;
}

int spt_file_descriptor(struct spt_call *call, const char *path)
{
    const struct spt_file_text *held = spt_call_text(call, path);
    if (held)
        return spt_file_temporary(held->text, held->length);
    return strcmp(path, "-") ? open(path, O_RDONLY) : STDIN_FILENO;
}

void spt_file_close(FILE *file)
{
    if (file != stdin)
        fclose(file);
}

/* Reads to the end of the file into a growing buffer. Result: NULL with `*error` set on failure. */
static char *read_all(FILE *file, size_t limit, size_t *length, int *error)
{
    size_t capacity = FIRST_CAPACITY;
    char *text = spt_allocate(capacity);
    *length = 0;
    *error = text ? 0 : ENOMEM;
    while (!*error) {
        *length += fread(text + *length, 1, capacity - *length, file);
        if (ferror(file))
            *error = errno ? errno : EIO;
        else if (*length > limit)
            *error = EFBIG;
        if (*error || *length < capacity)
            break;
        char *larger = spt_allocate(2 * capacity);
        if (larger)
            memcpy(larger, text, *length);
        else
            *error = ENOMEM;
        free(text);
        text = larger;
        capacity *= 2;
    }
    if (!*error)
        return text;
    free(text);
    return NULL;
}

static const char *name_in_messages(const struct spt_call *call, const char *path)
{
    if (strcmp(path, "-") != 0)
        return path;
    return spt_call_text(call, path) ? "the text" : "standard input";
}

/* A file in memory is copied; an empty one is one too. */
static int copy_held(const struct spt_file_text *held, size_t limit, struct spt_arena *arena,
                     struct spt_source *source)
{
    if (held->length > limit)
        return EFBIG;
    source->text = spt_arena_text(arena, held->text, held->length);
    source->length = held->length;
    return source->text ? 0 : ENOMEM;
}

int spt_file_read(struct spt_call *call, const char *path, size_t limit, struct spt_arena *arena,
                  struct spt_source *source)
{
    const char *name = name_in_messages(call, path);
    const struct spt_file_text *held = spt_call_text(call, path);
    *source = (struct spt_source){spt_arena_text(arena, name, strlen(name)), NULL, 0};
    if (!source->name)
        return ENOMEM;
    if (held)
        return copy_held(held, limit, arena, source);
    FILE *file = spt_file_open(call, path);
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
