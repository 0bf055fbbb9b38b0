/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_PAGE_FRONT_H
#define ANSWER_PAGE_FRONT_H

#include "answer/service/schedule.h"
#include "chart/report.h"
#include "format/page/page.h"

/* The whole answer on the scenario as written in short, for the front of a page and the wall of a
 * workshop: the verdict, the life under the plan, the plan in at most five lines, the steps from
 * the rating life to that life, and of the bearing that lasts shortest the phases by their damage
 * and the film; then the survival. `plan` may be NULL, or have no schedule. */
void spt_front_page(struct spt_page *page, const struct spt_report *report,
                    const struct spt_schedule_report *plan);

#endif
