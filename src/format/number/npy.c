/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/number/npy.h"

#include <stdarg.h>
#include <stdbool.h>
#include <stdint.h>
#include <string.h>

#define PREFIX 10 /* magic, version, length of the rest */
#define ALIGNMENT 64
#define LENGTH_MOST 65535
#define BUFFER 65536

static bool is_little_endian(void)
{
    const uint16_t one = 1;
    unsigned char first;
    memcpy(&first, &one, 1);
    return first == 1;
}

static size_t get_size(enum spt_npy_type type)
{
    return type == SPT_NPY_BYTE ? 1 : sizeof(double);
}

static bool is_name(const char *name)
{
    static const char allowed[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789_";
    return name && name[0] && name[strspn(name, allowed)] == '\0';
}

static bool columns_are_valid(const struct spt_npy_column *columns, int count)
{
    for (int i = 0; i < count; i++) {
        if (!is_name(columns[i].name))
            return false;
        for (int other = 0; other < i; other++)
            if (strcmp(columns[i].name, columns[other].name) == 0)
                return false;
    }
    return count > 0;
}

/* Text in a buffer of fixed size; `full` once it did not fit. */
struct text {
    char *to;
    size_t capacity;
    size_t used;
    bool full;
};

__attribute__((format(printf, 2, 3))) static void append(struct text *text, const char *format, ...)
{
    va_list arguments;
    if (text->full)
        return;
    va_start(arguments, format);
    int more = vsnprintf(text->to + text->used, text->capacity - text->used, format, arguments);
    va_end(arguments);
    text->full = more < 0 || (size_t)more >= text->capacity - text->used;
    if (!text->full)
        text->used += (size_t)more;
}

enum spt_status spt_npy_header(const struct spt_npy_column *columns, int count, size_t rows,
                               char *to, size_t capacity, size_t *size)
{
    struct text text = {to, capacity, PREFIX, capacity <= PREFIX};
    *size = 0;
    if (!columns_are_valid(columns, count))
        return SPT_BAD_ARGUMENT;
    append(&text, "{'descr': [");
    for (int i = 0; i < count; i++) {
        char order = is_little_endian() ? '<' : '>';
        if (columns[i].type == SPT_NPY_BYTE)
            append(&text, "('%s', '|u1'), ", columns[i].name);
        else
            append(&text, "('%s', '%c%c8'), ", columns[i].name, order,
                   columns[i].type == SPT_NPY_LONG ? 'i' : 'f');
    }
    append(&text, "], 'fortran_order': False, 'shape': (%zu,), }", rows);
    size_t whole = (text.used + 1 + ALIGNMENT - 1) / ALIGNMENT * ALIGNMENT;
    if (text.full || whole > capacity || whole - PREFIX > LENGTH_MOST)
        return SPT_TOO_SMALL;
    memset(to + text.used, ' ', whole - text.used);
    to[whole - 1] = '\n';
    memcpy(to, "\x93NUMPY\x01\x00", 8);
    to[8] = (char)((whole - PREFIX) & 0xff);
    to[9] = (char)((whole - PREFIX) >> 8);
    *size = whole;
    return SPT_OK;
}

enum spt_status spt_npy_begin(struct spt_npy *npy, FILE *file, const struct spt_npy_column *columns,
                              int count, size_t rows)
{
    char header[8192];
    size_t size;
    *npy = (struct spt_npy){file, columns, count, 0, rows};
    enum spt_status status = spt_npy_header(columns, count, rows, header, sizeof header, &size);
    if (status != SPT_OK)
        return status;
    for (int i = 0; i < count; i++)
        npy->record_size += get_size(columns[i].type);
    return fwrite(header, 1, size, file) == size ? SPT_OK : SPT_BAD_ARGUMENT;
}

/* Arranges rows as records, starting at row `first`. */
static void pack(const struct spt_npy *npy, const void *const *data, size_t first, size_t rows,
                 char *to)
{
    for (int c = 0; c < npy->count; c++) {
        char *at = to;
        if (npy->columns[c].type != SPT_NPY_BYTE) {
            const char *values = (const char *)data[c] + first * sizeof(double);
            for (size_t i = 0; i < rows; i++, at += npy->record_size)
                memcpy(at, values + i * sizeof(double), sizeof(double));
        } else {
            const char *values = (const char *)data[c] + first;
            for (size_t i = 0; i < rows; i++, at += npy->record_size)
                *at = values[i];
        }
        to += get_size(npy->columns[c].type);
    }
}

enum spt_status spt_npy_rows(struct spt_npy *npy, const void *const *data, size_t rows)
{
    char buffer[BUFFER];
    size_t most = sizeof buffer / npy->record_size;
    if (rows > npy->rows_left)
        return SPT_TOO_SMALL;
    for (size_t first = 0; first < rows;) {
        size_t here = rows - first < most ? rows - first : most;
        pack(npy, data, first, here, buffer);
        if (fwrite(buffer, npy->record_size, here, npy->file) != here)
            return SPT_BAD_ARGUMENT;
        first += here;
    }
    npy->rows_left -= rows;
    return SPT_OK;
}

enum spt_status spt_npy_end(struct spt_npy *npy)
{
    bool written = fflush(npy->file) == 0 && !ferror(npy->file);
    return written && npy->rows_left == 0 ? SPT_OK : SPT_BAD_ARGUMENT;
}
