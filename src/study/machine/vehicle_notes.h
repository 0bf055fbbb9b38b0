/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_MACHINE_VEHICLE_NOTES_H
#define STUDY_MACHINE_VEHICLE_NOTES_H

#include "spalltime/vehicle.h"

/* Adds what the statics of a vehicle leave out or warn of. */
void spt_vehicle_notes(const struct spt_vehicle_case *vehicle, struct spt_notes *notes);

#endif
