/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/ical.h"

#include <stdbool.h>
#include <string.h>

#define FOLDED_WIDTH 75

static bool continues_character(char byte)
{
    return ((unsigned char)byte & 0xC0) == 0x80;
}

void spt_ical_line(FILE *out, const char *name, const char *value)
{
    char line[SPT_ICAL_LINE_MAX];
    snprintf(line, sizeof line, "%s:%s", name, value);
    size_t left = strlen(line), limit = FOLDED_WIDTH;
    const char *at = line;
    while (left > limit) {
        size_t piece = limit;
        while (piece > 1 && continues_character(at[piece]))
            piece--;
        fwrite(at, 1, piece, out);
        fputs("\r\n ", out);
        at += piece;
        left -= piece;
        limit = FOLDED_WIDTH - 1; /* the leading blank counts */
    }
    fwrite(at, 1, left, out);
    fputs("\r\n", out);
}

void spt_ical_text(FILE *out, const char *name, const char *text)
{
    char value[SPT_ICAL_LINE_MAX];
    size_t used = 0;
    for (; *text && used + 6 < sizeof value; text++) {
        unsigned char byte = (unsigned char)*text;
        if (byte == '\r' && text[1] == '\n')
            continue;
        if (byte == '\n' || byte == '\r') {
            value[used++] = '\\';
            value[used++] = 'n';
            continue;
        }
        if (strchr("\\,;", byte))
            value[used++] = '\\';
        value[used++] = byte < 0x20 || byte == 0x7F ? ' ' : (char)byte;
    }
    while (continues_character(*text)) /* a truncated text ends with a complete character */
        value[used++] = *text++;
    value[used] = 0;
    spt_ical_line(out, name, value);
}
