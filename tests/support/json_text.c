/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/json_text.h"

#include <string.h>

static const char *skip_blanks(const char *at)
{
    return at + strspn(at, " \t\r\n");
}

static const char *skip_string(const char *at)
{
    for (at++; *at != '"'; at++) {
        if ((unsigned char)*at < 0x20)
            return NULL;
        if (*at != '\\')
            continue;
        at++;
        if (*at == 'u' && strspn(at + 1, "0123456789abcdefABCDEF") < 4)
            return NULL;
        if (!*at || !strchr("\"\\/bfnrtu", *at))
            return NULL;
    }
    return at + 1;
}

static const char *skip_digits(const char *at)
{
    size_t digits = at ? strspn(at, "0123456789") : 0;
    return digits ? at + digits : NULL;
}

static const char *skip_number(const char *at)
{
    at += *at == '-';
    at = *at == '0' ? at + 1 : skip_digits(at);
    if (at && *at == '.')
        at = skip_digits(at + 1);
    if (at && (*at == 'e' || *at == 'E'))
        at = skip_digits(at + 1 + (at[1] == '+' || at[1] == '-'));
    return at;
}

/* The position of the next member's value, and of its key in an object; NULL at the end (`*closed`
 * is true) or where it is malformed. */
static const char *next_member(const char *at, char close, int first, const char **key, int *closed)
{
    at = skip_blanks(at);
    *closed = *at == close;
    if (*closed)
        return NULL;
    if (!first) {
        if (*at != ',')
            return NULL;
        at = skip_blanks(at + 1);
    }
    if (close != '}')
        return at;
    *key = at;
    at = *at == '"' ? skip_string(at) : NULL;
    at = at ? skip_blanks(at) : NULL;
    return at && *at == ':' ? skip_blanks(at + 1) : NULL;
}

static const char *skip_container(const char *at, char close)
{
    int closed = 0;
    const char *key;
    at++;
    for (int first = 1;; first = 0) {
        const char *value = next_member(at, close, first, &key, &closed);
        if (!value)
            return closed ? skip_blanks(at) + 1 : NULL;
        at = json_skip(value);
        if (!at)
            return NULL;
    }
}

const char *json_skip(const char *text)
{
    static const char *const words[] = {"true", "false", "null"};
    text = skip_blanks(text);
    if (*text == '{' || *text == '[')
        return skip_container(text, *text == '{' ? '}' : ']');
    if (*text == '"')
        return skip_string(text);
    for (int i = 0; i < 3; i++)
        if (!strncmp(text, words[i], strlen(words[i])))
            return text + strlen(words[i]);
    return skip_number(text);
}

/* Iterates over the members to the given key or index. */
static const char *find_member(const char *at, char close, const char *wanted, int index)
{
    int closed = 0;
    const char *key = NULL;
    at++;
    for (int i = 0; at; i++) {
        const char *value = next_member(at, close, i == 0, &key, &closed);
        if (!value)
            return NULL;
        size_t length = wanted ? strlen(wanted) : 0;
        if (wanted ? !strncmp(key + 1, wanted, length) && key[1 + length] == '"' : i == index)
            return value;
        at = json_skip(value);
    }
    return NULL;
}

const char *json_find(const char *object, const char *key)
{
    return object && *object == '{' ? find_member(object, '}', key, -1) : NULL;
}

const char *json_item(const char *array, int index)
{
    return array && *array == '[' ? find_member(array, ']', NULL, index) : NULL;
}
