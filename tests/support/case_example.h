/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_CASE_EXAMPLE_H
#define TESTS_CASE_EXAMPLE_H

#include "spalltime/assess.h"

#define EXAMPLE_PHASES 2

/* An invented case of tapered roller bearings with all of its memory. */
struct example_case {
    struct spt_case question;
    struct spt_phase phases[SPT_BEARINGS_MAX][EXAMPLE_PHASES];
};

/* One or two bearings, two phases each; oil of VG 150, index 95, 200 ppm of water; grease (if it is
 * grease) 900 h old; 65 and 50 degC. */
void example_make(struct example_case *made, enum spt_lubrication kind, int bearings);

/* A deep copy of the case, to be changed. */
void example_copy(const struct example_case *from, struct example_case *to);

/* One ball bearing under a given load whose e_C is 0, so that a_ISO is 0.1 at any load: the life is
 * a tenth of (C/P)^3 million revolutions. */
void example_make_basic(struct example_case *made, double rating_n, double load_n,
                        double speed_rpm);

/* Sets the base oil to a viscosity at 40 degC and an index. */
void example_set_oil(struct spt_case *question, double viscosity_40_mm2_s, double index);

/* Modified life in h of the whole case; aborts on failure. */
double example_life(const struct spt_case *question);

#endif
