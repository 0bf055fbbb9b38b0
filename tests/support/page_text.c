/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/page_text.h"

#include <stdbool.h>
#include <stdio.h>
#include <string.h>

static bool is_tag(const char *at, const char *name)
{
    const size_t length = strlen(name);
    at += at[1] == '/' ? 2 : 1;
    return !strncmp(at, name, length) && (at[length] == '>' || at[length] == ' ');
}

static bool is_any(const char *at, const char *const *names)
{
    for (; *names; names++)
        if (is_tag(at, *names))
            return true;
    return false;
}

/* Moves past a tag, and past the content of one that is not seen. */
static const char *skip_tag(const char *at, FILE *out)
{
    static const char *const unseen[] = {"style", "script", "title", NULL};
    static const char *const in_line[] = {"sub",  "sup", "code", "small", "strong",
                                          "span", "bdi", "em",   NULL};
    const bool hides = at[1] != '/' && is_any(at, unseen);
    if (!is_any(at, in_line))
        fputc('\n', out);
    at += strcspn(at, ">");
    if (hides)
        for (at++; *at && !(at[0] == '<' && at[1] == '/');)
            at++;
    return *at == '>' ? at + 1 : at;
}

static const char *write_character(const char *at, FILE *out)
{
    static const struct {
        const char *from, *to;
    } spellings[] = {{"&amp;", "&"}, {"&lt;", "<"},   {"&gt;", ">"},    {"&quot;", "\""},
                     {"&#39;", "'"}, {"&nbsp;", " "}, {"\xC2\xA0", " "}};
    for (size_t i = 0; i < sizeof spellings / sizeof *spellings; i++)
        if (!strncmp(at, spellings[i].from, strlen(spellings[i].from))) {
            fputs(spellings[i].to, out);
            return at + strlen(spellings[i].from);
        }
    fputc(*at, out);
    return at + 1;
}

char *page_text(const char *html)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    while (*html)
        html = *html == '<' ? skip_tag(html, out) : write_character(html, out);
    fclose(out);
    return text;
}
