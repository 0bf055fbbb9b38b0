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

SPT_DEFINE_WORDS(
    spt_clearance_words,
    SPT_CLEARANCE_CLASS_COUNT, [SPT_CLEARANCE_2] = "group 2", [SPT_CLEARANCE_NORMAL] = "normal",
    [SPT_CLEARANCE_3] = "group 3", [SPT_CLEARANCE_4] = "group 4");

SPT_DEFINE_WORDS(
    spt_shaft_fit_words, SPT_SHAFT_FIT_COUNT, [SPT_SHAFT_G6] = "g6", [SPT_SHAFT_H6] = "h6",
    [SPT_SHAFT_J6] = "j6", [SPT_SHAFT_K5] = "k5", [SPT_SHAFT_K6] = "k6", [SPT_SHAFT_M5] = "m5",
    [SPT_SHAFT_M6] = "m6", [SPT_SHAFT_N6] = "n6", [SPT_SHAFT_P6] = "p6");

SPT_DEFINE_WORDS(spt_housing_fit_words, SPT_HOUSING_FIT_COUNT, [SPT_HOUSING_H7] = "H7",
                 [SPT_HOUSING_J7] = "J7", [SPT_HOUSING_K7] = "K7", [SPT_HOUSING_M7] = "M7",
                 [SPT_HOUSING_N7] = "N7", [SPT_HOUSING_P7] = "P7");

const char *spt_bearing_type_name(enum spt_bearing_type type)
{
    return spt_word(&spt_bearing_type_words, (int)type);
}

const char *spt_running_name(enum spt_running running)
{
    return spt_word(&spt_running_words, (int)running);
}
