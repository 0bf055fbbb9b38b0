/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_LIFE_DENTS_H
#define STUDY_LIFE_DENTS_H

#include "spalltime/assess.h"

/* Adds dirt: of two classes the dirtier counts, of two e_C the lower. */
void spt_dents_add_class(struct spt_dents *dents, enum spt_cleanliness cleanliness);
void spt_dents_add_factor(struct spt_dents *dents, double contamination_factor);

/* True where the case or a phase of it has dents. */
bool spt_dents_any(const struct spt_case *question);

bool spt_dents_same(const struct spt_dents *one, const struct spt_dents *other);

#endif
