/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_VEHICLE_VEHICLE_H
#define SCENARIO_VEHICLE_VEHICLE_H

#include "scenario/build/build.h"

/* The trailer of a section `machine` whose catalog names are resolved, as `vehicle` of the case,
 * and the hub of each of its wheels; NULL when memory is exhausted or without a hub to read. */
struct spt_hub_case *spt_build_vehicle(struct spt_build *build, const struct spt_node *machine,
                                       struct spt_case *question);

/* Contradictions in the road of a phase. */
void spt_build_road_check(struct spt_build *build, const struct raw_phase *raw);

/* What a phase states of the road and the load. */
void spt_build_run(struct spt_build *build, const struct raw_phase *raw,
                   const struct spt_vehicle_case *vehicle, struct spt_vehicle_run *run);

/* Loads of every wheel in every phase, and the phases of the case: those of the worst wheel, of the
 * one that the trailer names, or of the one that the build has pinned. */
void spt_build_vehicle_loads(struct spt_build *build, const struct spt_duty_terms *terms,
                             struct spt_hub_case *hub, struct spt_case *question);

#endif
