/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CLI_LIVE_CONTROLS_H
#define CLI_LIVE_CONTROLS_H

#include "format/json.h"
#include "scenario/catalog/catalog.h"

/* Writes the values of a scenario that a reader may want to turn as an array of groups (run.h):
 * those of the whole scenario, then those of each phase. What is not there, or is no plain value,
 * is left out. `catalog` has the names to choose a lubricant from. */
void spt_controls_json(struct spt_json *json, const struct spt_node *root,
                       const struct spt_catalog *catalog);

#endif
