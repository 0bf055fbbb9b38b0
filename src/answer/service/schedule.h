/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_SCHEDULE_H
#define ANSWER_SERVICE_SCHEDULE_H

#include "format/date.h"
#include "format/ical.h"
#include "format/json.h"
#include "format/text.h"
#include "spalltime/service.h"
#include "spalltime/uncertainty.h"

/* The plan with its calendar. */
struct spt_schedule_report {
    const struct spt_schedule *schedule;
    const struct spt_assessment *assessment;     /* of the condition as stated, for the flags */
    const struct spt_uncertainty_result *spread; /* of the rated life; NULL: not stated */
    struct spt_schedule_intervals low, high;     /* with the lives at 5 and 95 % of it; NaN: none */
    double floor;                                /* of the life law, for the words */
    const char *currency;                        /* NULL: none stated */
    const struct spt_service_limits *limits;
    const struct spt_replacement_costs *costs;
    bool dated; /* `start` holds a day */
    struct spt_date start;
    int entry_count;
    const struct spt_schedule_entry *entries;
    bool cut;
    const char *file; /* the scenario's, as it was named; of the calendar alone, as the next two */
    const struct spt_ical_event *previous; /* of the calendar written before; NULL: none */
    int previous_count;
    int curve_count;
    const struct spt_schedule_point *curve;
};

/* Without the flags where `quiet`. */
void spt_schedule_text(const struct spt_text *text, const struct spt_schedule_report *report,
                       bool quiet);
void spt_schedule_json(struct spt_json *json, const struct spt_schedule_report *report);
/* The calendar, one row for each date. */
void spt_schedule_csv(FILE *out, const struct spt_schedule_report *report);
/* The calendar as iCalendar (RFC 5545): an all-day event for each visit. Needs `dated` and yearly
 * hours. A UID (section 3.8.4.7) is made of what names the plan (file, title, bearings) and the
 * number of the visit, so that the plan made again has the same ones, on other days or with other
 * tasks, and another plan has others. SEQUENCE (3.8.7.4) is 0, or one more than the highest of the
 * calendar before, whose visits that are no more follow with STATUS:CANCELLED (3.8.1.11). DTSTAMP
 * is the start, so that the same plan gives the same text. */
void spt_schedule_ical(FILE *out, const struct spt_schedule_report *report);

#define SPT_PLAN_ID_LENGTH 20
/* What the UIDs of a plan begin with. */
const char *spt_schedule_plan_id(const struct spt_schedule_report *report, char *id);

/* "regrease", "replace"; "grease life": names of tasks and governors; never NULL. */
const char *spt_task_name(enum spt_task task);
const char *spt_governor_name(enum spt_governor governor);

#endif
