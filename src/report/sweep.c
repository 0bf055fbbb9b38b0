/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "report/sweep.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "report/npy.h"
#include "report/number.h"
#include "report/number_cells.h"

#define KEY_ROOM 40 /* a name with what stands around it */
#define WARNINGS_ROOM 240

static const char *const field_names[SPT_SWEEP_FIELD_COUNT] = {
    [SPT_SWEEP_SPEED] = "speed_rpm",
    [SPT_SWEEP_RADIAL_LOAD] = "radial_load_n",
    [SPT_SWEEP_AXIAL_LOAD] = "axial_load_n",
    [SPT_SWEEP_EQUIVALENT_LOAD] = "equivalent_load_n",
    [SPT_SWEEP_LOAD_FACTOR] = "load_factor",
    [SPT_SWEEP_TEMPERATURE] = "temperature_c",
    [SPT_SWEEP_WATER] = "water_ppm",
    [SPT_SWEEP_GREASE_AGE] = "grease_age_h",
    [SPT_SWEEP_VISCOSITY_40] = "viscosity_40_mm2_s",
    [SPT_SWEEP_GRADE] = "grade",
    [SPT_SWEEP_CLEANLINESS] = "cleanliness",
    [SPT_SWEEP_CONTAMINATION] = "contamination_factor",
    [SPT_SWEEP_RATING_FACTOR] = "dynamic_load_rating_factor",
    [SPT_SWEEP_RELIABILITY] = "reliability_percent",
    [SPT_SWEEP_SETTING] = "mounted_setting_mm",
    [SPT_SWEEP_WHEEL_LOAD] = "wheel_load_n",
    [SPT_SWEEP_SIDE_FORCE] = "side_force_n",
    [SPT_SWEEP_SIDE_SHARE] = "side_share",
    [SPT_SWEEP_ROAD_SPEED] = "road_speed_km_h",
};
static const char *const column_names[SPT_SWEEP_COLUMN_COUNT] = {
    [SPT_SWEEP_EQUIVALENT_LOAD_N] = "equivalent_load_n",
    [SPT_SWEEP_VISCOSITY_RATIO] = "viscosity_ratio",
    [SPT_SWEEP_EFFECTIVE_VISCOSITY_RATIO] = "effective_viscosity_ratio",
    [SPT_SWEEP_CONTAMINATION_FACTOR] = "contamination_factor",
    [SPT_SWEEP_LIFE_MODIFICATION_FACTOR] = "life_modification_factor",
    [SPT_SWEEP_WATER_FACTOR] = "water_factor",
    [SPT_SWEEP_BASIC_RATING_LIFE_H] = "basic_rating_life_h",
    [SPT_SWEEP_MODIFIED_RATING_LIFE_H] = "modified_rating_life_h",
    [SPT_SWEEP_SETTING_FACTOR] = "setting_factor",
    [SPT_SWEEP_STATUS] = "status",
    [SPT_SWEEP_WARNINGS] = "warnings",
/* of both rows of a hub, as spt_sweep_row_value counts them */
#define OF_ROWS(value, name)                                                                       \
    [SPT_SWEEP_ONE_COUNT + value] = "inboard_" name,                                               \
                           [2 * SPT_SWEEP_ONE_COUNT + value] = "outboard_" name
    OF_ROWS(SPT_SWEEP_EQUIVALENT_LOAD_N, "equivalent_load_n"),
    OF_ROWS(SPT_SWEEP_VISCOSITY_RATIO, "viscosity_ratio"),
    OF_ROWS(SPT_SWEEP_EFFECTIVE_VISCOSITY_RATIO, "effective_viscosity_ratio"),
    OF_ROWS(SPT_SWEEP_CONTAMINATION_FACTOR, "contamination_factor"),
    OF_ROWS(SPT_SWEEP_LIFE_MODIFICATION_FACTOR, "life_modification_factor"),
    OF_ROWS(SPT_SWEEP_WATER_FACTOR, "water_factor"),
    OF_ROWS(SPT_SWEEP_BASIC_RATING_LIFE_H, "basic_rating_life_h"),
    OF_ROWS(SPT_SWEEP_MODIFIED_RATING_LIFE_H, "modified_rating_life_h"),
    OF_ROWS(SPT_SWEEP_SETTING_FACTOR, "setting_factor"),
};

const char *spt_sweep_field_name(enum spt_sweep_field field)
{
    return field_names[field];
}

const char *spt_sweep_column_name(int column)
{
    return column >= 0 && column < SPT_SWEEP_COLUMN_COUNT ? column_names[column] : NULL;
}

bool spt_sweep_column_fits(const struct spt_sweep_layout *layout, int column)
{
    if (column >= SPT_SWEEP_VALUE_COUNT || column == SPT_SWEEP_BASIC_RATING_LIFE_H ||
        column == SPT_SWEEP_MODIFIED_RATING_LIFE_H)
        return true;
    return layout->hub ? column >= SPT_SWEEP_ONE_COUNT : column < SPT_SWEEP_SETTING_FACTOR;
}

/* A column with all that the layout asks of it, unless a swept field has its name. */
static void add_usual(struct spt_sweep_layout *layout, int column)
{
    bool swept = !spt_sweep_column_fits(layout, column);
    for (int f = 0; f < layout->field_count; f++)
        swept = swept || !strcmp(field_names[layout->fields[f]], column_names[column]);
    if (!swept)
        layout->columns[layout->column_count++] = column;
}

void spt_sweep_usual_columns(struct spt_sweep_layout *layout)
{
    static const int usual[] = {SPT_SWEEP_VISCOSITY_RATIO,
                                SPT_SWEEP_CONTAMINATION_FACTOR,
                                SPT_SWEEP_LIFE_MODIFICATION_FACTOR,
                                SPT_SWEEP_WATER_FACTOR,
                                SPT_SWEEP_BASIC_RATING_LIFE_H,
                                SPT_SWEEP_MODIFIED_RATING_LIFE_H,
                                SPT_SWEEP_STATUS};
    static const enum spt_sweep_value of_row[] = {
        SPT_SWEEP_VISCOSITY_RATIO, SPT_SWEEP_CONTAMINATION_FACTOR,
        SPT_SWEEP_LIFE_MODIFICATION_FACTOR, SPT_SWEEP_SETTING_FACTOR,
        SPT_SWEEP_MODIFIED_RATING_LIFE_H};
    layout->column_count = 0;
    for (int row = 0; layout->hub && row < 2; row++)
        for (size_t i = 0; i < sizeof of_row / sizeof *of_row; i++)
            add_usual(layout, spt_sweep_row_value(row, of_row[i]));
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++)
        add_usual(layout, usual[i]);
}

/* Six digits where they say all, else ten. */
static size_t write_input(char *to, double value)
{
    char text[SPT_NUMBER_SIZE];
    double back;
    char *end = spt_number_write(text, value);
    spt_number_read(text, end, &back);
    if (back == value) {
        memcpy(to, text, (size_t)(end - text));
        return (size_t)(end - text);
    }
    return (size_t)snprintf(to, SPT_SWEEP_CELL, "%.10g", value);
}

void spt_sweep_cell(const struct spt_sweep_layout *layout, enum spt_sweep_field field, double value,
                    struct spt_sweep_cell *cell)
{
    const char *quote = layout->form == SPT_SWEEP_JSONL ? "\"" : "";
    int length;
    if (field == SPT_SWEEP_GRADE)
        length = snprintf(cell->text, sizeof cell->text, "%sVG %d%s", quote, (int)value, quote);
    else if (field == SPT_SWEEP_CLEANLINESS)
        length = snprintf(cell->text, sizeof cell->text, "%s%s%s", quote,
                          spt_cleanliness_name((enum spt_cleanliness)(int)value), quote);
    else
        length = (int)write_input(cell->text, value);
    cell->length = (unsigned char)length;
}

size_t spt_sweep_room(const struct spt_sweep_layout *layout)
{
    size_t key = layout->form == SPT_SWEEP_JSONL ? KEY_ROOM : 1;
    return (size_t)layout->field_count * (key + sizeof(struct spt_sweep_cell)) +
           (size_t)layout->column_count * (key + SPT_NUMBER_SIZE) + WARNINGS_ROOM;
}

static size_t write_npy_head(const struct spt_sweep_layout *layout, unsigned long long rows,
                             char *to, size_t room)
{
    struct spt_npy_column columns[SPT_SWEEP_FIELD_COUNT + SPT_SWEEP_COLUMN_COUNT];
    int count = 0;
    size_t size = 0;
    for (int f = 0; f < layout->field_count; f++)
        columns[count++] = (struct spt_npy_column){field_names[layout->fields[f]], SPT_NPY_DOUBLE};
    for (int c = 0; c < layout->column_count; c++)
        columns[count++] = (struct spt_npy_column){
            column_names[layout->columns[c]],
            layout->columns[c] == SPT_SWEEP_STATUS ? SPT_NPY_BYTE : SPT_NPY_DOUBLE};
    return spt_npy_header(columns, count, (size_t)rows, to, room, &size) ? 0 : size;
}

size_t spt_sweep_head(const struct spt_sweep_layout *layout, unsigned long long rows, char *to,
                      size_t room)
{
    size_t used = 0;
    if (layout->form == SPT_SWEEP_NPY)
        return write_npy_head(layout, rows, to, room);
    for (int i = 0; layout->form == SPT_SWEEP_CSV && i < layout->field_count + layout->column_count;
         i++) {
        const char *name = i < layout->field_count
                               ? field_names[layout->fields[i]]
                               : column_names[layout->columns[i - layout->field_count]];
        used += (size_t)snprintf(to + used, room - used, "%s%s", i ? "," : "", name);
    }
    if (used)
        to[used++] = '\n';
    return used;
}

/* What stands before each cell of a JSON row: the key. */
struct lead {
    char text[KEY_ROOM];
    size_t length;
};

static void make_leads(const struct spt_sweep_layout *layout, struct lead *leads)
{
    for (int i = 0; i < layout->field_count + layout->column_count; i++) {
        const char *name = i < layout->field_count
                               ? field_names[layout->fields[i]]
                               : column_names[layout->columns[i - layout->field_count]];
        leads[i].length =
            (size_t)snprintf(leads[i].text, KEY_ROOM, "%s\"%s\":", i ? "," : "{", name);
    }
}

static char *write_text(char *to, const char *text, bool json)
{
    size_t length = strlen(text);
    if (json)
        *to++ = '"';
    memcpy(to, text, length);
    to += length;
    if (json)
        *to++ = '"';
    return to;
}

static char *write_flags(char *to, unsigned flags, bool json)
{
    char text[WARNINGS_ROOM] = "";
    size_t used = 0;
    for (int f = 0; f < SPT_SWEEP_FLAG_COUNT; f++)
        if (flags >> f & 1u)
            used += (size_t)snprintf(text + used, sizeof text - used, "%s%s", used ? " " : "",
                                     spt_flag_code(spt_sweep_flags[f]));
    return write_text(to, text, json);
}

#define OUTER_CHUNK 32
#define STRETCH 64 /* rows whose numbers are made at a time */

/* The numbers of a column for a stretch of rows. */
struct numbers {
    struct spt_number_cell cells[STRETCH];
    int step; /* 0: the same in every row */
};

/* The swept values that stay as they are from row to row, as text. */
struct outer {
    const struct spt_sweep_cell *made_of[SPT_SWEEP_FIELD_COUNT];
    char text[SPT_SWEEP_FIELD_COUNT * sizeof(struct spt_sweep_cell) + OUTER_CHUNK];
    size_t length;
};

/* Rows under way. */
struct writing {
    const struct spt_sweep_layout *layout;
    const struct spt_sweep_cell *const *const *cells;
    const struct spt_sweep_block *block;
    struct lead leads[SPT_SWEEP_FIELD_COUNT + SPT_SWEEP_COLUMN_COUNT]; /* of JSON */
    struct spt_sweep_cell status[SPT_SWEEP_STATUS_COUNT];
    struct numbers numbers[SPT_SWEEP_COLUMN_COUNT];
    struct outer outer;
};

static char *put_cell(char *to, const struct spt_sweep_cell *cell)
{
    memcpy(to, cell, sizeof *cell); /* of one size: faster than the right one */
    return to + cell->length;
}

static void make_status(struct spt_sweep_cell *cells, bool json)
{
    for (int s = 0; s < SPT_SWEEP_STATUS_COUNT; s++) {
        const char *name = spt_sweep_status_name((enum spt_sweep_status)s);
        char *end = write_text(cells[s].text, name, json);
        cells[s].length = (unsigned char)(end - cells[s].text);
    }
}

/* Empty (CSV) or null where there is no value; JSON has no infinity: null too, and the status tells
 * the two apart. */
static void mend_numbers(const double *values, int count, bool json, struct numbers *numbers)
{
    for (int i = 0; i < count; i++) {
        if (isfinite(values[i]))
            continue;
        if (json)
            spt_number_cell_set(&numbers->cells[i], "null", 4);
        else if (isnan(values[i]))
            spt_number_cell_set(&numbers->cells[i], "", 0);
    }
}

static void make_numbers(const double *values, int count, bool json, struct numbers *numbers)
{
    bool same = !memcmp(values, values + 1, (size_t)(count - 1) * sizeof *values);
    int made = same ? 1 : count;
    numbers->step = same ? 0 : 1;
    spt_number_cells(values, made, numbers->cells);
    mend_numbers(values, made, json, numbers);
}

/* Column number `c` of row `i`, which is row `k` of the stretch. */
static inline char *write_column(const struct writing *w, int c, int i, int k, bool json, char *to)
{
    int column = w->layout->columns[c];
    const struct numbers *numbers = &w->numbers[c];
    if (column < SPT_SWEEP_VALUE_COUNT)
        return spt_number_put(to, &numbers->cells[k * numbers->step]);
    if (column == SPT_SWEEP_STATUS)
        return put_cell(to, &w->status[w->block->status[i]]);
    return write_flags(to, w->block->flags[i], json);
}

/* All fields but the last, which varies fastest in a grid: made anew where one has changed. */
static char *put_outer(struct writing *w, int i, char *to)
{
    struct outer *outer = &w->outer;
    int count = w->layout->field_count - 1;
    bool same = true;
    for (int f = 0; f < count; f++)
        same &= outer->made_of[f] == w->cells[f][i];
    if (!same) {
        char *end = outer->text;
        for (int f = 0; f < count; f++) {
            outer->made_of[f] = w->cells[f][i];
            end = put_cell(end, w->cells[f][i]);
            *end++ = ',';
        }
        outer->length = (size_t)(end - outer->text);
    }
    for (size_t at = 0; at < outer->length; at += OUTER_CHUNK)
        memcpy(to + at, outer->text + at, OUTER_CHUNK);
    return to + outer->length;
}

static char *write_csv_row(struct writing *w, int i, int k, char *to)
{
    const struct spt_sweep_layout *layout = w->layout;
    to = put_cell(put_outer(w, i, to), w->cells[layout->field_count - 1][i]);
    for (int c = 0; c < layout->column_count; c++) {
        *to++ = ',';
        to = write_column(w, c, i, k, false, to);
    }
    *to++ = '\n';
    return to;
}

static char *put_lead(char *to, const struct lead *lead)
{
    memcpy(to, lead->text, KEY_ROOM);
    return to + lead->length;
}

static char *write_json_row(const struct writing *w, int i, int k, char *to)
{
    const struct spt_sweep_layout *layout = w->layout;
    const struct lead *lead = w->leads;
    for (int f = 0; f < layout->field_count; f++)
        to = put_cell(put_lead(to, lead++), w->cells[f][i]);
    for (int c = 0; c < layout->column_count; c++)
        to = write_column(w, c, i, k, true, put_lead(to, lead++));
    *to++ = '}';
    *to++ = '\n';
    return to;
}

/* `count` rows from `first` on, a stretch at most. */
static char *write_stretch(struct writing *w, int first, int count, const bool *skip, char *to)
{
    bool json = w->layout->form == SPT_SWEEP_JSONL;
    for (int c = 0; c < w->layout->column_count; c++)
        if (w->layout->columns[c] < SPT_SWEEP_VALUE_COUNT)
            make_numbers(w->block->values[w->layout->columns[c]] + first, count, json,
                         &w->numbers[c]);
    for (int k = 0; k < count; k++)
        if (!skip || !skip[first + k])
            to = json ? write_json_row(w, first + k, k, to) : write_csv_row(w, first + k, k, to);
    return to;
}

static char *write_rows(const struct spt_sweep_layout *layout,
                        const struct spt_sweep_cell *const *const *cells,
                        const struct spt_sweep_block *block, int count, const bool *skip, char *to)
{
    struct writing w;
    w.layout = layout;
    w.cells = cells;
    w.block = block;
    if (layout->form == SPT_SWEEP_JSONL)
        make_leads(layout, w.leads);
    make_status(w.status, layout->form == SPT_SWEEP_JSONL);
    memset(&w.outer, 0, sizeof w.outer);
    for (int at = 0; at < count; at += STRETCH)
        to = write_stretch(&w, at, count - at < STRETCH ? count - at : STRETCH, skip, to);
    return to;
}

/* A record: classes count from the cleanest of the way of lubricating. */
static char *write_record(const struct spt_sweep_layout *layout, const double *const *inputs,
                          const struct spt_sweep_block *block, int i, char *to)
{
    for (int f = 0; f < layout->field_count; f++, to += sizeof(double)) {
        double value = inputs[f][i];
        if (layout->fields[f] == SPT_SWEEP_CLEANLINESS)
            value -= (double)spt_cleanliness_first(layout->kind);
        memcpy(to, &value, sizeof value);
    }
    for (int c = 0; c < layout->column_count; c++) {
        int column = layout->columns[c];
        if (column == SPT_SWEEP_STATUS) {
            *to++ = (char)block->status[i];
        } else {
            memcpy(to, &block->values[column][i], sizeof(double));
            to += sizeof(double);
        }
    }
    return to;
}

char *spt_sweep_write(const struct spt_sweep_layout *layout,
                      const struct spt_sweep_cell *const *const *cells, const double *const *inputs,
                      const struct spt_sweep_block *block, int count, const bool *skip, char *to)
{
    if (layout->form != SPT_SWEEP_NPY)
        return write_rows(layout, cells, block, count, skip, to);
    for (int i = 0; i < count; i++)
        if (!skip || !skip[i])
            to = write_record(layout, inputs, block, i, to);
    return to;
}
