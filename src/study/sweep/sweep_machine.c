/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/machine.h"
#include "study/sweep/sweep_row.h"

#define NMM_PER_NM 1e3

/* What a phase states, with the values of row `i` in place of those swept. */
static bool change_drive(const struct spt_sweep_plan *plan, const double *const *columns, int i,
                         struct spt_machine_drive *drive)
{
    const bool *swept = plan->swept;
    double power_w = drive->power_w;
    if (swept[SPT_SWEEP_SPEED])
        drive->speed_rpm = columns[SPT_SWEEP_SPEED][i];
    if (swept[SPT_SWEEP_POWER])
        power_w = columns[SPT_SWEEP_POWER][i];
    if (swept[SPT_SWEEP_TORQUE])
        drive->torque_nmm = columns[SPT_SWEEP_TORQUE][i] * NMM_PER_NM;
    else if (!isnan(power_w))
        drive->torque_nmm =
            power_w == 0 ? 0 : power_w * 30 / acos(-1.0) / drive->speed_rpm * NMM_PER_NM;
    return isfinite(drive->torque_nmm);
}

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

static enum spt_sweep_status name_failure(enum spt_status status)
{
    return status == SPT_CANNOT_CARRY ? SPT_SWEEP_CANNOT_CARRY : SPT_SWEEP_REFUSED;
}

enum spt_sweep_status spt_sweep_machine_apply(const struct spt_sweep_plan *plan,
                                              const double *const *columns, int i,
                                              struct spt_phase *phases)
{
    const struct spt_machine_case *machine = plan->question->machine;
    struct spt_part_load parts[SPT_SHAFTS_MAX * SPT_PARTS_MAX];
    struct spt_support_load supports[SPT_SUPPORTS_MAX];
    struct spt_shaft_balance balances[SPT_SHAFTS_MAX];
    double torques[SPT_SHAFTS_MAX * SPT_PARTS_MAX], speeds[SPT_SHAFTS_MAX], spins[SPT_SHAFTS_MAX];
    struct spt_machine_loads loads = {parts, supports, balances, torques, speeds, spins};
    const bool *swept = plan->swept;
    double factor = swept[SPT_SWEEP_LOAD_FACTOR] ? columns[SPT_SWEEP_LOAD_FACTOR][i] : 1, most = 0;
    if (!swept[SPT_SWEEP_SPEED] && !swept[SPT_SWEEP_POWER] && !swept[SPT_SWEEP_TORQUE])
        return SPT_SWEEP_OK;
    for (int j = 0; j < machine->phase_count; j++) {
        struct spt_machine_drive drive = machine->drives[j];
        if (!change_drive(plan, columns, i, &drive))
            return SPT_SWEEP_REFUSED;
        most = fmax(most, fabs(drive.torque_nmm));
    }
    for (int j = 0; j < machine->phase_count; j++) {
        struct spt_machine_drive drive = machine->drives[j];
        struct spt_machine_problem problem;
        change_drive(plan, columns, i, &drive);
        enum spt_status status =
            spt_machine_phase(&machine->machine, &drive, most, &loads, &problem);
        if (status)
            return name_failure(status);
        change_phases(machine, &loads, factor, machine->phase_count, &phases[j]);
    }
    return SPT_SWEEP_OK;
}
