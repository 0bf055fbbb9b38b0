/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"
#include "words/table.h"

SPT_DEFINE_WORDS(
    spt_bearing_type_words, SPT_BEARING_TYPE_COUNT, [SPT_DEEP_GROOVE_BALL] = "deep groove ball",
    [SPT_ANGULAR_CONTACT_BALL] = "angular contact ball",
    [SPT_SELF_ALIGNING_BALL] = "self-aligning ball",
    [SPT_CYLINDRICAL_ROLLER] = "cylindrical roller", [SPT_TAPERED_ROLLER] = "tapered roller",
    [SPT_SPHERICAL_ROLLER] = "spherical roller", [SPT_NEEDLE_ROLLER] = "needle roller",
    [SPT_THRUST_BALL] = "thrust ball", [SPT_THRUST_ROLLER] = "thrust roller");

SPT_DEFINE_WORDS(spt_running_words, SPT_RUNNING_COUNT, [SPT_RUNNING_NORMAL] = "normal",
                 [SPT_RUNNING_QUIET] = "quiet", [SPT_RUNNING_SHOCK] = "shock");

const char *spt_bearing_type_name(enum spt_bearing_type type)
{
    return spt_word(&spt_bearing_type_words, (int)type);
}

const char *spt_running_name(enum spt_running running)
{
    return spt_word(&spt_running_words, (int)running);
}
