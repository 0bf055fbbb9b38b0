/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_SCHEDULE_DENTS_H
#define STUDY_SERVICE_SCHEDULE_DENTS_H

#include "study/course/run.h"

/* Fills fatigue_life_h and the bounds beside it of a plan whose survival is known. `service` with
 * the renewals of the plan; `scale_h` as of spt_damage_path. Status: as spt_damage_path. */
enum spt_status spt_schedule_dents(const struct spt_service *service,
                                   const struct spt_timeline_workspace *workspace, double scale_h,
                                   struct spt_schedule *out);

#endif
