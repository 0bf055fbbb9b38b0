/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_SCHEDULE_OIL_H
#define STUDY_SERVICE_SCHEDULE_OIL_H

#include "spalltime/service.h"

/* The change of the oil by its own life and by the calendar, from the results of the bearings
 * (bearing_count, each with its phases) added one by one. */
void spt_oil_change_begin(const struct spt_case *question, struct spt_oil_change *change);
void spt_oil_change_add(const struct spt_case *question, const struct spt_bearing_result *bearing,
                        struct spt_oil_change *change);
void spt_oil_change_end(const struct spt_schedule_inputs *in, struct spt_oil_change *change);

/* Adds the task that renews the lubricant: the first of the limits of the service, the interval it
 * states, and for oil its own life.
 * Result: its interval, INFINITY where there is none or it is too short in practice. */
double spt_schedule_plan_oil(const struct spt_schedule_inputs *in, struct spt_schedule *out);

#endif
