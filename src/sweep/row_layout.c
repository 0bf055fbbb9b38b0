/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep/row_layout.h"

#include <stdio.h>
#include <string.h>

#include "base/table.h"
#include "format/number/npy.h"
#include "format/number/number.h"

static const char *const field_names[] = {
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
    [SPT_SWEEP_POWER] = "power_w",
    [SPT_SWEEP_TORQUE] = "torque_nm",
    [SPT_SWEEP_PAYLOAD] = "payload_kg",
};
SPT_ONE_EACH(field_names, SPT_SWEEP_FIELD_COUNT);
static const char *const column_names[] = {
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
    [SPT_SWEEP_LIFE_STATUS] = "life_status",
    [SPT_SWEEP_INBOARD_LIFE_STATUS] = "inboard_life_status",
    [SPT_SWEEP_OUTBOARD_LIFE_STATUS] = "outboard_life_status",
    [SPT_SWEEP_CASE] = "case",
    [SPT_SWEEP_LABEL] = "label",
/* of both rows of a hub, in the order of spt_sweep_row_value */
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
SPT_ONE_EACH(column_names, SPT_SWEEP_COLUMN_COUNT);

const char *spt_sweep_field_name(enum spt_sweep_field field)
{
    return field_names[field];
}

const char *spt_sweep_column_name(int column)
{
    return column >= 0 && column < SPT_SWEEP_COLUMN_COUNT ? column_names[column] : NULL;
}

const char *spt_sweep_name_at(const struct spt_sweep_layout *layout, int i)
{
    if (i < layout->lead_count)
        return column_names[layout->columns[i]];
    if (i < layout->lead_count + layout->field_count)
        return field_names[layout->fields[i - layout->lead_count]];
    return column_names[layout->columns[i - layout->field_count]];
}

bool spt_sweep_column_fits(const struct spt_sweep_layout *layout, int column)
{
    if (column == SPT_SWEEP_CASE || column == SPT_SWEEP_LABEL)
        return column == SPT_SWEEP_CASE ? layout->cases : layout->labels;
    if (column == SPT_SWEEP_INBOARD_LIFE_STATUS || column == SPT_SWEEP_OUTBOARD_LIFE_STATUS)
        return layout->hub;
    if (column >= SPT_SWEEP_VALUE_COUNT || column == SPT_SWEEP_BASIC_RATING_LIFE_H ||
        column == SPT_SWEEP_MODIFIED_RATING_LIFE_H)
        return true;
    return layout->hub ? column >= SPT_SWEEP_ONE_COUNT : column < SPT_SWEEP_SETTING_FACTOR;
}

bool spt_sweep_column_is_text(int column)
{
    return column > SPT_SWEEP_STATUS && column < SPT_SWEEP_COLUMN_COUNT && column != SPT_SWEEP_CASE;
}

void spt_sweep_add_column(struct spt_sweep_layout *layout, int column)
{
    int place = layout->column_count;
    if (column == SPT_SWEEP_CASE || column == SPT_SWEEP_LABEL)
        place = column == SPT_SWEEP_CASE ? 0 : layout->lead_count++;
    if (column == SPT_SWEEP_CASE)
        layout->lead_count++;
    memmove(layout->columns + place + 1, layout->columns + place,
            (size_t)(layout->column_count - place) * sizeof *layout->columns);
    layout->columns[place] = column;
    layout->column_count++;
}

static bool has_column(const struct spt_sweep_layout *layout, int column)
{
    bool found = false;
    for (int c = 0; c < layout->column_count; c++)
        found = found || layout->columns[c] == column;
    return found;
}

void spt_sweep_add_life_status(struct spt_sweep_layout *layout)
{
    static const struct {
        int status, basic, modified;
    } lives[] = {
        {SPT_SWEEP_LIFE_STATUS, SPT_SWEEP_BASIC_RATING_LIFE_H, SPT_SWEEP_MODIFIED_RATING_LIFE_H},
        {SPT_SWEEP_INBOARD_LIFE_STATUS, SPT_SWEEP_ONE_COUNT + SPT_SWEEP_BASIC_RATING_LIFE_H,
         SPT_SWEEP_ONE_COUNT + SPT_SWEEP_MODIFIED_RATING_LIFE_H},
        {SPT_SWEEP_OUTBOARD_LIFE_STATUS, 2 * SPT_SWEEP_ONE_COUNT + SPT_SWEEP_BASIC_RATING_LIFE_H,
         2 * SPT_SWEEP_ONE_COUNT + SPT_SWEEP_MODIFIED_RATING_LIFE_H}};
    for (size_t i = 0; layout->form == SPT_SWEEP_JSONL && i < sizeof lives / sizeof *lives; i++)
        if (!has_column(layout, lives[i].status) &&
            (has_column(layout, lives[i].basic) || has_column(layout, lives[i].modified)))
            spt_sweep_add_column(layout, lives[i].status);
}

/* Adds a column with everything that the layout needs for it, unless a swept field has its name. */
static void add_usual(struct spt_sweep_layout *layout, int column)
{
    bool left_out = !spt_sweep_column_fits(layout, column) ||
                    (layout->form == SPT_SWEEP_NPY && spt_sweep_column_is_text(column));
    for (int f = 0; f < layout->field_count; f++)
        left_out = left_out || !strcmp(field_names[layout->fields[f]], column_names[column]);
    if (!left_out)
        spt_sweep_add_column(layout, column);
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
    layout->column_count = layout->lead_count = 0;
    add_usual(layout, SPT_SWEEP_CASE);
    add_usual(layout, SPT_SWEEP_LABEL);
    for (int row = 0; layout->hub && row < 2; row++)
        for (size_t i = 0; i < sizeof of_row / sizeof *of_row; i++)
            add_usual(layout, spt_sweep_row_value(row, of_row[i]));
    for (size_t i = 0; i < sizeof usual / sizeof *usual; i++)
        add_usual(layout, usual[i]);
    spt_sweep_add_life_status(layout);
}

/* Writes six significant digits where these read back as the same value, else ten. */
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

size_t spt_sweep_row_size_max(const struct spt_sweep_layout *layout)
{
    size_t key = layout->form == SPT_SWEEP_JSONL ? SPT_SWEEP_KEY : 1;
    size_t label = has_column(layout, SPT_SWEEP_LABEL) ? 6 * SPT_SWEEP_LABEL_MAX + 4 : 0;
    size_t warnings = has_column(layout, SPT_SWEEP_WARNINGS) ? SPT_SWEEP_WARNINGS_SIZE : 0;
    return (size_t)(layout->field_count + layout->column_count) *
               (key + sizeof(struct spt_sweep_cell)) +
           warnings + label + SPT_SWEEP_OVERSHOOT;
}

static enum spt_npy_type find_type(int column)
{
    return column == SPT_SWEEP_STATUS ? SPT_NPY_BYTE
           : column == SPT_SWEEP_CASE ? SPT_NPY_LONG
                                      : SPT_NPY_DOUBLE;
}

static size_t write_npy_head(const struct spt_sweep_layout *layout, unsigned long long rows,
                             char *to, size_t capacity)
{
    struct spt_npy_column columns[SPT_SWEEP_FIELD_COUNT + SPT_SWEEP_COLUMN_COUNT];
    int count = layout->field_count + layout->column_count;
    size_t size = 0;
    for (int i = 0; i < count; i++)
        columns[i] = (struct spt_npy_column){spt_sweep_name_at(layout, i), SPT_NPY_DOUBLE};
    for (int c = 0; c < layout->column_count; c++)
        columns[c < layout->lead_count ? c : c + layout->field_count].type =
            find_type(layout->columns[c]);
    return spt_npy_header(columns, count, (size_t)rows, to, capacity, &size) ? 0 : size;
}

size_t spt_sweep_head(const struct spt_sweep_layout *layout, unsigned long long rows, char *to,
                      size_t capacity)
{
    size_t used = 0;
    if (layout->form == SPT_SWEEP_NPY)
        return write_npy_head(layout, rows, to, capacity);
    for (int i = 0; layout->form == SPT_SWEEP_CSV && i < layout->field_count + layout->column_count;
         i++)
        used += (size_t)snprintf(to + used, capacity - used, "%s%s", i ? "," : "",
                                 spt_sweep_name_at(layout, i));
    if (used)
        to[used++] = '\n';
    return used;
}
