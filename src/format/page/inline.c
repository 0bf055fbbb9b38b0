/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/page/inline.h"

#include <ctype.h>
#include <string.h>

#include "format/escape.h"
#include "format/page/blocks.h"

#define SYMBOL_LENGTH 5 /* longest symbol before a subscript, "kappa" */

static bool is_word(char c)
{
    return isalnum((unsigned char)c) || c == '_';
}

static size_t measure(const char *words, int (*is_part)(int c))
{
    size_t length = 0;
    while (is_part((unsigned char)words[length]))
        length++;
    return length;
}

/* Length of the symbol that a subscript follows, as in C_u; 0: there is none here. */
static size_t find_symbol(const char *words, const char *at)
{
    const size_t symbol = measure(at, isalpha);
    if ((at > words && is_word(at[-1])) || !symbol || symbol > SYMBOL_LENGTH || at[symbol] != '_')
        return 0;
    const size_t under = measure(at + symbol + 1, isalnum);
    return under && at[symbol + 1 + under] != '_' ? symbol : 0;
}

/* True for the blank between the thousands of a number. */
static bool is_in_number(const char *words, const char *at)
{
    return *at == ' ' && at > words && isdigit((unsigned char)at[-1]) &&
           measure(at + 1, isdigit) == 3;
}

/* Writes what stands between `at` and the next `end`, in an element. Result: what follows. */
static const char *write_element(FILE *out, const char *at, char end, const char *element)
{
    const char *to = strchr(at, end);
    const size_t length = to ? (size_t)(to - at) : strlen(at);
    fprintf(out, "<%s>", element);
    spt_escape_part(out, at, length);
    fprintf(out, "</%s>", element);
    return at + length + (to ? 1 : 0);
}

static const char *write_symbol(FILE *out, const char *at, size_t symbol)
{
    const size_t under = measure(at + symbol + 1, isalnum);
    fprintf(out, "%.*s<sub>%.*s</sub>", (int)symbol, at, (int)under, at + symbol + 1);
    return at + symbol + 1 + under;
}

void spt_page_inline(FILE *out, const char *words)
{
    const char *from = words, *at = words;
    while (*at) {
        const size_t symbol = find_symbol(words, at);
        const bool code = *at == '`' && strchr(at + 1, '`');
        if (!symbol && !code && *at != SPT_NAME_FROM && !is_in_number(words, at)) {
            at++;
            continue;
        }
        spt_escape_part(out, from, (size_t)(at - from));
        if (symbol) {
            at = write_symbol(out, at, symbol);
        } else if (code) {
            at = write_element(out, at + 1, '`', "code");
        } else if (*at == SPT_NAME_FROM) {
            at = write_element(out, at + 1, SPT_NAME_TO, "bdi");
        } else {
            fputs(SPT_BREAKLESS, out);
            at++;
        }
        from = at;
    }
    spt_escape(out, from);
}

void spt_page_inline_plain(FILE *out, const char *words)
{
    for (; words && *words; words += strspn(words, "`\001\002")) {
        const size_t length = strcspn(words, "`\001\002");
        spt_escape_part(out, words, length);
        words += length;
    }
}
