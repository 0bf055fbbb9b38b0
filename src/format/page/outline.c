/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/page/outline.h"

#include <ctype.h>
#include <string.h>

#include "format/page/inline.h"

#define STEM_LENGTH 48 /* of an address, without its number */

bool spt_page_has_front(const struct spt_page *page)
{
    const struct spt_block *first = page->first;
    return first && first->kind == SPT_BLOCK_OPEN && first->section == SPT_SECTION_FRONT;
}

/* Writes the letters and digits of a heading, a hyphen for all between; "part" where it has none.
 */
static void write_stem(const char *heading, char *stem)
{
    size_t used = 0;
    for (; *heading && used < STEM_LENGTH - 1; heading++) {
        const unsigned char c = (unsigned char)*heading;
        if (c < 0x80 && isalnum(c))
            stem[used++] = (char)tolower(c);
        else if (used && stem[used - 1] != '-')
            stem[used++] = '-';
    }
    while (used && stem[used - 1] == '-')
        used--;
    stem[used] = '\0';
    if (!used || !isalpha((unsigned char)*stem))
        snprintf(stem, STEM_LENGTH, "part");
}

const char *spt_page_address(const struct spt_page *page, const struct spt_block *block,
                             char *address)
{
    char stem[STEM_LENGTH], other[STEM_LENGTH];
    int number = 1;
    write_stem(block->words, stem);
    for (const struct spt_block *at = page->first; at && at != block; at = at->next) {
        if (at->kind != SPT_BLOCK_OPEN || !*at->words)
            continue;
        write_stem(at->words, other);
        number += !strcmp(stem, other);
    }
    if (number == 1)
        snprintf(address, SPT_ADDRESS_LENGTH, "%s", stem);
    else
        snprintf(address, SPT_ADDRESS_LENGTH, "%s-%d", stem, number);
    return address;
}

/* A list of one would say no more than the section below it. */
static bool has_several(const struct spt_block *at, bool quiet)
{
    int count = 0;
    while (at && count < 2) {
        if (spt_block_skip(&at, quiet))
            continue;
        count += at->kind == SPT_BLOCK_OPEN && *at->words;
        at = at->kind == SPT_BLOCK_OPEN ? spt_block_end(at) : at->next;
    }
    return count > 1;
}

void spt_page_contents(const struct spt_page *page, const struct spt_block *front, FILE *out,
                       bool quiet)
{
    bool begun = false;
    const struct spt_block *at = spt_block_end(front);
    if (!has_several(at, quiet))
        return;
    while (at) {
        char address[SPT_ADDRESS_LENGTH];
        if (spt_block_skip(&at, quiet))
            continue;
        if (at->kind == SPT_BLOCK_OPEN && *at->words) {
            if (!begun)
                fputs("<nav class=\"contents\" aria-label=\"Contents\">\n<ul>\n", out);
            begun = true;
            fprintf(out, "<li><a href=\"#%s\">", spt_page_address(page, at, address));
            spt_page_inline(out, at->words);
            fputs("</a></li>\n", out);
        }
        at = at->kind == SPT_BLOCK_OPEN ? spt_block_end(at) : at->next;
    }
    if (begun)
        fputs("</ul>\n</nav>\n", out);
}
