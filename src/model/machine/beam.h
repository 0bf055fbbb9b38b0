/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_MACHINE_BEAM_H
#define MODEL_MACHINE_BEAM_H

#include "spalltime/machine.h"

#define SPT_BEAM_NODES_MAX (SPT_PARTS_MAX + SPT_SUPPORTS_MAX + SPT_PIECES_MAX + 1)
#define SPT_BEAM_BAND 4 /* diagonal and three below: two unknowns a node, elements of two nodes */

/* Deflections in mm and slopes in rad (two for each node, one after the other) of a shaft in one
 * plane, in place of its loads: elastic line of Hermite elements, exact at nodes. */
struct spt_beam_line {
    int count;
    double at_mm[SPT_BEAM_NODES_MAX];
    double unknown[2 * SPT_BEAM_NODES_MAX];
};

/* Solves the elastic line. Status: SPT_BAD_ARGUMENT where the pieces do not reach from the first to
 * the last load or support; SPT_NOT_CONVERGED. `reactions_n` on the shaft, one a support. */
enum spt_status spt_beam_line(const struct spt_machine_shaft *shaft,
                              const struct spt_beam_load *loads, int count, int plane,
                              struct spt_beam_line *line, double *reactions_n);

/* Slope in rad at a place that is a node. */
double spt_beam_slope(const struct spt_beam_line *line, double at_mm);

#endif
