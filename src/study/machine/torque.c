/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/machine/torque.h"

#include <math.h>

#define TORQUE_TOLERANCE 0.005 /* of the torque brought: rounding of stated shares; ours */

int spt_machine_first_part(const struct spt_machine *machine, int shaft)
{
    int first = 0;
    for (int i = 0; i < shaft; i++)
        first += machine->shafts[i].part_count;
    return first;
}

int spt_machine_first_support(const struct spt_machine *machine, int shaft)
{
    int first = 0;
    for (int i = 0; i < shaft; i++)
        first += machine->shafts[i].support_count;
    return first;
}

static bool turns_something(const struct spt_part *part)
{
    return part->kind != SPT_PART_WEIGHT && part->kind != SPT_PART_FORCE &&
           (part->role != SPT_PART_ROLE_IDLE || part->takes_rest);
}

/* Parts of a role that share a torque by stated shares, of which one may be left out. */
struct group {
    const struct spt_machine_shaft *shaft;
    const double *shares; /* of a phase, may be NULL */
    int entry;            /* part left out; -1: none */
    bool either;          /* both roles are in it */
    enum spt_part_role role;
};

static bool is_in(const struct group *group, int i)
{
    const struct spt_part *part = &group->shaft->parts[i];
    return i != group->entry && turns_something(part) && !part->takes_rest &&
           (group->either || part->role == group->role);
}

static double share_stated(const struct group *group, int i)
{
    if (group->shares && !isnan(group->shares[i]))
        return group->shares[i];
    return group->shaft->parts[i].power_share;
}

/* Share of a part of the group: as stated, or what the others leave, in equal parts. */
static double share_of(const struct group *group, int wanted)
{
    double left = 1;
    int unstated = 0;
    if (!isnan(share_stated(group, wanted)))
        return share_stated(group, wanted);
    for (int i = 0; i < group->shaft->part_count; i++) {
        if (!is_in(group, i))
            continue;
        if (isnan(share_stated(group, i)))
            unstated++;
        else
            left -= share_stated(group, i);
    }
    return fmax(left, 0) / unstated;
}

/* The part that takes the rest closes the sum; without one the torques have to. */
static bool close_torques(const struct spt_machine_shaft *shaft, double spin, double *torques,
                          double values[2])
{
    double brought = 0, taken = 0;
    int rest = -1;
    for (int i = 0; i < shaft->part_count; i++) {
        double into = torques[i] * spin;
        *(into > 0 ? &brought : &taken) += fabs(into);
        if (shaft->parts[i].takes_rest && turns_something(&shaft->parts[i]) && torques[i] == 0)
            rest = i;
    }
    values[0] = brought;
    values[1] = taken;
    if (rest >= 0) {
        torques[rest] = (taken - brought) * spin;
        return true;
    }
    if (fabs(brought - taken) > TORQUE_TOLERANCE * fmax(brought, taken))
        return false;
    for (int i = 0; i < shaft->part_count; i++)
        if (torques[i] * spin < 0)
            torques[i] *= brought / taken;
    return true;
}

static void spread(const struct group *group, double sign, double torque_nmm, double *torques)
{
    for (int i = 0; i < group->shaft->part_count; i++)
        if (is_in(group, i))
            torques[i] = sign * torque_nmm * share_of(group, i);
}

/* The shaft that the duty is about. */
static bool drive_shaft(const struct spt_machine_shaft *shaft, const double *shares, double spin,
                        double torque_nmm, double *torques, double values[2])
{
    struct group into = {shaft, shares, -1, false, SPT_PART_ROLE_DRIVEN};
    struct group out = {shaft, shares, -1, false, SPT_PART_ROLE_DRIVER};
    spread(&into, spin, torque_nmm, torques);
    spread(&out, -spin, torque_nmm, torques);
    return close_torques(shaft, spin, torques, values);
}

/* A shaft that a mesh drives, or is driven through one. */
static bool pass_shaft(const struct spt_machine_shaft *shaft, const double *shares, double spin,
                       int entry, double *torques, double values[2])
{
    struct group others = {shaft, shares, entry, true, SPT_PART_ROLE_IDLE};
    spread(&others, -1, torques[entry], torques);
    return close_torques(shaft, spin, torques, values);
}

/* Efficiency of a mesh in the direction in which the power passes. */
static enum spt_status find_efficiency(const struct spt_machine *machine,
                                       const struct spt_mesh *mesh, int from, bool out_of,
                                       double *efficiency)
{
    struct spt_worm_forces forces;
    *efficiency = mesh->efficiency;
    for (int side = 0; side < 2; side++) {
        const struct spt_part *worm = &machine->shafts[mesh->shaft[side]].parts[mesh->part[side]];
        if (worm->kind != SPT_PART_WORM)
            continue;
        bool worm_drives = (side == from) == out_of;
        enum spt_status status = spt_worm_forces(worm->pressure_rad, worm->lead_rad, worm->friction,
                                                 !worm_drives, 1, &forces);
        if (status || !(forces.efficiency > 0))
            return status ? status : SPT_NOT_APPLICABLE;
        *efficiency = forces.efficiency;
    }
    return SPT_OK;
}

/* Power leaves the shaft `from` where the mesh turns against its spin. */
static enum spt_status cross(const struct spt_machine *machine, const struct spt_mesh *mesh,
                             int from, double *torques, double *speeds, double *spins)
{
    int a = mesh->shaft[from], b = mesh->shaft[1 - from];
    int pa = spt_machine_first_part(machine, a) + mesh->part[from];
    int pb = spt_machine_first_part(machine, b) + mesh->part[1 - from];
    double ratio = from == 0 ? mesh->ratio : 1 / mesh->ratio, efficiency;
    bool parallel = machine->shafts[a].parts[mesh->part[from]].kind == SPT_PART_GEAR;
    double turned = spins[a] * machine->shafts[a].turns; /* -1: backwards */
    speeds[b] = speeds[a] * ratio;
    spins[b] =
        parallel ? (mesh->reverses ? -spins[a] : spins[a]) : machine->shafts[b].turns * turned;
    bool out = torques[pa] * spins[a] < 0;
    enum spt_status status = find_efficiency(machine, mesh, from, out, &efficiency);
    if (status)
        return status;
    double passed = torques[pa] * spins[a] / ratio * (out ? efficiency : 1 / efficiency);
    torques[pb] = -passed * spins[b];
    return SPT_OK;
}

static int find_other(const struct spt_machine *machine, const bool *known, int *from)
{
    for (int i = 0; i < machine->mesh_count; i++)
        for (*from = 0; *from < 2; ++*from)
            if (known[machine->meshes[i].shaft[*from]] &&
                !known[machine->meshes[i].shaft[1 - *from]])
                return i;
    return -1;
}

static enum spt_status follow_meshes(const struct spt_machine *machine, const double *shares,
                                     double *torques, double *speeds, double *spins,
                                     struct spt_machine_problem *problem)
{
    bool known[SPT_SHAFTS_MAX] = {false};
    int from = 0, mesh;
    known[machine->driven_at] = true;
    while ((mesh = find_other(machine, known, &from)) >= 0) {
        const struct spt_mesh *m = &machine->meshes[mesh];
        int b = m->shaft[1 - from], first = spt_machine_first_part(machine, b);
        *problem = (struct spt_machine_problem){SPT_MACHINE_PART, b, m->part[1 - from], {0, 0}};
        enum spt_status status = cross(machine, m, from, torques, speeds, spins);
        if (status)
            return status;
        problem->kind = SPT_MACHINE_UNBALANCED;
        if (!pass_shaft(&machine->shafts[b], shares ? shares + first : NULL, spins[b],
                        m->part[1 - from], torques + first, problem->values))
            return SPT_BAD_ARGUMENT;
        known[b] = true;
    }
    return SPT_OK;
}

enum spt_status spt_machine_torques(const struct spt_machine *machine,
                                    const struct spt_machine_drive *drive, double *torques_nmm,
                                    double *speeds_rpm, double *spins,
                                    struct spt_machine_problem *problem)
{
    int s = machine->driven_at, first = spt_machine_first_part(machine, s);
    const struct spt_machine_shaft *shaft = &machine->shafts[s];
    int total = spt_machine_first_part(machine, machine->shaft_count);
    for (int i = 0; i < total; i++)
        torques_nmm[i] = 0;
    for (int i = 0; i < machine->shaft_count; i++) {
        speeds_rpm[i] = 0;
        spins[i] = machine->shafts[i].turns;
    }
    speeds_rpm[s] = drive->speed_rpm;
    spins[s] = drive->backwards ? -shaft->turns : shaft->turns;
    *problem = (struct spt_machine_problem){SPT_MACHINE_UNBALANCED, s, 0, {0, 0}};
    if (!drive_shaft(shaft, drive->shares ? drive->shares + first : NULL, spins[s],
                     drive->torque_nmm, torques_nmm + first, problem->values))
        return SPT_BAD_ARGUMENT;
    enum spt_status status =
        follow_meshes(machine, drive->shares, torques_nmm, speeds_rpm, spins, problem);
    if (!status)
        *problem = (struct spt_machine_problem){0};
    return status;
}
