/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SWEEP_H
#define SPT_SWEEP_H

#include "spalltime/assess.h"
#include "spalltime/batch.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The same case over and over with some of its quantities replaced: rows of a grid, or load cases
 * laid over a scenario. A quantity that is swept is replaced in every phase of the duty. */

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
    SPT_SWEEP_GRADE,           /* number of an ISO 3448 grade: its mid-point as viscosity_40 */
    SPT_SWEEP_CLEANLINESS,     /* enum spt_cleanliness as a number */
    SPT_SWEEP_CONTAMINATION,   /* e_C in place of a class */
    SPT_SWEEP_RATING_FACTOR,   /* on C; C_u stays */
    SPT_SWEEP_RELIABILITY,     /* percent */
    /* of a hub, in place of the loads of its rows; its load distribution follows */
    SPT_SWEEP_SETTING,    /* mm as set in the workshop, end play > 0, preload < 0 */
    SPT_SWEEP_WHEEL_LOAD, /* N; a side force stated as a share of it keeps its share */
    SPT_SWEEP_SIDE_FORCE, /* N, > 0 outboard */
    SPT_SWEEP_SIDE_SHARE, /* side force as a share of the wheel load */
    SPT_SWEEP_ROAD_SPEED, /* km/h */
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

#define SPT_SWEEP_ROWS_MAX 1000000000000000ULL /* 1e15: exact in a double with room to spare */

/* Rows of a sweep; 0 where the axes have none or their product is above SPT_SWEEP_ROWS_MAX. */
unsigned long long spt_sweep_rows(const struct spt_sweep *sweep);

/* Index into the values of axis `axis` at a row. */
size_t spt_sweep_index(const struct spt_sweep *sweep, int axis, unsigned long long row);

/* What became of a row. */
enum spt_sweep_status {
    SPT_SWEEP_OK,
    SPT_SWEEP_NO_DAMAGE, /* nothing turns under load: unlimited life */
    SPT_SWEEP_FILM_TOO_THIN,
    SPT_SWEEP_GREASE_EXHAUSTED,
    SPT_SWEEP_TOO_HOT,
    SPT_SWEEP_OIL_TOO_STIFF,
    SPT_SWEEP_RADIAL_NOT_RATED,
    SPT_SWEEP_NO_ANSWER, /* for another reason; `life` on this one case says which */
    SPT_SWEEP_REFUSED,   /* a number that the models refuse */
    /* the load distribution of a hub has no answer: */
    SPT_SWEEP_CANNOT_CARRY,  /* the inner part moves along the axis without end */
    SPT_SWEEP_MOVED_TOO_FAR, /* farther than the model covers */
    SPT_SWEEP_NO_REFERENCE,  /* a row carries nothing at the reference of its setting factor */
    SPT_SWEEP_NOT_CONVERGED, /* the balance was not found to the accuracy that is asked for */
    SPT_SWEEP_STATUS_COUNT
};
/* The stable name: "film_too_thin"; never NULL. */
const char *spt_sweep_status_name(enum spt_sweep_status status);

/* The flags of a row as bits. */
#define SPT_SWEEP_FLAG_BIT(flag) (1ULL << (int)(flag))

/* True for the flags that a row keeps: every one of `life` that the numbers of the row decide. Not
 * those of what the scenario leaves open or how its duty was made, which are the same in every row,
 * nor that of the best setting of a hub, which is not looked for. */
bool spt_sweep_tells(enum spt_flag flag);

/* Numbers of a row. Those of one phase are of the phase that takes most of the life of the bearing
 * that fails first (of the first phase without an answer where one has none). */
enum spt_sweep_value {
    SPT_SWEEP_EQUIVALENT_LOAD_N,
    SPT_SWEEP_VISCOSITY_RATIO, /* of the fresh lubricant */
    SPT_SWEEP_EFFECTIVE_VISCOSITY_RATIO,
    SPT_SWEEP_CONTAMINATION_FACTOR,
    SPT_SWEEP_LIFE_MODIFICATION_FACTOR,
    SPT_SWEEP_WATER_FACTOR,
    SPT_SWEEP_BASIC_RATING_LIFE_H,
    SPT_SWEEP_MODIFIED_RATING_LIFE_H, /* of a hub: of the system of both rows */
    SPT_SWEEP_SETTING_FACTOR,         /* of a row of a hub, not of the whole */
    SPT_SWEEP_ONE_COUNT,
    /* the same for each row of a hub: spt_sweep_row_value; not filled in without one */
    SPT_SWEEP_VALUE_COUNT = 3 * SPT_SWEEP_ONE_COUNT
};

/* Number of a value of row 0 (inboard) or 1 (outboard) of a hub; single-phase numbers are of the
 * phase that takes most of the life of that row. */
int spt_sweep_row_value(int row, enum spt_sweep_value value);

#define SPT_SWEEP_BLOCK 1024 /* rows at a time */

/* Answers of a block; NaN: no value, INFINITY: unlimited. */
struct spt_sweep_block {
    double values[SPT_SWEEP_VALUE_COUNT][SPT_SWEEP_BLOCK];
    unsigned char status[SPT_SWEEP_BLOCK];     /* enum spt_sweep_status */
    unsigned long long flags[SPT_SWEEP_BLOCK]; /* SPT_SWEEP_FLAG_BIT, where the plan wants them */
};

struct spt_sweep_hub;

/* Memory of one worker. `phases` and `results` have room for spt_case_phase_count of the case. */
struct spt_sweep_room {
    struct spt_phase *phases;
    struct spt_phase_result *results;
    struct spt_sweep_hub *hub; /* sweep_hub.h, of a case with a hub; else not used */
    double inputs[SPT_BATCH_VARIABLE_COUNT][SPT_SWEEP_BLOCK];
    double outputs[SPT_SWEEP_ONE_COUNT][SPT_SWEEP_BLOCK];
    double interval_h[SPT_SWEEP_BLOCK];
    double basic_rate[SPT_SWEEP_BLOCK];
    double rate[SPT_SWEEP_BLOCK];
    double worst[SPT_SWEEP_BLOCK];
    unsigned char bits[SPT_SWEEP_BLOCK];
    unsigned char redo[SPT_SWEEP_BLOCK];
};

/* What a sweep needs besides the rows. */
struct spt_sweep_plan {
    const struct spt_case *question;
    bool swept[SPT_SWEEP_FIELD_COUNT];
    bool wanted[SPT_SWEEP_VALUE_COUNT];
    bool flagged; /* flags are wanted: each row is assessed by spt_assess_bearing too, slower */
    bool kernel; /* one bearing, stated temperatures: batch.h; else spt_assess_bearing row by row */
    double density_factor;
};

/* In:     a checked case; which fields are swept; which values are wanted (NULL: all).
 * Result: the plan; borrows the case. With `wanted` NULL flags are wanted too, else the caller sets
 *         `flagged`.
 * Status: SPT_BAD_ARGUMENT for fields that exclude each other, load fields where a phase states its
 *         loads another way or the case has two bearings, a grease age on oil, fields of a hub
 *         without one. */
enum spt_status spt_sweep_plan_make(const struct spt_case *question, const bool *swept,
                                    const bool *wanted, struct spt_sweep_plan *plan);

/* Answers `count` rows (1 to SPT_SWEEP_BLOCK). columns[f][i] is field f of row i, for the fields
 * that are swept. The room of a case with a hub has to be ready: spt_sweep_hub_start.
 * Result: the block, the same as spt_assess_bearing gives each row within 1e-12 of its value; rows
 *         that the kernel cannot take are answered by it. */
void spt_sweep_work(const struct spt_sweep_plan *plan, const double *const *columns, int count,
                    struct spt_sweep_room *room, struct spt_sweep_block *block);

#ifdef __cplusplus
}
#endif

#endif
