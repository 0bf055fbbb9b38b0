/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_CARE_H
#define ANSWER_SERVICE_CARE_H

#include "format/page/page.h"
#include "spalltime/service.h"

/* The section of the tasks beside greasing, oil and replacement, as a table "care"; nothing where
 * none applies. */
void spt_care_page(struct spt_page *page, const struct spt_schedule *schedule);

#endif
