/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_SCHEDULE_SURVIVAL_H
#define STUDY_SERVICE_SCHEDULE_SURVIVAL_H

#include "spalltime/service.h"

/* What survives under a plan whose bearings, greases and path are filled in. */

#define SPT_SCHEDULE_ALL (-1) /* in place of one bearing: the whole machine */

/* The laws of the condition as stated; they point into the plan. */
struct spt_survival_system spt_schedule_fatigue(const struct spt_schedule *out);
struct spt_survival_system spt_schedule_grease(const struct spt_schedule *out);

/* True where fatigue ever ends anything. */
bool spt_schedule_wears(const struct spt_schedule *out);

/* ln of the share that the fatigue of one bearing or of all leaves at t_h (>= 0), and ln of the
 * share of their greases that last; -INFINITY from where no life can be stated. */
double spt_schedule_log_fatigue(const struct spt_schedule *out, int bearing, double t_h);
double spt_schedule_log_grease(const struct spt_schedule *out, int bearing, double t_h);

/* Age that a share `survival` (0 < R < 1) of one bearing or of the machines reaches, by fatigue
 * alone or with the greases; INFINITY where that lies beyond SPT_SURVIVAL_LIFE_MAX_H, as where the
 * damage ceases with the machine at rest.
 * Status: SPT_NOT_CONVERGED. */
enum spt_status spt_schedule_life(const struct spt_schedule *out, int bearing, bool greases,
                                  double survival, double *life_h);

/* Fills the lives of fatigue, of the greases and of both. `stated_known`: every bearing states a
 * life in its condition as stated. */
enum spt_status spt_schedule_lives(struct spt_schedule *out, bool stated_known);

#endif
