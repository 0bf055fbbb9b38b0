/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/machine/reload.h"

#include <math.h>

/* The loads of a phase for every bearing; `stride` phases lie between two bearings. */
static void change_phases(const struct spt_machine_case *machine,
                          const struct spt_machine_loads *loads, double factor, int stride,
                          struct spt_phase *phases)
{
    for (int b = 0; b < machine->support_count; b++) {
        struct spt_phase *phase = &phases[b * stride];
        phase->speed_rpm = loads->speeds_rpm[machine->support_shaft[b]];
        phase->radial_load_n = factor * loads->supports[b].radial_n;
        phase->axial_load_n = factor * loads->supports[b].axial_n;
        phase->peak_radial_n =
            loads->supports[b].turning_n > 0 ? factor * loads->supports[b].peak_n : 0;
    }
}

enum spt_status spt_machine_reload(const struct spt_machine_case *machine,
                                   const struct spt_machine_drive *drives, double factor,
                                   struct spt_phase *phases)
{
    struct spt_part_load parts[SPT_SHAFTS_MAX * SPT_PARTS_MAX];
    struct spt_support_load supports[SPT_SUPPORTS_MAX];
    struct spt_shaft_balance balances[SPT_SHAFTS_MAX];
    double torques[SPT_SHAFTS_MAX * SPT_PARTS_MAX], speeds[SPT_SHAFTS_MAX], spins[SPT_SHAFTS_MAX];
    struct spt_machine_loads loads = {parts, supports, balances, torques, speeds, spins};
    double most = 0;
    for (int j = 0; j < machine->phase_count; j++)
        most = fmax(most, fabs(drives[j].torque_nmm));
    for (int j = 0; j < machine->phase_count; j++) {
        struct spt_machine_problem problem;
        enum spt_status status =
            spt_machine_phase(&machine->machine, &drives[j], most, &loads, &problem);
        if (status)
            return status;
        change_phases(machine, &loads, factor, machine->phase_count, &phases[j]);
    }
    return SPT_OK;
}

enum spt_status spt_vehicle_reload_wheel(const struct spt_vehicle_case *vehicle,
                                         const struct spt_vehicle_run *run,
                                         struct spt_vehicle_wheel *wheel)
{
    struct spt_vehicle_loads loads;
    enum spt_vehicle_problem problem;
    enum spt_status status = spt_vehicle_load(&vehicle->vehicle, run, &loads, &problem);
    if (!status)
        *wheel = loads.wheels[vehicle->wheel];
    return status;
}

enum spt_status spt_vehicle_reload(const struct spt_case *question,
                                   const struct spt_vehicle_run *run, int index, double factor,
                                   struct spt_phase *phases)
{
    const int count = question->vehicle->phase_count;
    struct spt_vehicle_wheel wheel;
    struct spt_hub_handbook_result shared;
    enum spt_status status = spt_vehicle_reload_wheel(question->vehicle, run, &wheel);
    if (status)
        return status;
    struct spt_hub_load load = spt_hub_wheel_load(&wheel.hub);
    status = spt_hub_handbook_reactions(&question->sheet_hub->handbook, &load, &shared);
    for (int row = 0; !status && row < 2; row++) {
        struct spt_phase *phase = &phases[row * count + index];
        phase->radial_load_n = factor * shared.radial_n[row];
        phase->axial_load_n = factor * shared.axial_n[row];
        phase->speed_rpm = wheel.speed_rpm;
    }
    return status;
}
