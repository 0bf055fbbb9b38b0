/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_PAGE_REPORT_H
#define ANSWER_PAGE_REPORT_H

#include "answer/service/schedule.h"
#include "chart/report.h"
#include "format/page/page.h"

/* The page of pages: the front, the verdict part by part, variants side by side, then of each case
 * the page of its life with its charts and its working; of the scenario as written the service
 * life, the plan and the setting of a hub too; at the end the sources cited by all cases, each
 * once. `plan` may be NULL. */
void spt_report_page(struct spt_page *page, const struct spt_report *report,
                     const struct spt_schedule_report *plan);

#endif
