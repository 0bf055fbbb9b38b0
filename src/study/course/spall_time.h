/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_COURSE_SPALL_TIME_H
#define STUDY_COURSE_SPALL_TIME_H

#include "spalltime/uncertainty.h"

#define SPT_SPALL_STRATA 1000

/* Selects samples that represent all of them: evenly spaced in the order of the system's lives
 * (NaN: none, first). The lives of their rows are stored in `scratch` ((2 + rows) * count), to
 * which the result then points. */
void spt_spall_strata(const double *system_lives, double *const *row_lives, int rows, int count,
                      double *scratch, struct spt_uncertainty_result *result);

/* Fills time_to_spall from the strata and the reliability factor. */
enum spt_status spt_spall_times(struct spt_uncertainty_result *result);

#endif
