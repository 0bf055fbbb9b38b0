/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stdlib.h>
#include <string.h>

#include "format/gather.h"
#include "format/page/blocks.h"

#define LINE_WIDTH 72 /* of tables, which a man page indents by some characters */

/* Writes a part of a line, with backslashes and hyphens escaped. */
static void write_part(FILE *out, const char *words, size_t length)
{
    for (size_t i = 0; i < length; i++) {
        if (words[i] == '\\')
            fputs("\\e", out);
        else if (words[i] == '-')
            fputs("\\-", out);
        else
            fputc(words[i], out);
    }
}

/* A dot or a quote at the start of a line would be a request. */
static void write_line(FILE *out, const char *words, size_t length)
{
    if (length && (*words == '.' || *words == '\''))
        fputs("\\&", out);
    write_part(out, words, length);
    fputc('\n', out);
}

void spt_roff(FILE *out, const char *words)
{
    write_part(out, words, strlen(words));
}

static void write_verbatim(FILE *out, const char *lines)
{
    fputs(".PP\n.RS 2\n.nf\n", out);
    for (size_t length; *lines; lines += length + (lines[length] == '\n')) {
        length = strcspn(lines, "\n");
        write_line(out, lines, length);
    }
    fputs(".fi\n.RE\n", out);
}

/* A table as lines of text; those of two columns become terms and what they mean. */
static void write_table(struct spt_page *page, FILE *out, const struct spt_table *table)
{
    char buffer[SPT_CELL_LENGTH];
    for (int row = 0; table->column_count == 2 && row < spt_table_rows_shown(table); row++) {
        const char *term = spt_cell_words(table, row, 0, buffer);
        fputs(".TP\n.B ", out);
        write_line(out, term, strlen(term));
        const char *meaning = spt_cell_words(table, row, 1, buffer);
        write_line(out, meaning, strlen(meaning));
    }
    if (table->column_count == 2)
        return;
    struct spt_gather gathered;
    char *lines = NULL;
    if (spt_gather_open(&gathered)) {
        spt_table_lines(table, &(struct spt_text){gathered.stream, false, LINE_WIDTH});
        lines = spt_gather_close(&gathered);
    }
    page->broken = page->broken || !lines;
    if (lines)
        write_verbatim(out, lines);
    free(lines);
}

static void write_sentence(struct spt_page *page, FILE *out, const struct spt_block *block)
{
    const char *words = spt_page_strip(page, block->words);
    fputs(*block->mark ? ".IP \\(bu 2\n" : ".PP\n", out);
    write_line(out, words, strlen(words));
}

static void write_heading(struct spt_page *page, FILE *out, const char *heading, int depth)
{
    if (!*heading)
        return;
    fputs(depth == 1 ? ".SH " : ".SS ", out);
    spt_roff(out, depth == 1 ? spt_page_capitals(page, heading) : spt_page_strip(page, heading));
    fputc('\n', out);
}

void spt_page_roff(struct spt_page *page, FILE *out)
{
    int depth = 0;
    for (const struct spt_block *block = page->first; block; block = block->next) {
        if (block->kind == SPT_BLOCK_OPEN)
            write_heading(page, out, block->words, ++depth);
        else if (block->kind == SPT_BLOCK_CLOSE)
            depth--;
        else if (block->kind == SPT_BLOCK_SENTENCE)
            write_sentence(page, out, block);
        else if (block->kind == SPT_BLOCK_TABLE && spt_table_is_shown(&block->table))
            write_table(page, out, &block->table);
        else if (block->kind == SPT_BLOCK_VERBATIM)
            write_verbatim(out, block->words);
    }
}
