/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_BATCH_PLAN_H
#define MODEL_BATCH_BATCH_PLAN_H

#include "model/constants.h"
#include "spalltime/lubricant.h"
#include "spalltime/sweep.h"

/* Represents the logarithm of 0: far below any other logarithm, but far from overflow. */
#define SPT_LOG_OF_ZERO (-1e5)

/* Constants of one call of the kernel, apart from the columns. `log` is the base-2 logarithm. */
struct spt_batch_plan {
    const struct spt_batch *batch;
    bool present[SPT_BATCH_VARIABLE_COUNT];
    bool varies[SPT_BATCH_VARIABLE_COUNT];
    bool kappa_varies; /* quantities that depend only on constant columns are computed once */
    bool e_c_varies;
    bool ball;
    struct spt_aiso_family family;
    double life_exponent; /* p */
    double log_divisor;   /* divisor of x for thrust bearings */
    double log_a1;
    double log_kappa_slow; /* constant term of log kappa, added to log nu and the speed term */
    double log_kappa_fast;
    double log_condition_a[SPT_CLEANLINESS_COUNT]; /* c D_pw^0.55 */
    double log_condition_bracket[SPT_CLEANLINESS_COUNT];
    double log_40;        /* log2 of 40 degC in K, over 256 */
    double per_log_range; /* 1/(log2 of 100 degC in K - the same at 40) */
    double log_hours;     /* of 10^6/60 */
    double log_kappa_min;
    double log_kappa_max;
    double log_kappa_thin;
    double log_log_z_min; /* limits that keep powers in range; valid inputs do not reach them */
    double log_log_z_max;
    double log_x_min;
    double difference_min; /* lower bound of limit - A: 0, for balls slightly more */
    double bracket_least;  /* value at which a_ISO reaches its cap */
};

/* Inclusive limits of a variable, and a valid value that replaces an invalid one. */
struct spt_batch_limits {
    double low;
    double high;
    double harmless;
};
extern const struct spt_batch_limits spt_batch_limits[SPT_BATCH_VARIABLE_COUNT];

/* Checks the scalar members and which columns are present, and computes the plan. */
enum spt_status spt_batch_plan_make(const struct spt_batch *batch, struct spt_batch_plan *plan);

#endif
