/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_PLAN_H
#define CLI_PLAN_H

#include "scenario/arena.h"
#include "scenario/scenario.h"
#include "spalltime/schedule.h"

/* Works out what has to be done to a scenario as written, through its service where it has one, by
 * a life law with this floor; what the plan points to lives in the arena. `command` is for the
 * messages. Result: SPT_EXIT_DONE, or another exit status with a message on standard error. */
int spt_cli_plan(const char *command, const struct spt_scenario *scenario, double floor,
                 struct spt_arena *arena, struct spt_schedule *schedule);

/* The same of one of its variants, with the setting factors of a hub in it already: the service is
 * of the scenario as written alone, so this plan is of the condition as stated. */
int spt_cli_plan_variant(const char *command, const struct spt_scenario *scenario,
                         const struct spt_case *settled, struct spt_arena *arena,
                         struct spt_schedule *schedule);

#endif
