/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "history/history_file.h"

#include <math.h>
#include <string.h>

#include "format/number/number.h"
#include "scenario/text/fields.h"
#include "scenario/text/units.h"

#define STAMP_MAX 1e15 /* in the unit of the file: seconds since 1970 fit too */

/* A column: its dimension and range in the program's units. */
static const struct {
    const char *name;
    enum spt_dimension dimension;
    double min, max;
    const char *range; /* in words, with a unit */
    bool above_min;    /* min itself is not allowed */
} columns[HISTORY_COLUMNS] = {
    [HISTORY_TIME] = {"time", SPT_DURATION, -STAMP_MAX, STAMP_MAX, "no more than 1e15 from 0",
                      false},
    [HISTORY_DURATION] = {"duration", SPT_DURATION, SPT_HISTORY_HOURS_MIN, SPT_HISTORY_HOURS_MAX,
                          "1e-12 to 1e9 h", false},
    [HISTORY_RADIAL] = {"radial_load", SPT_FORCE, -SPT_HISTORY_LOAD_MAX_N, SPT_HISTORY_LOAD_MAX_N,
                        "no more than 1e9 N", false},
    [HISTORY_AXIAL] = {"axial_load", SPT_FORCE, -SPT_HISTORY_LOAD_MAX_N, SPT_HISTORY_LOAD_MAX_N,
                       "no more than 1e9 N", false},
    [HISTORY_EQUIVALENT] = {"equivalent_load", SPT_FORCE, 0, SPT_HISTORY_LOAD_MAX_N, "0 to 1e9 N",
                            false},
    [HISTORY_WHEEL_LOAD] = {"wheel_load", SPT_FORCE, 0, SPT_HISTORY_LOAD_MAX_N, "0 to 1e9 N",
                            false},
    [HISTORY_SIDE_FORCE] = {"side_force", SPT_FORCE, -SPT_HISTORY_LOAD_MAX_N,
                            SPT_HISTORY_LOAD_MAX_N, "no more than 1e9 N either way", false},
    [HISTORY_SPEED] = {"speed", SPT_ROTATION, -1e6, 1e6, "no more than 1e6 rpm either way", false},
    [HISTORY_ROAD_SPEED] = {"road_speed", SPT_ROAD_SPEED, -1e4, 1e4,
                            "no more than 1e4 km/h either way", false},
    [HISTORY_TEMPERATURE_COLUMN] = {"temperature", SPT_TEMPERATURE, -60, 300,
                                    "above -60 and up to 300 degC", true},
};

/* Pairs of columns that exclude each other: they state the same quantity, or belong to different
 * machines. */
static const struct {
    enum history_column first, second;
    const char *reason;
} conflicts[] = {
    {HISTORY_TIME, HISTORY_DURATION, "say the same thing twice; keep one"},
    {HISTORY_SPEED, HISTORY_ROAD_SPEED, "say the same thing twice; keep one"},
    {HISTORY_EQUIVALENT, HISTORY_RADIAL, "do not go together; keep one of the two ways"},
    {HISTORY_EQUIVALENT, HISTORY_AXIAL, "do not go together; keep one of the two ways"},
    {HISTORY_WHEEL_LOAD, HISTORY_RADIAL, "do not go together: one is of a hub, one of a bearing"},
    {HISTORY_WHEEL_LOAD, HISTORY_AXIAL, "do not go together: one is of a hub, one of a bearing"},
    {HISTORY_WHEEL_LOAD, HISTORY_EQUIVALENT,
     "do not go together: one is of a hub, one of a bearing"},
    {HISTORY_SIDE_FORCE, HISTORY_RADIAL, "do not go together: one is of a hub, one of a bearing"},
    {HISTORY_SIDE_FORCE, HISTORY_AXIAL, "do not go together: one is of a hub, one of a bearing"},
    {HISTORY_SIDE_FORCE, HISTORY_EQUIVALENT,
     "do not go together: one is of a hub, one of a bearing"},
};

const char *spt_history_column_name(enum history_column column)
{
    return columns[column].name;
}

bool spt_history_file_has(const struct history_file *file, enum history_column column)
{
    return file->places[column] >= 0;
}

/* ---- header ------------------------------------------------------------------------------------
 */

static void refuse_column(const struct spt_csv_cell *cell, const char *name,
                          struct spt_diagnostics *diags)
{
    const char *names[HISTORY_COLUMNS];
    for (int i = 0; i < HISTORY_COLUMNS; i++)
        names[i] = columns[i].name;
    const char *near = spt_nearest(name, names, HISTORY_COLUMNS);
    if (strchr(cell->text, ';'))
        spt_diagnostics_add(diags, cell->mark,
                            "the columns should be divided by commas, not by semicolons, and "
                            "decimals by points");
    else if (near)
        spt_diagnostics_add(diags, cell->mark,
                            "`%.60s` is not a column of a history; did you mean `%s`?", name, near);
    else
        spt_diagnostics_add(diags, cell->mark,
                            "`%.60s` is not a column of a history; the columns are `time` or "
                            "`duration`, `radial_load`, `axial_load`, `equivalent_load`, "
                            "`wheel_load`, `side_force`, `speed`, `road_speed`, `temperature`; "
                            "take others out",
                            name);
}

static void read_unit(struct history_file *file, const struct spt_csv_cell *cell,
                      enum history_column column, const char *unit, struct spt_diagnostics *diags)
{
    enum spt_dimension dimension = columns[column].dimension;
    const char *name = columns[column].name;
    char one[SPT_CSV_CELL_MAX + 8], zero[SPT_CSV_CELL_MAX + 8];
    double at_one = 1, at_zero = 0;
    snprintf(one, sizeof one, "1 %s", unit);
    snprintf(zero, sizeof zero, "0 %s", unit);
    if (!*unit)
        spt_diagnostics_add(diags, cell->mark,
                            "`%s` has no unit; add one in brackets, such as `%s [%s]` (%s)", name,
                            name, spt_dimension_unit(dimension), SPT_UNITS_OF(dimension));
    else if (spt_quantity_read(one, dimension, &at_one) ||
             spt_quantity_read(zero, dimension, &at_zero))
        spt_diagnostics_add(diags, cell->mark,
                            "`%s` has a unit that does not belong here, `%.20s`; accepted: %s",
                            name, unit, SPT_UNITS_OF(dimension));
    file->factors[column] = at_one - at_zero;
    file->offsets[column] = at_zero;
}

static void read_head(struct history_file *file, const struct spt_csv_cell *cell, int place,
                      struct spt_diagnostics *diags)
{
    char name[SPT_CSV_CELL_MAX + 1], unit[SPT_CSV_CELL_MAX + 1];
    bool well_formed = spt_csv_split_head(cell->text, name, unit);
    int column = 0;
    while (column < HISTORY_COLUMNS && strcmp(name, columns[column].name) != 0)
        column++;
    if (column == HISTORY_COLUMNS || strchr(cell->text, ';')) {
        refuse_column(cell, name, diags);
        return;
    }
    if (file->places[column] >= 0)
        spt_diagnostics_add(diags, cell->mark, "there are two columns `%s`", name);
    else if (!well_formed)
        spt_diagnostics_add(diags, cell->mark,
                            "the unit should end the name, in brackets, as in `speed [rpm]`");
    else
        read_unit(file, cell, (enum history_column)column, unit, diags);
    file->places[column] = place;
    file->marks[column] = cell->mark;
}

static void check_columns(const struct history_file *file, struct spt_diagnostics *diags)
{
    struct spt_mark top = file->reader.cells[0].mark;
    for (size_t i = 0; i < sizeof conflicts / sizeof *conflicts; i++)
        if (spt_history_file_has(file, conflicts[i].first) &&
            spt_history_file_has(file, conflicts[i].second))
            spt_diagnostics_add(diags, file->marks[conflicts[i].second], "`%s` and `%s` %s",
                                columns[conflicts[i].first].name, columns[conflicts[i].second].name,
                                conflicts[i].reason);
    if (!spt_history_file_has(file, HISTORY_TIME) && !spt_history_file_has(file, HISTORY_DURATION))
        spt_diagnostics_add(diags, top,
                            "the header lacks `time [s]` (when each row begins) or `duration [s]` "
                            "(how long it lasts)");
    for (int i = HISTORY_RADIAL; i <= HISTORY_SIDE_FORCE; i++)
        if (spt_history_file_has(file, (enum history_column)i))
            return;
    spt_diagnostics_add(diags, top,
                        "the header lacks a load: `radial_load [kN]`, `axial_load [kN]` or "
                        "`equivalent_load [kN]`; for a hub `wheel_load [kN]` or "
                        "`side_force [kN]`");
}

bool spt_history_file_head(struct history_file *file, FILE *in, const char *name,
                           struct spt_diagnostics *diags)
{
    *file = (struct history_file){.source = {.name = name}, .gap_h = (double)NAN};
    for (int i = 0; i < HISTORY_COLUMNS; i++)
        file->places[i] = -1;
    spt_csv_begin(&file->reader, in, &file->source, diags);
    if (!spt_csv_next(&file->reader)) {
        if (!spt_diagnostics_any(diags))
            spt_diagnostics_add(diags, (struct spt_mark){&file->source, 1, 1},
                                "there is nothing in it; the first row names the columns, such as "
                                "`time [s],radial_load [kN],speed [rpm]`");
        return false;
    }
    file->cell_count = file->reader.cell_count;
    for (int i = 0; i < file->cell_count; i++)
        read_head(file, &file->reader.cells[i], i, diags);
    if (!spt_diagnostics_any(diags))
        check_columns(file, diags);
    return !spt_diagnostics_any(diags);
}

/* ---- rows --------------------------------------------------------------------------------------
 */

static void refuse_number(const struct spt_csv_cell *cell, enum history_column column,
                          struct spt_diagnostics *diags)
{
    double value;
    enum spt_quantity_problem problem = spt_quantity_read(cell->text, SPT_NO_DIMENSION, &value);
    if (!cell->length)
        spt_diagnostics_add(diags, cell->mark,
                            "there is no `%s` in this row; a row is never left out: put the value "
                            "in, or take the row out and see to the time it covers",
                            columns[column].name);
    else if (problem == SPT_QUANTITY_WRONG_UNIT)
        spt_diagnostics_add(diags, cell->mark,
                            "`%.60s` should be a number alone; its unit stands in the header",
                            cell->text);
    else if (problem == SPT_QUANTITY_COMMA || problem == SPT_QUANTITY_BLANK)
        spt_diagnostics_add(diags, cell->mark,
                            "`%.60s` has a %s; write a decimal point, and no mark or blank between "
                            "thousands, such as 1250.5",
                            cell->text,
                            problem == SPT_QUANTITY_COMMA ? "comma" : "blank between its digits");
    else
        spt_diagnostics_add(diags, cell->mark, "`%.60s` is not a number, such as 1250.5",
                            cell->text);
}

/* Reads a cell of the row into `*value`, in the unit of the program; leaves `*value` unchanged
 * where the column is absent. */
static void read_cell(const struct history_file *file, enum history_column column, double *value,
                      struct spt_diagnostics *diags)
{
    if (!spt_history_file_has(file, column))
        return;
    const struct spt_csv_cell *cell = &file->reader.cells[file->places[column]];
    const char *end = cell->text + cell->length;
    double number;
    if (spt_number_read(cell->text, end, &number) != end || !isfinite(number)) {
        refuse_number(cell, column, diags);
        return;
    }
    *value =
        column == HISTORY_TIME ? number : number * file->factors[column] + file->offsets[column];
    if (!(*value >= columns[column].min && *value <= columns[column].max) ||
        (columns[column].above_min && !(*value > columns[column].min)))
        spt_diagnostics_add(diags, cell->mark, "`%.60s` is out of range; `%s` must be %s",
                            cell->text, columns[column].name, columns[column].range);
}

/* A row that is being read. */
struct row {
    double stamp; /* in the unit of the file, so that differences are exact */
    struct spt_history_sample sample;
    int line;
};

static bool read_row(const struct history_file *file, const struct history_fixed *fixed,
                     struct row *row)
{
    const struct spt_csv_reader *reader = &file->reader;
    struct spt_diagnostics *diags = reader->diags;
    struct spt_history_sample *sample = &row->sample;
    double road_km_h = (double)NAN;
    int before = diags->raised;
    row->line = reader->cells[0].mark.line;
    if (reader->cell_count != file->cell_count) {
        spt_diagnostics_add(diags, reader->cells[0].mark,
                            "this row has %d cell%s, the header has %d%s", reader->cell_count,
                            reader->cell_count == 1 ? "" : "s", file->cell_count,
                            reader->cell_count > file->cell_count
                                ? "; decimals are written with a point, not a comma"
                                : "");
        return false;
    }
    *sample = (struct spt_history_sample){.speed_rpm = fixed->speed_rpm,
                                          .load_n = fixed->load_n,
                                          .side_n = fixed->side_n,
                                          .temperature_c = fixed->temperature_c};
    read_cell(file, HISTORY_TIME, &row->stamp, diags);
    read_cell(file, HISTORY_DURATION, &sample->duration_h, diags);
    read_cell(file, HISTORY_RADIAL, &sample->load_n, diags);
    read_cell(file, HISTORY_EQUIVALENT, &sample->load_n, diags);
    read_cell(file, HISTORY_WHEEL_LOAD, &sample->load_n, diags);
    read_cell(file, HISTORY_AXIAL, &sample->side_n, diags);
    read_cell(file, HISTORY_SIDE_FORCE, &sample->side_n, diags);
    read_cell(file, HISTORY_SPEED, &sample->speed_rpm, diags);
    read_cell(file, HISTORY_ROAD_SPEED, &road_km_h, diags);
    read_cell(file, HISTORY_TEMPERATURE_COLUMN, &sample->temperature_c, diags);
    if (!isnan(road_km_h))
        sample->speed_rpm = road_km_h * fixed->rpm_per_km_h;
    if (!isnan(fixed->side_share))
        sample->side_n = fixed->side_share * sample->load_n;
    if (spt_history_file_has(file, HISTORY_WHEEL_LOAD) && sample->load_n == 0 &&
        sample->speed_rpm != 0 && diags->raised == before)
        spt_diagnostics_add(diags, reader->cells[file->places[HISTORY_WHEEL_LOAD]].mark,
                            "a wheel that turns on the road carries a load; put the least that "
                            "it carried in place of 0");
    return diags->raised == before;
}

static void count_step(struct history_steps *steps, double hours)
{
    int power;
    double part = frexp(hours, &power); /* 0.5 <= part < 1 */
    int length = (power - HISTORY_LEAST) * HISTORY_FINE + (int)((2 * part - 1) * HISTORY_FINE);
    if (length < 0 || length >= HISTORY_LENGTHS)
        return;
    steps->counts[length]++;
    steps->hours[length] += hours;
}

/* Approximate median of the step lengths: the mean of the class in which the median lies, which is
 * exact where all steps of that class are equal.
 * For an even number of steps the lower of the two middle ones. */
static double find_usual(const struct history_steps *steps, long long samples)
{
    long long before = 0;
    for (int i = 0; i < HISTORY_LENGTHS; i++) {
        before += steps->counts[i];
        if (steps->counts[i] && 2 * before >= samples)
            return steps->hours[i] / (double)steps->counts[i];
    }
    return (double)NAN;
}

/* Adds a sample to the history, unless its duration is a gap. */
static void add_sample(struct history_file *file, const struct row *row,
                       struct spt_history *history, struct spt_history_summary *summary)
{
    double duration_h = row->sample.duration_h;
    if (duration_h > file->gap_h) {
        summary->gaps++;
        summary->gaps_h += duration_h;
        return;
    }
    enum spt_status status = spt_history_add(history, &row->sample);
    if (status) {
        spt_diagnostics_add(file->reader.diags, (struct spt_mark){&file->source, row->line, 1},
                            "no equivalent load can be made of these loads: %s",
                            spt_status_text(status));
        return;
    }
    summary->samples++;
    count_step(&file->steps, duration_h);
    if (duration_h > summary->longest_h) {
        summary->longest_h = duration_h;
        summary->longest_line = row->line;
    }
}

/* Adds the previous row as a sample: its values hold up to the time stamp of this row. */
static void end_row_before(struct history_file *file, const struct row *row, struct row *before,
                           struct spt_history *history, struct spt_history_summary *summary)
{
    const struct spt_csv_cell *cell = &file->reader.cells[file->places[HISTORY_TIME]];
    before->sample.duration_h = (row->stamp - before->stamp) * file->factors[HISTORY_TIME];
    if (before->sample.duration_h > SPT_HISTORY_HOURS_MAX)
        spt_diagnostics_add(file->reader.diags, cell->mark,
                            "the time `%.60s` comes more than 1e9 h after that of the row before "
                            "(line %d)",
                            cell->text, before->line);
    else if (before->sample.duration_h >= SPT_HISTORY_HOURS_MIN)
        add_sample(file, before, history, summary);
    else
        spt_diagnostics_add(file->reader.diags, cell->mark,
                            "the time `%.60s` does not come after that of the row before (line "
                            "%d); put the rows in order and keep one row for each time",
                            cell->text, before->line);
}

static void check_end(const struct history_file *file, bool stamped,
                      const struct spt_history_summary *summary)
{
    struct spt_diagnostics *diags = file->reader.diags;
    struct spt_mark end = {&file->source, file->reader.line, 1};
    if (spt_diagnostics_any(diags) || diags->out_of_memory || summary->samples)
        return;
    if (!summary->rows)
        spt_diagnostics_add(diags, end, "there is a header but no row below it");
    else if (summary->gaps)
        spt_diagnostics_add(diags, end,
                            "all the time in it counts as gaps (`--gap`); nothing is left");
    else if (stamped)
        spt_diagnostics_add(diags, end,
                            "one row with a `time` says not how long it lasts; the last row only "
                            "ends the record, so there must be two or more");
}

bool spt_history_file_rows(struct history_file *file, const struct history_fixed *fixed,
                           struct spt_history *history, struct spt_history_summary *summary)
{
    bool stamped = spt_history_file_has(file, HISTORY_TIME), waiting = false;
    struct row row = {0}, before = {0};
    while (spt_csv_next(&file->reader)) {
        summary->rows++;
        if (!read_row(file, fixed, &row)) {
            waiting = false;
            continue;
        }
        if (!stamped)
            add_sample(file, &row, history, summary);
        else if (waiting)
            end_row_before(file, &row, &before, history, summary);
        before = row;
        waiting = true;
    }
    summary->stamped = stamped;
    summary->gap_h = file->gap_h;
    summary->usual_h = find_usual(&file->steps, summary->samples);
    check_end(file, stamped, summary);
    return !spt_diagnostics_any(file->reader.diags) && !file->reader.diags->out_of_memory;
}
