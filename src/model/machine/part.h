/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_MACHINE_PART_H
#define MODEL_MACHINE_PART_H

#include "spalltime/machine.h"

/* The load of each kind of part, added to a load that is zero; arguments as of spt_part_load. */
typedef enum spt_status spt_part_model(const struct spt_part *part,
                                       const struct spt_part_state *state,
                                       struct spt_part_load *load);
spt_part_model spt_gear_load, spt_bevel_load, spt_worm_load, spt_worm_wheel_load, spt_belt_load;

/* Adds the force (outwards, along the direction of rotation about +z, to the right) of a contact at
 * the circle of a part, times a factor, with the couple of its axial force; the torque is not
 * added. */
void spt_part_at_radius(const struct spt_part *part, const double force[3], double factor,
                        struct spt_part_load *load);

/* Adds a force in direction phi at the axis. */
void spt_part_at_axis(double phi_rad, double force_n, struct spt_part_load *load);

#endif
