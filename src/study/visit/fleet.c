/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/fleet.h"
#include "spalltime/service.h"

#include <limits.h>
#include <math.h>
#include <stdbool.h>

#define SAME 1e-9 /* round-off of days that come from hours */

/* Visits of each week. */
struct load {
    int visits[SPT_FLEET_WEEKS];
};

/* The week of a visit of a machine that starts sooner; -1: behind the weeks that are counted. */
static int find_week(double day, int sooner)
{
    const double week = fmax(0, floor(day / 7 + SAME) - sooner);
    return week < SPT_FLEET_WEEKS ? (int)week : -1;
}

/* The most visits in a week in which such a machine is visited. */
static int find_busiest(const struct load *load, const struct spt_fleet_plan *plan, int sooner)
{
    int busiest = 0;
    for (int i = 0; i < plan->day_count; i++) {
        const int week = find_week(plan->days[i], sooner);
        if (week >= 0 && load->visits[week] + 1 > busiest)
            busiest = load->visits[week] + 1;
    }
    return busiest;
}

/* Visits that others make in the weeks of such a machine. */
static long find_company(const struct load *load, const struct spt_fleet_plan *plan, int sooner)
{
    long visits = 0;
    for (int i = 0; i < plan->day_count; i++) {
        const int week = find_week(plan->days[i], sooner);
        visits += week >= 0 ? load->visits[week] : 0;
    }
    return visits;
}

/* The first start that keeps to the crew, or, where the load is evened out, that with the fewest
 * other visits in its weeks; without any that with the fewest in its busiest week. */
static int find_start(const struct load *load, const struct spt_fleet_plan *plan, int crew,
                      bool even)
{
    int best = 0, fewest = INT_MAX;
    long least = LONG_MAX;
    for (int sooner = 0; sooner <= plan->weeks; sooner++) {
        const int busiest = find_busiest(load, plan, sooner);
        if (busiest <= crew && !even)
            return sooner;
        const int over = busiest > crew ? busiest : crew;
        const long company = even ? find_company(load, plan, sooner) : 0;
        if (over < fewest || (over == fewest && company < least)) {
            fewest = over;
            least = company;
            best = sooner;
        }
    }
    return best;
}

static void add_machine(struct load *load, const struct spt_fleet_plan *plan, int sooner)
{
    for (int i = 0; i < plan->day_count; i++) {
        const int week = find_week(plan->days[i], sooner);
        if (week >= 0)
            load->visits[week]++;
    }
}

static bool are_valid(const struct spt_fleet_plan *plans, int count)
{
    for (int i = 0; i < count; i++) {
        if (plans[i].machines < 1 || plans[i].day_count < 0 || plans[i].weeks < 0)
            return false;
        for (int j = 0; j < plans[i].day_count; j++)
            if (!(plans[i].days[j] >= 0) || isinf(plans[i].days[j]))
                return false;
    }
    return true;
}

/* Plans whose machines have the fewest starts to choose from come first. */
static void order_plans(const struct spt_fleet_plan *plans, int count, int *order)
{
    for (int i = 0; i < count; i++) {
        int at = i;
        for (; at > 0 && plans[order[at - 1]].weeks > plans[i].weeks; at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
}

/* Groups of the machines of one plan with one start each. */
static int place_plan(struct load *load, const struct spt_fleet_plan *plan, int index, int crew,
                      bool even, struct spt_fleet_start *starts)
{
    int count = 0;
    for (int machine = 1; machine <= plan->machines; machine++) {
        const int sooner = find_start(load, plan, crew, even);
        add_machine(load, plan, sooner);
        if (count && starts[count - 1].weeks == sooner)
            starts[count - 1].machines++;
        else
            starts[count++] = (struct spt_fleet_start){index, machine, 1, sooner};
    }
    return count;
}

/* One way of staggering all machines, those of each plan from `first[plan]` on. Result: visits in
 * the busiest week. */
static int place_all(const struct spt_fleet_plan *plans, int count, int crew, bool even,
                     const int *order, struct spt_fleet_start *starts, int *group_counts)
{
    struct load load = {{0}};
    int busiest = 0;
    for (int i = 0; i < count; i++) {
        int first = 0;
        for (int j = 0; j < order[i]; j++)
            first += plans[j].machines;
        group_counts[order[i]] =
            place_plan(&load, &plans[order[i]], order[i], crew, even, &starts[first]);
    }
    for (int i = 0; i < SPT_FLEET_WEEKS; i++)
        busiest = load.visits[i] > busiest ? load.visits[i] : busiest;
    return busiest;
}

/* Moves the groups of all plans together. Result: their number. */
static int close_gaps(const struct spt_fleet_plan *plans, int count, const int *group_counts,
                      struct spt_fleet_start *starts)
{
    int first = 0, used = 0;
    for (int i = 0; i < count; i++) {
        for (int j = 0; j < group_counts[i]; j++)
            starts[used++] = starts[first + j];
        first += plans[i].machines;
    }
    return used;
}

enum spt_status spt_fleet_stagger(const struct spt_fleet_plan *plans, int count, int crew,
                                  struct spt_fleet_start *starts, int *start_count, int *busiest)
{
    int order[SPT_FLEET_PLANS_MAX] = {0}, group_counts[SPT_FLEET_PLANS_MAX];
    long machines = 0;
    *start_count = *busiest = 0;
    if (crew < 1 || count < 0 || !are_valid(plans, count))
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < count; i++)
        machines += plans[i].machines;
    if (machines > SPT_FLEET_MACHINES_MAX || count > SPT_FLEET_PLANS_MAX)
        return SPT_TOO_SMALL;
    order_plans(plans, count, order);
    *busiest = place_all(plans, count, crew, false, order, starts, group_counts);
    if (*busiest > crew) {
        const int even = place_all(plans, count, crew, true, order, starts, group_counts);
        if (even > *busiest)
            place_all(plans, count, crew, false, order, starts, group_counts);
        *busiest = even < *busiest ? even : *busiest;
    }
    *start_count = close_gaps(plans, count, group_counts, starts);
    return SPT_OK;
}
