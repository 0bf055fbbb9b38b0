/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_REACH_H
#define SPT_REACH_H

#include "spalltime/assess.h"
#include "spalltime/setting.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The inverse problem: how far one input (a lever) must be changed for the life to reach a target
 * or, where the target is reached already, how far that input may get worse ("slipping"). */
enum spt_lever {
    SPT_LEVER_CLEANLINESS, /* class of ISO 281 Annex A that no phase is dirtier than (slipping: none
                              cleaner) */
    SPT_LEVER_WATER,       /* water in ppm that no phase exceeds (slipping: none is below, up to the
                              400 ppm of the tests, or the present content) */
    SPT_LEVER_GRADE,       /* middle of an ISO 3448 grade of the (base) oil, same viscosity index:
                              thicker than the present one, thinner where it is too stiff for a life
                              to be stated; slipping: thinner */
    SPT_LEVER_TEMPERATURE, /* change in K of the temperature of every phase (of the ambient where
                              the temperature is estimated): cooler, but no phase below 0 degC and
                              no oil too stiff for a life; warmer by up to 100 K where the oil is
                              too stiff now; slipping: warmer by up to 100 K */
    SPT_LEVER_LOAD,        /* factor on every load; slipping: until the first bearing has P = C/2,
                              where the life factor ends */
    SPT_LEVER_REGREASING,  /* grease age in h that no phase exceeds */
    SPT_LEVER_RATING,      /* factor on C, C0 and C_u of every bearing; slipping: as the load */
    SPT_LEVER_END_PLAY, /* mounted setting of a hub in mm: between the present one (or where preload
                           begins) and the best one that spt_hub_bench_best allows, rings as stated;
                           slipping: from the present one away from the best, into preload only
                           where that is allowed or present already */
    /* In the words of a machine, whose loads are worked out anew; the answer stays with the wheel
     * of the case, and the three of a vehicle need a hub that is known by its sheets. */
    SPT_LEVER_POWER,       /* factor on power or torque of every phase of a shaft: weights and a
                              stated pretension stay; 0.01 to 10 */
    SPT_LEVER_PAYLOAD,     /* kg that no phase exceeds (slipping: none is below), down to 0, up to
                              ten times the present one */
    SPT_LEVER_BEND_SPEED,  /* km/h that no bend is driven faster than; 1 to 200 */
    SPT_LEVER_BEND_RADIUS, /* m that no bend is tighter than; 2 to 1000 */
    SPT_LEVER_COUNT
};

enum spt_lever_outcome {
    SPT_LEVER_REACHES, /* `value` reaches the target */
    SPT_LEVER_CANNOT,  /* cannot reach it alone: `value` is the best possible, `life_h` its life */
    SPT_LEVER_ALWAYS,  /* slipping: the target holds over the whole range; `value` is its far end */
    SPT_LEVER_NOT_HERE /* the case has no such lever (no regreasing of oil, ...) */
};

struct spt_lever_result {
    enum spt_lever_outcome outcome;
    double present; /* present value in the unit of the lever; class: enum spt_cleanliness of the
                       worst phase (slipping: best); grade: index of the nearest grade */
    double value;   /* required value; classes: enum spt_cleanliness; grades: index of the grade */
    double life_h;  /* life at `value` */
    double best, best_life_h; /* ends of the searched range, with their lives */
    double worst, worst_life_h;
    struct spt_notes notes; /* flags that `value` raises and the case as it is does not */
};

struct spt_reach {
    double target_h;
    double present_life_h; /* as all lives here from new: of bearings that have run before with
                              those hours, see spt_remaining; NaN: none */
    bool reached_already;
    bool present_grade_fits; /* the oil is within 10 % of the mid-point of its nearest grade */
    double present_viscosity_40_mm2_s;
    struct spt_lever_result levers[SPT_LEVER_COUNT];
    bool pair_found; /* cleanliness and grade together reach the target with the fewest steps, where
                        neither does alone */
    int pair_cleanliness; /* enum spt_cleanliness */
    int pair_grade;       /* index of the grade */
    double pair_life_h;
};

/* Caller's memory: phases and results for spt_case_phase_count(question) each. */
struct spt_reach_workspace {
    struct spt_phase *phases;
    struct spt_phase_result *results;
    struct spt_hub_bench *bench; /* a rated bench of a case with a hub (spt_hub_bench_rate); NULL:
                                    the lever end play is not tried */
};

/* Name of a lever, such as "cleanliness"; never NULL. */
const char *spt_lever_name(enum spt_lever lever);

/* Evaluates every lever. Under the levers load and end play a hub is solved again for its setting
 * factors; under the others they are those of the case.
 * In:     a case; target life in h (> 0, finite); memory.
 * Status: SPT_BAD_ARGUMENT. A life with no value counts as not reaching the target.
 * Of bearings that have run before the lever changes the hours to come alone.
 * Method: classes and grades are tried in order; the others by a bracketing root finder (Brent) on
 *         ln(life), which is monotone in each; the result is the end of the last bracket that
 *         reaches the target. Life need not be monotone in the levers of a machine (a belt may work
 *         against a gear), so these go in steps from the present value to the first that changes
 *         the outcome, and bisect there.
 */
enum spt_status spt_reach(const struct spt_case *question, double target_h,
                          const struct spt_reach_workspace *workspace, struct spt_reach *result);

/* Life in h with one lever at a value, for checking a result. */
enum spt_status spt_reach_life(const struct spt_case *question, enum spt_lever lever, double value,
                               bool relaxing, const struct spt_reach_workspace *workspace,
                               double *life_h);

#ifdef __cplusplus
}
#endif

#endif
