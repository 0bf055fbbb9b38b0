/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_HUB_HUB_PLACE_H
#define MODEL_HUB_HUB_PLACE_H

#include "model/hub/hub_kernel.h"

/* The rollers of both rows at one position of the cages, in a place of the model's workspace.
 *
 * The load of a wheel and the hub are mirror images of themselves about the y-z plane. Where the
 * rollers are too, only one of each pair is summed, and x and tilt_y are 0. */

/* Doubles of one row for its places. */
size_t spt_hub_places_length(int elements);

/* Puts the rollers, turned by a share of their pitch, into a place (0 to SPT_HUB_PLACES - 1). */
void spt_hub_place_rollers(const struct spt_hub_model *model, int place, double share);

/* Fills place i with the rollers turned by i/positions of their pitch, unless they are there. At
 * most SPT_HUB_PLACES positions. */
void spt_hub_place_cages(const struct spt_hub_model *model, int positions);

/* True where the rollers in a place are their own mirror image. Those turned by the same share the
 * other way are then the mirror image of those turned by a share. */
bool spt_hub_place_is_symmetric(const struct spt_hub_model *model, int place);

/* True where load and rings are their own mirror image. */
bool spt_hub_load_is_symmetric(const struct spt_hub_model *model, const struct spt_hub_load *load);

/* The rollers of a row in a place; one of each pair, with its weight, where `halved`. */
struct spt_hub_rollers spt_hub_place_row(const struct spt_hub_model *model, int row, int place,
                                         bool halved);

#endif
