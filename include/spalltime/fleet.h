/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_FLEET_H
#define SPT_FLEET_H

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- fleet --------------------------------------------------------------------------------- */

/* Machines on one calendar, visited by a crew that makes so many visits a week. */

#define SPT_FLEET_MACHINES_MAX 2000
#define SPT_FLEET_PLANS_MAX 100
#define SPT_FLEET_WEEKS 522 /* ten years, over which visits are counted */

/* The visits of one plan, each of whose machines has them. */
struct spt_fleet_plan {
    int machines;
    int day_count;
    const double *days; /* from the start, in rising order, >= 0 */
    int weeks;          /* that a machine may start sooner: below the interval of the visits */
};

/* Machines of a plan whose every visit is so many weeks sooner, at the earliest at the start: never
 * later than the plan asks for. */
struct spt_fleet_start {
    int plan;
    int first, machines; /* number of the first, from 1, and how many */
    int weeks;
};

/* Spreads the machines over the weeks, one after the other, those with the fewest starts to choose
 * from first: each to the first start that keeps to `crew` (> 0) visits in every week; where that
 * does not do for all, each to the start with the least company. It may miss a way that is there.
 * In:     all machines together at most SPT_FLEET_MACHINES_MAX; `starts` has room for as many.
 * Result: groups of machines with one start, in the order of the plans; `*busiest`: visits in the
 *         busiest week.
 * Status: SPT_BAD_ARGUMENT, SPT_TOO_SMALL for too many machines.
 * Source: a rule of this tool. */
enum spt_status spt_fleet_stagger(const struct spt_fleet_plan *plans, int count, int crew,
                                  struct spt_fleet_start *starts, int *start_count, int *busiest);

#ifdef __cplusplus
}
#endif

#endif
