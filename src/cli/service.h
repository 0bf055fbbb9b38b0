/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_SERVICE_H
#define CLI_SERVICE_H

#include "report/timeline.h"
#include "scenario/arena.h"
#include "scenario/scenario.h"

/* Follows the base case of a scenario with a section `service` through its service life, with the
 * curve of its damage up to the end of the life, to where none can be stated, or to the horizon.
 * What the answer points to lives in the arena and in the scenario.
 * Result: SPT_EXIT_DONE, or another exit status with a message on standard error. */
int spt_cli_follow(const struct spt_scenario *scenario, struct spt_arena *arena,
                   struct spt_service_life *life);

/* Setting factors of a hub into the case of a service life and into those after each event; without
 * a hub nothing is changed. Result as above. */
int spt_cli_settle_service(struct spt_service_life *life, struct spt_arena *arena);

/* Room to follow it in; an event may bring a longer duty. False when memory is out. */
bool spt_cli_service_room(const struct spt_service_life *life, struct spt_arena *arena,
                          struct spt_timeline_room *room);

#endif
