/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SEAL_H
#define SPT_SEAL_H

#include <stdbool.h>

#ifdef __cplusplus
extern "C" {
#endif

/* ---- seal ---------------------------------------------------------------------------------- */

/* What keeps dirt and water out, from nothing to the best. */
enum spt_seal {
    SPT_SEAL_NONE,
    SPT_SEAL_TORN,
    SPT_SEAL_SHIELD,
    SPT_SEAL_GAP,
    SPT_SEAL_FELT,
    SPT_SEAL_ONE_LIP,
    SPT_SEAL_TWO_LIPS,
    SPT_SEAL_LABYRINTH, /* greased, purged */
    SPT_SEAL_CASSETTE,
    SPT_SEAL_FACE,
    SPT_SEAL_COUNT
};

/* How a housing with oil breathes. */
enum spt_breather {
    SPT_BREATHER_OPEN,
    SPT_BREATHER_FILTER,
    SPT_BREATHER_DRYING,
    SPT_BREATHER_CLOSED,
    SPT_BREATHER_COUNT
};

/* Where the machine works. */
enum spt_place {
    SPT_PLACE_CLEAN_ROOM,
    SPT_PLACE_WORKSHOP,
    SPT_PLACE_ROAD,
    SPT_PLACE_DUSTY_FIELD,
    SPT_PLACE_DUSTY_PLANT,
    SPT_PLACE_QUARRY,
    SPT_PLACE_SAND,
    SPT_PLACE_MUD,
    SPT_PLACE_SLURRY,
    SPT_PLACE_COUNT
};

/* The water there. */
enum spt_wet {
    SPT_WET_DRY,
    SPT_WET_HUMID,
    SPT_WET_OUTDOORS, /* swings of temperature */
    SPT_WET_RAIN,     /* or splash */
    SPT_WET_HOSE,
    SPT_WET_IMMERSION,
    SPT_WET_COUNT
};

/* Seal and surroundings of a bearing; -1 and NaN: not stated. */
struct spt_sealing {
    bool stated;  /* false: none of them, whatever the other members hold */
    int seal;     /* enum spt_seal */
    int breather; /* enum spt_breather */
    int place;    /* enum spt_place */
    int wet;      /* enum spt_wet */
    double age_h; /* of the seal, running hours */
    double age_years;
    bool greased_for_life; /* by the maker of the bearing, never opened */
};

/* What they let in. */
struct spt_inflow {
    int class_index;  /* 0 high, 1 normal, 2 slight, 3 severe, 4 very severe: the classes of grease
                         and of an oil bath in turn; -1: the place is not stated */
    int moisture;     /* level from 0 (dry) to 3 (splash); -1: neither wet nor place is stated */
    double water_ppm; /* what that level would give in the lubricant; NaN where moisture is -1 */
    int wet;          /* enum spt_wet that counts: stated, else what the place may bring; -1 */
    bool worn;        /* a lip seal past its time counts as one step less */
};

/* Class inside, moisture and water from seal and surroundings.
 * class = clamp(s + q, least, 4), least 1, or 0 where greased for life; s 0 clean room, 1 workshop,
 * 2 road, dusty field or plant, 3 quarry, sand, 4 mud, slurry; q +1 none, torn or not stated, 0
 * shield, gap, open breather, -1 felt, one lip, filter or drying breather, -2 two lips, labyrinth,
 * -3 cassette, face, closed; the worse of seal and breather; a lip seal older than 3 years, 10 000
 * h or, in abrasive surroundings, 2 years: one more. moisture = clamp(w + q, 0, 3), w 0 dry, 1
 * humid, 2 outdoors, 3 rain, 4 hose, immersion; a labyrinth has q = 0 against these; where not
 * stated: clean room dry, workshop and plant humid, mud and slurry hose, else rain. Water 100, 200,
 * 400, 1000 ppm by the level, 5000 under a hose with q of -1 or more.
 * In:     words inside their enumerations, or -1; else, and where nothing is stated, all results
 * are -1 and NaN. Source: a rule of this tool: judgement in the words of ISO 281:2007 Annex A. */
struct spt_inflow spt_seal_inflow(const struct spt_sealing *sealing);

#ifdef __cplusplus
}
#endif

#endif
