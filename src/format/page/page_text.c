/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/page/blocks.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#include "base/table.h"

const char *spt_page_capitals(struct spt_page *page, const char *heading)
{
    char *capitals = spt_arena_allocate(page->arena, strlen(heading) + 1);
    bool kept = false;
    size_t used = 0;
    for (; capitals && *heading; heading++) {
        if (*heading == SPT_NAME_FROM || *heading == SPT_NAME_TO || *heading == '`')
            kept = *heading == '`' ? !kept : *heading == SPT_NAME_FROM;
        else
            capitals[used++] =
                (char)(kept || (unsigned char)*heading > 127 ? *heading
                                                             : toupper((unsigned char)*heading));
    }
    page->broken = page->broken || !capitals;
    return capitals ? capitals : "";
}

static void write_heading(struct spt_page *page, const struct spt_text *text, const char *heading,
                          int depth)
{
    if (!*heading) {
        fputc('\n', text->out);
    } else if (depth == 1) {
        spt_text_heading(text, spt_page_capitals(page, heading));
    } else {
        fputc('\n', text->out);
        spt_text_wrap(text, "", spt_page_strip(page, heading));
    }
}

static void write_step(const struct spt_text *text, const struct spt_step *step)
{
    spt_text_wrapf(text, "  ", "%s = %s", step->symbol, step->formula);
    spt_text_wrapf(text, "      = ", "%s", step->numbers);
    if (isnan(step->value))
        spt_text_wrapf(text, "      = ", "none  [%s]", step->source);
    else if (isinf(step->value))
        spt_text_wrapf(text, "      = ", "no limit  [%s]", step->source);
    else
        spt_text_wrapf(text, "      = ", "%.5g%s%s  [%s]", step->value, *step->unit ? " " : "",
                       step->unit, step->source);
}

/* How a verdict is marked: the sign and its colour (SGR). */
static const struct {
    const char *mark, *color;
} verdicts[] = {
    [SPT_UNJUDGED] = {"", NULL},
    [SPT_MET] = {"[+] ", "\033[1;32m"},
    [SPT_MISSED] = {"[-] ", "\033[1;31m"},
    [SPT_DOUBTFUL] = {"[?] ", "\033[1;33m"},
};
SPT_ONE_EACH(verdicts, SPT_VERDICT_COUNT);

static void write_sentence(struct spt_page *page, const struct spt_text *text,
                           const struct spt_block *block)
{
    const char *color = text->color ? verdicts[block->verdict].color : NULL;
    const char *mark = block->verdict ? verdicts[block->verdict].mark : block->mark;
    if (color)
        fputs(color, text->out);
    spt_text_wrap(text, mark, spt_page_strip(page, block->words));
    if (color)
        fputs("\033[0m", text->out);
}

static void write_block(struct spt_page *page, const struct spt_text *text,
                        const struct spt_block *block)
{
    if (block->kind == SPT_BLOCK_SENTENCE)
        write_sentence(page, text, block);
    else if (block->kind == SPT_BLOCK_TABLE)
        spt_table_lines(&block->table, text);
    else if (block->kind == SPT_BLOCK_PICTURE && block->picture.text)
        block->picture.text(text, block->picture.subject);
    else if (block->kind == SPT_BLOCK_STEP)
        write_step(text, &block->step);
    else if (block->kind == SPT_BLOCK_VERBATIM)
        fputs(block->words, text->out);
}

void spt_page_text(struct spt_page *page, const struct spt_text *text, bool quiet)
{
    int depth = 0;
    const struct spt_block *block = page->first;
    if (page->title)
        spt_text_wrap(text, "", page->title);
    while (block) {
        if (spt_block_skip(&block, quiet))
            continue;
        if (block->kind == SPT_BLOCK_OPEN)
            write_heading(page, text, block->words, ++depth);
        else if (block->kind == SPT_BLOCK_CLOSE)
            depth--;
        else if (!quiet || !spt_block_is_quiet(block))
            write_block(page, text, block);
        block = block->next;
    }
}
