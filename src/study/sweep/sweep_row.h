/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SWEEP_SWEEP_ROW_H
#define STUDY_SWEEP_SWEEP_ROW_H

#include <math.h>

#include "spalltime/sweep.h"

/* Assesses row `i` of the columns by spt_assess_bearing and stores it in element `i` of the block.
 */
void spt_sweep_row(const struct spt_sweep_plan *plan, const double *const *columns, int i,
                   struct spt_sweep_workspace *workspace, struct spt_sweep_block *block);

/* The flags of row `i` alone, computed likewise; 0 where the row has no result. */
unsigned long long spt_sweep_row_flags(const struct spt_sweep_plan *plan,
                                       const double *const *columns, int i,
                                       struct spt_sweep_workspace *workspace);

/* Starts a chain of rows: the first one does not start from the solution of the row before. */
void spt_sweep_hub_begin(const struct spt_sweep_plan *plan, struct spt_sweep_hub *hub);

/* Applies loads and setting of row `i` to the phases of both rows of a hub, first all phases of one
 * bearing and then those of the other, with their setting factors. Result: SPT_SWEEP_OK, or why the
 * row has no result. */
enum spt_sweep_status spt_sweep_hub_apply(const struct spt_sweep_plan *plan,
                                          const double *const *columns, int i,
                                          struct spt_sweep_hub *hub, struct spt_phase *phases);

/* Applies speed, power or torque of row `i` to the phases of all bearings of a machine, one bearing
 * after the other. Result: as above. */
enum spt_sweep_status spt_sweep_machine_apply(const struct spt_sweep_plan *plan,
                                              const double *const *columns, int i,
                                              struct spt_phase *phases);

/* The wheel of a vehicle that the case is about in phase `phase` of row `i`, with the values swept.
 * Result: as above. */
enum spt_sweep_status spt_sweep_vehicle_wheel(const struct spt_sweep_plan *plan,
                                              const double *const *columns, int i, int phase,
                                              struct spt_hub_wheel *wheel);

/* Applies row `i` to the phases of both rows of a hub of such a vehicle that is known by its
 * sheets. Result: as above. */
enum spt_sweep_status spt_sweep_vehicle_apply(const struct spt_sweep_plan *plan,
                                              const double *const *columns, int i,
                                              struct spt_phase *phases);

/* SPT_SWEEP_FLAG_BITs of the setting of the hub in this row. */
unsigned long long spt_sweep_hub_flags(const struct spt_sweep_plan *plan,
                                       const double *const *columns, int i,
                                       const struct spt_sweep_hub *hub);

/* The viscosity line of an oil of this viscosity at 40 degC that keeps its index. */
enum spt_status spt_sweep_line(const struct spt_lubricant *oil, double nu40_mm2_s,
                               struct spt_walther *line, double *nu100_mm2_s);

/* Mid-point of a grade by its number, NaN where there is none. */
double spt_sweep_grade(double number);

/* The loads of a phase with the values of row `i` in place of those swept. */
static inline void spt_sweep_loads(const struct spt_sweep_plan *plan, const double *const *columns,
                                   int i, const struct spt_phase *phase, double *radial_n,
                                   double *axial_n, double *equivalent_n)
{
    const bool *swept = plan->swept;
    double factor = swept[SPT_SWEEP_LOAD_FACTOR] ? columns[SPT_SWEEP_LOAD_FACTOR][i] : 1;
    *radial_n = factor * (swept[SPT_SWEEP_RADIAL_LOAD] ? columns[SPT_SWEEP_RADIAL_LOAD][i]
                                                       : phase->radial_load_n);
    *axial_n = factor * (swept[SPT_SWEEP_AXIAL_LOAD] ? columns[SPT_SWEEP_AXIAL_LOAD][i]
                                                     : phase->axial_load_n);
    *equivalent_n = factor * phase->equivalent_load_n;
    if (swept[SPT_SWEEP_RADIAL_LOAD] || swept[SPT_SWEEP_AXIAL_LOAD])
        *equivalent_n = (double)NAN;
    if (swept[SPT_SWEEP_EQUIVALENT_LOAD])
        *equivalent_n = factor * columns[SPT_SWEEP_EQUIVALENT_LOAD][i];
}

#endif
