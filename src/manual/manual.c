/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "manual/manual.h"

#include <string.h>

#define FENCE "```"
#define CELLS_MAX 6
#define NAME_WIDTH 26 /* widest first column of a table in text */

/* A text being read; `page` takes its blocks. */
struct reader {
    const struct spt_manual_text *text;
    struct spt_page *page;
    int at;         /* the line that comes next */
    bool is_open;   /* a section is */
    bool is_behind; /* something stands in the section already: an empty line comes first */
};

const struct spt_manual_text *spt_manual_find(const char *name)
{
    for (int i = 0; i < spt_manual_count; i++)
        if (!strcmp(spt_manual_texts[i].name, name))
            return &spt_manual_texts[i];
    return NULL;
}

int spt_manual_section(const struct spt_manual_text *text)
{
    const char *at = strstr(text->lines[0], " (");
    return at ? at[2] - '0' : 1;
}

const char *spt_manual_title(const struct spt_manual_text *text)
{
    return text->lines[0] + strlen("# ");
}

const char *spt_manual_summary(const struct spt_manual_text *text)
{
    const char *at = strstr(text->lines[0], "): ");
    return at ? at + strlen("): ") : text->lines[0];
}

static const char *peek(const struct reader *reader)
{
    return reader->at < reader->text->line_count ? reader->text->lines[reader->at] : NULL;
}

static bool starts(const char *line, const char *with)
{
    return line && !strncmp(line, with, strlen(with));
}

static bool is_prose(const char *line)
{
    return line && *line && !starts(line, "## ") && !starts(line, "- ") && !starts(line, "| ") &&
           !starts(line, FENCE);
}

/* Joins a line from `skip` on with those of prose that follow it. */
static const char *join(struct reader *reader, size_t skip)
{
    const char *words = spt_page_words(reader->page, "%s", peek(reader) + skip);
    for (reader->at++; is_prose(peek(reader)); reader->at++) {
        const char *line = peek(reader);
        words = spt_page_words(reader->page, "%s %s", words, line + strspn(line, " "));
    }
    return words;
}

static void read_paragraph(struct reader *reader)
{
    spt_page_say(reader->page, SPT_BODY, "", "%s", join(reader, 0));
}

static void read_items(struct reader *reader)
{
    while (starts(peek(reader), "- "))
        spt_page_say(reader->page, SPT_BODY, "- ", "%s", join(reader, 2));
}

static void read_heading(struct reader *reader)
{
    if (reader->is_open)
        spt_page_close(reader->page);
    spt_page_open(reader->page, "%s", peek(reader) + strlen("## "));
    reader->is_open = true;
    reader->is_behind = false;
    reader->at++;
}

static void read_verbatim(struct reader *reader)
{
    const char *words = "";
    for (reader->at++; peek(reader) && !starts(peek(reader), FENCE); reader->at++)
        words = spt_page_words(reader->page, "%s%s\n", words, peek(reader));
    reader->at++;
    spt_page_verbatim(reader->page, words);
}

/* Cells of a line of a table; backticks are left out, since cells have no markup. */
static int split(struct reader *reader, const char *line, const char **cells)
{
    int count = 0;
    for (line += 1; *line && count < CELLS_MAX; count++) {
        const size_t length = strcspn(line, "|");
        char *cell = spt_page_allocate(reader->page, length + 1);
        size_t used = 0;
        for (size_t i = strspn(line, " "); cell && i < length; i++)
            if (line[i] != '`')
                cell[used++] = line[i];
        while (used && cell[used - 1] == ' ')
            cell[--used] = '\0';
        cells[count] = cell ? cell : "";
        line += length + (line[length] == '|');
    }
    return count;
}

/* Width of a column: its longest cell; the last one takes the rest of the line. */
static void set_widths(struct spt_column *columns, int count, const char *const *cells, int rows)
{
    for (int i = 0; i + 1 < count; i++) {
        int width = spt_text_length(columns[i].head);
        for (int row = 0; row < rows; row++) {
            const int length = spt_text_length(cells[row * CELLS_MAX + i]);
            width = length > width ? length : width;
        }
        columns[i].width = width < NAME_WIDTH ? width : NAME_WIDTH;
    }
}

static struct spt_column *make_columns(struct reader *reader, const char *const *heads, int count)
{
    struct spt_column *columns = spt_page_allocate(reader->page, (size_t)count * sizeof *columns);
    for (int i = 0; columns && i < count; i++)
        columns[i] = (struct spt_column){
            .head = heads[i], .gap = i ? 2 : 0, .at = (size_t)i * sizeof(const char *)};
    return columns;
}

static void read_table(struct reader *reader)
{
    const char *heads[CELLS_MAX] = {0};
    int rows = 0;
    const int count = split(reader, peek(reader), heads);
    reader->at += 2; /* the line below the heads is a rule */
    while (reader->at + rows < reader->text->line_count &&
           starts(reader->text->lines[reader->at + rows], "| "))
        rows++;
    const char **cells =
        spt_page_allocate(reader->page, (size_t)rows * CELLS_MAX * sizeof *cells + 1);
    struct spt_column *columns = make_columns(reader, heads, count);
    for (int row = 0; cells && row < rows; row++)
        split(reader, reader->text->lines[reader->at + row], cells + row * CELLS_MAX);
    reader->at += rows;
    if (!cells || !columns)
        return;
    set_widths(columns, count, cells, rows);
    spt_page_table(reader->page, "",
                   &(struct spt_table){.columns = columns,
                                       .column_count = count,
                                       .rows = cells,
                                       .row_size = CELLS_MAX * sizeof *cells,
                                       .row_count = rows});
}

/* Reads what is no heading; an empty line sets it apart from what stands above it. */
static void read_block(struct reader *reader)
{
    const char *line = peek(reader);
    const bool apart = reader->is_behind;
    if (apart)
        spt_page_open(reader->page, "%s", "");
    reader->is_behind = true;
    if (starts(line, "- "))
        read_items(reader);
    else if (starts(line, "| "))
        read_table(reader);
    else if (starts(line, FENCE))
        read_verbatim(reader);
    else
        read_paragraph(reader);
    if (apart)
        spt_page_close(reader->page);
}

static void read_line(struct reader *reader)
{
    if (!*peek(reader))
        reader->at++;
    else if (starts(peek(reader), "## "))
        read_heading(reader);
    else
        read_block(reader);
}

void spt_manual_page(const struct spt_manual_text *text, enum spt_manual_part part,
                     struct spt_page *page)
{
    struct reader reader = {.text = text, .page = page, .at = 1, .is_behind = true};
    while (part == SPT_MANUAL_REST && peek(&reader) && !starts(peek(&reader), "## "))
        reader.at++;
    while (peek(&reader) && (part == SPT_MANUAL_REST || !starts(peek(&reader), "## ")))
        read_line(&reader);
    if (reader.is_open)
        spt_page_close(page);
}
