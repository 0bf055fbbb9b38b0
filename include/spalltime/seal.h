/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SEAL_H
#define SPT_SEAL_H

#include <stdbool.h>

#include "spalltime/lubricant.h"

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

/* ---- filter -------------------------------------------------------------------------------- */

enum spt_filter_place {
    SPT_FILTER_FULL_FLOW, /* all the oil passes it on its way to the bearing */
    SPT_FILTER_OFF_LINE,  /* a loop of its own */
    SPT_FILTER_STRAINER,
    SPT_FILTER_NONE,
    SPT_FILTER_PLACE_COUNT
};

/* A filter and the dirt that comes in. */
struct spt_filter {
    enum spt_filter_place place;
    double ingress_per_min; /* particles over 6 um, >= 0; NaN: not known */
    double flow_ml_min;     /* through the filter, > 0 */
    double beta;            /* particles before over particles behind it, >= 1 */
    double beta_size_um;    /* > 0: particles above this size are meant */
    double bypass_share;    /* of the flow that goes round it, 0 to 1 */
    double volume_ml;       /* of the oil, > 0; NaN: not known */
};

struct spt_filter_balance {
    double efficiency;            /* 1 - 1/beta */
    double sump_per_ml;           /* particles over 6 um where in and out balance */
    double behind_per_ml;         /* behind the filter */
    double clean_up_min;          /* time constant; NaN without a volume */
    struct spt_iso4406 sump_code; /* over 14 um an eighth of those over 6 */
    struct spt_iso4406 behind_code;
};

/* V dC/dt = R - Q eps (1 - b) C with eps = 1 - 1/beta: C = R/(Q eps (1 - b)) at last, behind the
 * filter C (1 - eps (1 - b)), time constant V/(Q eps (1 - b)).
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where nothing is held back (beta 1, bypass 100 %, no
 *         filter) or the ingress is not known. All members NaN, codes -1.
 * Source: balance of particles; beta as in ISO 16889 (read); an eighth over 14 um: a rule of this
 *         tool, the three numbers between the two of a code in ISO 281:2007 Annex A. */
enum spt_status spt_filter_balance(const struct spt_filter *filter,
                                   struct spt_filter_balance *balance);

/* The class of ISO 281:2007 Annex A that a full-flow filter earns by its rating alone: beta6 of 200
 * -/13/10, beta12 of 200 -/15/12, beta25 of 75 -/17/14, beta40 of 75 -/19/16; SPT_CLEANLINESS_COUNT
 * where it earns none of them. Source: ISO 281:2007 Annex A (from memory). */
enum spt_cleanliness spt_filter_earned(const struct spt_filter *filter);

/* What the filter keeps the oil at. */
struct spt_filter_class {
    enum spt_cleanliness condition;
    bool overwhelmed; /* the sump is more than 3 numbers above what the filter earns */
    int sump_number, earned_number; /* over 6 um; -1: none */
};

/* Full flow without a bypass: the dirtier of the class that it earns and the code behind it, rows
 * of circulating oil; else the code of the sump, rows of the oil bath, and in full flow no better
 * than what the rating earns, -/19/16 where it earns nothing. Without a known ingress the earned
 * class alone, where there is no bypass. Status: as spt_filter_balance; SPT_NOT_APPLICABLE too
 * where the oil is dirtier than the last class, or nothing is known. */
enum spt_status spt_filter_class(const struct spt_filter *filter, struct spt_filter_class *kept);

/* Hours until oil without a filter goes from one scale number over 6 um to another: V (C2 - C1)/R
 * with the counts at the upper end of each number; 0 where it is there already.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE without a known ingress (above 0) or volume; NaN. */
enum spt_status spt_filter_fill_time(const struct spt_filter *filter, int from_number,
                                     int to_number, double *hours);

#ifdef __cplusplus
}
#endif

#endif
