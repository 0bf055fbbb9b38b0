/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/machine.h"

#include <math.h>

#include "study/machine/torque.h"

/* The mean for the life, the peak and the thrust of each support. */
static enum spt_status finish_supports(const struct spt_machine_shaft *shaft, double thrust_n,
                                       struct spt_support_load *supports)
{
    for (int i = 0; i < shaft->support_count; i++) {
        double steady = hypot(supports[i].x_n, supports[i].y_n) + supports[i].any_n;
        double exponent = spt_life_exponent(shaft->bearings[i]->type);
        enum spt_status status =
            spt_radial_mean(steady, supports[i].turning_n, exponent, &supports[i].radial_n);
        if (status)
            return status;
        supports[i].peak_n = steady + supports[i].turning_n;
    }
    return spt_shaft_thrust(shaft, thrust_n, supports);
}

static enum spt_status load_parts(const struct spt_machine_shaft *shaft, const double *torques,
                                  const double *most, double speed_rpm, double spin,
                                  struct spt_part_load *loads, struct spt_machine_problem *problem)
{
    for (int i = 0; i < shaft->part_count; i++) {
        struct spt_part_state state = {torques[i], fabs(most[i]), spin, speed_rpm, shaft->upright};
        problem->part = i;
        enum spt_status status = spt_part_load(&shaft->parts[i], &state, &loads[i]);
        if (status)
            return status;
    }
    return SPT_OK;
}

static enum spt_status load_shaft(const struct spt_machine *machine, int s, const double *most,
                                  struct spt_machine_loads *loads,
                                  struct spt_machine_problem *problem)
{
    const struct spt_machine_shaft *shaft = &machine->shafts[s];
    int part = spt_machine_first_part(machine, s), at = spt_machine_first_support(machine, s);
    *problem = (struct spt_machine_problem){SPT_MACHINE_PART, s, 0, {0, 0}};
    enum spt_status status =
        load_parts(shaft, &loads->torques_nmm[part], &most[part], loads->speeds_rpm[s],
                   loads->spins[s], &loads->parts[part], problem);
    if (status)
        return status;
    problem->kind = SPT_MACHINE_STATICS;
    status =
        spt_shaft_reactions(shaft, &loads->parts[part], &loads->supports[at], &loads->balances[s]);
    if (status)
        return status;
    problem->kind = SPT_MACHINE_THRUST;
    problem->values[0] = loads->balances[s].force_n[2];
    return finish_supports(shaft, problem->values[0], &loads->supports[at]);
}

enum spt_status spt_machine_phase(const struct spt_machine *machine,
                                  const struct spt_machine_drive *drive, double most_torque_nmm,
                                  struct spt_machine_loads *loads,
                                  struct spt_machine_problem *problem)
{
    double most[SPT_SHAFTS_MAX * SPT_PARTS_MAX];
    struct spt_machine_drive hardest = *drive;
    *problem = (struct spt_machine_problem){0};
    if (machine->shaft_count < 1 || machine->shaft_count > SPT_SHAFTS_MAX ||
        !isfinite(drive->torque_nmm) || !(drive->speed_rpm >= 0) || !(most_torque_nmm >= 0))
        return SPT_BAD_ARGUMENT;
    hardest.torque_nmm = most_torque_nmm;
    enum spt_status status = spt_machine_torques(machine, &hardest, loads->torques_nmm,
                                                 loads->speeds_rpm, loads->spins, problem);
    int parts = spt_machine_first_part(machine, machine->shaft_count);
    for (int i = 0; !status && i < parts; i++)
        most[i] = loads->torques_nmm[i];
    if (!status)
        status = spt_machine_torques(machine, drive, loads->torques_nmm, loads->speeds_rpm,
                                     loads->spins, problem);
    for (int s = 0; !status && s < machine->shaft_count; s++)
        status = load_shaft(machine, s, most, loads, problem);
    if (!status)
        *problem = (struct spt_machine_problem){0};
    return status;
}
