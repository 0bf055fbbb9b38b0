/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/field_data.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/allocate.h"
#include "scenario/text/csv_row.h"
#include "scenario/text/fields.h"

#define FIRST_CAPACITY 256
/* h or km: longer than any life, and small enough to be raised to a power */
#define LIFE_MAX 1e12

enum column { TIME, DISTANCE, STATE, COUNT, REMARK, LAST_GOOD, KNOWN_FROM, MODE, COLUMN_COUNT };
static const char *const column_names[COLUMN_COUNT] = {"time",   "distance",  "state",      "count",
                                                       "remark", "last good", "known from", "mode"};

/* The columns found in the header. */
struct header {
    int places[COLUMN_COUNT]; /* index of the column in a row; -1: absent */
    int cell_count;
    double factors[COLUMN_COUNT]; /* conversion factor from the unit in the header to that of the
                                     program */
    enum spt_dimension dimensions[COLUMN_COUNT];
};

/* One row as written. */
struct row {
    double time, last_good, known_from;
    bool failed, found;
    int count, mode;
};

/* Converts ASCII letters to lower case; columns, units and states are compared in lower case. */
static const char *make_small(const char *text, char *small)
{
    size_t length = 0;
    for (; text[length]; length++)
        small[length] = (char)(text[length] >= 'A' && text[length] <= 'Z' ? text[length] + 'a' - 'A'
                                                                          : text[length]);
    small[length] = 0;
    return small;
}

static void refuse_column(const struct spt_csv_cell *cell, const char *name,
                          struct spt_diagnostics *diags)
{
    char small[SPT_CSV_CELL_MAX + 1];
    const char *near = spt_nearest(make_small(name, small), column_names, COLUMN_COUNT);
    if (strchr(cell->text, ';'))
        spt_diagnostics_add(diags, cell->mark,
                            "the columns should be divided by commas, not by "
                            "semicolons, and decimals by points");
    else if (near)
        spt_diagnostics_add(diags, cell->mark,
                            "`%.60s` is not a column of field data; did you mean `%s`?", name,
                            near);
    else
        spt_diagnostics_add(diags, cell->mark,
                            "`%.60s` is not a column of field data; the columns are `time [h]` or "
                            "`distance [km]`, `state`, `last good [h]`, `known from [h]`, `mode`, "
                            "`count`, `remark`",
                            name);
}

static bool is_life(int column)
{
    return column == TIME || column == DISTANCE || column == LAST_GOOD || column == KNOWN_FROM;
}

/* `last good` and `known from` have the unit of a time or of a distance. */
static void read_unit(const struct spt_csv_cell *cell, int column, const char *unit,
                      struct header *header, struct spt_diagnostics *diags)
{
    enum spt_dimension *dimension = &header->dimensions[column];
    char one[SPT_CSV_CELL_MAX + 8], small[SPT_CSV_CELL_MAX + 1];
    double *factor = &header->factors[column];
    snprintf(one, sizeof one, "1 %s", make_small(unit, small));
    *dimension = column == DISTANCE ? SPT_DISTANCE : SPT_DURATION;
    if (!*unit) {
        spt_diagnostics_add(diags, cell->mark,
                            "`%s` has no unit; add one in brackets, such as `%s [%s]` (%s)",
                            column_names[column], column_names[column],
                            spt_dimension_unit(*dimension), SPT_UNITS_OF(*dimension));
        return;
    }
    enum spt_quantity_problem problem = spt_quantity_read(one, *dimension, factor);
    if (problem && column != TIME && column != DISTANCE) {
        *dimension = SPT_DISTANCE;
        problem = spt_quantity_read(one, *dimension, factor);
    }
    if (problem)
        spt_diagnostics_add(
            diags, cell->mark, "`%.60s` has a unit that does not belong here; accepted: %s",
            cell->text, SPT_UNITS_OF(column == DISTANCE ? SPT_DISTANCE : SPT_DURATION));
}

static void read_head(const struct spt_csv_cell *cell, int place, struct header *header,
                      struct spt_diagnostics *diags)
{
    char name[SPT_CSV_CELL_MAX + 1], unit[SPT_CSV_CELL_MAX + 1], small[SPT_CSV_CELL_MAX + 1];
    bool well_formed = spt_csv_split_head(cell->text, name, unit);
    int column = 0;
    make_small(name, small);
    for (char *c = small; *c; c++)
        if (*c == '_')
            *c = ' '; /* last_good is accepted for last good */
    while (column < COLUMN_COUNT && strcmp(small, column_names[column]) != 0)
        column++;
    if (column == COLUMN_COUNT || strchr(cell->text, ';')) {
        refuse_column(cell, name, diags);
        return;
    }
    if (header->places[column] >= 0)
        spt_diagnostics_add(diags, cell->mark, "there are two columns `%s`", name);
    else if (!well_formed)
        spt_diagnostics_add(diags, cell->mark,
                            "the unit should end the name, in brackets, as in `time [h]`");
    else if (is_life(column))
        read_unit(cell, column, unit, header, diags);
    else if (*unit)
        spt_diagnostics_add(diags, cell->mark, "`%s` takes no unit", name);
    header->places[column] = place;
}

/* Reports times and distances in the same file. */
static void check_dimensions(const struct spt_csv_reader *reader, const struct header *header,
                             enum spt_dimension dimension)
{
    static const enum column others[] = {LAST_GOOD, KNOWN_FROM};
    for (int i = 0; i < 2; i++) {
        int place = header->places[others[i]];
        if (place >= 0 && header->dimensions[others[i]] != dimension)
            spt_diagnostics_add(reader->diags, reader->cells[place].mark,
                                "`%.60s` should be a %s, as the column `%s` is",
                                reader->cells[place].text,
                                dimension == SPT_DURATION ? "time" : "distance",
                                column_names[dimension == SPT_DURATION ? TIME : DISTANCE]);
    }
}

static bool read_header(struct spt_csv_reader *reader, struct spt_field_data *data,
                        struct header *header)
{
    struct spt_diagnostics *diags = reader->diags;
    struct spt_mark top = {&data->source, 1, 1};
    int before = diags->raised;
    if (!spt_csv_next(reader)) {
        if (diags->raised == before)
            spt_diagnostics_add(diags, top,
                                "there is nothing in it; the first row names the columns, such as "
                                "`time [h],state,count`");
        return false;
    }
    *header = (struct header){.cell_count = reader->cell_count};
    for (int i = 0; i < COLUMN_COUNT; i++)
        header->places[i] = -1;
    top = reader->cells[0].mark;
    for (int i = 0; i < reader->cell_count; i++)
        read_head(&reader->cells[i], i, header, diags);
    if (diags->raised > before)
        return false;
    if (header->places[TIME] >= 0 && header->places[DISTANCE] >= 0)
        spt_diagnostics_add(diags, reader->cells[header->places[DISTANCE]].mark,
                            "there is a `time` already; keep one of the two");
    if (header->places[TIME] < 0 && header->places[DISTANCE] < 0)
        spt_diagnostics_add(diags, top,
                            "the header lacks `time [h]` or `distance [km]`, how long each "
                            "bearing ran");
    if (header->places[STATE] < 0)
        spt_diagnostics_add(diags, top, "the header lacks `state`, with failed or running in it");
    data->dimension = header->places[TIME] >= 0 ? SPT_DURATION : SPT_DISTANCE;
    check_dimensions(reader, header, data->dimension);
    return diags->raised == before;
}

static void read_life(const struct spt_csv_cell *cell, double factor, bool may_be_0, double *value,
                      struct spt_diagnostics *diags)
{
    enum spt_quantity_problem problem = spt_quantity_read(cell->text, SPT_NO_DIMENSION, value);
    *value *= factor;
    if (problem == SPT_QUANTITY_WRONG_UNIT)
        spt_diagnostics_add(diags, cell->mark,
                            "`%.60s` should be a number alone; its unit stands in the header",
                            cell->text);
    else if (problem == SPT_QUANTITY_COMMA || problem == SPT_QUANTITY_BLANK)
        spt_diagnostics_add(diags, cell->mark,
                            "`%.60s` has a %s; write a decimal point, and no mark or blank between "
                            "thousands, such as 1250.5",
                            cell->text,
                            problem == SPT_QUANTITY_COMMA ? "comma" : "blank between its digits");
    else if (problem != SPT_QUANTITY_FINE)
        spt_diagnostics_add(diags, cell->mark, "`%.60s` is not a number, such as 1250.5",
                            cell->text);
    else if (!(*value > 0 || (may_be_0 && *value == 0)) || *value > LIFE_MAX)
        spt_diagnostics_add(diags, cell->mark, "`%.60s` is out of range; it must be %s%s",
                            cell->text, may_be_0 ? "0 or more" : "more than 0",
                            *value > 0 ? " and no more than 1e12" : "");
}

static void read_state(const struct spt_csv_cell *cell, struct row *row,
                       struct spt_diagnostics *diags)
{
    static const char *const words[] = {"failed", "running", "found failed", "1", "0"};
    char small[SPT_CSV_CELL_MAX + 1];
    make_small(cell->text, small);
    for (int i = 0; i < 5; i++)
        if (!strcmp(small, words[i])) {
            row->failed = i != 1 && i != 4;
            row->found = i == 2;
            return;
        }
    const char *near = spt_nearest(small, words, 3);
    spt_diagnostics_add(diags, cell->mark,
                        "`%.60s` is no state; %s%s%swrite failed (or 1), found failed (at a look) "
                        "or running (or 0)",
                        cell->text, near ? "did you mean `" : "", near ? near : "",
                        near ? "`? " : "");
}

static void read_count(const struct spt_csv_cell *cell, int *count, struct spt_diagnostics *diags)
{
    double value;
    if (spt_quantity_read(cell->text, SPT_NO_DIMENSION, &value) != SPT_QUANTITY_FINE ||
        value != floor(value) || value < 1 || value > SPT_FIELD_BEARINGS_MAX)
        spt_diagnostics_add(diags, cell->mark, "`%.60s` should be a whole number from 1 to %d",
                            cell->text, SPT_FIELD_BEARINGS_MAX);
    else
        *count = (int)value;
}

/* Moves an array to a larger block and frees the old one; NULL when memory is exhausted. */
static void *grow(void *old, size_t used, size_t size)
{
    void *larger = spt_allocate(size);
    if (larger && used)
        memcpy(larger, old, used);
    free(old);
    return larger;
}

static bool make_space(struct spt_field_data *data)
{
    if (data->rows < data->capacity)
        return true;
    size_t used = (size_t)data->rows;
    size_t capacity = used ? 2 * used : FIRST_CAPACITY;
    data->times = grow(data->times, used * sizeof *data->times, capacity * sizeof *data->times);
    data->counts = grow(data->counts, used * sizeof *data->counts, capacity * sizeof *data->counts);
    data->failed = grow(data->failed, used * sizeof *data->failed, capacity * sizeof *data->failed);
    data->last_good =
        grow(data->last_good, used * sizeof *data->last_good, capacity * sizeof *data->last_good);
    data->known_from = grow(data->known_from, used * sizeof *data->known_from,
                            capacity * sizeof *data->known_from);
    data->modes = grow(data->modes, used * sizeof *data->modes, capacity * sizeof *data->modes);
    data->capacity = (int)capacity;
    return data->times && data->counts && data->failed && data->last_good && data->known_from &&
           data->modes;
}

/* True where the limits allow one more row. */
static bool within_limits(const struct spt_csv_reader *reader, const struct spt_field_data *data,
                          int count)
{
    if (data->rows == SPT_FIELD_ROWS_MAX)
        spt_diagnostics_add(reader->diags, reader->cells[0].mark,
                            "more than %d rows; put equal lives together with a `count`",
                            SPT_FIELD_ROWS_MAX);
    else if (data->bearings + count > SPT_FIELD_BEARINGS_MAX)
        spt_diagnostics_add(reader->diags, reader->cells[0].mark, "more than %d bearings in all",
                            SPT_FIELD_BEARINGS_MAX);
    else
        return true;
    return false;
}

/* The cell of a column; NULL where there is none or it is empty. */
static const struct spt_csv_cell *find_cell(const struct spt_csv_reader *reader,
                                            const struct header *header, enum column column)
{
    int place = header->places[column];
    return place >= 0 && reader->cells[place].length ? &reader->cells[place] : NULL;
}

static bool same_word(const char *a, const char *b)
{
    char small_a[SPT_CSV_CELL_MAX + 1], small_b[SPT_CSV_CELL_MAX + 1];
    return !strcmp(make_small(a, small_a), make_small(b, small_b));
}

static void read_mode(const struct spt_csv_cell *cell, struct spt_field_data *data, int *mode,
                      struct spt_diagnostics *diags)
{
    for (*mode = 0; *mode < data->mode_count; ++*mode)
        if (same_word(cell->text, data->mode_names[*mode]))
            return;
    if (data->mode_count == SPT_FIELD_MODES_MAX) {
        spt_diagnostics_add(diags, cell->mark,
                            "more than %d modes of failure; put together those that end a bearing "
                            "in the same way",
                            SPT_FIELD_MODES_MAX);
        return;
    }
    const char *name = spt_arena_text(&data->arena, cell->text, cell->length);
    diags->out_of_memory = diags->out_of_memory || !name;
    data->mode_names[data->mode_count++] = name ? name : "";
}

/* Reads the mode of failure, which only failed bearings have. */
static void read_ending(const struct spt_csv_reader *reader, const struct header *header,
                        struct spt_field_data *data, struct row *row)
{
    const struct spt_csv_cell *mode = find_cell(reader, header, MODE);
    if (header->places[MODE] < 0)
        return;
    if (mode && row->failed)
        read_mode(mode, data, &row->mode, reader->diags);
    else if (mode)
        spt_diagnostics_add(reader->diags, mode->mark,
                            "a running bearing has no mode of failure; leave `mode` empty, or "
                            "write failed");
    else if (row->failed)
        spt_diagnostics_add(reader->diags, reader->cells[header->places[MODE]].mark,
                            "`mode` is empty; write what ended this bearing, or `unknown`");
}

static void check_last_good(const struct spt_csv_cell *cell, const struct row *row,
                            struct spt_diagnostics *diags)
{
    if (!row->failed)
        spt_diagnostics_add(diags, cell->mark,
                            "a running bearing was good to the end of its row; leave `last good` "
                            "empty, or write found failed");
    else if (!row->found)
        spt_diagnostics_add(diags, cell->mark,
                            "`failed` means just then, so `last good` says nothing; write found "
                            "failed where a look found it, or leave this empty");
    else if (row->last_good >= row->time)
        spt_diagnostics_add(diags, cell->mark,
                            "last good at `%.60s`, which is not before it was found failed; it "
                            "must be less",
                            cell->text);
    else if (row->last_good < row->known_from)
        spt_diagnostics_add(diags, cell->mark,
                            "last good at `%.60s`, which is before it was known; leave it empty "
                            "where no look came between",
                            cell->text);
}

/* Reads last_good and known_from, after the time itself. */
static void read_ages(const struct spt_csv_reader *reader, const struct header *header,
                      struct row *row)
{
    struct spt_diagnostics *diags = reader->diags;
    const struct spt_csv_cell *from = find_cell(reader, header, KNOWN_FROM);
    const struct spt_csv_cell *good = find_cell(reader, header, LAST_GOOD);
    int before = diags->raised;
    if (from)
        read_life(from, header->factors[KNOWN_FROM], true, &row->known_from, diags);
    if (from && diags->raised == before && row->known_from >= row->time)
        spt_diagnostics_add(diags, from->mark,
                            "known from `%.60s`, when this bearing had %s already; it must be "
                            "less, and one that ended before is left out",
                            from->text, row->failed ? "failed" : "run to its end");
    if (good)
        read_life(good, header->factors[LAST_GOOD], true, &row->last_good, diags);
    if (good && diags->raised == before)
        check_last_good(good, row, diags);
    if (!row->found)
        row->last_good = (double)NAN;
}

static void store_row(struct spt_field_data *data, const struct row *row)
{
    data->times[data->rows] = row->time;
    data->counts[data->rows] = row->count;
    data->last_good[data->rows] = row->last_good;
    data->known_from[data->rows] = row->known_from;
    data->modes[data->rows] = row->mode;
    data->failed[data->rows++] = row->failed;
    data->bearings += row->count;
}

static void read_row(const struct spt_csv_reader *reader, const struct header *header,
                     struct spt_field_data *data, struct row *row)
{
    enum column main = header->places[TIME] >= 0 ? TIME : DISTANCE;
    int before = reader->diags->raised;
    *row = (struct row){.time = (double)NAN, .count = 1, .mode = -1};
    read_life(&reader->cells[header->places[main]], header->factors[main], false, &row->time,
              reader->diags);
    read_state(&reader->cells[header->places[STATE]], row, reader->diags);
    if (header->places[COUNT] >= 0)
        read_count(&reader->cells[header->places[COUNT]], &row->count, reader->diags);
    if (reader->diags->raised > before)
        return; /* the other cells are checked against these */
    read_ages(reader, header, row);
    read_ending(reader, header, data, row);
}

/* False where reading has to stop. */
static bool add_row(struct spt_csv_reader *reader, const struct header *header,
                    struct spt_field_data *data)
{
    int before = reader->diags->raised;
    struct row row;
    if (reader->cell_count != header->cell_count) {
        spt_diagnostics_add(reader->diags, reader->cells[0].mark,
                            "this row has %d cell%s, the header has %d", reader->cell_count,
                            reader->cell_count == 1 ? "" : "s", header->cell_count);
        return true;
    }
    read_row(reader, header, data, &row);
    if (reader->diags->raised > before)
        return true;
    if (!within_limits(reader, data, row.count))
        return false;
    if (reader->diags->out_of_memory || !make_space(data)) {
        reader->diags->out_of_memory = true;
        return false;
    }
    store_row(data, &row);
    return true;
}

bool spt_field_data_read(FILE *in, const char *name, struct spt_field_data *data,
                         struct spt_diagnostics *diags)
{
    struct spt_csv_reader reader;
    struct header header;
    *data = (struct spt_field_data){0};
    data->source.name = spt_arena_text(&data->arena, name, strlen(name));
    if (!data->source.name) {
        diags->out_of_memory = true;
        return false;
    }
    spt_csv_begin(&reader, in, &data->source, diags);
    if (!read_header(&reader, data, &header))
        return false;
    while (spt_csv_next(&reader))
        if (!add_row(&reader, &header, data))
            break;
    if (!data->rows && !spt_diagnostics_any(diags))
        spt_diagnostics_add(diags, (struct spt_mark){&data->source, reader.line, 1},
                            "there is a header but no row below it");
    return !spt_diagnostics_any(diags);
}

void spt_field_data_free(struct spt_field_data *data)
{
    free(data->times);
    free(data->counts);
    free(data->failed);
    free(data->last_good);
    free(data->known_from);
    free(data->modes);
    spt_arena_free(&data->arena);
    *data = (struct spt_field_data){0};
}
