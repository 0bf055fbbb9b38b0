/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_HUB_CAGE_DAMAGE_H
#define STUDY_HUB_CAGE_DAMAGE_H

#include "spalltime/hub.h"

/* What to solve at each position of the cages. */
struct spt_cage_question {
    const struct spt_hub_model *model;
    int positions; /* of the cages within a roller pitch; 0 or 1: as they stand */
    double setting_mm;
    const struct spt_hub_load *load;
    const struct spt_hub_lubrication *lubrication; /* of both rows; NULL: basic lives alone */
};

/* Damage of each row per million revolutions, 1/L, averaged over the positions; 0 without load.
 * `modified` is that with a_ISO of each lamina; NaN where the lubrication has none. */
struct spt_cage_damage {
    double basic[2];
    double modified[2];
};

/* In:     the trail of this load, which is followed and extended.
 * Status: as spt_hub_solve except SPT_FREE, and as spt_hub_life_short. */
enum spt_status spt_cage_damage(const struct spt_cage_question *question,
                                struct spt_hub_trail *trail, struct spt_cage_damage *damage);

#endif
