/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_BUILD_BUILD_MACHINE_H
#define SCENARIO_BUILD_BUILD_MACHINE_H

#include "scenario/build/build.h"
#include "spalltime/machine.h"

/* A part of a shaft as it was written. */
struct spt_part_source {
    const struct spt_node *at;
    struct spt_part *part; /* NULL: not written, a weight of the shaft itself */
    const char *mate;      /* NULL: none */
    bool towards_stated;   /* `mate_towards` */
    bool role_stated;
    double efficiency;
};

/* Reads a part; `turns` of its shaft: +1 clockwise, -1 counterclockwise. */
void spt_build_part(struct spt_build *build, const struct spt_node *node, double turns,
                    struct spt_part *part, struct spt_part_source *source);

/* Key and name of a part in messages: "gear `wheel`". */
const char *spt_build_part_name(const struct spt_part *part, char *name);
#define SPT_PART_NAME_LENGTH 100

/* The kind of a part from the name that it states; -1 with a diagnostic where it states none or
 * two. `name` receives the name. */
int spt_build_part_kind(struct spt_build *build, const struct raw_part *raw, const char **name);

/* Joins the parts that mesh, from the parts of each shaft as they were written. */
void spt_build_meshes(struct spt_build *build, const struct raw_machine *raw,
                      struct spt_part_source *const *sources, struct spt_machine_case *machine);

/* What a phase states for the machine. */
void spt_build_drive(struct spt_build *build, const struct raw_phase *raw,
                     const struct spt_machine_case *machine, struct spt_machine_drive *drive);

#endif
