/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_COURSE_DAMAGE_PATH_H
#define STUDY_COURSE_DAMAGE_PATH_H

#include "study/course/run.h"

/* The damage of each bearing under a service, by its L10, with the dents of earlier dirt as said.
 * `scale_h` (> 0) is the order of magnitude
 * of the life: the first point is at a hundredth of it. Status: as spt_timeline. */
enum spt_status spt_damage_path(const struct spt_case *question, const struct spt_service *service,
                                const struct spt_timeline_workspace *workspace,
                                enum spt_run_dents dents, double scale_h,
                                struct spt_damage_path *path);

/* At a time (>= 0, finite). */
double spt_damage_path_at(const struct spt_damage_path *path, int bearing, double t_h);

/* True where from some time on no bearing is damaged any more, and no life ends. */
bool spt_damage_path_ceases(const struct spt_damage_path *path);

/* True where any bearing is ever damaged, or its life ends. */
bool spt_damage_path_wears(const struct spt_damage_path *path);

#endif
