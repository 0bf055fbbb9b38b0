/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/diagnostics.h"

#include <stdarg.h>
#include <string.h>

#include "base/utf8.h"

#define SHOWN_WIDTH 76

static int compare_marks(const struct spt_mark *a, const struct spt_mark *b)
{
    if (a->source != b->source && a->source && b->source) {
        int order = strcmp(a->source->name, b->source->name);
        if (order)
            return order;
    }
    if (a->line != b->line)
        return a->line < b->line ? -1 : 1;
    return (a->column > b->column) - (a->column < b->column);
}

static bool already_there(const struct spt_diagnostics *diags, const struct spt_diagnostic *item)
{
    for (int i = 0; i < diags->count; i++)
        if (!compare_marks(&diags->list[i].mark, &item->mark) &&
            !strcmp(diags->list[i].text, item->text))
            return true;
    return false;
}

static void insert_sorted(struct spt_diagnostics *diags, const struct spt_diagnostic *item)
{
    int at = diags->count;
    while (at > 0 && compare_marks(&diags->list[at - 1].mark, &item->mark) > 0)
        at--;
    if (diags->count == SPT_DIAGNOSTICS_MAX) {
        diags->dropped++;
        if (at == SPT_DIAGNOSTICS_MAX)
            return;
    } else {
        diags->count++;
    }
    memmove(&diags->list[at + 1], &diags->list[at],
            (size_t)(diags->count - 1 - at) * sizeof *diags->list);
    diags->list[at] = *item;
}

void spt_diagnostics_add(struct spt_diagnostics *diags, struct spt_mark mark, const char *format,
                         ...)
{
    struct spt_diagnostic item = {.mark = mark};
    va_list arguments;
    va_start(arguments, format);
    vsnprintf(item.text, sizeof item.text, format, arguments);
    va_end(arguments);
    spt_utf8_tame(item.text);
    diags->raised++;
    if (!already_there(diags, &item))
        insert_sorted(diags, &item);
}

bool spt_diagnostics_any(const struct spt_diagnostics *diags)
{
    return diags->count > 0 || diags->out_of_memory;
}

/* Number of bytes up to the next line end or the end of the text. */
static size_t line_length(const char *at, const char *end)
{
    size_t length = 0, left = (size_t)(end - at);
    while (length < left && !spt_utf8_line_end_size(at + length, left - length))
        length++;
    return length;
}

/* Start of a line (counted from 1) and its length without the line end; NULL past the last line. */
static const char *find_line(const struct spt_source *source, int line, size_t *length)
{
    const char *end = source->text + source->length;
    const char *at = source->text + spt_utf8_mark_size(source->text, source->length);
    for (; line > 1; line--) {
        at += line_length(at, end);
        if (at == end)
            return NULL;
        at += spt_utf8_line_end_size(at, (size_t)(end - at));
    }
    *length = line_length(at, end);
    return at;
}

static bool starts_character(char byte)
{
    return ((unsigned char)byte & 0xC0) != 0x80;
}

/* Prints characters `from` to `to` (counted from 1) of the line, control bytes as blanks. */
static void print_characters(FILE *out, const char *line, size_t length, int from, int to)
{
    int character = 0;
    for (size_t i = 0; i < length; i++) {
        character += starts_character(line[i]);
        if (character < from || character > to)
            continue;
        unsigned char byte = (unsigned char)line[i];
        bool second_set = byte == 0xC2 && i + 1 < length && (unsigned char)line[i + 1] < 0xA0;
        fputc(byte < 0x20 || byte == 0x7F || second_set ? ' ' : byte, out);
        i += second_set;
    }
}

static void print_place(const struct spt_mark *mark, FILE *out)
{
    size_t length = 0;
    const char *line = find_line(mark->source, mark->line, &length);
    if (!line)
        return;
    int from = mark->column > SHOWN_WIDTH - 8 ? mark->column - SHOWN_WIDTH / 2 : 1;
    fputs("  ", out);
    print_characters(out, line, length, from, from + SHOWN_WIDTH - 1);
    fprintf(out, "\n  %*s^\n", mark->column - from, "");
}

static void print_one(const struct spt_diagnostic *item, FILE *out)
{
    const struct spt_mark *mark = &item->mark;
    if (!mark->source)
        fprintf(out, "%s\n", item->text);
    else if (mark->line < 1)
        fprintf(out, "%s: %s\n", mark->source->name, item->text);
    else
        fprintf(out, "%s:%d:%d: %s\n", mark->source->name, mark->line, mark->column, item->text);
    if (mark->source && mark->source->text && mark->line >= 1)
        print_place(mark, out);
}

void spt_diagnostics_print(const struct spt_diagnostics *diags, FILE *out)
{
    for (int i = 0; i < diags->count; i++)
        print_one(&diags->list[i], out);
    if (diags->dropped)
        fprintf(out, "and %d more; mend these first\n", diags->dropped);
    if (diags->out_of_memory)
        fputs("out of memory while reading\n", out);
}
