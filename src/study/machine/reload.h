/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_MACHINE_RELOAD_H
#define STUDY_MACHINE_RELOAD_H

#include "spalltime/machine.h"
#include "spalltime/vehicle.h"

/* The loads of a machine or a vehicle anew, where a row of a sweep or a lever drives it otherwise
 * than its scenario does. `factor` is on all loads. */

/* Writes speed and loads of all phases of all bearings, one bearing after the other.
 * In:     one drive for each phase of the machine.
 * Status: as spt_machine_phase. */
enum spt_status spt_machine_reload(const struct spt_machine_case *machine,
                                   const struct spt_machine_drive *drives, double factor,
                                   struct spt_phase *phases);

/* The wheel that the case is about on another run.
 * Status: as spt_vehicle_load. */
enum spt_status spt_vehicle_reload_wheel(const struct spt_vehicle_case *vehicle,
                                         const struct spt_vehicle_run *run,
                                         struct spt_vehicle_wheel *wheel);

/* Writes speed and loads of phase `index` of both rows of a hub that is known by its sheets.
 * Status: as above and as spt_hub_handbook_reactions. */
enum spt_status spt_vehicle_reload(const struct spt_case *question,
                                   const struct spt_vehicle_run *run, int index, double factor,
                                   struct spt_phase *phases);

#endif
