/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_BEET_H
#define TESTS_BEET_H

#include "spalltime/assess.h"

#define BEET_PHASES 3

/* An invented case of one tapered roller bearing with all inputs stated, so that tests can change
 * them in its members. */
struct beet {
    struct spt_case question;
    struct spt_phase phases[BEET_PHASES];
};

/* Fills it; `beet` must not move afterwards. */
void beet_prepare(struct beet *beet);

/* Modified rating life of the case in hours; NaN where there is none. Asserts SPT_OK. */
double beet_life_h(const struct beet *beet);

#endif
