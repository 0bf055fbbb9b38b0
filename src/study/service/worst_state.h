/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_WORST_STATE_H
#define STUDY_SERVICE_WORST_STATE_H

#include "spalltime/service.h"

/* Makes the water of a phase of a bearing worse where that of the bearing is. */
void spt_water_state_add(const struct spt_case *question, const struct spt_bearing_result *bearing,
                         struct spt_water_state *water);

/* Fills in out->worst, under the service with the renewals of the plan, until the life of the plan
 * ends or the horizon of the service is reached. Status: as spt_assess_bearing. */
enum spt_status spt_schedule_worst(const struct spt_schedule_inputs *in,
                                   const struct spt_service *service, struct spt_schedule *out);

/* The yearly risk of greases with these plans, for all units of a machine. */
struct spt_grease_risk spt_schedule_grease_risk(const struct spt_case *question,
                                                const struct spt_grease_plan *plans, int count);

#endif
