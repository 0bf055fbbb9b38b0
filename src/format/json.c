/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/json.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"

struct spt_json spt_json_begin(FILE *out)
{
    return (struct spt_json){.out = out, .first = {true}};
}

#define ESCAPED 8 /* at least the length of any escaped character with a NUL */

/* Escapes the first character of `text` (`left` bytes) for JSON; `*size` is the number of bytes
 * consumed. A byte that is not part of a UTF-8 character becomes the replacement character. Result:
 * length of the output. */
static size_t escape(const char *text, size_t left, char *to, size_t *size)
{
    unsigned char byte = (unsigned char)*text;
    *size = spt_utf8_size(text, left);
    if (byte == '"' || byte == '\\')
        return (size_t)sprintf(to, "\\%c", byte);
    if (byte < 0x20 || byte == 0x7F)
        return (size_t)sprintf(to, "\\u%04x", byte);
    if (!*size) {
        *size = 1;
        return (size_t)sprintf(to, "\\ufffd");
    }
    memcpy(to, text, *size);
    return *size;
}

static void write_escaped(FILE *out, const char *text)
{
    char escaped[ESCAPED] = "";
    size_t left = strlen(text), size;
    fputc('"', out);
    for (; left; text += size, left -= size) {
        size_t length = escape(text, left, escaped, &size);
        fwrite(escaped, 1, length, out);
    }
    fputc('"', out);
}

char *spt_json_put(char *to, const char *text, size_t length)
{
    size_t size;
    *to++ = '"';
    for (; length; text += size, length -= size)
        to += escape(text, length, to, &size);
    *to++ = '"';
    return to;
}

static void start_value(struct spt_json *json, const char *key)
{
    if (!json->first[json->depth])
        fputc(',', json->out);
    json->first[json->depth] = false;
    if (json->depth)
        fprintf(json->out, "\n%*s", 2 * json->depth, "");
    if (key) {
        write_escaped(json->out, key);
        fputs(": ", json->out);
    }
}

void spt_json_open(struct spt_json *json, const char *key, char bracket)
{
    start_value(json, key);
    fputc(bracket, json->out);
    if (json->depth < SPT_JSON_DEPTH_MAX - 1)
        json->depth++;
    json->first[json->depth] = true;
}

void spt_json_close(struct spt_json *json, char bracket)
{
    bool empty = json->first[json->depth];
    json->depth--;
    if (!empty)
        fprintf(json->out, "\n%*s", 2 * json->depth, "");
    fputc(bracket, json->out);
    if (!json->depth)
        fputc('\n', json->out);
}

void spt_json_number(struct spt_json *json, const char *key, double value)
{
    char text[40] = "null";
    start_value(json, key);
    for (int digits = 15; isfinite(value) && digits <= 17; digits++) {
        snprintf(text, sizeof text, "%.*g", digits, value);
        if (strtod(text, NULL) == value)
            break;
    }
    fputs(text, json->out);
}

void spt_json_text(struct spt_json *json, const char *key, const char *text)
{
    start_value(json, key);
    if (text)
        write_escaped(json->out, text);
    else
        fputs("null", json->out);
}

void spt_json_bool(struct spt_json *json, const char *key, bool value)
{
    start_value(json, key);
    fputs(value ? "true" : "false", json->out);
}
