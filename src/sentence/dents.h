/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_DENTS_H
#define SENTENCE_DENTS_H

#include "spalltime/service.h"

#define SPT_DENTS_LENGTH 400

/* What the dents of dirt that is gone cost, with the three lives, into SPT_DENTS_LENGTH bytes.
 * In:     the life that counts; `until_h`: hours looked at, for lives beyond them.
 * Result: `words`, NULL where the bounds do not differ. */
const char *spt_dents_words(const struct spt_dent_bounds *dents, double life_h, double until_h,
                            char *words);

#endif
