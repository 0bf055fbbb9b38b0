/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_LIFE_LEVER_MACHINE_H
#define STUDY_LIFE_LEVER_MACHINE_H

#include "spalltime/assess.h"
#include "spalltime/reach.h"

/* Levers in the words of a machine: its loads are worked out anew at each value. */

/* True for these levers, whether the case has them or not. */
bool spt_machine_lever_is(enum spt_lever lever);

/* The present value: of the phase that a remedy improves, when relaxing of the one that worsens
 * first; NaN where the case has no such lever. */
double spt_machine_lever_present(const struct spt_case *question, enum spt_lever lever,
                                 bool relaxing);

/* The far end of the search from the present value. */
double spt_machine_lever_end(const struct spt_case *question, enum spt_lever lever, bool relaxing);

/* Writes the loads at a value to `phases`, those of all bearings.
 * Status: SPT_CANNOT_CARRY where the vehicle tips or a bearing cannot take the thrust; as
 * spt_machine_phase and spt_vehicle_load. */
enum spt_status spt_machine_lever_set(const struct spt_case *question, enum spt_lever lever,
                                      double value, bool relaxing, struct spt_phase *phases);

#endif
