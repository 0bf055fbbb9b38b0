/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/edit.h"

#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"

#define KEY_LENGTH 64

/* Copies the path up to the next point. Result: what follows it; NULL where the key is too long. */
static const char *take_key(const char *path, char *key)
{
    size_t length = strcspn(path, ".");
    if (!length || length >= KEY_LENGTH)
        return NULL;
    memcpy(key, path, length);
    key[length] = 0;
    return path + length + (path[length] == '.');
}

static const struct spt_node *find_member(const struct spt_node *node, const char *key)
{
    if (!node || node->kind != SPT_NODE_SEQUENCE)
        return spt_node_find(node, key);
    char *end;
    long number = strtol(key, &end, 10);
    return !*end && number >= 0 && number < node->count ? node->items[number] : NULL;
}

const struct spt_node *spt_node_at(const struct spt_node *root, const char *path)
{
    char key[KEY_LENGTH];
    while (root && *path) {
        path = take_key(path, key);
        root = path ? find_member(root, key) : NULL;
    }
    return root;
}

/* Byte at which a line and column begin; the length of the text where it has no such place. */
static size_t find_byte(const struct spt_source *source, struct spt_mark mark)
{
    size_t at = spt_utf8_mark_size(source->text, source->length);
    for (int line = 1; line < mark.line && at < source->length; at++)
        line += source->text[at] == '\n';
    for (int column = 1; column < mark.column && at < source->length; column++)
        do
            at++;
        while (at < source->length && ((unsigned char)source->text[at] & 0xC0) == 0x80);
    return at;
}

/* Length of a scalar as it is written at `at`; 0 where it is not written on one line. */
static size_t find_length(const struct spt_source *source, size_t at, const struct spt_node *node)
{
    const char *text = source->text + at;
    const size_t left = source->length - at;
    if (!node->quoted)
        return node->length <= left && !memcmp(text, node->text, node->length) ? node->length : 0;
    if (left < 2 || (*text != '"' && *text != '\''))
        return 0;
    for (size_t i = 1; i < left && text[i] != '\n'; i++) {
        if (text[i] == *text && (*text == '"' || i + 1 == left || text[i + 1] != '\''))
            return i + 1;
        i += (*text == '"' && text[i] == '\\') || (*text == '\'' && text[i] == '\'');
    }
    return 0;
}

/* What is cut out of a text and what takes its place: lead, value, tail. */
struct cut {
    size_t at, length;
    char lead[KEY_LENGTH + 2];
    const char *between; /* after the value; then the blanks of an indentation */
    int indentation;
};

/* A new key stands before the last one of its section, where it cannot part a key from comments
 * that follow the section. */
static bool cut_for_new(const struct spt_source *source, const struct spt_node *root,
                        const char *path, struct cut *cut)
{
    char parent[4 * KEY_LENGTH];
    const char *point = strrchr(path, '.');
    const size_t length = point ? (size_t)(point - path) : 0;
    if (length >= sizeof parent)
        return false;
    memcpy(parent, path, length);
    parent[length] = 0;
    const struct spt_node *section = spt_node_at(root, parent);
    const char *key = point ? point + 1 : path;
    if (!section || section->kind != SPT_NODE_MAPPING || !section->count ||
        strlen(key) >= KEY_LENGTH)
        return false;
    const struct spt_mark last = section->keys[section->count - 1]->mark;
    const size_t begin = find_byte(source, section->mark);
    const bool flow = begin < source->length && source->text[begin] == '{';
    *cut = (struct cut){.at = find_byte(source, last),
                        .between = flow ? ", " : "\n",
                        .indentation = flow ? 0 : last.column - 1};
    strcat(strcpy(cut->lead, key), ": ");
    return true;
}

static bool find_cut(const struct spt_source *source, const struct spt_node *root, const char *path,
                     struct cut *cut)
{
    const struct spt_node *node = spt_node_at(root, path);
    if (!node)
        return cut_for_new(source, root, path, cut);
    if (node->kind != SPT_NODE_SCALAR)
        return false;
    *cut = (struct cut){.at = find_byte(source, node->mark), .between = ""};
    cut->length = find_length(source, cut->at, node);
    return cut->length > 0;
}

/* The value between quotes, or as it is for 0. */
static char *append_value(char *to, const char *value, char quote)
{
    if (quote)
        *to++ = quote;
    for (; *value; value++) {
        if (quote && *value == quote)
            *to++ = quote;
        *to++ = *value;
    }
    if (quote)
        *to++ = quote;
    return to;
}

static const char *splice(const struct spt_source *source, const struct cut *cut, const char *value,
                          char quote, struct spt_arena *arena)
{
    const size_t most =
        source->length + strlen(cut->lead) + 2 * strlen(value) + 8 + (size_t)cut->indentation;
    char *made = spt_arena_allocate(arena, most), *to = made;
    if (!made)
        return NULL;
    memcpy(to, source->text, cut->at);
    to += cut->at;
    to += strlen(strcpy(to, cut->lead));
    to = append_value(to, value, quote);
    to += strlen(strcpy(to, cut->between));
    memset(to, ' ', (size_t)cut->indentation);
    to += cut->indentation;
    const size_t rest = source->length - cut->at - cut->length;
    memcpy(to, source->text + cut->at + cut->length, rest);
    to[rest] = 0;
    return made;
}

/* True if the text is a document that has the value at the path. */
static bool holds(const char *text, const char *path, const char *value, struct spt_arena *arena)
{
    struct spt_diagnostics diags = {0};
    const struct spt_source source = {"", text, strlen(text)};
    const struct spt_node *root = spt_document_read(&source, arena, &diags);
    const struct spt_node *node = root ? spt_node_at(root, path) : NULL;
    return node && node->kind == SPT_NODE_SCALAR && !strcmp(node->text, value);
}

const char *spt_edit_value(const struct spt_source *source, const char *path, const char *value,
                           struct spt_arena *arena, struct spt_diagnostics *diags)
{
    const struct spt_node *root = spt_document_read(source, arena, diags);
    struct cut cut;
    if (!root)
        return NULL;
    const bool found = *value && find_cut(source, root, path, &cut);
    for (int i = 0; found && i < 2; i++) {
        const char *made = splice(source, &cut, value, i ? '\'' : 0, arena);
        if (!made) {
            diags->out_of_memory = true;
            return NULL;
        }
        if (holds(made, path, value, arena))
            return made;
    }
    spt_diagnostics_add(diags, root->mark, "`%.60s` cannot be set here to `%.60s`", path, value);
    return NULL;
}
