/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_CHOOSE_H
#define SPT_CHOOSE_H

#include "spalltime/ask.h"

#ifdef __cplusplus
extern "C" {
#endif

/* Bearings of a list tried in the place of those of a case. */

#define SPT_CHOOSE_MARGIN 1.3          /* of the life over the target; our choice */
#define SPT_CHOOSE_TRIALS_MAX 1000000L /* bearings, or pairs of them, that one call tries */

/* Why a bearing does not do; the worst of all that apply. */
enum spt_choose_reason {
    SPT_CHOOSE_PASSES,
    SPT_CHOOSE_CANNOT_CARRY, /* no equivalent load can be made, or a load that no rating covers */
    SPT_CHOOSE_ONE_SIDED,    /* takes thrust one way, in the place of one that takes it both ways */
    SPT_CHOOSE_NO_LIFE,      /* no life can be stated: film, temperature, grease */
    SPT_CHOOSE_SHORT_LIFE,   /* hours, hours that are needed */
    SPT_CHOOSE_OVERLOAD,     /* largest P/C, 0.5 */
    SPT_CHOOSE_STATIC,       /* least s0, its guide value */
    SPT_CHOOSE_SPEED,        /* speed in rpm, that of the sheet */
    SPT_CHOOSE_LUBRICATED_SPEED, /* n d_m, the usual limit of grease or oil */
    SPT_CHOOSE_LIGHT_LOAD,       /* P/C, the usual least against skidding */
    SPT_CHOOSE_NO_STOCK,
    SPT_CHOOSE_REASON_COUNT
};

enum spt_choose_order { SPT_CHOOSE_BY_PRICE, SPT_CHOOSE_BY_MASS, SPT_CHOOSE_BY_SIZE };

/* One bearing tried, or a pair in the two rows of a hub. */
struct spt_choice {
    int candidates[2]; /* places in the list; the second -1 for one bearing */
    double life_h;     /* of both rows together; NaN: none */
    double row_life_h[2];
    double margin;              /* life over the target; NaN without one */
    double static_safety;       /* least, over its guide value */
    double load_share;          /* largest P/C */
    double cost;                /* what they are ordered by: price, kg, mm3 */
    enum spt_choose_reason why; /* the worst */
    int row;                    /* the row that it is about */
    double value, limit;        /* of the reason */
    double severity;            /* what there is over what is needed, of the worst; below 1 fails */
    bool doubted; /* values of its sheet do not belong together, see spt_bearing_doubts */
};

struct spt_choosing {
    const struct spt_case *question;
    const struct spt_bearing *candidates;
    int candidate_count;
    bool pairs; /* both rows of a hub: every candidate that is a tapered row with every other */
    double margin;
    enum spt_choose_order order;
    long count;   /* tried */
    long passing; /* the first ones of `choices`, cheapest, lightest or smallest first; then those
                     that fail, the nearest first */
    struct spt_choice *choices;
};

/* Tries each candidate in the place of the bearing of a case, or each pair in the rows of a hub:
 * the whole chain with its own factors, load centre, sizes and ratings. A hub keeps the shoulders
 * of its outer rings, its rows share the loads by the handbook and its setting is left out.
 * In:     the case; `count` candidates, 1 or more; margin above 0.
 * Order:  by price where all that pass have one, else by mass, else by pi/4 (D^2 - d^2) B.
 * Passes: life >= margin x target, s0 >= guide value, P <= C/2, speed within the sheet and the
 * usual limit of grease or oil, no load light enough to skid, not out of stock. Status:
 * SPT_BAD_ARGUMENT, SPT_NOT_APPLICABLE (several bearings that are no hub; no tapered row in the
 * list; more than SPT_CHOOSE_TRIALS_MAX), SPT_NO_MEMORY; as spt_assess_bearing. Source: rules of
 * this tool. */
enum spt_status spt_ask_choose(const struct spt_case *question,
                               const struct spt_bearing *candidates, int count, double margin,
                               struct spt_arena *arena, struct spt_choosing *choosing,
                               struct spt_error *error);

#ifdef __cplusplus
}
#endif

#endif
