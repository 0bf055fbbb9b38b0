/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_FILTER_H
#define SPT_FILTER_H

#include "spalltime/lubricant.h"

#ifdef __cplusplus
extern "C" {
#endif

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
