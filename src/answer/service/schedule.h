/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_SCHEDULE_H
#define ANSWER_SERVICE_SCHEDULE_H

#include "format/date.h"
#include "format/ical.h"
#include "format/page/page.h"
#include "spalltime/ask.h"
#include "spalltime/cost.h"
#include "spalltime/fleet.h"
#include "spalltime/service.h"
#include "spalltime/uncertainty.h"
#include "spalltime/verdict.h"
#include "study/curve/survival_curve.h"

/* A case of the comparison by money: its name, what it costs and what was stated. */
struct spt_cost_entry {
    const char *name;
    const struct spt_costs *costs;
    struct spt_cost_result result;
};

/* The plan with its calendar. */
struct spt_schedule_report {
    const struct spt_schedule *schedule;
    const struct spt_assessment *assessment; /* of the condition as stated, for the flags */
    const struct spt_judgement *judgement;
    /* band of the rated life; NULL: no section `uncertainty` */
    const struct spt_uncertainty_result *spread;
    struct spt_schedule_intervals low,
        high;             /* intervals with the lives at 5 and 95 % of it; NaN: none */
    double floor;         /* least life over L10, for the text */
    const char *currency; /* NULL: none stated */
    const struct spt_service_limits *limits;
    int cost_count;                            /* 0: no costs, or no hours a year */
    const struct spt_cost_entry *cost_entries; /* the first is the scenario as written */
    bool costs_alone;                          /* the comparison is the answer, and its CSV */
    bool costs_leave_events; /* the service has events, which no case of it counts */
    bool dated;              /* `start` is a date */
    struct spt_date start;
    int entry_count;
    const struct spt_schedule_entry *entries;
    bool cut;
    int start_count; /* groups of machines that start staggered; 0: all together */
    const struct spt_fleet_start *starts;
    /* whole path of the scenario; this and the next two are only for the calendar */
    const char *file;
    const struct spt_ical_event *previous; /* events of the calendar written earlier; NULL: none */
    int previous_count;
    int curve_count;
    const struct spt_schedule_point *curve;
    /* of the chart, whose band is that of the assessment; NULL: no chart */
    const struct spt_survival_curve *survival;
};

/* Puts the parts of a plan into a report. */
void spt_schedule_report_take(struct spt_schedule_report *report,
                              const struct spt_maintenance *plan);

/* A plan as a page: the tasks, the survival with its chart, the replacement, the calendar, the
 * flags. The CSV is the calendar, one row for each date, also those that the page leaves out. */
void spt_schedule_page(struct spt_page *page, const struct spt_schedule_report *report);

/* The same without the flags, for a page that has them already. */
void spt_schedule_plan_page(struct spt_page *page, const struct spt_schedule_report *report);

/* The same as members of an object that the caller has opened, with the rows of the page. */
void spt_schedule_json(struct spt_json *json, const struct spt_page *page,
                       const struct spt_schedule_report *report);

/* The calendar of one or more plans as iCalendar (RFC 5545): an all-day event for each visit, of
 * staggered machines one for each group. Needs `dated` and yearly
 * hours. A UID (section 3.8.4.7) is made from file, title and bearings of the plan and the number
 * of the visit, so that a revised plan has the same UIDs, even with other dates or tasks, and
 * another plan has different ones. SEQUENCE (3.8.7.4) is 0, or one more than the highest of the
 * previous calendar; visits of that calendar which no longer exist are added with STATUS:CANCELLED
 * (3.8.1.11). DTSTAMP is the start date, so that the same plan gives the same text. */
void spt_schedule_ical(FILE *out, const struct spt_schedule_report *const *reports, int count);

#define SPT_PLAN_ID_LENGTH 20
/* The prefix of all UIDs of a plan. */
const char *spt_schedule_plan_id(const struct spt_schedule_report *report, char *id);

/* Names of tasks ("regrease") and governors ("grease life"); never NULL. */
const char *spt_task_name(enum spt_task task);
const char *spt_governor_name(enum spt_governor governor);

#endif
