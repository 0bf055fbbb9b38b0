/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/page/blocks.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

/* A heading in capitals, but for names and what stands between backticks. */
static const char *capitalize(struct spt_page *page, const char *heading)
{
    char *capitals = spt_arena_take(page->arena, strlen(heading) + 1);
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
    if (depth == 1) {
        spt_text_heading(text, capitalize(page, heading));
    } else {
        fputc('\n', text->out);
        spt_text_wrap(text, "", spt_page_strip(page, heading));
    }
}

static void write_blanks(FILE *out, int count)
{
    if (count > 0)
        fprintf(out, "%*s", count, "");
}

/* A line of a table being written: blanks are held back, so that none end a line. */
struct line {
    const struct spt_text *text;
    int blanks;
};

static void put(struct line *line, const char *words, int width, bool right)
{
    const int all = spt_text_length(words);
    if (right)
        line->blanks += width - all > 0 ? width - all : 0;
    if (*words) {
        write_blanks(line->text->out, line->blanks);
        line->blanks = 0;
        if (right || all <= width)
            fputs(words, line->text->out);
        else
            spt_text_fit(line->text, words, width);
    }
    if (!right)
        line->blanks += width - all > 0 ? width - all : 0;
}

static void put_bar(struct line *line, double share, int width)
{
    char bar[SPT_TEXT_WIDTH + 1];
    int marks = share > 0 ? (int)round(fmin(share, 1) * width) : 0;
    marks = share > 0 && marks < 1 ? 1 : marks;
    memset(bar, '#', (size_t)marks);
    bar[marks] = 0;
    put(line, bar, width, false);
}

static void end_line(struct line *line)
{
    line->blanks = 0;
    fputc('\n', line->text->out);
}

static void write_head(struct line *line, const struct spt_table *table, bool second)
{
    for (int i = 0; i < table->column_count; i++) {
        const struct spt_column *c = &table->columns[i];
        const char *words = second ? c->under : c->head;
        if (!c->head || c->extra)
            continue;
        line->blanks += c->gap;
        if (c->group && !second) { /* the head of two columns, over both */
            const struct spt_column *next = c + 1;
            put(line, words, c->width + next->gap + next->width, true);
            i++;
        } else {
            put(line, words ? words : "", c->width, spt_column_is_right(c));
        }
    }
    end_line(line);
}

static void write_row(struct line *line, const struct spt_table *table, int row)
{
    char buffer[SPT_CELL_LENGTH];
    for (int i = 0; i < table->column_count; i++) {
        const struct spt_column *c = &table->columns[i];
        if (!c->head || c->extra)
            continue;
        line->blanks += c->gap;
        if (c->kind == SPT_BAR)
            put_bar(line, spt_cell_number(table, row, i), c->width);
        else
            put(line, spt_cell_words(table, row, i, buffer), c->width, spt_column_is_right(c));
    }
    end_line(line);
}

static void write_table(const struct spt_text *text, const struct spt_table *table)
{
    struct line line = {text, 0};
    if (!spt_table_is_shown(table))
        return;
    if (table->apart)
        fputc('\n', text->out);
    write_head(&line, table, false);
    if (spt_table_has_second_head(table))
        write_head(&line, table, true);
    for (int row = 0; row < spt_table_rows_shown(table); row++)
        write_row(&line, table, row);
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

static void write_block(struct spt_page *page, const struct spt_text *text,
                        const struct spt_block *block)
{
    if (block->kind == SPT_BLOCK_SENTENCE)
        spt_text_wrap(text, block->mark, spt_page_strip(page, block->words));
    else if (block->kind == SPT_BLOCK_TABLE)
        write_table(text, &block->table);
    else if (block->kind == SPT_BLOCK_PICTURE && block->picture.text)
        block->picture.text(text, block->picture.subject);
    else if (block->kind == SPT_BLOCK_STEP)
        write_step(text, &block->step);
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
