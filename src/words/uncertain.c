/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/uncertainty.h"
#include "words/table.h"

SPT_DEFINE_WORDS(spt_uncertain_words, SPT_UNCERTAIN_COUNT, [SPT_UNCERTAIN_LOAD] = "load",
                 [SPT_UNCERTAIN_SPEED] = "speed", [SPT_UNCERTAIN_TEMPERATURE] = "temperature",
                 [SPT_UNCERTAIN_WATER] = "water", [SPT_UNCERTAIN_CLEANLINESS] = "cleanliness",
                 [SPT_UNCERTAIN_RATING] = "rating", [SPT_UNCERTAIN_END_PLAY] = "end play");

const char *spt_uncertain_name(enum spt_uncertain input)
{
    return spt_word(&spt_uncertain_words, (int)input);
}
