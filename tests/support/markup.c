/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/markup.h"

#include <ctype.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>

#define DEPTH_MAX 64
#define NAME_LENGTH 64
#define VALUE_LENGTH 4096

struct reader {
    const char *text, *at;
    char open[DEPTH_MAX][NAME_LENGTH];
    int depth;
    markup_attribute *attribute;
    void *context;
    char *problem;
    size_t size;
};

static bool refuse(struct reader *reader, const char *what)
{
    snprintf(reader->problem, reader->size, "%s at byte %ld: %.60s", what,
             (long)(reader->at - reader->text), reader->at);
    return false;
}

static bool is_void(const char *name)
{
    return !strcmp(name, "meta") || !strcmp(name, "br") || !strcmp(name, "hr");
}

static bool read_name(struct reader *reader, char *name)
{
    size_t length = 0;
    while (isalnum((unsigned char)*reader->at) || (*reader->at && strchr("-:_", *reader->at))) {
        if (length + 1 == NAME_LENGTH)
            return refuse(reader, "a very long name");
        name[length++] = *reader->at++;
    }
    name[length] = 0;
    return length > 0 || refuse(reader, "no name");
}

static bool check_reference(struct reader *reader)
{
    static const char *const known[] = {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;"};
    for (int i = 0; i < 5; i++)
        if (!strncmp(reader->at, known[i], strlen(known[i])))
            return true;
    return refuse(reader, "a bare &");
}

static bool read_attribute(struct reader *reader, const char *element)
{
    char name[NAME_LENGTH], value[VALUE_LENGTH];
    size_t length = 0;
    if (!read_name(reader, name))
        return false;
    if (*reader->at != '=')
        return refuse(reader, "an attribute without a value");
    reader->at++;
    if (*reader->at++ != '"')
        return refuse(reader, "a value without quotes");
    for (; *reader->at && *reader->at != '"'; reader->at++) {
        if (*reader->at == '<')
            return refuse(reader, "a bare < in an attribute");
        if (*reader->at == '&' && !check_reference(reader))
            return false;
        if (length + 1 < VALUE_LENGTH)
            value[length++] = *reader->at;
    }
    value[length] = 0;
    if (*reader->at++ != '"')
        return refuse(reader, "an open value");
    if (reader->attribute)
        reader->attribute(reader->context, element, name, value);
    return true;
}

static bool close_element(struct reader *reader)
{
    char name[NAME_LENGTH];
    reader->at += 2;
    if (!read_name(reader, name))
        return false;
    if (*reader->at++ != '>')
        return refuse(reader, "an end tag that does not end");
    if (!reader->depth || strcmp(reader->open[reader->depth - 1], name))
        return refuse(reader, "an end tag out of order before");
    reader->depth--;
    return true;
}

/* Skips the content of style and script elements up to their end tag. */
static bool skip_raw(struct reader *reader, const char *name)
{
    char end[NAME_LENGTH + 4];
    snprintf(end, sizeof end, "</%s>", name);
    const char *found = strstr(reader->at, end);
    if (!found)
        return refuse(reader, "raw text without an end");
    reader->at = found;
    return true;
}

static bool open_element(struct reader *reader)
{
    char name[NAME_LENGTH];
    reader->at++;
    if (!read_name(reader, name))
        return false;
    while (isspace((unsigned char)*reader->at)) {
        while (isspace((unsigned char)*reader->at))
            reader->at++;
        if (*reader->at != '>' && *reader->at != '/' && !read_attribute(reader, name))
            return false;
    }
    if (!strncmp(reader->at, "/>", 2)) {
        reader->at += 2;
        return true;
    }
    if (*reader->at++ != '>')
        return refuse(reader, "a tag that does not end");
    if (is_void(name))
        return true;
    if (reader->depth == DEPTH_MAX)
        return refuse(reader, "too deep");
    strcpy(reader->open[reader->depth++], name);
    return (strcmp(name, "style") && strcmp(name, "script")) || skip_raw(reader, name);
}

bool markup_read(const char *text, markup_attribute *attribute, void *context, char *problem,
                 size_t size)
{
    static const char doctype[] = "<!DOCTYPE html>";
    struct reader reader = {text, text, {{0}}, 0, attribute, context, problem, size};
    if (!strncmp(text, doctype, sizeof doctype - 1))
        reader.at += sizeof doctype - 1;
    while (*reader.at) {
        bool fine = true;
        if (*reader.at == '<')
            fine = reader.at[1] == '/' ? close_element(&reader) : open_element(&reader);
        else if (*reader.at == '&')
            fine = check_reference(&reader) && reader.at++;
        else
            reader.at++;
        if (!fine)
            return false;
    }
    return reader.depth == 0 || refuse(&reader, reader.open[reader.depth - 1]);
}

int markup_count(const char *text, const char *part)
{
    int count = 0;
    for (const char *at = strstr(text, part); at; at = strstr(at + 1, part))
        count++;
    return count;
}

char *markup_run(const char *command, int *status)
{
    FILE *pipe = popen(command, "r");
    char *text = NULL;
    size_t length = 0;
    FILE *gathered = open_memstream(&text, &length);
    for (int c = pipe ? fgetc(pipe) : EOF; c != EOF; c = fgetc(pipe))
        fputc(c, gathered);
    fclose(gathered);
    int ended = pipe ? pclose(pipe) : -1;
    *status = WIFEXITED(ended) ? WEXITSTATUS(ended) : -1;
    return text;
}
