/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/utf8.h"

#include <stdbool.h>
#include <string.h>

/* Table 3-7 of the Unicode standard: lead byte, length, range of the second byte. */
size_t spt_utf8_size(const char *text, size_t length)
{
    static const struct {
        unsigned char first, last, size, low, high;
    } rows[] = {
        {0x00, 0x7F, 1, 0, 0},       {0xC2, 0xDF, 2, 0x80, 0xBF}, {0xE0, 0xE0, 3, 0xA0, 0xBF},
        {0xE1, 0xEC, 3, 0x80, 0xBF}, {0xED, 0xED, 3, 0x80, 0x9F}, {0xEE, 0xEF, 3, 0x80, 0xBF},
        {0xF0, 0xF0, 4, 0x90, 0xBF}, {0xF1, 0xF3, 4, 0x80, 0xBF}, {0xF4, 0xF4, 4, 0x80, 0x8F},
    };
    const unsigned char *bytes = (const unsigned char *)text;
    for (size_t i = 0; length && i < sizeof rows / sizeof *rows; i++) {
        if (bytes[0] < rows[i].first || bytes[0] > rows[i].last)
            continue;
        if (rows[i].size > length)
            return 0;
        if (rows[i].size > 1 && (bytes[1] < rows[i].low || bytes[1] > rows[i].high))
            return 0;
        for (size_t k = 2; k < rows[i].size; k++)
            if ((bytes[k] & 0xC0) != 0x80)
                return 0;
        return rows[i].size;
    }
    return 0;
}

static bool starts_with(const char *text, size_t length, const char *start)
{
    size_t wanted = strlen(start);
    return length >= wanted && !memcmp(text, start, wanted);
}

size_t spt_utf8_mark_size(const char *text, size_t length)
{
    return starts_with(text, length, "\xEF\xBB\xBF") ? 3 : 0;
}

size_t spt_utf8_line_end_size(const char *text, size_t length)
{
    static const char *const ends[] = {"\r\n",     "\n",           "\r",
                                       "\xC2\x85", "\xE2\x80\xA8", "\xE2\x80\xA9"};
    if (length && (unsigned char)*text >= ' ' && (unsigned char)*text < 0x80)
        return 0; /* shortcut for ASCII, nearly every character of a file */
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++)
        if (starts_with(text, length, ends[i]))
            return strlen(ends[i]);
    return 0;
}

/* Control characters C0 and C1, and those that change the direction of text (U+202A to U+202E,
 * U+2066 to U+2069), which make a text appear in a different order. */
static bool is_control(const char *text, size_t size)
{
    const unsigned char *bytes = (const unsigned char *)text;
    if (size == 1)
        return *bytes == 0x7F ||
               (*bytes < 0x20 && *bytes != '\t' && *bytes != '\n' && *bytes != '\r');
    if (size == 2)
        return bytes[0] == 0xC2 && bytes[1] < 0xA0 && bytes[1] != 0x85;
    return size == 3 && bytes[0] == 0xE2 &&
           ((bytes[1] == 0x80 && bytes[2] >= 0xAA && bytes[2] <= 0xAE) ||
            (bytes[1] == 0x81 && bytes[2] >= 0xA6 && bytes[2] <= 0xA9));
}

const char *spt_utf8_problem(const char *text, size_t length, int *line, int *column)
{
    *line = 1;
    *column = 1;
    for (size_t i = 0; i < length;) {
        size_t size = spt_utf8_size(text + i, length - i);
        if (!size)
            return "a byte here is not UTF-8; save the file as UTF-8 text";
        if (is_control(text + i, size))
            return "a control character stands here; delete it";
        size_t line_end = spt_utf8_line_end_size(text + i, length - i);
        *line += line_end > 0;
        *column = line_end ? 1 : *column + 1;
        i += line_end ? line_end : size;
    }
    return NULL;
}

const char *spt_utf8_line_problem(const char *text, size_t length)
{
    for (size_t i = 0; i < length;) {
        if ((unsigned char)text[i] >= ' ' && (unsigned char)text[i] < 0x7F) {
            i++; /* nearly every character */
            continue;
        }
        size_t size = spt_utf8_size(text + i, length - i);
        if (!size)
            return "a byte that is not UTF-8";
        if (text[i] == '\t' || spt_utf8_line_end_size(text + i, length - i))
            return "a line break or a tab";
        if (is_control(text + i, size))
            return "a control character";
        i += size;
    }
    return NULL;
}

/* True for a control character that is not listed in `kept`. */
static bool is_wild(const char *text, size_t size, const char *kept)
{
    if (size == 1 && (unsigned char)*text < 0x20)
        return !*text || !strchr(kept, *text);
    return !size || is_control(text, size);
}

static void tame(char *text, size_t length, const char *kept)
{
    for (size_t i = 0; i < length;) {
        size_t size = spt_utf8_size(text + i, length - i), step = size ? size : 1;
        if (is_wild(text + i, size, kept))
            memset(text + i, '?', step);
        i += step;
    }
}

void spt_utf8_tame(char *text)
{
    tame(text, strlen(text), "");
}

void spt_utf8_tame_lines(char *text, size_t length)
{
    tame(text, length, "\t\n");
}
