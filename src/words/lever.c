/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/reach.h"
#include "words/table.h"

SPT_DEFINE_WORDS(
    spt_lever_words,
    SPT_LEVER_COUNT, [SPT_LEVER_CLEANLINESS] = "cleanliness", [SPT_LEVER_WATER] = "water",
    [SPT_LEVER_GRADE] = "grade", [SPT_LEVER_TEMPERATURE] = "temperature", [SPT_LEVER_LOAD] = "load",
    [SPT_LEVER_REGREASING] = "regreasing", [SPT_LEVER_RATING] = "rating",
    [SPT_LEVER_END_PLAY] = "end-play", [SPT_LEVER_POWER] = "power", [SPT_LEVER_PAYLOAD] = "payload",
    [SPT_LEVER_BEND_SPEED] = "bend-speed", [SPT_LEVER_BEND_RADIUS] = "bend-radius");

const char *spt_lever_name(enum spt_lever lever)
{
    return spt_word(&spt_lever_words, (int)lever);
}
