/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_BATCH_CASE_H
#define TESTS_BATCH_CASE_H

#include "spalltime/sweep.h"
#include "support/scalar_chain.h"

/* Storage for the points of one batch: every column and every result. */
#define BATCH_CASE_POINTS 2000
struct batch_case {
    struct spt_batch batch;
    double in[SPT_BATCH_VARIABLE_COUNT][BATCH_CASE_POINTS];
    double out[6][BATCH_CASE_POINTS];
    unsigned char status[BATCH_CASE_POINTS];
};

/* A roller bearing in a typical state, the same for all points: C 250 kN, C_u 31 kN, D_pw 110 mm,
 * 420 r/min, 21 kN, 63.7 degC, VG 220, grease condition "normal", 237 ppm water. Columns that are
 * present have stride 1, the others are absent. */
void batch_case_make(struct batch_case *c, enum spt_bearing_type type);

/* Makes a column present with one value, or absent. */
void batch_case_set(struct batch_case *c, enum spt_batch_variable variable, double value);
void batch_case_drop(struct batch_case *c, enum spt_batch_variable variable);

/* All results that the kernel can store, in `out` and `status`. */
struct spt_batch_results batch_case_results(struct batch_case *c);

/* Point i of `out` and `status` as a scalar point. */
struct scalar_point batch_case_point(const struct batch_case *c, size_t i);

/* True where two points are equal within 1e-12 (relative); at a step (kappa within 1e-12 of 0.1,
 * 0.4 or 1, e_C of 0.2) the status of `got` may be that of either side, and so may its life. */
bool points_agree(const struct scalar_point *got, const struct scalar_point *want);

#endif
