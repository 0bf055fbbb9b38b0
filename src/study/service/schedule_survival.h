/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_SCHEDULE_SURVIVAL_H
#define STUDY_SERVICE_SCHEDULE_SURVIVAL_H

#include "spalltime/service.h"

/* Survival under a plan, of which bearings, greases and path must be set. */

#define SPT_SCHEDULE_ALL (-1) /* instead of one bearing: the whole machine */

/* The laws of the condition as stated; they point into the plan. */
struct spt_survival_system spt_schedule_fatigue(const struct spt_schedule *out);
struct spt_survival_system spt_schedule_grease(const struct spt_schedule *out);

/* True if fatigue can end the life of any bearing. */
bool spt_schedule_wears(const struct spt_schedule *out);

/* ln of the survival of one bearing, or of all, at t_h (>= 0) by fatigue, and ln of the survival of
 * their greases; -INFINITY from the time at which no life can be stated. */
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
