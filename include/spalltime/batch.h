/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_BATCH_H
#define SPT_BATCH_H

#include <stdbool.h>
#include <stddef.h>

#include "spalltime/bearing.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The chain nu(T) -> nu_1 -> kappa -> e_C -> a_ISO -> life for many points at once: the equations
 * of viscosity.h, film.h, cleanliness.h, water.h and life.h, worked out in base-2 logarithms over
 * blocks of 256 points. Results stay within 1e-12 (relative) of the scalar functions; a point
 * within rounding of a step (kappa 0.1, 0.4) may fall on either side of it. No heap, no globals:
 * threads may work on separate ranges of the same arrays. */

/* What varies from point to point. */
enum spt_batch_variable {
    SPT_BATCH_DYNAMIC_LOAD_RATING_N, /* C, 1e-100 to 1e100 */
    SPT_BATCH_FATIGUE_LOAD_LIMIT_N,  /* C_u, 1e-100 to 1e100 */
    SPT_BATCH_SPEED_RPM,             /* 1e-100 to 1e100 */
    SPT_BATCH_EQUIVALENT_LOAD_N,     /* P, 1e-100 to 1e100 */
    SPT_BATCH_TEMPERATURE_C,         /* above -273.15, to 1000 */
    SPT_BATCH_LINE_A,                /* struct spt_walther; b above 0 */
    SPT_BATCH_LINE_B,
    SPT_BATCH_NU40_MM2_S, /* in place of the line: 0.31 to 2e7, nu40 above nu100 */
    SPT_BATCH_NU100_MM2_S,
    SPT_BATCH_CONDITION,            /* enum spt_cleanliness as a number, 0 to 13 */
    SPT_BATCH_CONTAMINATION_FACTOR, /* e_C in place of the condition, 0 to 1 */
    SPT_BATCH_WATER_PPM,            /* 0 to 1e6; absent: no water term */
    SPT_BATCH_FILM_RATIO,           /* film height of worn grease over full, 0 to 1; absent: 1 */
    SPT_BATCH_VARIABLE_COUNT
};

/* Point i of a column is values[i * stride]; stride 0 is one value for all points. Values NULL:
 * absent. What does not vary is worked out once. */
struct spt_batch_column {
    const double *values;
    size_t stride;
};

struct spt_batch {
    enum spt_bearing_type type; /* chooses exponents, a_ISO family and thrust divisor */
    double pitch_diameter_mm;   /* D_pw, 1e-100 to 1e100 */
    double density_factor;     /* of spt_film_density_factor, 0.01 to 100; 1 where none is wanted */
    double reliability_factor; /* a1, 0.01 to 100 */
    bool ep_additive;          /* proven effective: the EP rule of life.h */
    struct spt_batch_column columns[SPT_BATCH_VARIABLE_COUNT];
};

/* Status byte of a point: 0, or several of these. */
enum spt_batch_bit {
    SPT_BATCH_BAD_INPUT = 1,           /* an input outside its range, or nu above 2e7 mm2/s, or a
                                          life beyond 2^+-1000: every output of the point is NaN */
    SPT_BATCH_FILM_TOO_THIN = 2,       /* kappa below 0.1: a_ISO and modified life are NaN */
    SPT_BATCH_FILM_CAPPED = 4,         /* kappa above 4: 4 used */
    SPT_BATCH_LIFE_FACTOR_CAPPED = 8,  /* a_ISO at 50, or at 3 by the EP rule */
    SPT_BATCH_EP_CREDIT = 16,          /* kappa below 1 treated by the EP rule */
    SPT_BATCH_WATER_EXTRAPOLATED = 32, /* water above 400 ppm */
    SPT_BATCH_OVERLOAD = 64,           /* P above C/2 */
    SPT_BATCH_VISCOSITY_RANGE = 128    /* nu below 2 mm2/s */
};

/* Where results go: arrays of one element for each point; NULL where not wanted. */
struct spt_batch_results {
    double *viscosity_ratio;          /* kappa, thinned by the film ratio; not limited */
    double *contamination_factor;     /* e_C, at kappa 4 where kappa is above */
    double *life_modification_factor; /* a_ISO */
    double *water_factor;             /* a_w */
    double *basic_rating_life_h;      /* L10h */
    double *modified_rating_life_h;   /* a1 a_ISO a_w L10h */
    unsigned char *status;            /* enum spt_batch_bit */
    double *fresh_viscosity_ratio;    /* kappa of the full film, whatever the film ratio */
};

/* Points `first` to `first + count - 1` of the columns; result i is point first + i.
 * Status: SPT_BAD_ARGUMENT where a needed column is absent, both or neither of line and nu40/nu100
 *         or of condition and e_C are there, or a plain member is out of range: results untouched.
 *         What is wrong with a single point stands in its status byte. */
enum spt_status spt_batch_points(const struct spt_batch *batch, size_t first, size_t count,
                                 const struct spt_batch_results *results);

#define SPT_BATCH_AXES_MAX SPT_BATCH_VARIABLE_COUNT

/* One axis of a full-factorial grid. */
struct spt_batch_axis {
    enum spt_batch_variable variable;
    const double *values;
    size_t count; /* > 0 */
};

/* A grid: `count` axes, the last one varies fastest. The columns of `batch` give what has no axis;
 * stride is not used there (the first value holds for all). Fastest with the load as last axis:
 * then one power is left for each point. */
struct spt_batch_grid {
    struct spt_batch batch;
    struct spt_batch_axis axes[SPT_BATCH_AXES_MAX];
    int count;
};

/* Points of the grid, the product of the axes; 0 where it is no grid or does not fit a size_t. */
size_t spt_batch_grid_points(const struct spt_batch_grid *grid);

/* Length of a row, the last axis (1 without axes). Whole rows are worked out at a time. */
size_t spt_batch_grid_row(const struct spt_batch_grid *grid);

/* Rows `first_row` to `first_row + rows - 1`, each of spt_batch_grid_row points; the results hold
 * rows times row length elements.
 * Status: SPT_BAD_ARGUMENT as for spt_batch_points, for an axis given twice or empty, and for rows
 *         the grid does not have. */
enum spt_status spt_batch_grid_rows(const struct spt_batch_grid *grid, size_t first_row,
                                    size_t rows, const struct spt_batch_results *results);

/* The instruction set the kernel runs with here: "x86-64-v4", "x86-64-v3" or "portable". */
const char *spt_batch_variant(void);

#ifdef __cplusplus
}
#endif

#endif
