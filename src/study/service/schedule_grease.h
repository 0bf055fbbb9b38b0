/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_SCHEDULE_GREASE_H
#define STUDY_SERVICE_SCHEDULE_GREASE_H

#include "spalltime/service.h"

/* Finds when the greases of a plan are renewed and sets its bearings, greases and tasks; the
 * intervals of the bearings and `greasing` must be known. `stated`: the service, may be NULL.
 * `repack_h`: interval of repacking, a task that the plan already has; INFINITY: never. */
void spt_schedule_plan_grease(struct spt_schedule *out, const struct spt_service *stated,
                              double repack_h);

/* Adds a task, of whose first interval nothing has passed.
 * Result: the task, part of the plan. */
struct spt_schedule_task *spt_schedule_add(struct spt_schedule *out, enum spt_task task,
                                           int bearing, double every_h, enum spt_governor governor);

#endif
