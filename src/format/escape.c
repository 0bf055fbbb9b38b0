/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/escape.h"

#include <stdbool.h>
#include <string.h>

#include "base/utf8.h"

#define REPLACEMENT "\xEF\xBF\xBD"

static const char *find_reference(char c)
{
    switch (c) {
    case '&':
        return "&amp;";
    case '<':
        return "&lt;";
    case '>':
        return "&gt;";
    case '"':
        return "&quot;";
    case '\'':
        return "&#39;";
    default:
        return NULL;
    }
}

/* Code point of a well-formed character of `size` bytes. */
static unsigned decode(const unsigned char *bytes, size_t size)
{
    static const unsigned char lead[] = {0, 0x7F, 0x1F, 0x0F, 0x07};
    unsigned code = bytes[0] & lead[size];
    for (size_t i = 1; i < size; i++)
        code = code << 6 | (bytes[i] & 0x3Fu);
    return code;
}

static bool is_forbidden(unsigned code)
{
    if (code < 0x20)
        return code != '\t' && code != '\n' && code != '\r';
    return (code >= 0x7F && code < 0xA0) || code == 0xFFFE || code == 0xFFFF ||
           (code >= 0x202A && code <= 0x202E) || (code >= 0x2066 && code <= 0x2069);
}

void spt_escape(FILE *out, const char *text)
{
    spt_escape_part(out, text, text ? strlen(text) : 0);
}

void spt_escape_part(FILE *out, const char *text, size_t left)
{
    while (left) {
        size_t size = spt_utf8_size(text, left);
        const char *reference = size == 1 ? find_reference(*text) : NULL;
        if (!size || is_forbidden(decode((const unsigned char *)text, size)))
            fputs(REPLACEMENT, out);
        else if (reference)
            fputs(reference, out);
        else
            fwrite(text, 1, size, out);
        size_t step = size ? size : 1;
        text += step;
        left -= step;
    }
}
