/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/hub.h"
#include "words/table.h"

SPT_DEFINE_WORDS(spt_hub_mounting_words, SPT_HUB_MOUNTING_COUNT,
                 [SPT_HUB_BACK_TO_BACK] = "back-to-back", [SPT_HUB_FACE_TO_FACE] = "face-to-face");

SPT_DEFINE_WORDS(
    spt_hub_turning_words,
    SPT_HUB_TURNING_COUNT, [SPT_HUB_OUTER_TURNS] = "outer", [SPT_HUB_INNER_TURNS] = "inner");
