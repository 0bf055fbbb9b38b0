/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_COMPARE_PARTS_H
#define ANSWER_COMPARE_PARTS_H

#include "answer/compare/compare.h"

/* What the files of the comparison share. */

#define SPT_COMPARE_NAME_WIDTH 33

/* A bearing and one of its phases, whose film and contamination are shown. */
struct spt_shown_phase {
    const struct spt_bearing_result *bearing;
    const struct spt_phase_result *phase;
    bool as_base; /* the phase with the name of the one shown for the base, not that with most
                     damage in this case */
};

/* The weakest bearing of a case, and its phase with most damage. */
struct spt_shown_phase spt_compare_costliest(const struct spt_assessment *assessment);

/* The phase that a case is compared in: the one with the name of the phase with most damage in the
 * base, else its own. Of several bearings the one with the index of that in the base is shown. */
struct spt_shown_phase spt_compare_shown(const struct spt_compared *cases, int i);

/* The life of a case under its plan, from new; where that is not worked out, as stated. */
double spt_compare_life_h(const struct spt_compared *compared);

/* Running hours between two greasings in its plan, as spt_verdict_regrease_h. */
double spt_compare_regrease_h(const struct spt_compared *compared);

/* Bars of the lives on a log scale, with the chart of the cases in HTML. */
void spt_compare_bars(struct spt_page *page, const struct spt_compared *cases, int count);

/* Which bearing of each case limits, and with which share of the risk, as the table "limits";
 * nothing where no case is about a machine. */
void spt_compare_limits(struct spt_page *page, const struct spt_compared *cases, int count);

#endif
