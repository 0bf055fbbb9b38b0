/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>

#include "format/csv.h"
#include "format/json.h"
#include "format/number/number_cells.h"
#include "sentence/life_status.h"
#include "sweep/row_layout.h"

#define CHUNK SPT_SWEEP_OVERSHOOT
#define GROUP 64 /* rows whose numbers are formatted at a time */
#define CELLS (SPT_SWEEP_FIELD_COUNT + SPT_SWEEP_COLUMN_COUNT)

/* The columns of a group of rows are divided into pieces: text that is equal in all rows (keys,
 * commas, cells that do not change), followed by a cell that differs between rows. */
struct piece {
    int column;
    const struct spt_number_cell *numbers; /* NULL: not a number */
    const char *text;
    size_t length;
};

/* Growing text; it is copied in chunks, so the buffer has CHUNK bytes more than the text. */
struct text {
    char bytes[CELLS * (SPT_SWEEP_KEY + sizeof(struct spt_sweep_cell)) + SPT_SWEEP_WARNINGS_SIZE +
               CHUNK];
    size_t length;
};

/* The text of all swept fields but the last, reused while it does not change from row to row. */
struct outer {
    const struct spt_sweep_cell *made_of[SPT_SWEEP_FIELD_COUNT];
    struct text text;
};

/* State of writing rows. */
struct writing {
    const struct spt_sweep_layout *layout;
    const struct spt_sweep_rows *rows;
    bool json;
    struct {
        char text[SPT_SWEEP_KEY];
        size_t length;
    } leads[CELLS]; /* text before each cell: comma and, in JSON, the key */
    struct spt_sweep_cell status[SPT_SWEEP_STATUS_COUNT];
    struct spt_sweep_cell lives[SPT_LIFE_STATUS_COUNT];
    struct spt_number_cell numbers[SPT_SWEEP_COLUMN_COUNT][GROUP];
    struct piece pieces[SPT_SWEEP_COLUMN_COUNT + 1];
    int piece_count; /* the last one is text alone */
    struct text same;
    struct outer outer;
};

static char *put_cell(char *to, const struct spt_sweep_cell *cell)
{
    memcpy(to, cell, sizeof *cell); /* a constant size is faster than the exact one */
    return to + cell->length;
}

static char *put_text(char *to, const char *text, size_t length)
{
    memcpy(to, text, CHUNK);
    for (size_t at = CHUNK; at < length; at += CHUNK)
        memcpy(to + at, text + at, CHUNK);
    return to + length;
}

static char *put_lead(const struct writing *w, int i, char *to)
{
    memcpy(to, w->leads[i].text, SPT_SWEEP_KEY);
    return to + w->leads[i].length;
}

static void make_leads(struct writing *w)
{
    for (int i = 0; i < w->layout->field_count + w->layout->column_count; i++) {
        char *text = w->leads[i].text;
        int length = w->json ? snprintf(text, SPT_SWEEP_KEY, "%s\"%s\":", i ? "," : "{",
                                        spt_sweep_name_at(w->layout, i))
                             : snprintf(text, SPT_SWEEP_KEY, "%s", i ? "," : "");
        w->leads[i].length = (size_t)length;
    }
}

static char *write_word(char *to, const char *word, bool json)
{
    return to + sprintf(to, json ? "\"%s\"" : "%s", word);
}

static void make_word(struct spt_sweep_cell *cell, const char *word, bool json)
{
    cell->length = (unsigned char)(write_word(cell->text, word, json) - cell->text);
}

static void make_words(struct writing *w)
{
    for (int s = 0; s < SPT_SWEEP_STATUS_COUNT; s++)
        make_word(&w->status[s], spt_sweep_status_name((enum spt_sweep_status)s), w->json);
    for (int l = 0; l < SPT_LIFE_STATUS_COUNT; l++)
        make_word(&w->lives[l], spt_life_status_name((enum spt_life_status)l), w->json);
}

static char *write_flags(char *to, unsigned long long flags, bool json)
{
    char text[SPT_SWEEP_WARNINGS_SIZE - 2] = "";
    size_t used = 0;
    for (int f = 0; f < SPT_FLAG_COUNT && used < sizeof text; f++)
        if (spt_sweep_reports((enum spt_flag)f) && (flags & SPT_SWEEP_FLAG_BIT(f)))
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%s", used ? " " : "",
                                     spt_flag_code((enum spt_flag)f));
    return write_word(to, text, json);
}

static char *write_label(const struct spt_sweep_identity *identity, bool json, char *to)
{
    return json ? spt_json_put(to, identity->label, identity->label_length)
                : spt_csv_put(to, identity->label, identity->label_length);
}

static enum spt_life_status find_life(const struct writing *w, int column, int i)
{
    int value = column == SPT_SWEEP_LIFE_STATUS
                    ? (int)SPT_SWEEP_MODIFIED_RATING_LIFE_H
                    : spt_sweep_row_value(column - SPT_SWEEP_INBOARD_LIFE_STATUS,
                                          SPT_SWEEP_MODIFIED_RATING_LIFE_H);
    return spt_life_status(w->rows->block->values[value][i]);
}

/* Writes a cell of row `i` that is no number of the result. */
static char *write_other(const struct writing *w, int column, int i, char *to)
{
    const struct spt_sweep_rows *rows = w->rows;
    if (column == SPT_SWEEP_STATUS)
        return put_cell(to, &w->status[rows->block->status[i]]);
    if (column == SPT_SWEEP_WARNINGS)
        return write_flags(to, rows->block->flags[i], w->json);
    if (column == SPT_SWEEP_CASE)
        return to + sprintf(to, "%llu", rows->identities[i].line);
    if (column == SPT_SWEEP_LABEL)
        return write_label(&rows->identities[i], w->json, to);
    return put_cell(to, &w->lives[find_life(w, column, i)]);
}

/* Whether `count` elements of `size` bytes are all the same. */
static bool is_same(const void *elements, size_t size, int count)
{
    const char *bytes = elements;
    return !memcmp(bytes, bytes + size, (size_t)(count - 1) * size);
}

/* Whether a column that is no number is the same in all rows of the group. */
static bool other_is_same(const struct writing *w, int column, int first, int count)
{
    const struct spt_sweep_block *block = w->rows->block;
    if (column == SPT_SWEEP_STATUS)
        return is_same(block->status + first, sizeof *block->status, count);
    if (column == SPT_SWEEP_WARNINGS)
        return is_same(block->flags + first, sizeof *block->flags, count);
    if (column == SPT_SWEEP_CASE || column == SPT_SWEEP_LABEL)
        return false;
    for (int i = 1; i < count; i++)
        if (find_life(w, column, first + i) != find_life(w, column, first))
            return false;
    return true;
}

/* Empty (CSV) or null where there is no value; JSON has no infinity: null too, and the status of
 * the life distinguishes the two. */
static void mend_numbers(const double *values, int count, bool json, struct spt_number_cell *cells)
{
    for (int i = 0; i < count; i++) {
        if (isfinite(values[i]))
            continue;
        if (json)
            spt_number_cell_set(&cells[i], "null", 4);
        else if (isnan(values[i]))
            spt_number_cell_set(&cells[i], "", 0);
    }
}

/* Adds column `c` of a group: the text before it, and the cell itself where it is equal in all
 * rows. Result: true where it is not, with a piece that has no text yet. */
static bool add_column(struct writing *w, int c, int first, int count, char **end)
{
    int column = w->layout->columns[c];
    bool number = column < SPT_SWEEP_VALUE_COUNT;
    const double *values = number ? w->rows->block->values[column] + first : NULL;
    bool same =
        number ? is_same(values, sizeof *values, count) : other_is_same(w, column, first, count);
    int made = same ? 1 : count;
    struct spt_number_cell *cells = w->numbers[c];
    *end = put_lead(w, w->layout->field_count + c, *end);
    if (number) {
        spt_number_cells(values, made, cells);
        mend_numbers(values, made, w->json, cells);
    }
    if (same)
        *end = number ? spt_number_put(*end, cells) : write_other(w, column, first, *end);
    else
        w->pieces[w->piece_count] = (struct piece){column, number ? cells : NULL, NULL, 0};
    return !same;
}

/* Makes the pieces of the columns after the fields for `count` rows from `first` on. */
static void make_pieces(struct writing *w, int first, int count)
{
    char *start = w->same.bytes, *end = start;
    w->piece_count = 0;
    for (int c = w->layout->lead_count; c < w->layout->column_count; c++)
        if (add_column(w, c, first, count, &end)) {
            struct piece *piece = &w->pieces[w->piece_count++];
            piece->text = start;
            piece->length = (size_t)(end - start);
            start = end;
        }
    if (w->json)
        *end++ = '}';
    *end++ = '\n';
    w->pieces[w->piece_count] = (struct piece){0, NULL, start, (size_t)(end - start)};
}

/* Updates the text of all fields but the last, which varies fastest in a grid, where one changed.
 */
static char *put_outer(struct writing *w, int i, char *to)
{
    struct outer *outer = &w->outer;
    const struct spt_sweep_cell *const *const *cells = w->rows->cells;
    int last = w->layout->field_count - 1, before = w->layout->lead_count;
    bool same = outer->text.length > 0 || (last == 0 && before == 0 && !w->json);
    for (int f = 0; f < last; f++)
        same &= outer->made_of[f] == cells[f][i];
    if (!same) {
        char *end = outer->text.bytes;
        for (int f = 0; f < last; f++) {
            outer->made_of[f] = cells[f][i];
            end = put_cell(put_lead(w, before + f, end), cells[f][i]);
        }
        outer->text.length = (size_t)(put_lead(w, before + last, end) - outer->text.bytes);
    }
    return put_text(to, outer->text.bytes, outer->text.length);
}

static char *write_row(struct writing *w, int i, int k, char *to)
{
    const struct piece *piece = w->pieces, *last = piece + w->piece_count;
    for (int c = 0; c < w->layout->lead_count; c++)
        to = write_other(w, w->layout->columns[c], i, put_lead(w, c, to));
    to = put_cell(put_outer(w, i, to), w->rows->cells[w->layout->field_count - 1][i]);
    for (; piece < last; piece++) {
        to = put_text(to, piece->text, piece->length);
        to = piece->numbers ? spt_number_put(to, &piece->numbers[k])
                            : write_other(w, piece->column, i, to);
    }
    return put_text(to, last->text, last->length);
}

/* Initialises the state, except the large arrays, which are filled before they are read. */
static void begin_writing(struct writing *w, const struct spt_sweep_layout *layout,
                          const struct spt_sweep_rows *rows)
{
    w->layout = layout;
    w->rows = rows;
    w->json = layout->form == SPT_SWEEP_JSONL;
    w->outer.text.length = 0;
    make_leads(w);
    make_words(w);
}

static char *write_rows(const struct spt_sweep_layout *layout, const struct spt_sweep_rows *rows,
                        char *to)
{
    struct writing w;
    begin_writing(&w, layout, rows);
    for (int at = 0; at < rows->count; at += GROUP) {
        int count = rows->count - at < GROUP ? rows->count - at : GROUP;
        make_pieces(&w, at, count);
        for (int k = 0; k < count; k++)
            if (!rows->skip || !rows->skip[at + k])
                to = write_row(&w, at + k, k, to);
    }
    return to;
}

/* ---- NPY ----------------------------------------------------------------------------------- */

static char *put_bytes(char *to, const void *bytes, size_t length)
{
    memcpy(to, bytes, length);
    return to + length;
}

/* Column number `c` of a record. */
static char *put_item(const struct spt_sweep_layout *layout, const struct spt_sweep_rows *rows,
                      int c, int i, char *to)
{
    int column = layout->columns[c];
    int64_t line = column == SPT_SWEEP_CASE ? (int64_t)rows->identities[i].line : 0;
    if (column == SPT_SWEEP_CASE)
        return put_bytes(to, &line, sizeof line);
    if (column == SPT_SWEEP_STATUS)
        return put_bytes(to, &rows->block->status[i], 1);
    return put_bytes(to, &rows->block->values[column][i], sizeof(double));
}

/* A record: classes count from the cleanest of the way of lubricating. */
static char *write_record(const struct spt_sweep_layout *layout, const struct spt_sweep_rows *rows,
                          int i, char *to)
{
    for (int c = 0; c < layout->lead_count; c++)
        to = put_item(layout, rows, c, i, to);
    for (int f = 0; f < layout->field_count; f++) {
        double value = rows->inputs[f][i];
        if (layout->fields[f] == SPT_SWEEP_CLEANLINESS)
            value -= (double)spt_cleanliness_first(layout->kind);
        to = put_bytes(to, &value, sizeof value);
    }
    for (int c = layout->lead_count; c < layout->column_count; c++)
        to = put_item(layout, rows, c, i, to);
    return to;
}

char *spt_sweep_write(const struct spt_sweep_layout *layout, const struct spt_sweep_rows *rows,
                      char *to)
{
    if (layout->form != SPT_SWEEP_NPY)
        return write_rows(layout, rows, to);
    for (int i = 0; i < rows->count; i++)
        if (!rows->skip || !rows->skip[i])
            to = write_record(layout, rows, i, to);
    return to;
}
