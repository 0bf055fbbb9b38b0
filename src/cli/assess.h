/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_ASSESS_H
#define CLI_ASSESS_H

#include "scenario/arena.h"
#include "spalltime/assess.h"

/* Assesses a case, settled and distributed where it has a hub, with all results in the arena.
 * Result: SPT_EXIT_DONE, or another exit status with a message on standard error. */
int spt_cli_assess(const struct spt_case *question, struct spt_arena *arena,
                   struct spt_assessment *assessment);

/* True where a target is set and the life is shorter or cannot be stated. */
bool spt_cli_misses_target(const struct spt_assessment *assessment);

#endif
