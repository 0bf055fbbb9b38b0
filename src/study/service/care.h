/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_CARE_H
#define STUDY_SERVICE_CARE_H

#include "spalltime/service.h"

/* Fills care and care_count of a plan whose other members are made. */
void spt_schedule_plan_care(struct spt_schedule *out);

#endif
