/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_SCHEDULE_PARTS_H
#define ANSWER_SERVICE_SCHEDULE_PARTS_H

#include "answer/service/schedule.h"

/* The sections of the page of a plan, one a file; nothing is shown of one without numbers. */
void spt_schedule_survival_page(struct spt_page *page, const struct spt_schedule_report *report);
void spt_schedule_replacement_page(struct spt_page *page, const struct spt_schedule_report *report);
void spt_schedule_cost_page(struct spt_page *page, const struct spt_schedule_report *report);
void spt_schedule_calendar_page(struct spt_page *page, const struct spt_schedule_report *report);

/* Members of an object: the hours that each share reaches, and the calendar of the page. */
void spt_schedule_lives_json(struct spt_json *json, const char *key,
                             const struct spt_survival_lives *lives);
void spt_schedule_cost_json(struct spt_json *json, const struct spt_page *page,
                            const struct spt_schedule_report *report);
void spt_schedule_calendar_json(struct spt_json *json, const struct spt_page *page,
                                const struct spt_schedule_report *report);

#endif
