/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SWEEP_H
#define SPT_SWEEP_H

#include <stdbool.h>
#include <stddef.h>

#include "spalltime/arena.h"
#include "spalltime/assess.h"
#include "spalltime/bearing.h"
#include "spalltime/setting.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- batch --------------------------------------------------------------------------------- */

/* The chain nu(T) -> nu_1 -> kappa -> e_C -> a_ISO -> life for many points at once: the equations
 * of viscosity.h, film.h, cleanliness.h, water.h and life.h, computed in base-2 logarithms over
 * blocks of 256 points. Results stay within 1e-12 (relative) of the scalar functions; a point
 * within round-off of a step (kappa 0.1, 0.4) may be on either side of it. No heap, no globals:
 * threads may process separate ranges of the same arrays. */

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
 * absent. Constant columns are evaluated only once. */
struct spt_batch_column {
    const double *values;
    size_t stride;
};

struct spt_batch {
    enum spt_bearing_type type; /* chooses exponents, a_ISO family and thrust divisor */
    double pitch_diameter_mm;   /* D_pw, 1e-100 to 1e100 */
    double density_factor;      /* of spt_film_density_factor, 0.01 to 100; 1: no correction */
    double reliability_factor;  /* a1, 0.01 to 100 */
    bool ep_additive;           /* proven effective: the EP rule of life.h */
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

/* Output arrays with one element for each point; NULL where not wanted. */
struct spt_batch_results {
    double *viscosity_ratio;          /* kappa with the film ratio applied; not limited */
    double *contamination_factor;     /* e_C, at kappa 4 where kappa is above */
    double *life_modification_factor; /* a_ISO */
    double *water_factor;             /* a_w */
    double *basic_rating_life_h;      /* L10h */
    double *modified_rating_life_h;   /* a1 a_ISO a_w L10h */
    unsigned char *status;            /* enum spt_batch_bit */
    double *fresh_viscosity_ratio;    /* kappa of the full film, without the film ratio */
};

/* Points `first` to `first + count - 1` of the columns; result i is point first + i.
 * Status: SPT_BAD_ARGUMENT where a needed column is absent, both or neither of line and nu40/nu100
 *         or of condition and e_C are present, or a scalar member is out of range: results are then
 *         unchanged. Errors of a single point are in its status byte. */
enum spt_status spt_batch_points(const struct spt_batch *batch, size_t first, size_t count,
                                 const struct spt_batch_results *results);

#define SPT_BATCH_AXES_MAX SPT_BATCH_VARIABLE_COUNT

/* One axis of a full-factorial grid. */
struct spt_batch_axis {
    enum spt_batch_variable variable;
    const double *values;
    size_t count; /* > 0 */
};

/* A grid: `count` axes, the last one varies fastest. The columns of `batch` give the variables
 * without an axis; their stride is ignored (the first value is used for all points). Fastest with
 * the load as last axis: only one power per point is then needed. */
struct spt_batch_grid {
    struct spt_batch batch;
    struct spt_batch_axis axes[SPT_BATCH_AXES_MAX];
    int count;
};

/* Points of the grid, the product of the axes; 0 where the grid is invalid or the product does not
 * fit a size_t. */
size_t spt_batch_grid_points(const struct spt_batch_grid *grid);

/* Length of a row, the last axis (1 without axes). Complete rows are computed at a time. */
size_t spt_batch_grid_row(const struct spt_batch_grid *grid);

/* Rows `first_row` to `first_row + rows - 1`, each of spt_batch_grid_row points; the results hold
 * rows times row length elements.
 * Status: SPT_BAD_ARGUMENT as for spt_batch_points, for an axis given twice or empty, and for rows
 *         outside the grid. */
enum spt_status spt_batch_grid_rows(const struct spt_batch_grid *grid, size_t first_row,
                                    size_t rows, const struct spt_batch_results *results);

/* The instruction set that the kernel uses on this machine: "x86-64-v4", "x86-64-v3" or
 * "portable". */
const char *spt_batch_variant(void);

/* ---- sweep --------------------------------------------------------------------------------- */

/* The same case many times with some of its quantities replaced: by rows of a grid, or by load
 * cases. A quantity that is swept is replaced in every phase of the duty. */

enum spt_sweep_field {
    SPT_SWEEP_SPEED,           /* rpm */
    SPT_SWEEP_RADIAL_LOAD,     /* N, of phases that state radial and axial loads */
    SPT_SWEEP_AXIAL_LOAD,      /* N, likewise */
    SPT_SWEEP_EQUIVALENT_LOAD, /* N, in place of radial and axial loads */
    SPT_SWEEP_LOAD_FACTOR,     /* on every load, after the three above */
    SPT_SWEEP_TEMPERATURE,     /* degC, also in place of an estimate */
    SPT_SWEEP_WATER,           /* ppm */
    SPT_SWEEP_GREASE_AGE,      /* h */
    SPT_SWEEP_VISCOSITY_40,    /* mm2/s; the viscosity index stays */
    SPT_SWEEP_GRADE,           /* number of an ISO 3448 grade: viscosity_40 is its mid-point */
    SPT_SWEEP_CLEANLINESS,     /* enum spt_cleanliness as a number */
    SPT_SWEEP_CONTAMINATION,   /* e_C in place of a class */
    SPT_SWEEP_RATING_FACTOR,   /* factor on C; C_u is unchanged */
    SPT_SWEEP_RELIABILITY,     /* percent */
    /* for a hub, in place of the loads of its rows; the load distribution is recomputed */
    SPT_SWEEP_SETTING,    /* mm as set in the workshop, end play > 0, preload < 0 */
    SPT_SWEEP_WHEEL_LOAD, /* N; a side force stated as a ratio keeps its ratio */
    SPT_SWEEP_SIDE_FORCE, /* N, > 0 outboard */
    SPT_SWEEP_SIDE_SHARE, /* side force as a share of the wheel load */
    SPT_SWEEP_ROAD_SPEED, /* km/h */
    /* for a machine: speed, power and torque of the shaft that the duty is about, in every phase;
     * a phase that states its power keeps it at another speed, one that states its torque likewise
     */
    SPT_SWEEP_POWER,   /* W */
    SPT_SWEEP_TORQUE,  /* N m */
    SPT_SWEEP_PAYLOAD, /* kg, of a vehicle: the last of its masses, in phases that have it */
    SPT_SWEEP_FIELD_COUNT
};

/* Values of one field; a grid has the full product of its axes, the last one fastest. */
struct spt_sweep_axis {
    enum spt_sweep_field field;
    const double *values;
    size_t count; /* > 0 */
};

struct spt_sweep {
    int count; /* of axes */
    bool zip;  /* row i takes value i of each axis, all of the same count */
    struct spt_sweep_axis axes[SPT_SWEEP_FIELD_COUNT];
};

#define SPT_SWEEP_ROWS_MAX 1000000000000000ULL /* 1e15: represented exactly in a double */

/* Rows of a sweep; 0 where the axes have none or their product is above SPT_SWEEP_ROWS_MAX. */
unsigned long long spt_sweep_rows(const struct spt_sweep *sweep);

/* Index into the values of axis `axis` at a row. */
size_t spt_sweep_index(const struct spt_sweep *sweep, int axis, unsigned long long row);

/* Outcome of a row. */
enum spt_sweep_status {
    SPT_SWEEP_OK,
    SPT_SWEEP_NO_DAMAGE, /* nothing turns under load: unlimited life */
    SPT_SWEEP_FILM_TOO_THIN,
    SPT_SWEEP_GREASE_EXHAUSTED,
    SPT_SWEEP_TOO_HOT,
    SPT_SWEEP_OIL_TOO_STIFF,
    SPT_SWEEP_RADIAL_NOT_RATED,
    /* for another reason; the command `life` on this single case tells which */
    SPT_SWEEP_NO_ANSWER,
    SPT_SWEEP_REFUSED, /* a number that the models reject */
    /* the load distribution of a hub has no answer: */
    SPT_SWEEP_CANNOT_CARRY,  /* the inner part moves along the axis without end */
    SPT_SWEEP_MOVED_TOO_FAR, /* displacement beyond the range of the model */
    SPT_SWEEP_NO_REFERENCE,  /* a row is unloaded at the reference of its setting factor */
    SPT_SWEEP_NOT_CONVERGED, /* no equilibrium within the tolerance */
    SPT_SWEEP_STATUS_COUNT
};
/* The stable name: "film_too_thin"; never NULL. */
const char *spt_sweep_status_name(enum spt_sweep_status status);

/* The bit of a flag in the flags of a row; only for those of spt_sweep_reports. */
#define SPT_SWEEP_FLAG_BIT(flag) (1ULL << (int)(flag))

/* True for the flags that are reported for a row: those flags of `life` that depend on the numbers
 * of the row. Not those of unstated inputs or of the origin of the duty, which are the same in
 * every row, nor that of the best setting of a hub, which is not searched for. */
bool spt_sweep_reports(enum spt_flag flag);

/* Numbers of a row. Those of a single phase belong to the phase that causes most damage in the
 * bearing that fails first (to the first phase without an answer, if any). */
enum spt_sweep_value {
    SPT_SWEEP_EQUIVALENT_LOAD_N,
    SPT_SWEEP_VISCOSITY_RATIO, /* of the fresh lubricant */
    SPT_SWEEP_EFFECTIVE_VISCOSITY_RATIO,
    SPT_SWEEP_CONTAMINATION_FACTOR,
    SPT_SWEEP_LIFE_MODIFICATION_FACTOR,
    SPT_SWEEP_WATER_FACTOR,
    SPT_SWEEP_BASIC_RATING_LIFE_H,
    SPT_SWEEP_MODIFIED_RATING_LIFE_H, /* for a hub: of the system of both rows */
    SPT_SWEEP_SETTING_FACTOR,         /* only for a row of a hub */
    SPT_SWEEP_ONE_COUNT,
    /* the same for each row of a hub: spt_sweep_row_value; not filled without a hub */
    SPT_SWEEP_VALUE_COUNT = 3 * SPT_SWEEP_ONE_COUNT
};

/* Number of a value of row 0 (inboard) or 1 (outboard) of a hub; numbers of a single phase belong
 * to the phase that causes most damage in that row. */
int spt_sweep_row_value(int row, enum spt_sweep_value value);

#define SPT_SWEEP_BLOCK 1024 /* number of rows processed at a time */

/* Results of a block; NaN: no value, INFINITY: unlimited. */
struct spt_sweep_block {
    double values[SPT_SWEEP_VALUE_COUNT][SPT_SWEEP_BLOCK];
    unsigned char status[SPT_SWEEP_BLOCK];     /* enum spt_sweep_status */
    unsigned long long flags[SPT_SWEEP_BLOCK]; /* SPT_SWEEP_FLAG_BIT, where the plan is `flagged` */
};

struct spt_sweep_hub;

/* Workspace of one thread, made by spt_sweep_workspace_make. */
struct spt_sweep_workspace {
    struct spt_phase *phases;
    struct spt_phase_result *results;
    struct spt_sweep_hub *hub; /* NULL: a case without a hub */
    double inputs[SPT_BATCH_VARIABLE_COUNT][SPT_SWEEP_BLOCK];
    double outputs[SPT_SWEEP_ONE_COUNT][SPT_SWEEP_BLOCK];
    double interval_h[SPT_SWEEP_BLOCK];
    double basic_rate[SPT_SWEEP_BLOCK];
    double rate[SPT_SWEEP_BLOCK];
    double worst[SPT_SWEEP_BLOCK];
    unsigned char bits[SPT_SWEEP_BLOCK];
    unsigned char redo[SPT_SWEEP_BLOCK];
};

/* Settings of a sweep apart from its rows. */
struct spt_sweep_plan {
    const struct spt_case *question;
    bool swept[SPT_SWEEP_FIELD_COUNT];
    bool wanted[SPT_SWEEP_VALUE_COUNT];
    bool flagged; /* flags are wanted: each row is also assessed by spt_assess_bearing, which is
                     slower */
    bool kernel;  /* computed by spt_batch_points (one bearing, stated temperatures); else by
                     spt_assess_bearing row by row */
    double density_factor;
};

/* In:     a checked case; which fields are swept; which values are wanted (NULL: all).
 * Result: the plan; borrows the case. With `wanted` NULL flags are wanted too, else the caller sets
 *         `flagged`.
 * Status: SPT_BAD_ARGUMENT for fields that exclude each other, load fields where a phase states its
 *         loads in another way or the case has two bearings, a grease age with oil, hub fields
 *         without a hub. */
enum spt_status spt_sweep_plan_make(const struct spt_case *question, const bool *swept,
                                    const bool *wanted, struct spt_sweep_plan *plan);

/* Computes `count` rows (1 to SPT_SWEEP_BLOCK). columns[f][i] is field f of row i, for the fields
 * that are swept. The workspace must be made for this plan.
 * Result: the block; equals spt_assess_bearing for each row within 1e-12 (relative), and
 *         rows that the kernel does not cover are computed by it. */
void spt_sweep_work(const struct spt_sweep_plan *plan, const double *const *columns, int count,
                    struct spt_sweep_workspace *workspace, struct spt_sweep_block *block);

/* ---- sweep hub ----------------------------------------------------------------------------- */

/* The load distribution of a hub for the rows of a sweep, as for the bench in setting.h: the
 * setting factor is L10r at the setting over L10r at the reference. Neither depends on speed,
 * temperature or lubricant, so that a row with the loads and the setting of the previous row reuses
 * them. */

/* Length of a chain: rows of a grid of which each is the initial guess of the next. The output of a
 * sweep does not depend on where a run, a shard or a thread begins if every call of spt_sweep_work
 * is given the rows of one chain from its first row on; chains begin at multiples of this
 * number. */
#define SPT_SWEEP_CHAIN 64

/* The loads and setting solved last, and the result. */
struct spt_sweep_trail {
    bool known;
    struct spt_hub_load load;
    double setting_mm;
    enum spt_status status;
    double row_mrev[2]; /* L10r, averaged over positions of the cages */
    struct spt_hub_trail balances;
};

enum { SPT_SWEEP_AS_STATED, SPT_SWEEP_ALIGNED, SPT_SWEEP_RINGS };

/* The part of a workspace that a hub needs. */
struct spt_sweep_hub {
    struct spt_sweep_trail (*trails)[SPT_SWEEP_RINGS]; /* of the phases of one bearing */
    bool warm; /* use the previous row as initial guess; else solve each row independently, as
                  `life` does */
    struct spt_hub_model models[SPT_SWEEP_RINGS];
    double mounted_mm; /* as the case states it; NaN where the setting is swept */
    double thermal_mm;
};

/* Makes the workspace of one thread in the arena; for a hub it prepares the models and the setting
 * that the case states.
 * In:     `warm`: see struct spt_sweep_hub.
 * Status: SPT_NO_MEMORY; for a hub SPT_BAD_ARGUMENT, SPT_TOO_SMALL for more than SPT_HUB_PHASES_MAX
 *         phases, and those of spt_hub_preload_setting where a preload force is stated and no
 *         setting swept. */
enum spt_status spt_sweep_workspace_make(const struct spt_sweep_plan *plan, bool warm,
                                         struct spt_arena *arena,
                                         struct spt_sweep_workspace **workspace);

#ifdef __cplusplus
}
#endif

#endif
