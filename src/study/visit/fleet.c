/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <limits.h>
#include <math.h>
#include <stdbool.h>

/* Visits of each week. */
struct load {
    int visits[SPT_FLEET_WEEKS];
};

/* The week of a visit of a machine that starts sooner; -1: behind the weeks that are counted. */
static int find_week(double day, int sooner)
{
    const double week = fmax(0, floor(day / 7) - sooner);
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

static int find_start(const struct load *load, const struct spt_fleet_plan *plan, int crew)
{
    int best = 0, fewest = INT_MAX;
    for (int sooner = 0; sooner <= plan->weeks; sooner++) {
        const int busiest = find_busiest(load, plan, sooner);
        if (busiest <= crew)
            return sooner;
        if (busiest < fewest) {
            fewest = busiest;
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

enum spt_status spt_fleet_stagger(const struct spt_fleet_plan *plans, int count, int crew,
                                  struct spt_fleet_start *starts, int *start_count, int *busiest)
{
    struct load load = {{0}};
    long machines = 0;
    *start_count = *busiest = 0;
    if (crew < 1 || !are_valid(plans, count))
        return SPT_BAD_ARGUMENT;
    for (int i = 0; i < count; i++)
        machines += plans[i].machines;
    if (machines > SPT_FLEET_MACHINES_MAX)
        return SPT_TOO_SMALL;
    for (int i = 0; i < count; i++)
        for (int machine = 1; machine <= plans[i].machines; machine++) {
            const int sooner = find_start(&load, &plans[i], crew);
            struct spt_fleet_start *last = *start_count ? &starts[*start_count - 1] : starts;
            add_machine(&load, &plans[i], sooner);
            if (machine > 1 && last->weeks == sooner)
                last->machines++;
            else
                starts[(*start_count)++] = (struct spt_fleet_start){i, machine, 1, sooner};
        }
    for (int i = 0; i < SPT_FLEET_WEEKS; i++)
        *busiest = load.visits[i] > *busiest ? load.visits[i] : *busiest;
    return SPT_OK;
}
