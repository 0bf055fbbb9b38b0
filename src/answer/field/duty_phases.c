/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/field/duty_parts.h"

/* A phase: numbers with the units of CSV and JSON, then what text has in their place. */
struct phase_row {
    const char *name;
    double time_h, share, speed, load_n, side_n;
    double inboard_n, outboard_n, hardest_n; /* equivalent loads; the larger one of both rows */
    double temperature_c, samples;
    const char *time; /* NULL: a cell has room for the number */
    const char *side; /* of a load below 0; NULL: it is not */
    double load_kn, side_kn, hardest_kn, rounded_c;
};

/* Whole hours that fit into a cell of this width; NULL where the usual form does. */
static const char *tell_time(struct spt_page *page, double time_h)
{
    return time_h >= 99999.5 && time_h < 999999.5 ? spt_page_words(page, "%.0f", time_h) : NULL;
}

static const char *tell_side(struct spt_page *page, double side_n)
{
    char cell[SPT_HOURS_LENGTH];
    return side_n < 0 ? spt_page_words(page, "-%s", spt_text_cell(-side_n / 1e3, cell)) : NULL;
}

static struct phase_row make_row(struct spt_page *page, const struct spt_duty_report *report,
                                 const struct spt_history_bin *bin)
{
    char name[SPT_DUTY_NAME];
    const double hardest_n = fmax(bin->equivalent_n[0], bin->equivalent_n[1]);
    return (struct phase_row){
        .name = spt_page_words(page, "%s", spt_duty_name_phase(report, bin, name)),
        .time_h = bin->time_h,
        .share = bin->time_h / report->summary->hours,
        .speed = report->speed_key || bin->standing ? bin->speed_rpm : (double)NAN,
        .load_n = bin->load_n,
        .side_n = bin->side_n,
        .inboard_n = bin->equivalent_n[0],
        .outboard_n = bin->equivalent_n[1],
        .hardest_n = hardest_n,
        .temperature_c = bin->temperature_c,
        .samples = (double)bin->sums.samples,
        .time = tell_time(page, bin->time_h),
        .side = tell_side(page, bin->side_n),
        .load_kn = bin->load_n / 1e3,
        .side_kn = bin->side_n / 1e3,
        .hardest_kn = hardest_n / 1e3,
        .rounded_c = round(bin->temperature_c),
    };
}

/* A column of text and HTML, and one of CSV or JSON. */
#define SHOWN(first, second, of, wide, member)                                                     \
    .head = (first), .under = (second), .kind = (of), .width = (wide), .gap = 1,                   \
    .at = offsetof(struct phase_row, member)
#define KEPT(name, member)                                                                         \
    {                                                                                              \
        .key = (name), .kind = SPT_NUMBER, .at = offsetof(struct phase_row, member)                \
    }

/* "radial_load_n" */
static const char *key_of(struct spt_page *page, const char *load)
{
    return load ? spt_page_words(page, "%s_n", load) : NULL;
}

static const char *speed_key(const struct spt_duty_report *report)
{
    return spt_duty_is_on_road(report) ? "road_speed_km_h" : "speed_rpm";
}

/* The columns of text and HTML, then those of CSV. */
static void show_rows(struct spt_page *page, const struct spt_duty_report *report,
                      const struct phase_row *rows)
{
    enum { SHOWN_SPEED = 3, SHOWN_SIDE = 5, SPEED = 10, LOAD, SIDE };
    static const struct spt_column columns[] = {
        {.head = "phase",
         .key = "phase",
         .kind = SPT_WORDS,
         .width = 16,
         .at = offsetof(struct phase_row, name)},
        {SHOWN("time", "h", SPT_CELL, 6, time_h), .instead = offsetof(struct phase_row, time)},
        {SHOWN("time", "%", SPT_PERCENT, 7, share), .digits = 3},
        [SHOWN_SPEED] = {SHOWN("speed", NULL, SPT_CELL, 5, speed)},
        {SHOWN("load", "kN", SPT_CELL, 6, load_kn)},
        [SHOWN_SIDE] = {SHOWN("side", "kN", SPT_CELL, 6, side_kn),
                        .instead = offsetof(struct phase_row, side)},
        {SHOWN("P", "kN", SPT_CELL, 6, hardest_kn)},
        {SHOWN("temp", "degC", SPT_NUMBER, 5, rounded_c)},
        {SHOWN("samples", NULL, SPT_FIXED, 8, samples)},
        KEPT("time_h", time_h),
        [SPEED] = KEPT(NULL, speed),
        [LOAD] = KEPT(NULL, load_n),
        [SIDE] = KEPT(NULL, side_n),
        KEPT("equivalent_load_n", hardest_n),
        KEPT("temperature_c", temperature_c),
        KEPT("samples", samples),
    };
    const int count = (int)(sizeof columns / sizeof *columns);
    struct spt_column *copy = spt_page_columns(page, columns, count);
    if (copy) {
        copy[SHOWN_SPEED].under = spt_duty_speed_unit(report);
        copy[SHOWN_SIDE].head = spt_duty_has_side(report) ? copy[SHOWN_SIDE].head : NULL;
        copy[SPEED].key = speed_key(report);
        copy[LOAD].key = key_of(page, report->load_key);
        copy[SIDE].key = key_of(page, report->side_key);
    }
    spt_page_table(page, "phases",
                   &(struct spt_table){.columns = copy,
                                       .column_count = count,
                                       .rows = rows,
                                       .row_size = sizeof *rows,
                                       .row_count = report->count,
                                       .is_data = true});
}

/* The same rows with the names and the order that they have in JSON. */
static void keep_members(struct spt_page *page, const struct spt_duty_report *report,
                         const struct phase_row *rows)
{
    enum { SPEED = 3, LOAD, SIDE, OUTBOARD = 7 };
    static const struct spt_column columns[] = {
        {.key = "name", .kind = SPT_WORDS, .at = offsetof(struct phase_row, name)},
        KEPT("time_h", time_h),
        KEPT("time_share", share),
        [SPEED] = KEPT(NULL, speed),
        [LOAD] = KEPT(NULL, load_n),
        [SIDE] = KEPT(NULL, side_n),
        KEPT("equivalent_load_n", inboard_n),
        [OUTBOARD] = KEPT("equivalent_load_outboard_n", outboard_n),
        KEPT("temperature_c", temperature_c),
        KEPT("samples", samples),
    };
    const int count = (int)(sizeof columns / sizeof *columns);
    struct spt_column *copy = spt_page_columns(page, columns, count);
    if (copy) {
        copy[SPEED].key = report->speed_key ? speed_key(report) : NULL;
        copy[LOAD].key = key_of(page, report->load_key);
        copy[SIDE].key = key_of(page, report->side_key);
        copy[OUTBOARD].key = report->history->rows > 1 ? copy[OUTBOARD].key : NULL;
    }
    spt_page_table(page, "members",
                   &(struct spt_table){.columns = copy,
                                       .column_count = count,
                                       .rows = rows,
                                       .row_size = sizeof *rows,
                                       .row_count = report->count});
}

void spt_duty_page_phases(struct spt_page *page, const struct spt_duty_report *report)
{
    struct phase_row *rows = spt_page_allocate(page, (size_t)report->count * sizeof *rows);
    for (int i = 0; rows && i < report->count; i++)
        rows[i] = make_row(page, report, &report->bins[i]);
    show_rows(page, report, rows);
    keep_members(page, report, rows);
}
