/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_SCHEDULE_GREASE_H
#define STUDY_SERVICE_SCHEDULE_GREASE_H

#include "spalltime/service.h"

/* Renewal of the grease of a plan whose bearings have their intervals and whose horizon is known,
 * into its bearings, greases and tasks. `stated`: the service, may be NULL. `repack_h`: INFINITY
 * where the grease is never repacked; that task is in the plan already.
 * Status: SPT_BAD_ARGUMENT, SPT_NOT_APPLICABLE as spt_regreasing_period. */
enum spt_status spt_schedule_plan_grease(struct spt_schedule *out, const struct spt_service *stated,
                                         double repack_h);

/* Adds a task that starts anew; it belongs to the plan. */
struct spt_schedule_task *spt_schedule_add(struct spt_schedule *out, enum spt_task task,
                                           int bearing, double every_h, enum spt_governor governor);

#endif
