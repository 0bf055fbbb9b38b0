/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_SCHEDULE_WORDS_H
#define ANSWER_SERVICE_SCHEDULE_WORDS_H

#include <stdio.h>

#include "answer/service/schedule.h"
#include "sentence/findings.h"

/* Texts shared by the output formats of a schedule. */

#define SPT_WHAT_LENGTH 320
#define SPT_WHY_LENGTH 240

/* Name of a bearing: the row of a hub, else its own; -1: all of them. */
const char *spt_schedule_bearing(const struct spt_case *question, int bearing);

/* The bearing of a task, "both rows" where it greases them; NULL: the machine. */
const char *spt_schedule_where(const struct spt_case *question,
                               const struct spt_schedule_task *task);

/* The distance on the road in that time; NaN where none is driven. */
double spt_schedule_km(const struct spt_case *question, double hours);

/* Writes the name of a task, "regrease both rows", to SPT_WHAT_LENGTH bytes. */
void spt_schedule_name(const struct spt_schedule *schedule, const struct spt_schedule_task *task,
                       char *words);

/* The same with quantities for one date of the calendar: "regrease with 16.4 g", "now: regrease
 * both rows, 13.1 + 8.82 g" where it is overdue at the start, "purge while warm with 16.4 g" before
 * a lay-up. */
void spt_schedule_dated_what(const struct spt_schedule *schedule,
                             const struct spt_schedule_entry *entry, char *words);

/* Writes "machines 5 to 8" of a group, or "machine 5", to SPT_MACHINES_LENGTH bytes. */
#define SPT_MACHINES_LENGTH 48
void spt_schedule_machines(const struct spt_fleet_start *start, char *words);

/* Writes the reason for the interval, "grease life: the relubrication interval of the duty ...", to
 * SPT_WHY_LENGTH bytes. */
void spt_schedule_why(const struct spt_schedule_task *task, char *words);

/* Formats an interval as a calendar time, "> 100 years" beyond the longest plan, "-" for NaN; to
 * SPT_SPAN_LENGTH bytes. */
const char *spt_schedule_every(const struct spt_schedule *schedule,
                               const struct spt_schedule_task *task, char *span);

/* The distance between two times of a task, rounded down but for a replacement; NaN where none is
 * driven, or too short a one. */
double spt_schedule_task_km(const struct spt_case *question, const struct spt_schedule_task *task);

/* True where an interval is longer than the longest plan (spt_schedule_planned_h). */
bool spt_schedule_is_beyond(const struct spt_case *question, double every_h);

/* Warnings to be read before the plan: missed target, overdue grease, impractical intervals; one
 * sentence each. */
void spt_schedule_warnings(const struct spt_schedule *schedule,
                           const struct spt_finding_sink *sink);

/* Notes on a plan: reason for each interval, quantity of grease, basis of the lives, missing
 * inputs; one sentence each. */
void spt_schedule_notes(const struct spt_schedule *schedule, const struct spt_finding_sink *sink);

#endif
