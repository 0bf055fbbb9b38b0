/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "study/machine/reload.h"
#include "study/sweep/sweep_row.h"

/* The run of a phase with the values swept. */
static struct spt_vehicle_run change_run(const struct spt_sweep_plan *plan,
                                         const double *const *columns, int i, int phase)
{
    struct spt_vehicle_run run = plan->question->vehicle->runs[phase];
    if (plan->swept[SPT_SWEEP_ROAD_SPEED])
        run.speed_km_h = columns[SPT_SWEEP_ROAD_SPEED][i];
    if (plan->swept[SPT_SWEEP_PAYLOAD])
        run.payload_kg = columns[SPT_SWEEP_PAYLOAD][i];
    return run;
}

static enum spt_sweep_status name_failure(enum spt_status status)
{
    return !status                      ? SPT_SWEEP_OK
           : status == SPT_CANNOT_CARRY ? SPT_SWEEP_CANNOT_CARRY
                                        : SPT_SWEEP_REFUSED;
}

enum spt_sweep_status spt_sweep_vehicle_wheel(const struct spt_sweep_plan *plan,
                                              const double *const *columns, int i, int phase,
                                              struct spt_hub_wheel *wheel)
{
    const struct spt_vehicle_run run = change_run(plan, columns, i, phase);
    struct spt_vehicle_wheel driven;
    enum spt_status status = spt_vehicle_reload_wheel(plan->question->vehicle, &run, &driven);
    if (!status)
        *wheel = driven.hub;
    return name_failure(status);
}

enum spt_sweep_status spt_sweep_vehicle_apply(const struct spt_sweep_plan *plan,
                                              const double *const *columns, int i,
                                              struct spt_phase *phases)
{
    const double factor =
        plan->swept[SPT_SWEEP_LOAD_FACTOR] ? columns[SPT_SWEEP_LOAD_FACTOR][i] : 1;
    enum spt_status status = SPT_OK;
    for (int j = 0; !status && j < plan->question->vehicle->phase_count; j++) {
        const struct spt_vehicle_run run = change_run(plan, columns, i, j);
        status = spt_vehicle_reload(plan->question, &run, j, factor, phases);
    }
    return name_failure(status);
}
