/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_WORDING_H
#define SENTENCE_WORDING_H

#include "spalltime/status.h"

#define SPT_PRELOAD_PRACTICE                                                                       \
    "Practice stays on the end play side unless the maker of vehicle or bearing says otherwise: "  \
    "settings scatter, and preload makes heat, which draws the pair tighter still. None of that "  \
    "heat is in this life."

/* What a flag says of itself. Placeholders: {v} value of the note, {l} its limit, each times its
 * scale; {c} the cleanliness class with that value as number, {s} the surroundings whose bits are
 * set in it, {d} and {D} the levels stated and used in the limit, {C} the class with the limit as
 * number, {q} seal and surroundings packed in it, {m} the moisture they speak for, {b} what better
 * seals would make of the class, {y} the limit in years as a calendar time. */
struct spt_wording {
    double value_scale;
    double limit_scale;
    const char *text;
    const char *endless; /* used instead where the value is infinite; NULL: none */
};

/* Of a flag of the enumeration. */
const struct spt_wording *spt_wording_of(enum spt_flag flag);

#endif
