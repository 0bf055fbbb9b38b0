/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/axis.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "support/near.h"

#define MINUS "\xE2\x88\x92"
#define GAP "\xC2\xA0"

/* The labels of an axis in one line. */
static const char *join(const struct spt_axis *axis, char *line)
{
    *line = 0;
    for (int i = 0; i < axis->tick_count; i++)
        if (*axis->ticks[i].label)
            strcat(strcat(line, *line ? "|" : ""), axis->ticks[i].label);
    return line;
}

Test(axis, linear_ticks_are_round_numbers_around_the_range)
{
    static const struct {
        double low, high;
        int wanted;
        const char *labels;
    } rows[] = {
        {20, 100, 4, "20|40|60|80|100"},
        {0, 1, 5, "0.0|0.2|0.4|0.6|0.8|1.0"},
        {0, 1, 4, "0.00|0.25|0.50|0.75|1.00"},
        {-12.5, 38, 5, MINUS "20|0|20|40"},
        {-0.31, -0.29, 4,
         MINUS "0.310|" MINUS "0.305|" MINUS "0.300|" MINUS "0.295|" MINUS "0.290"},
        {100, 20, 4, "20|40|60|80|100"},
        {0, 12345, 3, "0|5" GAP "000|10" GAP "000|15" GAP "000"},
        {0, 0.00003, 3,
         "0|10\xE2\x81\xBB\xE2\x81\xB5|2\xC3\x97"
         "10\xE2\x81\xBB\xE2\x81\xB5|3"
         "\xC3\x97"
         "10\xE2\x81\xBB\xE2\x81\xB5"},
        {0, 0, 5, "0.0|0.2|0.4|0.6|0.8|1.0"},
        {1000.001, 1000.004, 3, "1" GAP "000.001|1" GAP "000.002|1" GAP "000.003|1" GAP "000.004"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_axis axis;
        char line[512];
        cr_expect(spt_axis_linear(&axis, rows[i].low, rows[i].high, rows[i].wanted));
        cr_expect_str_eq(join(&axis, line), rows[i].labels, "row %zu: %g to %g: %s", i, rows[i].low,
                         rows[i].high, line);
    }
}

Test(axis, linear_axes_hold_their_range_in_rising_even_steps)
{
    unsigned long long seed = 11;
    for (int round = 0; round < 2000; round++) {
        double size = pow(10, random_between(&seed, -12, 12));
        double a = size * random_between(&seed, -1, 1), b = size * random_between(&seed, -1, 1);
        int wanted = 2 + round % 12;
        struct spt_axis axis;
        cr_assert(spt_axis_linear(&axis, a, b, wanted));
        cr_assert(axis.low <= fmin(a, b) + 1e-9 * size && axis.high >= fmax(a, b) - 1e-9 * size,
                  "%g to %g lies in %g to %g", a, b, axis.low, axis.high);
        cr_assert(axis.tick_count >= 2 && axis.tick_count <= 2 * wanted + 3, "%d ticks for %d",
                  axis.tick_count, wanted);
        double step = axis.ticks[1].value - axis.ticks[0].value;
        cr_assert_gt(step, 0);
        for (int i = 1; i < axis.tick_count; i++)
            cr_assert(near(axis.ticks[i].value - axis.ticks[i - 1].value, step, 1e-6, 0));
        cr_assert_str_neq(axis.ticks[0].label, axis.ticks[1].label, "%g to %g", a, b);
    }
}

Test(axis, a_range_too_narrow_for_ticks_is_widened)
{
    struct spt_axis axis;
    cr_expect(spt_axis_linear(&axis, 52.3, 52.3, 5));
    cr_expect(axis.low < 52.3 && axis.high > 52.3);
    cr_expect(spt_axis_linear(&axis, 1e15, 1e15 + 0.25, 5));
    cr_expect(axis.low < 1e15 && axis.high > 1e15 && axis.tick_count >= 3);
}

Test(axis, log_ticks_are_powers_of_ten_with_weak_ones_between)
{
    static const struct {
        double low, high;
        const char *labels;
    } rows[] = {
        {0.1, 4, "0.1|0.2|0.5|1|2|5"},
        {7902, 26.9e6, "10" GAP "000|100" GAP "000|1" GAP "000" GAP "000|10\xE2\x81\xB7"},
        {22000, 31000, "20" GAP "000|50" GAP "000"},
        {300, 300, "200|500"},
        {1000, 1000, "1" GAP "000|2" GAP "000"},
        {0.005, 5, "0.01|0.1|1"},
        {124, 23, "20|50|100|200"},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_axis axis;
        char line[512];
        cr_expect(spt_axis_log(&axis, rows[i].low, rows[i].high));
        cr_expect_str_eq(join(&axis, line), rows[i].labels, "row %zu: %g to %g: %s", i, rows[i].low,
                         rows[i].high, line);
    }
}

Test(axis, log_axes_hold_their_range_and_few_labels)
{
    unsigned long long seed = 12;
    for (int round = 0; round < 2000; round++) {
        double a = pow(10, random_between(&seed, -30, 30));
        double b = a * pow(10, random_between(&seed, 0, round % 40));
        struct spt_axis axis;
        char line[4096];
        cr_assert(spt_axis_log(&axis, a, b));
        cr_assert(axis.low <= a * (1 + 1e-8) && axis.high >= b * (1 - 1e-8), "%g to %g", a, b);
        cr_assert(axis.low > a / 10.1 && axis.high < b * 10.1, "%g to %g: %g to %g", a, b, axis.low,
                  axis.high);
        for (int i = 1; i < axis.tick_count; i++)
            cr_assert_gt(axis.ticks[i].value, axis.ticks[i - 1].value);
        cr_assert_str_neq(join(&axis, line), "", "%g to %g", a, b);
        cr_assert_lt(axis.tick_count, SPT_TICKS_MAX);
    }
}

Test(axis, ranges_that_no_axis_has_are_refused)
{
    struct spt_axis axis;
    const double none = (double)NAN, endless = (double)INFINITY;
    cr_expect_not(spt_axis_linear(&axis, none, 3, 5));
    cr_expect_not(spt_axis_linear(&axis, 2, endless, 5));
    cr_expect_not(spt_axis_linear(&axis, 2, 3, 1));
    cr_expect_not(spt_axis_log(&axis, 0, 3));
    cr_expect_not(spt_axis_log(&axis, -2, 3));
    cr_expect_not(spt_axis_log(&axis, none, 3));
    cr_expect_not(spt_axis_log(&axis, 2, endless));
    cr_expect(axis.log && axis.low == 1 && axis.high == 10);
}

Test(axis, values_have_places_on_the_paper)
{
    struct spt_axis axis;
    cr_assert(spt_axis_log(&axis, 1, 10000));
    axis.start = 40;
    axis.end = 240;
    cr_expect(near(spt_axis_at(&axis, 100), 140, 0, 1e-9));
    cr_expect(near(spt_axis_at(&axis, 0.01), -60, 0, 1e-9));
    cr_expect(isnan(spt_axis_at(&axis, 0)) && isnan(spt_axis_at(&axis, -3)));
    cr_expect(isnan(spt_axis_at(&axis, (double)NAN)));
    cr_expect(spt_axis_holds(&axis, 1) && spt_axis_holds(&axis, 10000));
    cr_expect_not(spt_axis_holds(&axis, 0.99));
    cr_expect_not(spt_axis_holds(&axis, (double)NAN));
    cr_assert(spt_axis_linear(&axis, -10, 30, 4));
    axis.start = 300;
    axis.end = 100; /* a vertical axis runs upwards on the paper */
    cr_expect(near(spt_axis_at(&axis, 0), 250, 0, 1e-9));
}

Test(axis, labels_say_what_no_number_can)
{
    char label[SPT_TICK_LABEL_LENGTH];
    cr_expect_str_eq(spt_axis_label((double)NAN, 0, label), "none");
    cr_expect_str_eq(spt_axis_label((double)INFINITY, 0, label), "no limit");
    cr_expect_str_eq(spt_axis_label(-0.0, 1, label), "0.0");
    cr_expect_str_eq(spt_axis_label(-0.04, 1, label), "0.0");
    cr_expect_str_eq(spt_axis_label(-1234.5, 1, label), MINUS "1" GAP "234.5");
    cr_expect_str_eq(spt_axis_label(99999999, -7, label), "10\xE2\x81\xB8");
    cr_expect_str_eq(spt_axis_label(26865000, -5, label), "2.69\xC3\x97"
                                                          "10\xE2\x81\xB7");
}
