/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The confirmed cases of a shop. */
#include <math.h>
#include <string.h>

#include "scenario/case_file.h"
#include "scenario/text/csv_row.h"
#include "scenario/text/fields.h"
#include "scenario/text/units.h"

#define COUNT_MAX 1e9

enum column { DATE, CAUSE, COUNT, REMARK, COLUMN_COUNT };
static const char *const column_names[COLUMN_COUNT] = {"date", "cause", "count", "remark"};

/* Places of the columns; -1: absent. Result: false with diagnostics. */
static bool read_header(struct spt_csv_reader *reader, int *places)
{
    const int before = reader->diags->raised;
    for (int c = 0; c < COLUMN_COUNT; c++)
        places[c] = -1;
    if (!spt_csv_next(reader)) {
        if (reader->diags->raised == before)
            spt_diagnostics_add(reader->diags, (struct spt_mark){reader->source, 1, 1},
                                "there is nothing in it; the first row names the columns: "
                                "date,cause,count,remark");
        return false;
    }
    for (int i = 0; i < reader->cell_count; i++) {
        int c = 0;
        while (c < COLUMN_COUNT && strcmp(reader->cells[i].text, column_names[c]) != 0)
            c++;
        if (c == COLUMN_COUNT)
            spt_diagnostics_add(reader->diags, reader->cells[i].mark,
                                "`%.60s` is not a column of counts; the columns are date, cause, "
                                "count, remark",
                                reader->cells[i].text);
        else if (places[c] >= 0)
            spt_diagnostics_add(reader->diags, reader->cells[i].mark, "there are two columns `%s`",
                                column_names[c]);
        else
            places[c] = i;
    }
    if (reader->diags->raised == before && places[CAUSE] < 0)
        spt_diagnostics_add(reader->diags, reader->cells[0].mark, "the header lacks `cause`");
    return reader->diags->raised == before;
}

static int read_cause(const struct spt_csv_reader *reader, const struct spt_csv_cell *cell,
                      const struct spt_causes *causes)
{
    const int cause = spt_causes_cause(causes, cell->text);
    const char *near = spt_causes_nearest_cause(causes, cell->text);
    if (cause < 0 && near)
        spt_diagnostics_add(reader->diags, cell->mark, "`%.60s` is not a cause; did you mean `%s`?",
                            cell->text, near);
    else if (cause < 0)
        spt_diagnostics_add(reader->diags, cell->mark,
                            "`%.60s` is not a cause; the table `diagnosis` of the catalog lists "
                            "them",
                            cell->text);
    return cause;
}

/* The count of a row, 1 where the column is absent or empty; below 0 with a diagnostic. */
static double read_count(const struct spt_csv_reader *reader, int place)
{
    double count = 1;
    if (place < 0 || !reader->cells[place].length)
        return 1;
    const struct spt_csv_cell *cell = &reader->cells[place];
    if (!spt_quantity_read(cell->text, SPT_NO_DIMENSION, &count) && count >= 0 &&
        count <= COUNT_MAX && count == floor(count))
        return count;
    spt_diagnostics_add(reader->diags, cell->mark,
                        "`%.60s` is not a count; write a whole number from 0 to 1e9", cell->text);
    return -1;
}

/* The number of `count` digits at `at`; -1 where one is none. */
static int read_digits(const char *at, int count)
{
    int number = 0;
    for (int i = 0; i < count; i++) {
        if (at[i] < '0' || at[i] > '9')
            return -1;
        number = 10 * number + at[i] - '0';
    }
    return number;
}

/* True for a day of the calendar, written 2026-03-02. */
static bool is_date(const char *text)
{
    static const int days[] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    if (strlen(text) != 10 || text[4] != '-' || text[7] != '-')
        return false;
    const int year = read_digits(text, 4), month = read_digits(text + 5, 2);
    const int day = read_digits(text + 8, 2);
    if (year < 1 || month < 1 || month > 12)
        return false;
    const bool leap = (year % 4 == 0 && year % 100 != 0) || year % 400 == 0;
    return day >= 1 && day <= days[month - 1] + (month == 2 && leap);
}

/* The date counts nothing, but one that is none shows a shifted column. It may be empty. */
static void check_date(const struct spt_csv_reader *reader, int place)
{
    if (place < 0 || !reader->cells[place].length || is_date(reader->cells[place].text))
        return;
    spt_diagnostics_add(reader->diags, reader->cells[place].mark,
                        "`%.60s` is not a date; write it as 2026-03-02, or leave it empty",
                        reader->cells[place].text);
}

bool spt_past_read(FILE *in, const struct spt_source *source, const struct spt_causes *causes,
                   double *counts, struct spt_diagnostics *diags)
{
    struct spt_csv_reader reader;
    int places[COLUMN_COUNT], head_count;
    spt_csv_begin(&reader, in, source, diags);
    if (!read_header(&reader, places))
        return false;
    head_count = reader.cell_count;
    while (spt_csv_next(&reader)) {
        if (reader.cell_count != head_count) {
            spt_diagnostics_add(diags, reader.cells[0].mark, "the row has %d cells, the header %d",
                                reader.cell_count, head_count);
            continue;
        }
        check_date(&reader, places[DATE]);
        const int cause = read_cause(&reader, &reader.cells[places[CAUSE]], causes);
        const double count = read_count(&reader, places[COUNT]);
        if (cause >= 0 && count >= 0)
            counts[cause] += count;
    }
    return !spt_diagnostics_any(diags);
}
