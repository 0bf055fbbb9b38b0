/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_BAND_H
#define SENTENCE_BAND_H

#include "spalltime/uncertainty.h"

/* "Band by the section `uncertainty`: 12 300 h to 45 600 h (5 to 95 % of 100000 samples)." into
 * SPT_BAND_LENGTH bytes. */
#define SPT_BAND_LENGTH 160
const char *spt_band_words(const struct spt_band *band, int samples, char *words);

/* Where rows of a hub are preloaded in some samples: a sentence on what the life then does not
 * include. NULL: in no sample. `words`: SPT_BAND_LENGTH bytes. */
const char *spt_preloaded_words(const struct spt_uncertainty_result *result, char *words);

#endif
