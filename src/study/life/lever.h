/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_LIFE_LEVER_H
#define STUDY_LIFE_LEVER_H

#include "spalltime/assess.h"
#include "spalltime/reach.h"

/* Changes of a case by one lever alone. */

/* Gives the oil the middle of a grade (0 to SPT_VISCOSITY_GRADE_COUNT - 1) at its own viscosity
 * index. Status: as spt_viscosity_100_from_index where no oil of that grade has that index. */
enum spt_status spt_lever_set_grade(struct spt_case *question, int grade);

/* The change of a lever that an adjustment knows, at a value in its unit; `relaxing`: as a floor
 * under every phase, else as a ceiling. */
struct spt_adjustment spt_lever_adjustment(enum spt_lever lever, double value, bool relaxing);

/* Makes the case with one lever at a value; its phases are in the workspace `workspace`.
 * Status: SPT_BAD_ARGUMENT; as the viscosity and hub models where the value has no answer. */
enum spt_status spt_lever_change(const struct spt_case *question, enum spt_lever lever,
                                 double value, bool relaxing,
                                 const struct spt_reach_workspace *workspace,
                                 struct spt_case *changed);

/* Hours from new that a case reaches which was changed now: where the bearings have run before,
 * those hours, in the condition of the past or else as stated, and the remaining life as changed.
 * Status: as spt_assess_bearing. */
enum spt_status spt_lever_life(const struct spt_case *stated, const struct spt_case *changed,
                               struct spt_phase_result *results, double *life_h);

#endif
