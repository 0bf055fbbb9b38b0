/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "format/page/blocks.h"

#include <math.h>
#include <string.h>

#include "base/table.h"
#include "format/csv.h"

/* The writers of numbers; those of text.h take no digits. */
static const char *write_hours(double value, int digits, char *buffer)
{
    (void)digits;
    return spt_text_hours(value, buffer);
}

static const char *write_life(double value, int digits, char *buffer)
{
    (void)digits;
    return spt_text_life(value, buffer);
}

static const char *write_stated(double value, int digits, char *buffer)
{
    (void)digits;
    return spt_text_stated(value, buffer);
}

static const char *write_amount(double value, int digits, char *buffer)
{
    (void)digits;
    return spt_text_amount(value, buffer);
}

static const char *write_span(double value, int digits, char *buffer)
{
    (void)digits;
    return spt_text_span(value, buffer);
}

static const char *write_number(double value, int digits, char *buffer)
{
    (void)digits;
    return spt_text_number(value, buffer);
}

static const char *write_cell(double value, int digits, char *buffer)
{
    (void)digits;
    return spt_text_cell(value, buffer);
}

static const char *write_ratio(double value, int digits, char *buffer)
{
    (void)digits;
    return spt_text_ratio(value, buffer);
}

static const char *write_fixed(double value, int digits, char *buffer)
{
    if (isnan(value))
        return "-";
    snprintf(buffer, SPT_CELL_LENGTH, "%.*f", digits, value);
    return buffer;
}

static const char *write_percent(double value, int digits, char *buffer)
{
    return write_fixed(100 * value, digits, buffer);
}

static const char *write_general(double value, int digits, char *buffer)
{
    if (isnan(value))
        return "-";
    snprintf(buffer, SPT_CELL_LENGTH, "%.*g", digits, value);
    return buffer;
}

/* How each kind is written; NULL: not a double. */
static const struct {
    const char *(*write)(double value, int digits, char *buffer);
    bool right;
} kinds[] = {
    [SPT_WORDS] = {NULL, false},
    [SPT_DAY] = {NULL, true},
    [SPT_MARK] = {NULL, false},
    [SPT_YES] = {NULL, false},
    [SPT_COUNT] = {NULL, true},
    [SPT_BAR] = {NULL, false},
    [SPT_HOURS] = {write_hours, true},
    [SPT_LIFE] = {write_life, true},
    [SPT_STATED] = {write_stated, true},
    [SPT_AMOUNT] = {write_amount, true},
    [SPT_SPAN] = {write_span, true},
    [SPT_NUMBER] = {write_number, true},
    [SPT_CELL] = {write_cell, true},
    [SPT_RATIO] = {write_ratio, true},
    [SPT_FIXED] = {write_fixed, true},
    [SPT_PERCENT] = {write_percent, true},
    [SPT_GENERAL] = {write_general, true},
};
SPT_ONE_EACH(kinds, SPT_KIND_COUNT);

static const char *member(const struct spt_table *table, int row, size_t at)
{
    return (const char *)table->rows + (size_t)row * table->row_size + at;
}

static bool holds_words(enum spt_kind kind)
{
    return kind == SPT_WORDS || kind == SPT_DAY || kind == SPT_MARK;
}

static const char *read_words(const struct spt_table *table, int row, size_t at)
{
    const char *words;
    memcpy(&words, member(table, row, at), sizeof words);
    return words;
}

/* Words in the place of a member; NULL: there are none. */
static const char *read_instead(const struct spt_table *table, int row, const struct spt_column *c)
{
    return c->instead ? read_words(table, row, c->instead) : NULL;
}

bool spt_column_is_right(const struct spt_column *column)
{
    return kinds[column->kind].right;
}

int spt_table_rows_shown(const struct spt_table *table)
{
    return table->row_count - table->left_out;
}

bool spt_table_is_shown(const struct spt_table *table)
{
    for (int i = 0; i < table->column_count; i++)
        if (table->columns[i].head)
            return spt_table_rows_shown(table) > 0;
    return false;
}

bool spt_table_has_second_head(const struct spt_table *table)
{
    for (int i = 0; i < table->column_count; i++)
        if (table->columns[i].head && table->columns[i].under)
            return true;
    return false;
}

const char *spt_cell_text(const struct spt_table *table, int row, int column)
{
    const struct spt_column *c = &table->columns[column];
    const char *words = NULL;
    if (holds_words(c->kind))
        words = read_words(table, row, c->at);
    else if (c->kind == SPT_YES)
        words = *(const bool *)member(table, row, c->at) ? "yes" : "no";
    return words ? words : "";
}

double spt_cell_number(const struct spt_table *table, int row, int column)
{
    const struct spt_column *c = &table->columns[column];
    double number;
    int count;
    if (c->kind == SPT_COUNT) {
        memcpy(&count, member(table, row, c->at), sizeof count);
        return count;
    }
    memcpy(&number, member(table, row, c->at), sizeof number);
    return number;
}

static size_t size_of(enum spt_kind kind)
{
    return holds_words(kind)   ? sizeof(const char *)
           : kind == SPT_YES   ? sizeof(bool)
           : kind == SPT_COUNT ? sizeof(int)
                               : sizeof(double);
}

static bool repeats(const struct spt_table *table, int row, const struct spt_column *c)
{
    return c->once && row > 0 &&
           !memcmp(member(table, row, c->at), member(table, row - 1, c->at), size_of(c->kind));
}

static const char *write_value(const struct spt_column *c, double value, char *buffer)
{
    if (c->kind == SPT_BAR)
        return "";
    if (isnan(value) && c->none)
        return c->none;
    if (isinf(value) && c->endless)
        return c->endless;
    if (c->kind == SPT_COUNT)
        snprintf(buffer, SPT_CELL_LENGTH, "%.0f", value);
    const char *words =
        kinds[c->kind].write ? kinds[c->kind].write(value, c->digits, buffer) : buffer;
    if (words == buffer && c->unit && isfinite(value))
        strncat(buffer, c->unit, SPT_CELL_LENGTH - strlen(buffer) - 1);
    return words;
}

const char *spt_cell_words(const struct spt_table *table, int row, int column, char *buffer)
{
    const struct spt_column *c = &table->columns[column];
    if (repeats(table, row, c))
        return "";
    const char *instead = read_instead(table, row, c);
    if (instead)
        return instead;
    if (holds_words(c->kind) || c->kind == SPT_YES)
        return spt_cell_text(table, row, column);
    return write_value(c, spt_cell_number(table, row, column), buffer);
}

void spt_row_clear(const struct spt_column *columns, int count, void *row, size_t size)
{
    const double unknown = (double)NAN;
    memset(row, 0, size);
    for (int i = 0; i < count; i++)
        if (!holds_words(columns[i].kind) && size_of(columns[i].kind) == sizeof unknown)
            memcpy((char *)row + columns[i].at, &unknown, sizeof unknown);
}

/* True where the column has a key in this form. */
static bool is_in(const struct spt_column *column, enum spt_only form)
{
    return column->key && (column->only == SPT_ALL_FORMS || column->only == form);
}

static const struct spt_table *find_data(const struct spt_page *page)
{
    for (const struct spt_block *block = page->first; block; block = block->next)
        if (block->kind == SPT_BLOCK_TABLE && block->table.is_data)
            return &block->table;
    return NULL;
}

static void write_csv_cell(const struct spt_table *table, int row, int column, struct spt_csv *csv)
{
    const struct spt_column *c = &table->columns[column];
    const char *instead = read_instead(table, row, c);
    if (holds_words(c->kind) || c->kind == SPT_YES)
        spt_csv_text(csv, spt_cell_text(table, row, column));
    else if (instead && isnan(spt_cell_number(table, row, column)))
        spt_csv_text(csv, instead);
    else
        spt_csv_number(csv, spt_cell_number(table, row, column));
}

void spt_page_csv(const struct spt_page *page, FILE *out)
{
    const struct spt_table *table = find_data(page);
    struct spt_csv csv = {out, false};
    for (int i = 0; table && i < table->column_count; i++)
        if (is_in(&table->columns[i], SPT_ONLY_CSV))
            spt_csv_text(&csv, table->columns[i].key);
    if (table)
        spt_csv_end(&csv);
    for (int row = 0; table && row < table->row_count; row++) {
        for (int i = 0; i < table->column_count; i++)
            if (is_in(&table->columns[i], SPT_ONLY_CSV))
                write_csv_cell(table, row, i, &csv);
        spt_csv_end(&csv);
    }
}

void spt_table_json_row(const struct spt_table *table, int row, struct spt_json *json)
{
    for (int i = 0; i < table->column_count; i++) {
        const struct spt_column *c = &table->columns[i];
        if (!is_in(c, SPT_ONLY_JSON))
            continue;
        if (c->kind == SPT_YES)
            spt_json_bool(json, c->key, *(const bool *)member(table, row, c->at));
        else if (holds_words(c->kind))
            spt_json_text(json, c->key, read_words(table, row, c->at));
        else
            spt_json_number(json, c->key, spt_cell_number(table, row, i));
    }
}

void spt_table_json(const struct spt_table *table, const char *key, struct spt_json *json)
{
    spt_json_open(json, key, '[');
    for (int i = 0; table && i < table->row_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_table_json_row(table, i, json);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}
