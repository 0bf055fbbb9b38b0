/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_SCHEDULE_WORDS_H
#define ANSWER_SERVICE_SCHEDULE_WORDS_H

#include <stdio.h>

#include "answer/service/schedule.h"
#include "sentence/findings.h"

/* Words that the forms of a schedule share. */

#define SPT_WHAT_LENGTH 320
#define SPT_WHY_LENGTH 240

/* Name of a bearing: the row of a hub, else its own; -1: all of them. */
const char *spt_schedule_bearing(const struct spt_case *question, int bearing);

/* "regrease both rows", into SPT_WHAT_LENGTH bytes. */
void spt_schedule_name(const struct spt_schedule *schedule, const struct spt_schedule_task *task,
                       char *words);

/* "regrease with 16.4 g", "regrease both rows, 13.1 + 8.82 g", into SPT_WHAT_LENGTH bytes. */
void spt_schedule_what(const struct spt_schedule *schedule, const struct spt_schedule_task *task,
                       char *words);

/* The same of one date of the calendar: "now: regrease ..." where it is overdue at the start. */
void spt_schedule_dated_what(const struct spt_schedule *schedule,
                             const struct spt_schedule_entry *entry, char *words);

/* "grease life: the relubrication interval of the duty ...", into SPT_WHY_LENGTH bytes. */
void spt_schedule_why(const struct spt_schedule_task *task, char *words);

/* An interval as a time of the calendar, "> 100 years" beyond what is planned ahead, "-" where it
 * has none; into SPT_SPAN_LENGTH bytes. */
const char *spt_schedule_every(const struct spt_case *question, double every_h, char *span);

/* True where an interval is longer than anything is planned ahead (spt_schedule_planned_h). */
bool spt_schedule_is_beyond(const struct spt_case *question, double every_h);

/* What has to be read before the plan: the target missed, grease that is overdue, intervals that
 * cannot be kept; one sentence each. */
void spt_schedule_warnings(const struct spt_schedule *schedule,
                           const struct spt_finding_sink *sink);

/* What belongs to a plan: why each interval, how much grease, what the lives are of, what is
 * missing; one sentence each. */
void spt_schedule_notes(const struct spt_schedule *schedule, const struct spt_finding_sink *sink);

#endif
