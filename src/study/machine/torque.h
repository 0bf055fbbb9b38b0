/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_MACHINE_TORQUE_H
#define STUDY_MACHINE_TORQUE_H

#include "spalltime/machine.h"

/* Speeds, spins and the torque of every part (one shaft after the other) in a phase; see
 * spt_machine_phase. */
enum spt_status spt_machine_torques(const struct spt_machine *machine,
                                    const struct spt_machine_drive *drive, double *torques_nmm,
                                    double *speeds_rpm, double *spins,
                                    struct spt_machine_problem *problem);

/* Index of the first part of a shaft among the parts of all shafts; of the first support. */
int spt_machine_first_part(const struct spt_machine *machine, int shaft);
int spt_machine_first_support(const struct spt_machine *machine, int shaft);

#endif
