/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_SCHEDULE_POLICY_H
#define STUDY_SERVICE_SCHEDULE_POLICY_H

#include "spalltime/service.h"

/* Survival of a plan (`context`) by fatigue and greases, these with a constant failure rate between
 * two regreasings: a spt_survival_function. */
double spt_schedule_smooth(double t_h, const void *context);

/* Finds the cheapest age of replacement of a plan whose survival is known. */
enum spt_status spt_schedule_optimum(struct spt_schedule *out);

/* Computes failures and costs of each replacement policy of a plan, whose survival and age of
 * replacement must be known. */
enum spt_status spt_schedule_weigh(const struct spt_schedule_inputs *in, struct spt_schedule *out);

#endif
