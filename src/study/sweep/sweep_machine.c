/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/machine.h"
#include "study/machine/reload.h"
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

static enum spt_sweep_status name_failure(enum spt_status status)
{
    return status == SPT_CANNOT_CARRY ? SPT_SWEEP_CANNOT_CARRY : SPT_SWEEP_REFUSED;
}

enum spt_sweep_status spt_sweep_machine_apply(const struct spt_sweep_plan *plan,
                                              const double *const *columns, int i,
                                              struct spt_phase *phases)
{
    const struct spt_machine_case *machine = plan->question->machine;
    struct spt_machine_drive drives[SPT_PHASES_MAX];
    const bool *swept = plan->swept;
    const double factor = swept[SPT_SWEEP_LOAD_FACTOR] ? columns[SPT_SWEEP_LOAD_FACTOR][i] : 1;
    if (!swept[SPT_SWEEP_SPEED] && !swept[SPT_SWEEP_POWER] && !swept[SPT_SWEEP_TORQUE])
        return SPT_SWEEP_OK;
    for (int j = 0; j < machine->phase_count; j++) {
        drives[j] = machine->drives[j];
        if (!change_drive(plan, columns, i, &drives[j]))
            return SPT_SWEEP_REFUSED;
    }
    enum spt_status status = spt_machine_reload(machine, drives, factor, phases);
    return status ? name_failure(status) : SPT_SWEEP_OK;
}
