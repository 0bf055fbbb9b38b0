/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

/* A rule of this tool, worked out by hand: 1100 = 2.75 x 400 becomes 2 x 400, 2000 becomes 4 x 400;
 * 800 = 3.2 x 250 becomes 750, 8766 = 35.06 x 250 becomes 24 x 250. */
Test(visits, longer_intervals_become_multiples_of_the_shortest)
{
    static const struct {
        double base, interval, want;
    } rows[] = {{400, 400, 400},   {400, 1100, 800},    {400, 2000, 1600}, {250, 800, 750},
                {250, 8766, 6000}, {250, 1249.9, 1000}, {1, 1e9, 384}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        cr_expect_eq(spt_visits_multiple(rows[i].base, rows[i].interval), rows[i].want,
                     "row %zu: %g", i, spt_visits_multiple(rows[i].base, rows[i].interval));
    cr_expect(isnan(spt_visits_multiple(400, 399)) && isnan(spt_visits_multiple((double)NAN, 400)));
}

/* A rule of this tool. */
Test(visits, hours_days_and_kilometres_are_rounded_down_to_what_a_workshop_keeps)
{
    static const double hours[][2] = {{463, 400},     {2180, 2000},    {743, 600},
                                      {50, 50},       {6040, 6000},    {19900, 15000},
                                      {24999, 20000}, {123456, 100000}};
    static const double km[][2] = {{1, 1},         {1.49, 1},      {1999, 1500},    {3.9, 2.5},
                                   {49600, 40000}, {79999, 50000}, {213000, 200000}};
    for (size_t i = 0; i < sizeof hours / sizeof *hours; i++)
        cr_expect_eq(spt_regreasing_kept_h(hours[i][0]), hours[i][1], "%g h: %g", hours[i][0],
                     spt_regreasing_kept_h(hours[i][0]));
    for (size_t i = 0; i < sizeof km / sizeof *km; i++)
        cr_expect_eq(spt_visits_km(km[i][0]), km[i][1], "%g km: %g", km[i][0],
                     spt_visits_km(km[i][0]));
    cr_expect(isnan(spt_regreasing_kept_h(7.5)) && isnan(spt_visits_km(0.99)));
    /* 463 h at 400 h a year are 422.8 days, 743 h at 2200 h a year 123.4 */
    cr_expect_eq(spt_regreasing_kept_days(463 / 400.0 * 365.25), 365);
    cr_expect_eq(spt_regreasing_kept_days(743 / 2200.0 * 365.25), 122);
    cr_expect_eq(spt_regreasing_days_exact(365), 365.25);
    cr_expect_eq(spt_regreasing_days_exact(122), 121.75);
    cr_expect_eq(spt_regreasing_days_exact(42), 42);
}
