/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_GREASING_H
#define SENTENCE_GREASING_H

#include "spalltime/assess.h"

#define SPT_GREASING_LENGTH 200

/* Days that are kept, as a calendar time: "6 months"; to SPT_SPAN_LENGTH bytes. */
const char *spt_greasing_span(double days, char *span);

/* The calendar time of a greasing that is kept, "12 months"; to SPT_SPAN_LENGTH bytes. */
const char *spt_greasing_span_of(const struct spt_greasing *greasing, char *span);

/* "every 4 000 h or 12 months, whichever is first", to SPT_GREASING_LENGTH bytes; NULL: no interval
 * that can be kept. */
const char *spt_greasing_every(const struct spt_greasing *greasing, char *words);

/* What it takes to keep the greasing, or why it cannot be kept; NULL where it is done by hand. */
const char *spt_greasing_demand(const struct spt_greasing *greasing);

/* Share of the machines whose grease still works at its stated age: the product over the bearings
 * of the least survival among the phases; 1 without grease. The life of a machine is that of these.
 */
double spt_greasing_working(const struct spt_assessment *assessment);

/* Age of the oldest grease in running hours. */
double spt_greasing_age_h(const struct spt_assessment *assessment);

/* The state in a word: "none", "kept", "often", "cannot". */
const char *spt_greasing_state_name(enum spt_greasing_state state);

#endif
