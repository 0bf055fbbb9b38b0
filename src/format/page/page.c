/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/page/blocks.h"

#include <stdarg.h>
#include <string.h>

void *spt_page_allocate(struct spt_page *page, size_t size)
{
    void *memory = spt_arena_allocate(page->arena, size);
    page->broken = page->broken || !memory;
    return memory;
}

/* Formats words into the arena; "" where memory is out. */
static const char *keep_words(struct spt_page *page, const char *format, va_list arguments)
{
    va_list again;
    va_copy(again, arguments);
    const int length = vsnprintf(NULL, 0, format, again);
    va_end(again);
    char *words = spt_page_allocate(page, (size_t)length + 1);
    if (words)
        vsnprintf(words, (size_t)length + 1, format, arguments);
    return words ? words : "";
}

static const char *copy_words(struct spt_page *page, const char *words)
{
    const char *copy = words ? spt_arena_text(page->arena, words, strlen(words)) : NULL;
    page->broken = page->broken || (words && !copy);
    return copy;
}

static struct spt_block *add(struct spt_page *page, enum spt_block_kind kind)
{
    struct spt_block *block = spt_page_allocate(page, sizeof *block);
    if (!block)
        return NULL;
    block->kind = kind;
    block->mark = "";
    block->words = "";
    if (page->last)
        page->last->next = block;
    else
        page->first = block;
    page->last = block;
    return block;
}

struct spt_page *spt_page_new(struct spt_arena *arena, const char *title)
{
    struct spt_page *page = spt_arena_allocate(arena, sizeof *page);
    if (!page)
        return NULL;
    *page = (struct spt_page){.arena = arena, .title = title};
    return page;
}

bool spt_page_is_whole(const struct spt_page *page)
{
    return page && !page->broken;
}

void spt_page_open(struct spt_page *page, const char *heading, ...)
{
    struct spt_block *block = add(page, SPT_BLOCK_OPEN);
    va_list arguments;
    va_start(arguments, heading);
    if (block)
        block->words = keep_words(page, heading, arguments);
    va_end(arguments);
}

void spt_page_open_as(struct spt_page *page, enum spt_section_form section, const char *heading,
                      ...)
{
    struct spt_block *block = add(page, SPT_BLOCK_OPEN);
    va_list arguments;
    va_start(arguments, heading);
    if (block) {
        block->section = section;
        block->words = keep_words(page, heading, arguments);
    }
    va_end(arguments);
}

void spt_page_close(struct spt_page *page)
{
    add(page, SPT_BLOCK_CLOSE);
}

void spt_page_say(struct spt_page *page, enum spt_role role, const char *mark, const char *format,
                  ...)
{
    struct spt_block *block = add(page, SPT_BLOCK_SENTENCE);
    va_list arguments;
    va_start(arguments, format);
    if (block) {
        block->role = role;
        block->mark = mark;
        block->words = keep_words(page, format, arguments);
    }
    va_end(arguments);
}

void spt_page_judge(struct spt_page *page, enum spt_verdict verdict, const char *format, ...)
{
    struct spt_block *block = add(page, SPT_BLOCK_SENTENCE);
    va_list arguments;
    va_start(arguments, format);
    if (block) {
        block->verdict = verdict;
        block->words = keep_words(page, format, arguments);
    }
    va_end(arguments);
}

struct spt_column *spt_page_columns(struct spt_page *page, const struct spt_column *columns,
                                    int count)
{
    const size_t size = (size_t)count * sizeof *columns;
    struct spt_column *copy = spt_page_allocate(page, size);
    return copy ? memcpy(copy, columns, size) : NULL;
}

void spt_page_table(struct spt_page *page, const char *id, const struct spt_table *table)
{
    struct spt_block *block = add(page, SPT_BLOCK_TABLE);
    if (!block)
        return;
    block->words = id;
    block->table = *table;
    if (!table->columns)
        block->table.column_count = 0;
    if (!table->rows)
        block->table.row_count = block->table.left_out = 0;
}

const struct spt_table *spt_page_find(const struct spt_page *page, const char *id)
{
    for (const struct spt_block *block = page->first; block; block = block->next)
        if (block->kind == SPT_BLOCK_TABLE && !strcmp(block->words, id))
            return &block->table;
    return NULL;
}

void spt_page_picture(struct spt_page *page, const struct spt_picture *picture)
{
    struct spt_block *block = add(page, SPT_BLOCK_PICTURE);
    if (block)
        block->picture = *picture;
}

void spt_page_step(struct spt_page *page, const struct spt_step *step)
{
    struct spt_block *block = add(page, SPT_BLOCK_STEP);
    if (!block)
        return;
    block->step = (struct spt_step){.symbol = copy_words(page, step->symbol),
                                    .formula = copy_words(page, step->formula),
                                    .numbers = copy_words(page, step->numbers),
                                    .value = step->value,
                                    .unit = copy_words(page, step->unit),
                                    .source = copy_words(page, step->source)};
}

void spt_page_verbatim(struct spt_page *page, const char *lines)
{
    struct spt_block *block = add(page, SPT_BLOCK_VERBATIM);
    if (block)
        block->words = lines;
}

struct spt_page *spt_page_part(struct spt_page *page)
{
    struct spt_page *part = spt_page_new(page->arena, NULL);
    page->broken = page->broken || !part;
    return part;
}

const char *spt_page_words(struct spt_page *page, const char *format, ...)
{
    va_list arguments;
    va_start(arguments, format);
    const char *words = keep_words(page, format, arguments);
    va_end(arguments);
    return words;
}

const char *spt_page_hours(struct spt_page *page, double hours)
{
    char buffer[SPT_HOURS_LENGTH];
    return spt_page_words(page, "%s", spt_text_hours(hours, buffer));
}

const char *spt_page_life(struct spt_page *page, double hours)
{
    char buffer[SPT_HOURS_LENGTH];
    return spt_page_words(page, "%s", spt_text_life(hours, buffer));
}

const char *spt_page_name(struct spt_page *page, const char *name)
{
    return spt_page_words(page, "%c%s%c", SPT_NAME_FROM, name, SPT_NAME_TO);
}

const char *spt_page_strip(struct spt_page *page, const char *words)
{
    char *plain = spt_page_allocate(page, strlen(words) + 1);
    size_t used = 0;
    if (!plain)
        return "";
    for (; *words; words++)
        if (*words != SPT_NAME_FROM && *words != SPT_NAME_TO)
            plain[used++] = *words;
    return plain;
}

bool spt_block_is_quiet(const struct spt_block *block)
{
    return block->kind == SPT_BLOCK_SENTENCE &&
           (block->role == SPT_NOTE || block->role == SPT_CAUTION);
}

static bool is_shown(const struct spt_block *block, bool quiet)
{
    return block->kind == SPT_BLOCK_TABLE ? spt_table_is_shown(&block->table)
                                          : !quiet || !spt_block_is_quiet(block);
}

const struct spt_block *spt_block_end(const struct spt_block *block)
{
    int depth = 0;
    do {
        depth += block->kind == SPT_BLOCK_OPEN;
        depth -= block->kind == SPT_BLOCK_CLOSE;
        block = block->next;
    } while (block && depth);
    return block;
}

bool spt_block_skip(const struct spt_block **block, bool quiet)
{
    const struct spt_block *at = *block;
    if (at->kind != SPT_BLOCK_OPEN)
        return false;
    int depth = 0;
    do {
        if (at->kind == SPT_BLOCK_OPEN)
            depth++;
        else if (at->kind == SPT_BLOCK_CLOSE)
            depth--;
        else if (is_shown(at, quiet))
            return false;
        at = at->next;
    } while (at && depth);
    *block = at;
    return true;
}
