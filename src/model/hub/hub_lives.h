/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_HUB_HUB_LIVES_H
#define MODEL_HUB_HUB_LIVES_H

#include "model/hub/hub_place.h"

/* From the sums over laminae to the lives of a row. */

/* Fills the constants of a row's lives: rating loads, scales of the laminae. */
void spt_hub_rate_row(const struct spt_hub *hub, int row, struct spt_hub_table *table);

/* NULL where no modified life is wanted or possible. */
const struct spt_hub_lubrication *spt_hub_usable(const struct spt_hub_lubrication *lubrication);

/* False without C_r, or where a modified life lacks its C_u or an e_C of 0 to 1. */
bool spt_hub_life_is_possible(const struct spt_hub_row *row,
                              const struct spt_hub_lubrication *lubrication);

/* The law of a_ISO of each lamina, for usable lubrication. */
struct spt_hub_lamina_law spt_hub_lamina_law(const struct spt_hub_model *model, int row,
                                             const struct spt_hub_lubrication *lubrication);

/* Life in million revolutions of a damage, see struct spt_hub_damage. */
double spt_hub_life_of(double damage);

#endif
