/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"
#include "words/table.h"

SPT_DEFINE_WORDS(
    spt_dust_words, SPT_DUST_COUNT, [SPT_DUST_LIGHT] = "light", [SPT_DUST_HEAVY] = "heavy",
    [SPT_DUST_LIGHT_ABRASIVE] = "light abrasive", [SPT_DUST_HEAVY_ABRASIVE] = "heavy abrasive");

SPT_DEFINE_WORDS(spt_moisture_words,
                 SPT_MOISTURE_COUNT, [SPT_MOISTURE_DRY] = "dry", [SPT_MOISTURE_HUMID] = "humid",
                 [SPT_MOISTURE_CONDENSATION] = "condensation", [SPT_MOISTURE_SPLASH] = "splash");

SPT_DEFINE_WORDS(spt_vibration_words, SPT_VIBRATION_COUNT, [SPT_VIBRATION_LOW] = "low",
                 [SPT_VIBRATION_MEDIUM] = "medium", [SPT_VIBRATION_HIGH] = "high");

SPT_DEFINE_WORDS(spt_shaft_words, SPT_SHAFT_COUNT, [SPT_SHAFT_HORIZONTAL] = "horizontal",
                 [SPT_SHAFT_INCLINED] = "inclined", [SPT_SHAFT_VERTICAL] = "vertical");

SPT_DEFINE_WORDS(
    spt_surrounding_words,
    SPT_SURROUNDING_COUNT, [SPT_SURROUNDING_DUST] = "dust", [SPT_SURROUNDING_MOISTURE] = "moisture",
    [SPT_SURROUNDING_VIBRATION] = "vibration", [SPT_SURROUNDING_SHAFT] = "position of the shaft");

SPT_DEFINE_WORDS(spt_air_words, SPT_AIR_COUNT, [SPT_AIR_STILL] = "still air",
                 [SPT_AIR_DRAUGHT] = "draught", [SPT_AIR_WIND] = "wind");

SPT_DEFINE_WORDS(spt_estimate_words, 1, "estimate");
