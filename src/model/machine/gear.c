/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/machine/part.h"

#include <math.h>

/* Forces at radius r in direction phi, from their radial (outwards), tangential and axial parts:
 * r e_r x F = (r F_t) e_z - (r F_z) e_t. */
void spt_part_at_radius(const struct spt_part *part, const double force[3], double factor,
                        struct spt_part_load *load)
{
    double c = cos(part->towards_rad), s = sin(part->towards_rad), r = part->diameter_mm / 2;
    load->force_n[0] += factor * (force[0] * c - force[1] * s);
    load->force_n[1] += factor * (force[0] * s + force[1] * c);
    load->force_n[2] += factor * force[2];
    load->moment_nmm[0] += factor * r * force[2] * s;
    load->moment_nmm[1] -= factor * r * force[2] * c;
}

static double factor_of(const struct spt_part *part)
{
    return part->load_factor;
}

static bool teeth_are_valid(const struct spt_part *part)
{
    return part->diameter_mm > 0 && part->pressure_rad >= 0 && part->pressure_rad < 0.79 &&
           isfinite(part->towards_rad) && part->load_factor >= 1 && isfinite(part->load_factor);
}

/* The tangential force has the sign of the torque, which makes the rest follow: the axial force of
 * a right-hand helix points against it. */
enum spt_status spt_gear_load(const struct spt_part *part, const struct spt_part_state *state,
                              struct spt_part_load *load)
{
    double helix = part->double_helical ? 0 : part->helix_rad;
    if (!teeth_are_valid(part) || !(part->helix_rad >= 0) || !(part->helix_rad < 1.4) ||
        fabs(part->hand) > 1)
        return SPT_BAD_ARGUMENT;
    double t = state->torque_nmm / (part->diameter_mm / 2);
    double separating = fabs(t) * tan(part->pressure_rad) / cos(part->helix_rad);
    double force[3] = {part->inside_teeth ? separating : -separating, t,
                       -part->hand * t * tan(helix)};
    load->tangential_n = fabs(t);
    load->radial_n = separating;
    load->axial_n = fabs(force[2]);
    spt_part_at_radius(part, force, factor_of(part), load);
    return SPT_OK;
}

/* n_c is normal to the cone (outwards), g along it: see the shares of the normal force below. */
enum spt_status spt_bevel_load(const struct spt_part *part, const struct spt_part_state *state,
                               struct spt_part_load *load)
{
    double cone = part->cone_rad;
    if (!teeth_are_valid(part) || !(cone > 0) || !(cone < 1.58) || !(part->helix_rad >= 0) ||
        !(part->helix_rad < 1.4) || fabs(part->back) != 1)
        return SPT_BAD_ARGUMENT;
    double t = state->torque_nmm / (part->diameter_mm / 2);
    double normal = fabs(t) * tan(part->pressure_rad) / cos(part->helix_rad);
    double along = t * part->hand * part->back * tan(part->helix_rad);
    double force[3] = {-normal * cos(cone) - along * sin(cone), t,
                       part->back * (normal * sin(cone) - along * cos(cone))};
    load->tangential_n = fabs(t);
    load->radial_n = fabs(force[0]);
    load->axial_n = fabs(force[2]);
    spt_part_at_radius(part, force, factor_of(part), load);
    return SPT_OK;
}

/* Normal force W from the force along the axis of the worm; friction helps the side that is driven
 * with less. */
enum spt_status spt_worm_forces(double pressure_rad, double lead_rad, double friction,
                                bool wheel_drives, double wheel_tangential_n,
                                struct spt_worm_forces *forces)
{
    *forces = (struct spt_worm_forces){(double)NAN, (double)NAN, (double)NAN};
    if (!(pressure_rad >= 0) || !(pressure_rad < 0.79) || !(lead_rad > 0) || !(lead_rad < 1.4) ||
        !(friction >= 0) || !(friction < 10) || !(wheel_tangential_n >= 0) ||
        isinf(wheel_tangential_n))
        return SPT_BAD_ARGUMENT;
    double mu = wheel_drives ? -friction : friction;
    double ca = cos(pressure_rad), cg = cos(lead_rad), sg = sin(lead_rad);
    double along = ca * cg - mu * sg, across = ca * sg + mu * cg;
    if (!(along > 0))
        return SPT_NOT_APPLICABLE;
    double w = wheel_tangential_n / along;
    forces->worm_tangential_n = w * across;
    forces->radial_n = w * sin(pressure_rad);
    forces->efficiency =
        wheel_drives ? across / along / tan(lead_rad) : along / across * tan(lead_rad);
    return SPT_OK;
}

/* Forces of a mesh whose worm has the tangential force 1. */
static enum spt_status per_worm_force(const struct spt_part *part, bool wheel_drives,
                                      struct spt_worm_forces *forces, double *axial)
{
    enum spt_status status = spt_worm_forces(part->pressure_rad, part->lead_rad, part->friction,
                                             wheel_drives, 1, forces);
    if (status)
        return status;
    if (!(forces->worm_tangential_n > 0))
        return SPT_NOT_APPLICABLE; /* self-locking */
    *axial = 1 / forces->worm_tangential_n;
    return SPT_OK;
}

enum spt_status spt_worm_load(const struct spt_part *part, const struct spt_part_state *state,
                              struct spt_part_load *load)
{
    struct spt_worm_forces unit;
    double ratio = 0;
    if (!teeth_are_valid(part) || fabs(part->hand) != 1)
        return SPT_BAD_ARGUMENT;
    /* it drives where the mesh turns against the shaft */
    bool wheel_drives = state->torque_nmm * state->spin > 0;
    enum spt_status status = per_worm_force(part, wheel_drives, &unit, &ratio);
    if (status)
        return status;
    double t = state->torque_nmm / (part->diameter_mm / 2), axial = fabs(t) * ratio;
    double force[3] = {-axial * unit.radial_n, t, -part->hand * copysign(axial, t)};
    load->tangential_n = fabs(t);
    load->radial_n = axial * unit.radial_n;
    load->axial_n = axial;
    spt_part_at_radius(part, force, factor_of(part), load);
    return SPT_OK;
}

enum spt_status spt_worm_wheel_load(const struct spt_part *part, const struct spt_part_state *state,
                                    struct spt_part_load *load)
{
    struct spt_worm_forces mesh;
    if (!teeth_are_valid(part) || fabs(part->hand) != 1)
        return SPT_BAD_ARGUMENT;
    double t = state->torque_nmm / (part->diameter_mm / 2);
    bool drives = state->torque_nmm * state->spin < 0;
    enum spt_status status =
        spt_worm_forces(part->pressure_rad, part->lead_rad, part->friction, drives, fabs(t), &mesh);
    if (status)
        return status;
    double force[3] = {-mesh.radial_n, t, -part->hand * copysign(mesh.worm_tangential_n, t)};
    load->tangential_n = fabs(t);
    load->radial_n = mesh.radial_n;
    load->axial_n = fabs(mesh.worm_tangential_n);
    spt_part_at_radius(part, force, factor_of(part), load);
    return SPT_OK;
}
