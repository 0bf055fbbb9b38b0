/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/machine.h"
#include "spalltime/vehicle.h"
#include "words/table.h"

/* the words are keys of a scenario too: `gear: wheel` */
SPT_DEFINE_WORDS(
    spt_part_kind_words,
    SPT_PART_KIND_COUNT, [SPT_PART_GEAR] = "gear", [SPT_PART_BEVEL_GEAR] = "bevel_gear",
    [SPT_PART_WORM] = "worm", [SPT_PART_WORM_WHEEL] = "worm_wheel", [SPT_PART_BELT] = "belt",
    [SPT_PART_CHAIN] = "chain", [SPT_PART_DRUM] = "drum", [SPT_PART_COUPLING] = "coupling",
    [SPT_PART_IMPELLER] = "impeller", [SPT_PART_DRIVE] = "drive", [SPT_PART_CRANK] = "crank",
    [SPT_PART_WEIGHT] = "weight", [SPT_PART_FORCE] = "force");

SPT_DEFINE_WORDS(spt_part_role_words, SPT_PART_ROLE_COUNT, [SPT_PART_ROLE_DRIVEN] = "driven",
                 [SPT_PART_ROLE_DRIVER] = "driver", [SPT_PART_ROLE_IDLE] = "idle");

SPT_DEFINE_WORDS(
    spt_tensioner_words,
    SPT_TENSIONER_COUNT, [SPT_TENSIONER_FIXED] = "fixed", [SPT_TENSIONER_WEIGHT] = "weight");

SPT_DEFINE_WORDS(
    spt_locating_words,
    SPT_LOCATES_COUNT, [SPT_LOCATES_BOTH] = "both ways", [SPT_LOCATES_LEFT] = "to the left",
    [SPT_LOCATES_RIGHT] = "to the right", [SPT_LOCATES_NONE] = "none");

static const char *const turns_list[] = {"clockwise", "counterclockwise"};
const struct spt_words spt_turns_words = {turns_list, 2};

static const char *const ways_list[] = {"forwards", "backwards"};
const struct spt_words spt_ways_words = {ways_list, 2};

static const char *const hands_list[] = {"right", "left"};
const struct spt_words spt_hands_words = {hands_list, 2};

static const char *const sides_list[] = {"left", "right"};
const struct spt_words spt_sides_words = {sides_list, 2};

SPT_DEFINE_WORDS(spt_vehicle_kind_words,
                 SPT_VEHICLE_KIND_COUNT, [SPT_VEHICLE_CENTRE_AXLE] = "centre-axle",
                 [SPT_VEHICLE_SEMI_TRAILER] = "semi-trailer", [SPT_VEHICLE_DRAWBAR] = "drawbar");

static const char *const position_list[] = {"level", "left end up", "right end up"};
const struct spt_words spt_position_words = {position_list, 3};
