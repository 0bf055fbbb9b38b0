/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/fleet.h"
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

/* Visits every `every` days for ten years. */
static int draw(double every, double *days)
{
    int count = 0;
    for (double day = every; day < 3652; day += every)
        days[count++] = day;
    return count;
}

/* Visits of a week, counted beside the code. */
static int find_busiest(const struct spt_fleet_plan *plans, const struct spt_fleet_start *starts,
                        int count)
{
    int busiest = 0;
    for (int week = 0; week < SPT_FLEET_WEEKS; week++) {
        int visits = 0;
        for (int i = 0; i < count; i++)
            for (int j = 0; j < plans[starts[i].plan].day_count; j++) {
                const double at = floor(plans[starts[i].plan].days[j] / 7) - starts[i].weeks;
                visits += (at > 0 ? (int)at : 0) == week ? starts[i].machines : 0;
            }
        busiest = visits > busiest ? visits : busiest;
    }
    return busiest;
}

/* By hand: 12 machines every 28 days are 3 visits a week. */
Test(fleet, a_crew_that_suffices_is_never_asked_for_more)
{
    static double often[4000], seldom[4000];
    static struct spt_fleet_start starts[SPT_FLEET_MACHINES_MAX];
    const struct spt_fleet_plan one = {12, draw(28, often), often, 3};
    int count, busiest;
    cr_assert_eq(spt_fleet_stagger(&one, 1, 3, starts, &count, &busiest), SPT_OK);
    cr_assert_eq(count, 4);
    for (int i = 0; i < 4; i++)
        cr_expect(starts[i].machines == 3 && starts[i].first == 3 * i + 1 && starts[i].weeks == i,
                  "%d: %d from %d, %d weeks", i, starts[i].machines, starts[i].first,
                  starts[i].weeks);
    cr_expect_eq(busiest, 3);
    /* a crew of two cannot, and the load is even all the same */
    cr_assert_eq(spt_fleet_stagger(&one, 1, 2, starts, &count, &busiest), SPT_OK);
    cr_expect_eq(busiest, 3);
    /* a second plan finds the weeks that are left: 3 and 8/8 visits a week */
    const struct spt_fleet_plan two[] = {one, {8, draw(56, seldom), seldom, 7}};
    cr_assert_eq(spt_fleet_stagger(two, 2, 4, starts, &count, &busiest), SPT_OK);
    cr_expect_eq(busiest, 4, "%d", busiest);
    cr_expect_eq(busiest, find_busiest(two, starts, count));
}

Test(fleet, every_machine_is_started_once_and_never_later)
{
    static double days[4000];
    static struct spt_fleet_start starts[SPT_FLEET_MACHINES_MAX];
    int count, busiest;
    for (int machines = 1; machines < 40; machines += 7)
        for (int crew = 1; crew < 9; crew += 3) {
            const struct spt_fleet_plan plan = {machines, draw(91.3125, days), days, 12};
            int started = 0;
            cr_assert_eq(spt_fleet_stagger(&plan, 1, crew, starts, &count, &busiest), SPT_OK);
            for (int i = 0; i < count; i++) {
                cr_expect_eq(starts[i].first, started + 1);
                cr_expect(starts[i].weeks >= 0 && starts[i].weeks <= 12);
                started += starts[i].machines;
            }
            cr_expect_eq(started, machines);
            cr_expect_eq(busiest, find_busiest(&plan, starts, count), "%d by %d", machines, crew);
        }
}

Test(fleet, what_is_no_fleet_is_refused)
{
    static struct spt_fleet_start starts[SPT_FLEET_MACHINES_MAX];
    const double days[] = {7, (double)NAN};
    const struct spt_fleet_plan fine = {1, 1, days, 0}, odd = {1, 2, days, 0},
                                many = {SPT_FLEET_MACHINES_MAX + 1, 1, days, 0},
                                none = {0, 1, days, 0};
    int count, busiest;
    cr_expect_eq(spt_fleet_stagger(&fine, 1, 0, starts, &count, &busiest), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_fleet_stagger(&odd, 1, 1, starts, &count, &busiest), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_fleet_stagger(&none, 1, 1, starts, &count, &busiest), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_fleet_stagger(&many, 1, 1, starts, &count, &busiest), SPT_TOO_SMALL);
}

/* One visit every two weeks leaves every other week to six machines that come every 24 weeks: a
 * crew of one suffices, and one of none does not. */
Test(fleet, the_plan_with_the_fewest_starts_comes_first)
{
    static double often[4000], seldom[4000];
    static struct spt_fleet_start starts[SPT_FLEET_MACHINES_MAX];
    int count, busiest;
    const struct spt_fleet_plan plans[] = {{6, draw(168, seldom), seldom, 23},
                                           {1, draw(14, often), often, 1}};
    for (int i = 0; i < plans[1].day_count; i++)
        often[i] *= 1 - 1e-12; /* round-off */
    for (int crew = 1; crew < 3; crew++) {
        cr_assert_eq(spt_fleet_stagger(plans, 2, crew, starts, &count, &busiest), SPT_OK);
        cr_expect_leq(busiest, crew, "%d", busiest);
        for (int i = 1; i < count; i++)
            cr_expect_geq(starts[i].plan, starts[i - 1].plan, "in the order of the plans");
    }
}
