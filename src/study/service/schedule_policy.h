/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_SCHEDULE_POLICY_H
#define STUDY_SERVICE_SCHEDULE_POLICY_H

#include "spalltime/service.h"

/* Computes failures and costs of each replacement policy of a plan, whose survival and age of
 * replacement must be known. */
enum spt_status spt_schedule_weigh(const struct spt_schedule_inputs *in, struct spt_schedule *out);

#endif
