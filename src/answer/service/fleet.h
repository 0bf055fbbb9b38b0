/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_FLEET_H
#define ANSWER_SERVICE_FLEET_H

#include "answer/service/schedule.h"

/* Several plans on one calendar. */
struct spt_fleet_report {
    int count;
    const struct spt_schedule_report *const *reports;
    struct spt_page *const *parts; /* the page of each, for its JSON */
    double base_days;              /* of the visits of which all others are a multiple; NaN: none */
    int crew;                      /* visits in a week; 0: not stated */
    int busiest;                   /* in the busiest week */
    int start_count;
    const struct spt_fleet_start *starts;
};

/* A table of the plans and the staggered starts, then the answer of each plan. The CSV is the
 * table. */
void spt_fleet_page(struct spt_page *page, const struct spt_fleet_report *report);

/* The same as members of an object that the caller has opened. */
void spt_fleet_json(struct spt_json *json, const struct spt_page *page,
                    const struct spt_fleet_report *report);

#endif
