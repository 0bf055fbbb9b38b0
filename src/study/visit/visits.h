/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_VISIT_VISITS_H
#define STUDY_VISIT_VISITS_H

#include "spalltime/service.h"

/* Sets the hours and days that a workshop keeps from the interval that the task has, which becomes
 * its `raw_h`. Replacement, a year of use and an interval that the user states stay as they are. */
void spt_visits_round(const struct spt_case *question, struct spt_schedule_task *task);

#endif
