/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/vehicle.h"
#include "study/sweep/sweep_row.h"

/* The vehicle on the road of a phase, with the values swept. */
static enum spt_sweep_status drive(const struct spt_sweep_plan *plan, const double *const *columns,
                                   int i, int phase, struct spt_vehicle_wheel *wheel)
{
    const struct spt_vehicle_case *vehicle = plan->question->vehicle;
    struct spt_vehicle_run run = vehicle->runs[phase];
    struct spt_vehicle_loads loads;
    enum spt_vehicle_problem problem;
    if (plan->swept[SPT_SWEEP_ROAD_SPEED])
        run.speed_km_h = columns[SPT_SWEEP_ROAD_SPEED][i];
    if (plan->swept[SPT_SWEEP_PAYLOAD])
        run.payload_kg = columns[SPT_SWEEP_PAYLOAD][i];
    enum spt_status status = spt_vehicle_load(&vehicle->vehicle, &run, &loads, &problem);
    if (status)
        return status == SPT_CANNOT_CARRY ? SPT_SWEEP_CANNOT_CARRY : SPT_SWEEP_REFUSED;
    *wheel = loads.wheels[vehicle->wheel];
    return SPT_SWEEP_OK;
}

enum spt_sweep_status spt_sweep_vehicle_wheel(const struct spt_sweep_plan *plan,
                                              const double *const *columns, int i, int phase,
                                              struct spt_hub_wheel *wheel)
{
    struct spt_vehicle_wheel driven;
    enum spt_sweep_status status = drive(plan, columns, i, phase, &driven);
    if (!status)
        *wheel = driven.hub;
    return status;
}

enum spt_sweep_status spt_sweep_vehicle_apply(const struct spt_sweep_plan *plan,
                                              const double *const *columns, int i,
                                              struct spt_phase *phases)
{
    const int count = plan->question->vehicle->phase_count;
    double factor = plan->swept[SPT_SWEEP_LOAD_FACTOR] ? columns[SPT_SWEEP_LOAD_FACTOR][i] : 1;
    for (int j = 0; j < count; j++) {
        struct spt_vehicle_wheel wheel;
        struct spt_hub_handbook_result shared;
        enum spt_sweep_status status = drive(plan, columns, i, j, &wheel);
        if (status)
            return status;
        struct spt_hub_load load = spt_hub_wheel_load(&wheel.hub);
        if (spt_hub_handbook_reactions(&plan->question->sheet_hub->handbook, &load, &shared))
            return SPT_SWEEP_REFUSED;
        for (int row = 0; row < 2; row++) {
            struct spt_phase *phase = &phases[row * count + j];
            phase->radial_load_n = factor * shared.radial_n[row];
            phase->axial_load_n = factor * shared.axial_n[row];
            phase->speed_rpm = wheel.speed_rpm;
        }
    }
    return SPT_SWEEP_OK;
}
