/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_SCHEDULE_DENTS_H
#define STUDY_SERVICE_SCHEDULE_DENTS_H

#include "study/course/run.h"

/* Fills the bounds beside life_h of a plan that is followed. `service` with the renewals of the
 * plan. Status: as spt_plan_life. */
enum spt_status spt_schedule_dents(const struct spt_service *service,
                                   const struct spt_timeline_workspace *workspace,
                                   struct spt_schedule *out);

#endif
