/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/csv_row.h"

#include <string.h>

#define NOTHING_HELD (-2)

void spt_csv_begin(struct spt_csv_reader *reader, FILE *in, const struct spt_source *source,
                   struct spt_diagnostics *diags)
{
    memset(reader, 0, sizeof *reader);
    reader->in = in;
    reader->source = source;
    reader->diags = diags;
    reader->line = 1;
    reader->column = 1;
    reader->held = NOTHING_HELD;
    reader->separator = ',';
}

static int peek(struct spt_csv_reader *reader)
{
    if (reader->held == NOTHING_HELD)
        reader->held = getc(reader->in);
    return reader->held;
}

/* Reads the next byte, every kind of line end as '
 * '; updates line and column (in characters). */
static int read_byte(struct spt_csv_reader *reader)
{
    int byte = peek(reader);
    reader->held = NOTHING_HELD;
    if (byte == '\r') {
        if (peek(reader) == '\n')
            reader->held = NOTHING_HELD;
        byte = '\n';
    }
    if (byte == '\n') {
        reader->line++;
        reader->column = 1;
    } else if (byte != EOF && (byte & 0xC0) != 0x80) {
        reader->column++;
    }
    return byte;
}

static bool at_line_end(struct spt_csv_reader *reader)
{
    int byte = peek(reader);
    return byte == '\n' || byte == '\r' || byte == EOF;
}

static struct spt_mark here(const struct spt_csv_reader *reader)
{
    return (struct spt_mark){reader->source, reader->line, reader->column};
}

static void skip_byte_order_mark(struct spt_csv_reader *reader)
{
    static const int mark[] = {0xEF, 0xBB, 0xBF};
    if (reader->line > 1 || reader->column > 1 || peek(reader) != mark[0])
        return;
    for (int i = 0; i < 3 && peek(reader) == mark[i]; i++)
        read_byte(reader);
    reader->column = 1;
}

static void skip_blanks(struct spt_csv_reader *reader)
{
    while (peek(reader) == ' ' || (peek(reader) == '\t' && reader->separator != '\t'))
        read_byte(reader);
}

/* Skips to the next non-empty line; false at the end of the text. */
static bool find_row(struct spt_csv_reader *reader)
{
    skip_byte_order_mark(reader);
    for (;;) {
        skip_blanks(reader);
        if (peek(reader) == '#')
            while (!at_line_end(reader))
                read_byte(reader);
        if (peek(reader) == EOF)
            return false;
        if (!at_line_end(reader))
            return true;
        read_byte(reader);
    }
}

static bool append(struct spt_csv_reader *reader, struct spt_csv_cell *cell, int byte)
{
    if ((byte < 0x20 && byte != '\t' && byte != '\n') || byte == 0x7F) {
        spt_diagnostics_add(reader->diags, here(reader),
                            "a control character (0x%02X) is no part of a CSV text",
                            (unsigned)byte);
        return false;
    }
    if (cell->length == SPT_CSV_CELL_MAX) {
        spt_diagnostics_add(reader->diags, cell->mark,
                            "this cell is longer than %d bytes; is a quote left open?",
                            SPT_CSV_CELL_MAX);
        return false;
    }
    cell->text[cell->length++] = (char)byte;
    return true;
}

static bool read_quoted(struct spt_csv_reader *reader, struct spt_csv_cell *cell)
{
    read_byte(reader);
    for (;;) {
        int byte = read_byte(reader);
        if (byte == EOF) {
            spt_diagnostics_add(reader->diags, cell->mark,
                                "the quote that opens here is not "
                                "closed");
            return false;
        }
        if (byte == '"' && peek(reader) == '"')
            read_byte(reader);
        else if (byte == '"')
            break;
        if (!append(reader, cell, byte))
            return false;
    }
    skip_blanks(reader);
    if (at_line_end(reader) || peek(reader) == reader->separator)
        return true;
    spt_diagnostics_add(reader->diags, here(reader),
                        "a %s or the end of the line should follow a closing quote; a quote "
                        "inside a cell is written twice",
                        reader->separator == ','   ? "comma"
                        : reader->separator == ';' ? "semicolon"
                                                   : "tab");
    return false;
}

static bool read_plain(struct spt_csv_reader *reader, struct spt_csv_cell *cell)
{
    while (!at_line_end(reader) && peek(reader) != reader->separator)
        if (!append(reader, cell, read_byte(reader)))
            return false;
    while (cell->length && strchr(" \t", cell->text[cell->length - 1]))
        cell->length--;
    return true;
}

static bool read_cell(struct spt_csv_reader *reader)
{
    if (reader->cell_count == SPT_CSV_CELLS_MAX) {
        spt_diagnostics_add(reader->diags, here(reader), "more than %d cells in a row",
                            SPT_CSV_CELLS_MAX);
        return false;
    }
    struct spt_csv_cell *cell = &reader->cells[reader->cell_count++];
    skip_blanks(reader);
    cell->mark = here(reader);
    cell->length = 0;
    bool fine = peek(reader) == '"' ? read_quoted(reader, cell) : read_plain(reader, cell);
    cell->text[cell->length] = 0;
    return fine;
}

bool spt_csv_next(struct spt_csv_reader *reader)
{
    reader->cell_count = 0;
    if (!find_row(reader))
        return false;
    for (;;) {
        if (!read_cell(reader))
            return false;
        if (at_line_end(reader)) {
            read_byte(reader);
            return true;
        }
        read_byte(reader); /* the separator */
    }
}

/* The first row that is neither empty nor a comment. */
static const char *find_first_row(const char *at, const char *end)
{
    while (at < end) {
        const char *text = at;
        while (text < end && (*text == ' ' || *text == '\t'))
            text++;
        if (text < end && *text != '#' && *text != '\n' && *text != '\r')
            return at;
        while (at < end && *at != '\n' && *at != '\r')
            at++;
        at++;
    }
    return end;
}

int spt_csv_separator(const struct spt_source *source)
{
    static const char marks[] = ",;\t";
    int counts[3] = {0}, best = 0;
    bool quoted = false;
    const char *end = source->text + source->length;
    for (const char *at = find_first_row(source->text, end);
         at < end && (quoted || (*at != '\n' && *at != '\r')); at++) {
        const char *mark = *at ? strchr(marks, *at) : NULL;
        quoted = quoted != (*at == '"');
        if (mark && !quoted)
            counts[mark - marks]++;
    }
    for (int i = 1; i < 3; i++)
        if (counts[i] > counts[best])
            best = i;
    return marks[best];
}

bool spt_csv_split_head(const char *text, char *name, char *unit)
{
    const char *open = strpbrk(text, "[(");
    size_t length = open ? (size_t)(open - text) : strlen(text);
    while (length && text[length - 1] == ' ')
        length--;
    memcpy(name, text, length);
    name[length] = 0;
    *unit = 0;
    if (!open)
        return true;
    /* a unit may hold brackets itself: "[W/(m2 K)]" */
    const char *close = strrchr(open, *open == '[' ? ']' : ')');
    if (!close || close[1])
        return false;
    open += 1 + strspn(open + 1, " ");
    while (close > open && close[-1] == ' ')
        close--;
    length = (size_t)(close - open);
    memcpy(unit, open, length);
    unit[length] = 0;
    return true;
}
