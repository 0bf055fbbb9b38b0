/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sweep/cases.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "base/utf8.h"
#include "format/csv.h"
#include "format/number/number.h"

#define CELL_MAX 80
#define LABEL "label"

static const char open_quote[] = "the quotes of this cell do not close it";
static const char zero_byte[] = "a zero byte is no part of a table; delete it";

/* One cell of a line, trimmed and without quotes. */
struct cell {
    const char *start; /* in the line */
    const char *text;
    size_t length;
    bool broken; /* a quote that does not end, or text after it */
};

static bool has_zero(const struct cell *cell)
{
    return memchr(cell->text, 0, cell->length) != NULL;
}

bool spt_cases_is_blank(const char *line, size_t length)
{
    size_t i = 0;
    while (i < length && (line[i] == ' ' || line[i] == '\t' || line[i] == '\r'))
        i++;
    return i == length || line[i] == '#';
}

static void trim(struct cell *cell)
{
    while (cell->length && (*cell->text == ' ' || *cell->text == '\t')) {
        cell->text++;
        cell->length--;
    }
    while (cell->length &&
           (cell->text[cell->length - 1] == ' ' || cell->text[cell->length - 1] == '\t'))
        cell->length--;
}

/* The quote that closes a quoted text: one that is not doubled. NULL: none. */
static const char *find_close(const char *from, const char *end)
{
    const char *close = memchr(from, '"', (size_t)(end - from));
    while (close && close + 1 < end && close[1] == '"')
        close = memchr(close + 2, '"', (size_t)(end - close - 2));
    return close;
}

/* Reads the cell at `*at` and moves `*at` past the comma. False after the last cell. */
static bool next_cell(const char **at, const char *end, struct cell *cell)
{
    if (*at > end)
        return false;
    const char *start = *at;
    const char *from = start;
    while (from < end && *from == ' ')
        from++;
    *cell = (struct cell){.start = from < end ? from : start};
    if (from < end && *from == '"') {
        const char *close = find_close(from + 1, end);
        const char *comma = close ? memchr(close, ',', (size_t)(end - close)) : NULL;
        const char *stop = comma ? comma : end;
        cell->text = from + 1;
        cell->length = (size_t)((close ? close : end) - from - 1);
        for (const char *rest = close ? close + 1 : end; rest < stop; rest++)
            cell->broken = cell->broken || *rest != ' ';
        cell->broken = cell->broken || !close;
        *at = stop + 1;
        return true;
    }
    const char *comma = memchr(start, ',', (size_t)(end - start));
    cell->text = start;
    cell->length = (size_t)((comma ? comma : end) - start);
    trim(cell);
    *at = (comma ? comma : end) + 1;
    return true;
}

/* Pointer past the end of the record that starts at `at`, or NULL where a quote is open at `end` or
 * no line end was found. `last`: the text ends at `end`. */
static const char *find_record_end(const char *at, const char *end, bool last)
{
    const char *stop = memchr(at, '\n', (size_t)(end - at)); /* the end of this line */
    for (;;) {
        while (at < end && *at == ' ')
            at++;
        if (at < end && *at == '"') {
            const char *close = find_close(at + 1, end);
            if (!close || (close + 1 == end && !last)) /* the next character may double it */
                return NULL;
            at = close + 1;
            if (stop && at > stop)
                stop = memchr(at, '\n', (size_t)(end - at));
        }
        const char *comma = memchr(at, ',', (size_t)((stop ? stop : end) - at));
        if (!comma && !stop)
            return last ? end : NULL;
        if (!comma)
            return stop + 1;
        at = comma + 1;
    }
}

static unsigned count_lines(const char *at, const char *end)
{
    unsigned lines = 0;
    while (at < end) {
        const char *stop = memchr(at, '\n', (size_t)(end - at));
        lines++;
        at = stop ? stop + 1 : end;
    }
    return lines;
}

size_t spt_cases_record(const char *text, size_t length, bool more, unsigned *lines)
{
    bool cut = length > SPT_CASES_RECORD_MAX;
    size_t seen = cut ? SPT_CASES_RECORD_MAX : length;
    const char *stop = memchr(text, '\n', seen);
    size_t first = stop ? (size_t)(stop + 1 - text) : seen;
    *lines = 1;
    if (!stop && (cut || more))
        return 0;
    if (!memchr(text, '"', first) || spt_cases_is_blank(text, stop ? first - 1 : first))
        return first;
    const char *end = find_record_end(text, text + seen, !cut && !more);
    if (!end)
        return cut || !more ? first : 0;
    *lines = count_lines(text, end);
    return (size_t)(end - text);
}

/* Column of a place in a line, in characters (UTF-8 continuation bytes do not count). */
static int find_column(const char *line, const char *place)
{
    int column = 1;
    for (; line < place; line++)
        column += ((unsigned char)*line & 0xc0u) != 0x80u;
    return column;
}

static size_t line_length(const char *line, size_t length)
{
    return length && line[length - 1] == '\r' ? length - 1 : length;
}

/* Parses "radial_load [kN]" into name and unit; false where a bracket is missing. */
static bool split_head(const struct cell *cell, char *name, char *unit)
{
    char text[CELL_MAX + 1] = "";
    size_t length = cell->length < CELL_MAX ? cell->length : CELL_MAX;
    memcpy(text, cell->text, length);
    char *open = strchr(text, '[');
    *unit = 0;
    if (open) {
        char *close = strchr(open, ']');
        if (!close || close[1])
            return false;
        *open = *close = 0;
        snprintf(unit, CELL_MAX, "%s", open + 1 + strspn(open + 1, " "));
        for (size_t used = strlen(unit); used && unit[used - 1] == ' ';)
            unit[--used] = 0;
    }
    memcpy(name, text, sizeof text);
    for (size_t used = strlen(name); used && name[used - 1] == ' ';)
        name[--used] = 0;
    return true;
}

static void refuse_name(const struct cell *cell, const char *name, struct spt_mark mark,
                        struct spt_diagnostics *diags)
{
    const char *names[SPT_SWEEP_FIELD_COUNT + 1];
    for (int i = 0; i < SPT_SWEEP_FIELD_COUNT; i++)
        names[i] = spt_sweep_key((enum spt_sweep_field)i);
    names[SPT_SWEEP_FIELD_COUNT] = LABEL;
    const char *near = spt_nearest(name, names, SPT_SWEEP_FIELD_COUNT + 1);
    if (memchr(cell->text, ';', cell->length))
        spt_diagnostics_add(diags, mark,
                            "the columns should be divided by commas, not by semicolons, and "
                            "decimals by points");
    else if (near)
        spt_diagnostics_add(diags, mark, "`%.60s` is no field of a load case; did you mean `%s`?",
                            name, near);
    else
        spt_diagnostics_add(diags, mark,
                            "`%.60s` is no field of a load case; the fields are those of the "
                            "section `sweep`, see `spalltime schema`, and `label`",
                            name);
}

/* Parses the unit of a column in the head. */
static void read_unit(enum spt_sweep_field field, const char *unit, struct spt_mark mark,
                      struct spt_cases_head *head, struct spt_diagnostics *diags)
{
    const struct spt_field *number = spt_sweep_number(field);
    enum spt_dimension dimension = number ? number->dimension : SPT_NO_DIMENSION;
    const char *key = spt_sweep_key(field);
    char one[CELL_MAX + 8];
    double value;
    snprintf(one, sizeof one, "1 %s", unit);
    if (dimension == SPT_NO_DIMENSION && *unit)
        spt_diagnostics_add(diags, mark, "`%s` takes no unit", key);
    else if (dimension == SPT_NO_DIMENSION)
        ;
    else if (!*unit)
        spt_diagnostics_add(diags, mark,
                            "`%s` has no unit; add one in brackets, such as `%s [%s]` (%s)", key,
                            key, spt_dimension_unit(dimension), SPT_UNITS_OF(dimension));
    else if (spt_quantity_read(one, dimension, &value) != SPT_QUANTITY_FINE)
        spt_diagnostics_add(diags, mark,
                            "`%s` has a unit that does not belong here, `%.20s`; accepted: %s", key,
                            unit, SPT_UNITS_OF(dimension));
    spt_quantity_unit(one, dimension, &head->units[head->count]);
}

/* Reads the head of the column `label`. */
static void read_label_head(int place, const char *unit, struct spt_mark mark,
                            struct spt_cases_head *head, struct spt_diagnostics *diags)
{
    if (*unit)
        spt_diagnostics_add(diags, mark, "`label` takes no unit");
    else if (head->label >= 0)
        spt_diagnostics_add(diags, mark, "there are two columns `label`");
    head->label = place;
}

/* Parses cell number `place` of the head. */
static void read_head_cell(const struct cell *cell, int place, struct spt_mark mark,
                           struct spt_cases_head *head, struct spt_diagnostics *diags)
{
    char name[CELL_MAX + 1], unit[CELL_MAX + 1];
    if (memchr(cell->text, ';', cell->length)) {
        refuse_name(cell, "", mark, diags);
        return;
    }
    if (has_zero(cell)) {
        spt_diagnostics_add(diags, mark, "%s", zero_byte);
        return;
    }
    if (cell->broken || cell->length > CELL_MAX || !split_head(cell, name, unit)) {
        spt_diagnostics_add(diags, mark,
                            "the unit should end the name, in brackets, as in `speed [rpm]`");
        return;
    }
    if (!strcmp(name, LABEL)) {
        read_label_head(place, unit, mark, head, diags);
        return;
    }
    int field = 0;
    while (field < SPT_SWEEP_FIELD_COUNT &&
           strcmp(spt_sweep_key((enum spt_sweep_field)field), name) != 0)
        field++;
    if (field == SPT_SWEEP_FIELD_COUNT) {
        refuse_name(cell, name, mark, diags);
        return;
    }
    for (int i = 0; i < head->count; i++)
        if ((int)head->fields[i] == field) {
            spt_diagnostics_add(diags, mark, "there are two columns `%s`", name);
            return;
        }
    read_unit((enum spt_sweep_field)field, unit, mark, head, diags);
    head->fields[head->count++] = (enum spt_sweep_field)field;
}

bool spt_cases_head(const struct spt_source *source, int number, const struct spt_case *question,
                    struct spt_cases_head *head, struct spt_diagnostics *diags)
{
    const char *at = source->text;
    for (int i = 1; i < number; i++)
        at = strchr(at, '\n') + 1;
    const char *line = at;
    size_t left = source->length - (size_t)(line - source->text);
    const char *stop = memchr(line, '\n', left);
    const char *end = line + line_length(line, stop ? (size_t)(stop - line) : left);
    struct cell cell;
    bool swept[SPT_SWEEP_FIELD_COUNT] = {false};
    int before = diags->raised;
    *head = (struct spt_cases_head){.kind = question->lubricant.kind, .label = -1};
    for (int place = 0; next_cell(&at, end, &cell); place++)
        read_head_cell(&cell, place,
                       (struct spt_mark){source, number, find_column(line, cell.start)}, head,
                       diags);
    if (diags->raised == before && head->count == 0)
        spt_diagnostics_add(diags, (struct spt_mark){source, number, 1},
                            "there is no column beside `label`; add what the cases replace, such "
                            "as `radial_load [kN]`");
    if (diags->raised > before)
        return false;
    for (int i = 0; i < head->count; i++)
        swept[head->fields[i]] = true;
    const char *conflict = spt_sweep_conflict(question, swept);
    if (conflict)
        spt_diagnostics_add(diags, (struct spt_mark){source, number, 1}, "%s", conflict);
    return !conflict;
}

/* Parses a number of the column and checks it against the range of its field. */
static bool read_number(const struct spt_cases_head *head, int column, const struct cell *cell,
                        double *value, char *problem)
{
    const struct spt_field *field = spt_sweep_number(head->fields[column]);
    double number;
    const char *end = spt_number_read(cell->text, cell->text + cell->length, &number);
    int shown = cell->length < 30 ? (int)cell->length : 30;
    const char *key = spt_sweep_key(head->fields[column]);
    const struct spt_unit *unit = &head->units[column];
    *value = number * unit->factor + unit->offset;
    if (end == cell->text + cell->length && *value >= field->min && *value <= field->max)
        return true;
    if (!cell->length)
        snprintf(problem, SPT_CASES_PROBLEM, "`%s` is empty; write a number", key);
    else if (!end)
        snprintf(problem, SPT_CASES_PROBLEM, "`%.*s` is not a number, which `%s` should be", shown,
                 cell->text, key);
    else if (end != cell->text + cell->length)
        snprintf(problem, SPT_CASES_PROBLEM,
                 "`%.*s` of `%s` should be a number alone; its unit stands in the head", shown,
                 cell->text, key);
    else
        snprintf(problem, SPT_CASES_PROBLEM,
                 "`%.*s` is out of range: `%s` goes from %.6g to %.6g%s%s", shown, cell->text, key,
                 (field->min - unit->offset) / unit->factor,
                 (field->max - unit->offset) / unit->factor, *unit->name ? " " : "", unit->name);
    return false;
}

static bool read_cell(const struct spt_cases_head *head, int column, const struct cell *cell,
                      double *value, char *problem)
{
    char text[CELL_MAX + 1];
    if (cell->broken || has_zero(cell)) {
        snprintf(problem, SPT_CASES_PROBLEM, "%s", cell->broken ? open_quote : zero_byte);
        return false;
    }
    if (spt_sweep_number(head->fields[column]))
        return read_number(head, column, cell, value, problem);
    size_t length = cell->length < CELL_MAX ? cell->length : CELL_MAX;
    memcpy(text, cell->text, length);
    text[length] = 0;
    *value = spt_sweep_word(head->fields[column], head->kind, text, problem);
    return !isnan(*value);
}

/* Whether the quote at `i` is the first of two. */
static bool is_doubled(const struct cell *cell, size_t i)
{
    return cell->text[i] == '"' && i + 1 < cell->length && cell->text[i + 1] == '"';
}

/* Reads a label, with doubled quotes unescaped. `problem` is empty on entry. */
static bool read_label(const struct cell *cell, struct spt_cases_label *label, char *problem)
{
    const char *held = cell->broken ? NULL : spt_utf8_line_problem(cell->text, cell->length);
    bool fits = true;
    label->length = 0;
    for (size_t i = 0; !cell->broken && !held && i < cell->length; i++) {
        fits = label->length < SPT_SWEEP_LABEL_MAX;
        if (!fits)
            break;
        label->text[label->length++] = cell->text[i];
        i += is_doubled(cell, i);
    }
    if (cell->broken)
        snprintf(problem, SPT_CASES_PROBLEM, "%s", open_quote);
    else if (held)
        snprintf(problem, SPT_CASES_PROBLEM,
                 "a label should be plain text of one line; this one has %s", held);
    else if (!fits)
        snprintf(problem, SPT_CASES_PROBLEM, "a label should have no more than %d bytes",
                 SPT_SWEEP_LABEL_MAX);
    return !*problem;
}

/* True where a cell has no line break; else false with a message. */
static bool is_whole(const struct cell *cell, char *problem)
{
    if (!memchr(cell->text, '\n', cell->length))
        return true;
    snprintf(problem, SPT_CASES_PROBLEM,
             "a line break stands in the quotes of this cell; write the cell in one line, or close "
             "its quotes; all of its record is passed over");
    return false;
}

int spt_cases_row(const struct spt_cases_head *head, const char *line, size_t length,
                  double *const *values, size_t at, struct spt_cases_label *label, char *problem)
{
    const char *place = line;
    const char *end = line + line_length(line, length);
    struct cell cell = {.start = line};
    int cells = 0, count = 0;
    int wanted = head->count + (head->label >= 0 ? 1 : 0);
    label->length = 0;
    *problem = 0;
    const bool breaks = memchr(line, '\n', (size_t)(end - line)) != NULL;
    for (; next_cell(&place, end, &cell); cells++) {
        bool fine = breaks && !is_whole(&cell, problem) ? false
                    : cells == head->label              ? read_label(&cell, label, problem)
                    : count < head->count
                        ? read_cell(head, count, &cell, &values[head->fields[count]][at], problem)
                        : true;
        if (!fine)
            return find_column(line, cell.start);
        count += cells != head->label;
    }
    if (cells == wanted)
        return 0;
    snprintf(problem, SPT_CASES_PROBLEM, "this row has %d cell%s, the head has %d", cells,
             cells == 1 ? "" : "s", wanted);
    return 1;
}

/* Copies the text of a cell with doubled quotes unescaped, or, where the quotes are not closed,
 * unchanged up to `stop`. */
static size_t copy_cell(const struct cell *cell, const char *stop, char *to)
{
    size_t length = 0;
    if (cell->broken) {
        length = (size_t)(stop - cell->start);
        memcpy(to, cell->start, length);
    }
    for (size_t i = 0; !cell->broken && i < cell->length; i++) {
        to[length++] = cell->text[i];
        i += is_doubled(cell, i);
    }
    spt_utf8_tame_lines(to, length);
    return length;
}

static bool is_number(const char *text, size_t length)
{
    double value;
    return length && spt_number_read(text, text + length, &value) == text + length;
}

char *spt_cases_put(const struct spt_cases_head *head, const char *line, size_t length,
                    char *scratch, char *to)
{
    const char *place = line;
    const char *end = line + line_length(line, length);
    struct cell cell;
    for (int at = 0; next_cell(&place, end, &cell); at++) {
        size_t size = copy_cell(&cell, place - 1, scratch);
        if (at)
            *to++ = ',';
        if (at == head->label || !is_number(scratch, size)) {
            to = spt_csv_put(to, scratch, size);
        } else {
            memcpy(to, scratch, size);
            to += size;
        }
    }
    return to;
}
