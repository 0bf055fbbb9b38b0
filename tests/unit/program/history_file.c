/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "history/history_file.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/allocate.h"
#include "spalltime/arena.h"
#include "support/near.h"

/* One history of equivalent loads that was read. */
struct reading {
    struct history_file file;
    struct spt_diagnostics diags;
    struct spt_history history;
    struct spt_history_summary summary;
    struct spt_history_bin bins[64];
    int count;
    void *memory;
    bool fine;
};

static void read_stream(FILE *in, double gap_h, struct reading *got)
{
    const struct spt_history_terms terms = {
        .kind = SPT_HISTORY_ALONE, .exponent = 3, .has_temperature = true, .bins = {4, 1, 2, 2}};
    const struct history_fixed fixed = {
        .speed_rpm = 100, .temperature_c = 20, .side_share = (double)NAN, .rpm_per_km_h = 2};
    size_t size = spt_history_size(&terms);
    memset(got, 0, sizeof *got);
    got->memory = malloc(size);
    cr_assert(got->memory && in);
    cr_assert_eq(spt_history_begin(&terms, got->memory, size, &got->history), SPT_OK);
    got->fine = spt_history_file_head(&got->file, in, "h.csv", &got->diags);
    got->file.gap_h = gap_h;
    if (got->fine)
        got->fine = spt_history_file_rows(&got->file, &fixed, &got->history, &got->summary);
    if (got->fine)
        cr_assert_eq(spt_history_bins(&got->history, terms.bins, got->bins, 64, &got->count),
                     SPT_OK);
}

static void read_text(const char *text, double gap_h, struct reading *got)
{
    char bytes[4096];
    size_t length = strlen(text);
    cr_assert_lt(length, sizeof bytes);
    memcpy(bytes, text, length + 1);
    FILE *in = fmemopen(bytes, length ? length : 1, "rb");
    if (!length)
        getc(in);
    read_stream(in, gap_h, got);
    fclose(in);
}

Test(history_file, line_ends_marks_quotes_units_and_orders_make_no_difference)
{
    static const char *const texts[] = {
        "duration [s],radial_load [kN],speed [rpm],temperature [degC]\n1800,12.5,417,50\n",
        "duration [h],radial_load [N],speed [r/min],temperature [K]\r\n0.5,12500,417,323.15\r\n",
        "\xEF\xBB\xBFspeed [r/s],duration [min],temperature [degF],radial_load [kN]\n6.95,30,122,"
        "12.5",
        "# a logger\n\n\"duration [s]\" , \"radial_load [kN]\",speed [rpm],temperature [degC]\r"
        " 1800 ,\"12.5\",417,5e1\r",
        "time [s],radial_load [kN],speed [rpm],temperature [degC]\n7,12.5,417,50\n9.5,12.5,417,50\n"
        "1807,99,1,1\n",
    };
    for (size_t i = 0; i < sizeof texts / sizeof *texts; i++) {
        struct reading got;
        read_text(texts[i], (double)NAN, &got);
        cr_expect(got.fine, "text %zu: %s", i, got.diags.list[0].text);
        cr_assert_eq(got.count, 1, "text %zu", i);
        cr_expect(near(got.bins[0].time_h, 0.5, 1e-14, 0), "text %zu", i);
        cr_expect(near(got.bins[0].speed_rpm, 417, 1e-14, 0), "text %zu", i);
        cr_expect(near(got.bins[0].load_n, 12500, 1e-14, 0), "text %zu", i);
        cr_expect(near(got.bins[0].temperature_c, 50, 1e-12, 0), "text %zu", i);
        free(got.memory);
    }
}

Test(history_file, a_row_holds_to_the_next_stamp_and_gaps_are_told)
{
    static const char text[] = "time [min],radial_load [kN]\n1e6,1\n1000001,2\n1000004,3\n"
                               "1000124,4\n1000125,5\n";
    struct reading got;
    read_text(text, (double)NAN, &got);
    cr_assert(got.fine);
    cr_expect(got.summary.rows == 5 && got.summary.samples == 4 && !got.summary.gaps);
    cr_expect(near(got.summary.longest_h, 2, 1e-14, 0) && got.summary.longest_line == 4);
    cr_expect(near(got.summary.usual_h, 1 / 60., 1e-12, 0)); /* of 1, 3, 120 and 1 min */
    free(got.memory);
    read_text(text, 0.1, &got);
    cr_assert(got.fine);
    cr_expect(got.summary.samples == 3 && got.summary.gaps == 1);
    cr_expect(near(got.summary.gaps_h, 2, 1e-14, 0));
    cr_expect(near(got.summary.longest_h, 0.05, 1e-14, 0) && got.summary.longest_line == 3);
    free(got.memory);
}

Test(history_file, road_speed_turns_the_bearing)
{
    struct reading got;
    read_text("duration [h],wheel_load [kN],road_speed [m/s]\n1,10,10\n", (double)NAN, &got);
    cr_assert(got.fine);
    cr_expect(near(got.bins[0].speed_rpm, 72, 1e-14, 0), "%g", got.bins[0].speed_rpm);
    free(got.memory);
}

/* The place and the start of each message. */
Test(history_file, a_row_that_cannot_be_used_refuses_the_file_with_its_place)
{
    static const struct {
        const char *text;
        int line, column;
        const char *words;
    } rows[] = {
        {"", 1, 1, "there is nothing in it"},
        {"duration [s];radial_load [kN]\n1;2\n", 1, 1, "the columns should be divided by commas"},
        {"duration [s],radial_lod [kN]\n", 1, 14, "`radial_lod` is not a column of a history; did"},
        {"duration [s],voltage [V]\n", 1, 14, "`voltage` is not a column of a history; the"},
        {"duration [s],radial_load\n", 1, 14, "`radial_load` has no unit"},
        {"duration [s],radial_load [mm]\n", 1, 14, "`radial_load` has a unit that does not"},
        {"duration [s],radial_load [kN] x\n", 1, 14, "the unit should end the name"},
        {"duration [s],speed [rpm],speed [r/s]\n", 1, 26, "there are two columns `speed`"},
        {"duration [s],speed [rpm]\n", 1, 1, "the header lacks a load"},
        {"radial_load [kN],speed [rpm]\n", 1, 1, "the header lacks `time [s]`"},
        {"time [s],duration [s],radial_load [kN]\n", 1, 10, "`time` and `duration` say the same"},
        {"time [s],wheel_load [kN],radial_load [kN]\n", 1, 26, "`wheel_load` and `radial_load` do"},
        {"time [s],radial_load [kN]\n", 2, 1, "there is a header but no row below it"},
        {"time [s],radial_load [kN]\n0,5\n", 3, 1, "one row with a `time` says not how long"},
        {"time [s],radial_load [kN]\n0,5\n1,5\n1,6\n", 4, 1, "the time `1` does not come after"},
        {"time [s],radial_load [kN]\n0,5\n10,5\n5,6\n", 4, 1, "the time `5` does not come after"},
        {"duration [s],radial_load [kN]\n0,5\n", 2, 1, "`0` is out of range; `duration` must be"},
        {"duration [s],radial_load [kN]\n-1,5\n", 2, 1, "`-1` is out of range"},
        {"duration [s],radial_load [kN]\n1,NaN\n", 2, 3, "`NaN` is not a number"},
        {"duration [s],radial_load [kN]\n1,inf\n", 2, 3, "`inf` is not a number"},
        {"duration [s],radial_load [kN]\n1,1e999\n", 2, 3, "`1e999` is not a number"},
        {"duration [s],radial_load [kN]\n1,\n", 2, 3, "there is no `radial_load` in this row"},
        {"duration [s],radial_load [kN]\n1,5 kN\n", 2, 3, "`5 kN` should be a number alone"},
        {"duration [s],radial_load [kN]\n1,\"5,5\"\n", 2, 3, "`5,5` has a comma"},
        {"duration [s],radial_load [kN]\n1,5,5\n", 2, 1, "this row has 3 cells, the header has 2;"},
        {"duration [s],radial_load [kN]\n1\n", 2, 1, "this row has 1 cell, the header has 2"},
        {"duration [s],radial_load [kN]\n1,2e6\n", 2, 3, "`2e6` is out of range"},
        {"duration [s],wheel_load [kN],speed [rpm]\n1,-1,2\n", 2, 3, "`-1` is out of range"},
        {"duration [s],wheel_load [kN],speed [rpm]\n1,0,2\n", 2, 3, "a wheel that turns on the"},
        {"duration [s],radial_load [kN],temperature [degC]\n1,1,-60\n", 2, 5, "`-60` is out of"},
        {"duration [s],radial_load [kN]\n1,\"2\n", 2, 3, "the quote that opens here is not"},
        {"duration [s],radial_load [kN]\n1,\x01\n", 2, 4, "a control character"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct reading got;
        read_text(rows[i].text, (double)NAN, &got);
        const struct spt_diagnostic *said = &got.diags.list[0];
        cr_expect(!got.fine && got.diags.count > 0, "accepted: %s", rows[i].text);
        cr_expect(!strncmp(said->text, rows[i].words, strlen(rows[i].words)), "%s\nsaid: %s",
                  rows[i].text, said->text);
        cr_expect(said->mark.line == rows[i].line && said->mark.column == rows[i].column,
                  "%s\nat %d:%d", rows[i].text, said->mark.line, said->mark.column);
        free(got.memory);
    }
}

static int requests;

static void *count_request(size_t size)
{
    requests++;
    return malloc(size);
}

/* The rows ask for no memory at all: all of it is the memory of the history. */
Test(history_file, a_million_rows_need_no_more_memory_than_one)
{
    struct reading got;
    FILE *in = popen("awk 'BEGIN { print \"time [s],radial_load [kN],speed [rpm]\"; "
                     "for (i = 0; i <= 1000000; i++) print i \",\" i % 1013 \",\" i % 97 }'",
                     "r");
    spt_arena_allocate_with(count_request);
    read_stream(in, (double)NAN, &got);
    spt_arena_allocate_with(NULL);
    pclose(in);
    cr_assert(got.fine, "%s", got.diags.list[0].text);
    cr_expect_eq(requests, 0);
    cr_expect_eq(got.summary.samples, 1000000);
    cr_expect_lt(spt_history_size(&got.history.terms), 32u << 20);
    /* each value of the load comes as often as the others: sum of k^3 to 1012 is (1012 1013/2)^2;
     * 1013 and 97 are prime, so load and speed are independent but for the last periods */
    double mean = pow(pow(1012.0 * 1013 / 2, 2) / 1013, 1.0 / 3) * 1e3, damage = 0, turns = 0;
    for (int i = 0; i < got.count; i++) {
        damage += got.bins[i].time_h * got.bins[i].speed_rpm * pow(got.bins[i].load_n, 3);
        turns += got.bins[i].time_h * got.bins[i].speed_rpm;
    }
    cr_expect(near(pow(damage / turns, 1.0 / 3), mean, 1e-3, 0), "%g %g",
              pow(damage / turns, 1.0 / 3), mean);
    cr_expect(near(turns * 60, 48 * 1e6 / 60, 1e-3, 0), "%g", turns * 60);
    free(got.memory);
}
