/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"
#include "words/table.h"

SPT_DEFINE_WORDS(spt_cause_words,
                 SPT_CAUSE_COUNT, [SPT_CAUSE_DEBRIS] = "debris", [SPT_CAUSE_WATER] = "water",
                 [SPT_CAUSE_WORN_GREASE] = "worn grease", [SPT_CAUSE_THIN_FILM] = "thin film",
                 [SPT_CAUSE_OVERLOAD] = "overload", [SPT_CAUSE_SETTING] = "setting");

SPT_DEFINE_WORDS(spt_setting_side_words, SPT_SETTING_SIDE_COUNT,
                 [SPT_SETTING_SIDE_EITHER] = "either", [SPT_SETTING_SIDE_PRELOAD] = "preload",
                 [SPT_SETTING_SIDE_PLAY] = "end play", [SPT_SETTING_SIDE_TILT] = "tilt");

const char *spt_cause_name(enum spt_cause cause)
{
    return spt_word(&spt_cause_words, (int)cause);
}
