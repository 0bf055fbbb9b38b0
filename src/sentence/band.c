/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/band.h"

#include <stdio.h>

#include "format/text.h"

const char *spt_band_words(const struct spt_band *band, int samples, char *words)
{
    char low[SPT_HOURS_LENGTH], high[SPT_HOURS_LENGTH];
    snprintf(words, SPT_BAND_LENGTH,
             "Band by the section `uncertainty`: %s to %s (5 to 95 %% of %d samples).",
             spt_text_life(band->p5_h, low), spt_text_life(band->p95_h, high), samples);
    return words;
}

const char *spt_preloaded_words(const struct spt_uncertainty_result *result, char *words)
{
    if (!(result->share_preloaded > 0))
        return NULL;
    snprintf(
        words, SPT_BAND_LENGTH,
        "In %.3g %% of the samples the rows are PRELOADED, cold or running: the heat of preload, "
        "which draws the pair tighter still, is in none of these lives.",
        100 * result->share_preloaded);
    return words;
}
