/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE /* fmemopen */
#include "scenario/catalog/sheet.h"

#include <ctype.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "base/allocate.h"
#include "base/utf8.h"
#include "scenario/build/sections.h"
#include "scenario/build/symbols.h"
#include "scenario/text/csv_row.h"

#define FIRST_CAPACITY 256
#define KNOWN_MAX 128
#define PLACE_LENGTH 160

/* A column of the list: the key that its cells state. */
struct column {
    const char *text;              /* symbol or key, as the mapping of the row has it */
    const struct spt_field *field; /* what it stands for */
    const char *unit;              /* of the head; "" where there is none */
    bool is_name;
};

/* A list being read. */
struct reading {
    struct spt_csv_reader csv;
    struct spt_arena *arena;
    struct spt_diagnostics *diags;
    struct column columns[SPT_CSV_CELLS_MAX];
    int column_count;
    bool has_source;
    bool unit_told; /* that a column lacks its unit was said once */
    struct spt_sheet *sheet;
    int capacity;
};

/* "Static load-rating" as the key static_load_rating. */
static void make_key(const char *text, char *key)
{
    size_t i = 0;
    for (; text[i]; i++)
        key[i] = (char)(text[i] == ' ' || text[i] == '-' ? '_' : tolower((unsigned char)text[i]));
    key[i] = 0;
}

/* The field for a symbol or a key of the bearing, of its factors or insides; NULL: none. */
static const struct spt_field *find_field(const char *text)
{
    const struct spt_symbol *symbol = spt_symbol_find(text);
    if (symbol)
        return spt_section_find(spt_symbol_section(symbol->inside), symbol->key);
    const struct spt_field *field = spt_section_find(&spt_section_bearing, text);
    return field && field->kind < SPT_FIELD_SECTION ? field : NULL;
}

static void refuse_column(struct reading *r, const struct spt_csv_cell *cell, const char *name)
{
    const char *known[KNOWN_MAX];
    int count = 0;
    for (int i = 0; spt_symbol_at(i) && count < KNOWN_MAX; i++)
        known[count++] = spt_symbol_at(i)->text;
    for (int i = 0; i < spt_section_bearing.count && count < KNOWN_MAX; i++)
        if (spt_section_bearing.fields[i].kind < SPT_FIELD_SECTION)
            known[count++] = spt_section_bearing.fields[i].key;
    const char *near = spt_nearest(name, known, count);
    if (near)
        spt_diagnostics_add(r->diags, cell->mark,
                            "`%.60s` is not a column of a bearing list; did you mean `%s`?", name,
                            near);
    else
        spt_diagnostics_add(
            r->diags, cell->mark,
            "`%.60s` is not a column of a bearing list; the columns are name, type, d, D, B (or "
            "T), C, C0, Cu, e, X, Y, Y1, Y2, Y0, a, a_from, alpha, f0, i, Z, Dw, Lw, Dpw, n_max, "
            "mass, price, stock, source",
            name);
}

/* Checks the unit of a head against the dimension of its field. */
static void check_unit(struct reading *r, const struct spt_csv_cell *cell,
                       const struct column *column)
{
    char one[SPT_CSV_CELL_MAX + 8];
    double value;
    enum spt_dimension dimension =
        column->field->kind == SPT_FIELD_QUANTITY ? column->field->dimension : SPT_NO_DIMENSION;
    if (!*column->unit)
        return;
    snprintf(one, sizeof one, "1 %s", column->unit);
    if (dimension == SPT_NO_DIMENSION)
        spt_diagnostics_add(r->diags, cell->mark, "`%s` takes no unit", column->text);
    else if (dimension == SPT_FORCE && !strcmp(column->unit, "kg"))
        spt_diagnostics_add(r->diags, cell->mark,
                            "`%s` is a force, and kg a mass: write kgf (the weight of a kg), N or "
                            "kN",
                            column->text);
    else if (spt_quantity_read(one, dimension, &value))
        spt_diagnostics_add(r->diags, cell->mark,
                            "`%.60s` has a unit that does not belong here; accepted: %s",
                            cell->text, SPT_UNITS_OF(dimension));
}

static void read_head_cell(struct reading *r, const struct spt_csv_cell *cell)
{
    char name[SPT_CSV_CELL_MAX + 1], unit[SPT_CSV_CELL_MAX + 1], key[SPT_CSV_CELL_MAX + 1];
    bool well_formed = spt_csv_split_head(cell->text, name, unit);
    struct column *column = &r->columns[r->column_count++];
    *column = (struct column){.unit = spt_arena_text(r->arena, unit, strlen(unit))};
    if (!well_formed) {
        spt_diagnostics_add(r->diags, cell->mark,
                            "the unit should end the name, in brackets, as in `C [kN]`");
        return;
    }
    make_key(name, key);
    column->field = find_field(name);
    const char *text = name;
    if (!column->field && (column->field = find_field(key)))
        text = key;
    if (!column->field || !strcmp(column->field->key, "catalog")) {
        refuse_column(r, cell, name);
        return;
    }
    column->text = spt_arena_text(r->arena, text, strlen(text));
    if (!column->text || !column->unit) {
        r->diags->out_of_memory = true;
        return;
    }
    column->is_name = !strcmp(column->field->key, "name");
    r->has_source = r->has_source || !strcmp(column->field->key, "source");
    for (int i = 0; i + 1 < r->column_count; i++)
        if (r->columns[i].text && !strcmp(r->columns[i].text, column->text))
            spt_diagnostics_add(r->diags, cell->mark, "there are two columns `%s`", name);
    check_unit(r, cell, column);
}

static bool has_column(const struct reading *r, const char *key)
{
    for (int i = 0; i < r->column_count; i++)
        if (r->columns[i].field && !strcmp(r->columns[i].field->key, key))
            return true;
    return false;
}

/* Reports what every list needs. */
static void require_columns(struct reading *r, struct spt_mark mark)
{
    static const char *const needed[][2] = {{"name", "name"},
                                            {"type", "type"},
                                            {"bore", "d [mm]"},
                                            {"outside_diameter", "D [mm]"},
                                            {"width", "B [mm]"}};
    for (size_t i = 0; i < sizeof needed / sizeof *needed; i++)
        if (!has_column(r, needed[i][0]))
            spt_diagnostics_add(r->diags, mark, "the list lacks a column `%s` (`%s`); add it",
                                needed[i][0], needed[i][1]);
    bool rated = has_column(r, "dynamic_load_rating") && has_column(r, "static_load_rating");
    if (!rated && !has_column(r, "elements"))
        spt_diagnostics_add(r->diags, mark,
                            "the list lacks the load ratings; add columns `C [kN]` and `C0 [kN]`");
}

static void say_empty(const struct spt_source *source, struct spt_diagnostics *diags)
{
    spt_diagnostics_add(diags, (struct spt_mark){source, 1, 1},
                        "the list is empty; its first row names the columns, such as "
                        "`name,type,d [mm],D [mm],B [mm],C [kN],C0 [kN]`");
}

static bool read_head(struct reading *r)
{
    if (!spt_csv_next(&r->csv)) {
        if (!spt_diagnostics_any(r->diags))
            say_empty(r->csv.source, r->diags);
        return false;
    }
    for (int i = 0; i < r->csv.cell_count; i++)
        read_head_cell(r, &r->csv.cells[i]);
    if (!spt_diagnostics_any(r->diags))
        require_columns(r, r->csv.cells[0].mark);
    return !spt_diagnostics_any(r->diags) && !r->diags->out_of_memory;
}

/* True for a cell that states nothing: empty, or a dash as sheets print it. */
static bool is_blank(const struct spt_csv_cell *cell)
{
    return !cell->length || !strcmp(cell->text, "-") || !strcmp(cell->text, "\u2013") ||
           !strcmp(cell->text, "\u2014");
}

static bool is_number(const struct spt_field *field)
{
    return field->kind == SPT_FIELD_QUANTITY || field->kind == SPT_FIELD_INTEGER;
}

/* "12,5" of a spreadsheet with a decimal comma becomes "12.5". */
static void mend_decimal(char *text)
{
    char *comma = strchr(text, ',');
    if (comma && !strchr(comma + 1, ',') && !strchr(text, '.'))
        *comma = '.';
}

static struct spt_node *make_scalar(struct reading *r, const char *text, struct spt_mark mark)
{
    struct spt_node *node = spt_arena_allocate(r->arena, sizeof *node);
    const char *copy = node ? spt_arena_text(r->arena, text, strlen(text)) : NULL;
    if (!copy) {
        r->diags->out_of_memory = true;
        return NULL;
    }
    *node = (struct spt_node){.mark = mark, .text = copy, .length = strlen(copy), .weight = 1};
    return node;
}

/* A quantity without a unit in its cell or its head is told at the head, once for the list. */
static bool has_unit(struct reading *r, const struct column *column, const char *text,
                     struct spt_mark mark)
{
    double number;
    enum spt_dimension dimension = column->field->dimension;
    if (column->field->kind != SPT_FIELD_QUANTITY || dimension == SPT_NO_DIMENSION ||
        *column->unit || spt_quantity_read(text, dimension, &number) != SPT_QUANTITY_NO_UNIT)
        return true;
    if (!r->unit_told)
        spt_diagnostics_add(r->diags, mark,
                            "`%s` has no unit; add one in brackets to the head of the column, such "
                            "as `%s [%s]` (%s)",
                            column->text, column->text, spt_dimension_unit(dimension),
                            SPT_UNITS_OF(dimension));
    r->unit_told = true;
    return false;
}

static void put(struct reading *r, struct spt_node *row, const char *key, const char *text,
                struct spt_mark mark)
{
    struct spt_node *name = make_scalar(r, key, mark), *item = make_scalar(r, text, mark);
    if (!name || !item)
        return;
    row->keys[row->count] = name;
    row->items[row->count++] = item;
}

static void put_cell(struct reading *r, const struct column *column, struct spt_csv_cell *cell,
                     struct spt_node *row)
{
    char text[2 * SPT_CSV_CELL_MAX + 8];
    int line = 1, at = 1;
    const char *problem = spt_utf8_problem(cell->text, cell->length, &line, &at);
    if (problem) {
        spt_diagnostics_add(r->diags, cell->mark, "this cell holds %s; save the list as UTF-8",
                            problem);
        return;
    }
    if (is_number(column->field) && r->csv.separator != ',')
        mend_decimal(cell->text);
    if (!has_unit(r, column, cell->text, cell->mark))
        return;
    snprintf(text, sizeof text, "%s%s%s", cell->text, *column->unit ? " " : "", column->unit);
    put(r, row, column->text, text, cell->mark);
}

static bool make_room(struct reading *r)
{
    if (r->sheet->count < r->capacity)
        return true;
    int capacity = r->capacity ? 2 * r->capacity : FIRST_CAPACITY;
    struct spt_sheet_row *rows = spt_arena_allocate(r->arena, (size_t)capacity * sizeof *rows);
    if (!rows) {
        r->diags->out_of_memory = true;
        return false;
    }
    if (r->sheet->count)
        memcpy(rows, r->sheet->rows, (size_t)r->sheet->count * sizeof *rows);
    r->sheet->rows = rows;
    r->capacity = capacity;
    return true;
}

static void check_length(struct reading *r)
{
    const struct spt_csv_cell *last = &r->csv.cells[r->csv.cell_count - 1];
    if (r->csv.cell_count > r->column_count)
        spt_diagnostics_add(
            r->diags, last->mark,
            "this row has %d cells, its head %d: put a cell with a comma in it into "
            "quotes",
            r->csv.cell_count, r->column_count);
}

static struct spt_node *make_row(struct reading *r)
{
    struct spt_node *row = spt_arena_allocate(r->arena, sizeof *row);
    size_t room = (size_t)r->column_count + 1; /* one more for the source */
    if (!row)
        return NULL;
    *row = (struct spt_node){
        .kind = SPT_NODE_MAPPING, .mark = r->csv.cells[0].mark, .weight = (int)room};
    row->keys = spt_arena_allocate(r->arena, room * sizeof *row->keys);
    row->items = spt_arena_allocate(r->arena, room * sizeof *row->items);
    return row->keys && row->items ? row : NULL;
}

static void read_row(struct reading *r)
{
    char place[PLACE_LENGTH];
    struct spt_mark mark = r->csv.cells[0].mark;
    struct spt_node *row = make_row(r);
    const char *name = NULL;
    check_length(r);
    if (!row || !make_room(r)) {
        r->diags->out_of_memory = true;
        return;
    }
    for (int i = 0; i < r->csv.cell_count && i < r->column_count; i++)
        if (!is_blank(&r->csv.cells[i]))
            put_cell(r, &r->columns[i], &r->csv.cells[i], row);
    const struct spt_node *named = spt_node_find(row, "name");
    name = named ? named->text : NULL;
    if (!name && !spt_diagnostics_any(r->diags))
        spt_diagnostics_add(r->diags, mark,
                            "this row has no name; each bearing of a list needs one");
    if (!spt_node_find(row, "source")) {
        snprintf(place, sizeof place, "%.120s, line %d", r->csv.source->name, mark.line);
        put(r, row, "source", place, mark);
    }
    spt_symbols_spell_out(row, r->arena, r->diags);
    if (name)
        r->sheet->rows[r->sheet->count++] = (struct spt_sheet_row){name, row};
}

static int compare_rows(const void *a, const void *b)
{
    const struct spt_sheet_row *x = *(struct spt_sheet_row *const *)a;
    const struct spt_sheet_row *y = *(struct spt_sheet_row *const *)b;
    int order = strcmp(x->name, y->name);
    return order ? order : (x > y) - (x < y);
}

/* Reports names that stand twice, at the later row. */
static void check_names(struct reading *r)
{
    size_t count = (size_t)r->sheet->count;
    struct spt_sheet_row **sorted = spt_allocate((count + 1) * sizeof *sorted);
    if (!sorted) {
        r->diags->out_of_memory = true;
        return;
    }
    for (size_t i = 0; i < count; i++)
        sorted[i] = &r->sheet->rows[i];
    qsort(sorted, count, sizeof *sorted, compare_rows);
    for (size_t i = 1; i < count; i++)
        if (!strcmp(sorted[i]->name, sorted[i - 1]->name))
            spt_diagnostics_add(r->diags, spt_node_mark(sorted[i]->node, "name"),
                                "`%.60s` stands in line %d already; give each bearing its own name",
                                sorted[i]->name, sorted[i - 1]->node->mark.line);
    free(sorted);
}

static void read_rows(struct reading *r)
{
    while (!r->diags->out_of_memory && spt_csv_next(&r->csv)) {
        if (r->sheet->count == SPT_SHEET_ROWS_MAX) {
            spt_diagnostics_add(r->diags, r->csv.cells[0].mark,
                                "more than %d bearings in one list; split it", SPT_SHEET_ROWS_MAX);
            return;
        }
        read_row(r);
        if (r->diags->count == SPT_DIAGNOSTICS_MAX)
            return;
    }
    if (!spt_diagnostics_any(r->diags) && !r->sheet->count)
        spt_diagnostics_add(r->diags, (struct spt_mark){r->csv.source, 1, 1},
                            "the list names columns, but no bearing; add a row for each");
    check_names(r);
}

bool spt_sheet_read(const struct spt_source *source, struct spt_arena *arena,
                    struct spt_sheet *sheet, struct spt_diagnostics *diags)
{
    *sheet = (struct spt_sheet){0};
    if (!source->length) {
        say_empty(source, diags); /* nothing to open as a stream */
        return false;
    }
    struct reading *r = spt_allocate(sizeof *r);
    FILE *in = r ? fmemopen((void *)(uintptr_t)source->text, source->length, "rb") : NULL;
    if (!in) {
        diags->out_of_memory = true;
        free(r);
        return false;
    }
    memset(r, 0, sizeof *r);
    r->arena = arena;
    r->diags = diags;
    r->sheet = sheet;
    spt_csv_begin(&r->csv, in, source, diags);
    r->csv.separator = spt_csv_separator(source);
    if (read_head(r))
        read_rows(r);
    fclose(in);
    free(r);
    return !spt_diagnostics_any(diags) && !diags->out_of_memory;
}
