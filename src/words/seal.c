/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/seal.h"
#include "words/table.h"

SPT_DEFINE_WORDS(
    spt_seal_words, SPT_SEAL_COUNT, [SPT_SEAL_NONE] = "none", [SPT_SEAL_TORN] = "torn",
    [SPT_SEAL_SHIELD] = "shield", [SPT_SEAL_GAP] = "gap", [SPT_SEAL_FELT] = "felt",
    [SPT_SEAL_ONE_LIP] = "one lip", [SPT_SEAL_TWO_LIPS] = "two lips",
    [SPT_SEAL_LABYRINTH] = "labyrinth", [SPT_SEAL_CASSETTE] = "cassette", [SPT_SEAL_FACE] = "face");

SPT_DEFINE_WORDS(spt_breather_words,
                 SPT_BREATHER_COUNT, [SPT_BREATHER_OPEN] = "open", [SPT_BREATHER_FILTER] = "filter",
                 [SPT_BREATHER_DRYING] = "drying", [SPT_BREATHER_CLOSED] = "closed");

SPT_DEFINE_WORDS(
    spt_place_words,
    SPT_PLACE_COUNT, [SPT_PLACE_CLEAN_ROOM] = "clean room", [SPT_PLACE_WORKSHOP] = "workshop",
    [SPT_PLACE_ROAD] = "road", [SPT_PLACE_DUSTY_FIELD] = "dusty field",
    [SPT_PLACE_DUSTY_PLANT] = "dusty plant", [SPT_PLACE_QUARRY] = "quarry",
    [SPT_PLACE_SAND] = "sand", [SPT_PLACE_MUD] = "mud", [SPT_PLACE_SLURRY] = "slurry");

SPT_DEFINE_WORDS(spt_wet_words, SPT_WET_COUNT, [SPT_WET_DRY] = "dry", [SPT_WET_HUMID] = "humid",
                 [SPT_WET_OUTDOORS] = "outdoors", [SPT_WET_RAIN] = "rain", [SPT_WET_HOSE] = "hose",
                 [SPT_WET_IMMERSION] = "immersion");

SPT_DEFINE_WORDS(spt_filter_place_words, SPT_FILTER_PLACE_COUNT,
                 [SPT_FILTER_FULL_FLOW] = "full flow", [SPT_FILTER_OFF_LINE] = "off-line",
                 [SPT_FILTER_STRAINER] = "strainer", [SPT_FILTER_NONE] = "none");
