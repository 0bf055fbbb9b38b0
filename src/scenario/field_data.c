/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/field_data.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "scenario/csv_row.h"
#include "scenario/fields.h"
#include "base/allocate.h"

#define FIRST_ROOM 256
#define LIFE_MAX 1e12 /* h or km: beyond any machine, and safe to raise to a power */

enum column { TIME, DISTANCE, STATE, COUNT, REMARK, COLUMN_COUNT };
static const char *const column_names[COLUMN_COUNT] = {"time", "distance", "state", "count",
                                                       "remark"};

/* What the header said. */
struct header {
    int places[COLUMN_COUNT]; /* index of the cell; -1: absent */
    int cell_count;
    double factor; /* from the unit in the header to the program's */
};

/* ASCII capitals as small letters; columns, units and states are known by those. */
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
                            "`distance [km]`, `state`, `count`, `remark`",
                            name);
}

static void read_unit(const struct spt_csv_cell *cell, enum column column, const char *unit,
                      struct header *header, struct spt_diagnostics *diags)
{
    enum spt_dimension dimension = column == TIME ? SPT_DURATION : SPT_DISTANCE;
    char one[SPT_CSV_CELL_MAX + 8], small[SPT_CSV_CELL_MAX + 1];
    snprintf(one, sizeof one, "1 %s", make_small(unit, small));
    if (!*unit)
        spt_diagnostics_add(diags, cell->mark,
                            "`%s` has no unit; add one in brackets, such as `%s [%s]` (%s)",
                            column_names[column], column_names[column],
                            spt_dimension_unit(dimension), spt_units_list(dimension));
    else if (spt_quantity_read(one, dimension, &header->factor) != SPT_QUANTITY_FINE)
        spt_diagnostics_add(diags, cell->mark,
                            "`%.60s` has a unit that does not belong here; accepted: %s",
                            cell->text, spt_units_list(dimension));
}

static void read_head(const struct spt_csv_cell *cell, int place, struct header *header,
                      struct spt_diagnostics *diags)
{
    char name[SPT_CSV_CELL_MAX + 1], unit[SPT_CSV_CELL_MAX + 1], small[SPT_CSV_CELL_MAX + 1];
    bool well_formed = spt_csv_split_head(cell->text, name, unit);
    int column = 0;
    make_small(name, small);
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
    else if (column == TIME || column == DISTANCE)
        read_unit(cell, (enum column)column, unit, header, diags);
    else if (*unit)
        spt_diagnostics_add(diags, cell->mark, "`%s` takes no unit", name);
    header->places[column] = place;
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
    *header = (struct header){{-1, -1, -1, -1, -1}, reader->cell_count, 1};
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
    return diags->raised == before;
}

static void read_life(const struct spt_csv_cell *cell, double factor, double *value,
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
    else if (!(*value > 0) || *value > LIFE_MAX)
        spt_diagnostics_add(diags, cell->mark, "`%.60s` is out of range; it must be more than 0%s",
                            cell->text, *value > 0 ? " and no more than 1e12" : "");
}

static void read_state(const struct spt_csv_cell *cell, bool *failed, struct spt_diagnostics *diags)
{
    static const char *const words[] = {"failed", "running", "1", "0"};
    char small[SPT_CSV_CELL_MAX + 1];
    make_small(cell->text, small);
    for (int i = 0; i < 4; i++)
        if (!strcmp(small, words[i])) {
            *failed = i % 2 == 0;
            return;
        }
    const char *near = spt_nearest(small, words, 2);
    spt_diagnostics_add(
        diags, cell->mark, "`%.60s` is no state; %s%s%swrite failed (or 1) or running (or 0)",
        cell->text, near ? "did you mean `" : "", near ? near : "", near ? "`? " : "");
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

/* A block twice as large with the old one's content; frees the old one. NULL when memory is out. */
static void *grow(void *old, size_t used, size_t size)
{
    void *larger = spt_allocate(size);
    if (larger && used)
        memcpy(larger, old, used);
    free(old);
    return larger;
}

static bool make_room(struct spt_field_data *data)
{
    if (data->rows < data->room)
        return true;
    size_t used = (size_t)data->rows;
    size_t room = used ? 2 * used : FIRST_ROOM;
    data->times = grow(data->times, used * sizeof *data->times, room * sizeof *data->times);
    data->counts = grow(data->counts, used * sizeof *data->counts, room * sizeof *data->counts);
    data->failed = grow(data->failed, used * sizeof *data->failed, room * sizeof *data->failed);
    data->room = (int)room;
    return data->times && data->counts && data->failed;
}

/* True where the limits leave room for one more row. */
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

/* False where reading has to stop. */
static bool add_row(struct spt_csv_reader *reader, const struct header *header,
                    struct spt_field_data *data)
{
    int before = reader->diags->raised, count = 1;
    int place = header->places[TIME] >= 0 ? header->places[TIME] : header->places[DISTANCE];
    double value = (double)NAN;
    bool failed = false;
    if (reader->cell_count != header->cell_count) {
        spt_diagnostics_add(reader->diags, reader->cells[0].mark,
                            "this row has %d cell%s, the header has %d", reader->cell_count,
                            reader->cell_count == 1 ? "" : "s", header->cell_count);
        return true;
    }
    read_life(&reader->cells[place], header->factor, &value, reader->diags);
    read_state(&reader->cells[header->places[STATE]], &failed, reader->diags);
    if (header->places[COUNT] >= 0)
        read_count(&reader->cells[header->places[COUNT]], &count, reader->diags);
    if (reader->diags->raised > before)
        return true;
    if (!within_limits(reader, data, count))
        return false;
    if (!make_room(data)) {
        reader->diags->out_of_memory = true;
        return false;
    }
    data->times[data->rows] = value;
    data->counts[data->rows] = count;
    data->failed[data->rows++] = failed;
    data->bearings += count;
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
    spt_arena_free(&data->arena);
    *data = (struct spt_field_data){0};
}
