/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_COST_H
#define SPT_COST_H

#include "spalltime/service.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What a maintenance plan costs in a year. Amounts are in any one currency; a unit is what the
 * scenario describes, such as one hub, of which a machine has several. */

/* NaN: not stated, which counts as 0 but for `planned` and `failure`. */
struct spt_costs {
    double planned, failure;  /* of a change, and of a failure with all it brings, > 0 */
    double visit;             /* the way to the machine, for each visit */
    double downtime;          /* the machine standing still, for each visit */
    double job_h, wage_per_h; /* work for each greasing of a unit (or change of its oil) */
    double grease;            /* a fill of a unit */
    double investment;        /* in a remedy, for each unit */
    double years;             /* over which it is paid off, > 0 */
    double interest;          /* share a year, >= 0 */
};

/* Share of an amount that pays it off with interest i (>= 0) in n (> 0) equal yearly payments:
 * i/(1 - (1 + i)^-n), 1/n without interest. NaN for anything else.
 * Source: annuity tables (from memory). */
double spt_cost_annuity(double interest, double years);

/* A year of one machine. */
struct spt_cost_year {
    double visits; /* and how often a unit is greased at them, or its oil changed */
    double greasings;
    double planned, failures;                          /* changes of all units, expected */
    double attendance, greasing, replacement, capital; /* what they cost, and the investment */
    double cost;                                       /* the sum */
};

/* With the life of the grease as worked out, and with twice and half of it: it is good to a factor
 * of 2. NaN where the plan states no life, or without yearly hours. */
struct spt_money {
    struct spt_cost_year middle, low, high;
};

/* The cost of a plan for a machine with `question->units`:
 * visits (visit + downtime) + greasings u (job wage + grease) + u H C(T) + u I annuity,
 * C(T) = [planned R + failure (1 - R)]/integral of R to T, the age of replacement (Barlow and
 * Proschan 1965), R with the steady failure rate of the greases between two regreasings.
 * Visits are those of the calendar; one without a greasing costs way and downtime.
 * Status: SPT_BAD_ARGUMENT for costs that are negative; SPT_NOT_CONVERGED.
 * Source: a rule of this tool. */
enum spt_status spt_cost_plan(const struct spt_schedule *schedule, const struct spt_costs *costs,
                              struct spt_money *money);

/* True where neither a visit nor downtime is stated, so that only parts and work count. */
bool spt_cost_is_parts_only(const struct spt_costs *costs);

/* What a remedy does not help, as bits 1 << hazard. */
enum spt_hazard {
    SPT_HAZARD_FATIGUE,
    SPT_HAZARD_GREASE,
    SPT_HAZARD_RUST, /* free water at the coldest standstill */
    SPT_HAZARD_COUNT
};

/* A case and what its plan costs. */
struct spt_cost_result {
    struct spt_money money;
    double l10_h;      /* fatigue life of a unit under the plan; INFINITY: no damage; NaN: none */
    double interval_h; /* of greasing, raw; NaN: none */
    double replace_h;  /* NaN: never */
    bool rusts;        /* free water is found at the coldest standstill */
    double payback_years; /* investment over what it saves in a year; NaN: nothing, or none */
    bool pays;            /* cheaper than the first case, with the life of grease as worked out and
                             with twice of it in both */
    bool helps;           /* a hazard of the first case is smaller here */
    unsigned unhelped;    /* those that are no smaller */
};

/* Fills payback, `pays` and `unhelped` of a case from the first one.
 * In:     `costs`: of the case. */
void spt_cost_compare(const struct spt_cost_result *first, const struct spt_costs *costs, int units,
                      struct spt_cost_result *result);

#ifdef __cplusplus
}
#endif

#endif
