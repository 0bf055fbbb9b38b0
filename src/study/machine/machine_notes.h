/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_MACHINE_MACHINE_NOTES_H
#define STUDY_MACHINE_MACHINE_NOTES_H

#include "spalltime/machine.h"

/* Adds what a machine has to say of one of its bearings: slope of the shaft, an estimated load
 * centre, a belt on its shaft that is tightened by its friction alone. */
void spt_machine_notes(const struct spt_machine_case *machine, int bearing,
                       enum spt_bearing_type type, struct spt_notes *notes);

#endif
