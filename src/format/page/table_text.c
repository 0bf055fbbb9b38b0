/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "format/page/blocks.h"

#define COLUMNS_MAX 64
#define NAME_LEAST 8 /* narrowest column of names before rows are stacked */
#define BAR_MAX 120
#define REST (-1)
#define REST_LEAST 24
#define STACK_INDENT "    "

/* The columns of a table as they fit a line. */
struct layout {
    int widths[COLUMNS_MAX]; /* 0: the column is left out; REST: the rest of the line */
    bool stacked;            /* too wide even so: each row is a paragraph */
};

static void write_blanks(FILE *out, int count)
{
    if (count > 0)
        fprintf(out, "%*s", count, "");
}

/* A line of a table being written: blanks are held back, so that none end a line. */
struct line {
    const struct spt_text *text;
    int blanks;
    int at; /* characters written */
};

static void put(struct line *line, const char *words, int width, bool right)
{
    const int all = spt_text_length(words);
    if (right)
        line->blanks += width - all > 0 ? width - all : 0;
    if (*words) {
        write_blanks(line->text->out, line->blanks);
        line->at += line->blanks + (right || all < width ? all : width);
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
    char bar[BAR_MAX + 1];
    width = width < BAR_MAX ? width : BAR_MAX;
    int marks = share > 0 ? (int)round(fmin(share, 1) * width) : 0;
    marks = share > 0 && marks < 1 ? 1 : marks;
    memset(bar, '#', (size_t)marks);
    bar[marks] = 0;
    put(line, bar, width, false);
}

/* Words that take the rest of the line and wrap below themselves. */
static void put_rest(struct line *line, const char *words)
{
    if (!*words)
        return;
    line->at += line->blanks;
    write_blanks(line->text->out, line->blanks);
    line->blanks = 0;
    spt_text_wrap_from(line->text, line->at, words);
}

static void end_line(struct line *line)
{
    line->blanks = line->at = 0;
    fputc('\n', line->text->out);
}

/* Longest words of a column, its head among them. */
static int find_longest(const struct spt_table *table, int column)
{
    char buffer[SPT_CELL_LENGTH];
    int longest = spt_text_length(table->columns[column].head);
    for (int row = 0; row < spt_table_rows_shown(table); row++) {
        const int length = spt_text_length(spt_cell_words(table, row, column, buffer));
        longest = length > longest ? length : longest;
    }
    return longest;
}

/* The first column of words, which gives way where a line is too narrow and takes what it needs
 * where there is room; -1: there is none. */
static int find_name(const struct spt_table *table)
{
    for (int i = 0; i < table->column_count; i++)
        if (table->columns[i].head && table->columns[i].kind == SPT_WORDS &&
            !table->columns[i].extra && table->columns[i].width)
            return i;
    return -1;
}

/* Gives the columns that are not always there room, as long as there is some. Result: the width
 * of the line. */
static int add_extras(const struct spt_table *table, int width, int total, struct layout *layout)
{
    for (int i = 0; i < table->column_count; i++) {
        const struct spt_column *c = &table->columns[i];
        if (!c->head || !c->extra || total + c->gap + c->width > width)
            continue;
        layout->widths[i] = c->width;
        total += c->gap + c->width;
    }
    return total;
}

/* Blanks at the end of a line that the last column leaves, words of which are not padded. */
static int find_spare(const struct spt_table *table)
{
    int last = -1;
    for (int i = 0; i < table->column_count; i++)
        if (table->columns[i].head && !table->columns[i].extra)
            last = i;
    if (last < 0 || table->columns[last].kind != SPT_WORDS || !table->columns[last].width)
        return 0;
    const int spare = table->columns[last].width - find_longest(table, last);
    return spare > 0 && last != find_name(table) ? spare : 0;
}

/* Fits a table into a line: names are widened to be read in full, then columns are added; or names
 * are cut, and where that is not enough rows are stacked. */
static struct layout lay_out(const struct spt_table *table, int width)
{
    struct layout layout = {{0}, false};
    const int name = find_name(table);
    int total = -find_spare(table);
    for (int i = 0; i < table->column_count; i++) {
        const struct spt_column *c = &table->columns[i];
        if (!c->head || c->extra)
            continue;
        layout.widths[i] = c->width ? c->width : REST;
        total += c->gap + (c->width ? c->width : REST_LEAST);
    }
    const bool alone = name >= 0 && table->heads == SPT_HEADS_OWN; /* not one of several alike */
    const int wanted = alone ? find_longest(table, name) - layout.widths[name] : 0;
    const int change = total > width ? width - total
                       : wanted > 0  ? (wanted < width - total ? wanted : width - total)
                                     : 0;
    if (name >= 0)
        layout.widths[name] += change;
    layout.stacked = total > width && (name < 0 || layout.widths[name] < NAME_LEAST);
    add_extras(table, width, total + change, &layout);
    return layout;
}

static void write_head(struct line *line, const struct spt_table *table,
                       const struct layout *layout, bool second)
{
    for (int i = 0; i < table->column_count; i++) {
        const struct spt_column *c = &table->columns[i];
        const char *words = second ? c->under : c->head;
        if (!layout->widths[i])
            continue;
        line->blanks += c->gap;
        if (c->group && !second) { /* the head of two columns, over both */
            put(line, words, c->width + c[1].gap + c[1].width, true);
            i++;
        } else {
            put(line, words ? words : "",
                layout->widths[i] == REST ? spt_text_length(words) : layout->widths[i],
                spt_column_is_right(c));
        }
    }
    end_line(line);
}

static void write_row(struct line *line, const struct spt_table *table, const struct layout *layout,
                      int row)
{
    char buffer[SPT_CELL_LENGTH];
    for (int i = 0; i < table->column_count; i++) {
        const struct spt_column *c = &table->columns[i];
        const int width = layout->widths[i];
        if (!width)
            continue;
        line->blanks += c->gap;
        if (c->kind == SPT_BAR)
            put_bar(line, spt_cell_number(table, row, i), width);
        else if (width == REST)
            put_rest(line, spt_cell_words(table, row, i, buffer));
        else
            put(line, spt_cell_words(table, row, i, buffer), width, spt_column_is_right(c));
    }
    end_line(line);
}

/* Adds "head unit value" of a cell to a paragraph. */
static void add_pair(char *words, size_t size, const struct spt_table *table, int row, int column)
{
    char buffer[SPT_CELL_LENGTH];
    const struct spt_column *c = &table->columns[column];
    const char *cell = spt_cell_words(table, row, column, buffer);
    const size_t used = strlen(words);
    const bool has_mark = c->kind == SPT_MARK;
    const char *under = c->under && *c->under ? c->under : "";
    if (!*cell || c->kind == SPT_BAR)
        return;
    if (has_mark)
        snprintf(words + used, size - used, "%s", cell);
    else
        snprintf(words + used, size - used, "%s%s%s%s%s%s", used ? "; " : "", c->head,
                 *c->head ? " " : "", under, *under ? " " : "", cell);
}

/* True where no other column is shown before it. */
static bool is_leading(const struct spt_table *table, int column)
{
    for (int i = 0; i < column; i++)
        if (table->columns[i].head && !table->columns[i].extra)
            return false;
    return column >= 0;
}

/* Writes each row as its name and a paragraph of the rest. */
static void write_stacked(const struct spt_text *text, const struct spt_table *table)
{
    const int name = is_leading(table, find_name(table)) ? find_name(table) : -1;
    char words[1200], buffer[SPT_CELL_LENGTH];
    for (int row = 0; row < spt_table_rows_shown(table); row++) {
        *words = 0;
        for (int i = 0; i < table->column_count; i++)
            if (i != name && table->columns[i].head && !table->columns[i].extra)
                add_pair(words, sizeof words, table, row, i);
        if (name >= 0)
            spt_text_wrap(text, "", spt_cell_words(table, row, name, buffer));
        spt_text_wrap(text, name >= 0 ? STACK_INDENT : "", words);
    }
}

void spt_table_lines(const struct spt_table *table, const struct spt_text *text)
{
    struct line line = {text, 0, 0};
    if ((!spt_table_is_shown(table) && table->heads != SPT_HEADS_ALONE) ||
        table->column_count > COLUMNS_MAX)
        return;
    const struct layout layout = lay_out(table, spt_text_width(text));
    if (table->apart)
        fputc('\n', text->out);
    if (layout.stacked) {
        write_stacked(text, table);
        return;
    }
    if (table->heads != SPT_HEADS_ABOVE)
        write_head(&line, table, &layout, false);
    if (table->heads != SPT_HEADS_ABOVE && spt_table_has_second_head(table))
        write_head(&line, table, &layout, true);
    for (int row = 0; row < spt_table_rows_shown(table); row++)
        write_row(&line, table, &layout, row);
}
