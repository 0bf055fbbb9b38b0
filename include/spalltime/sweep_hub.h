/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SWEEP_HUB_H
#define SPT_SWEEP_HUB_H

#include "spalltime/hub_bench.h"
#include "spalltime/sweep.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The load distribution of a hub for row after row of a sweep, as hub_bench.h has it: setting
 * factors by L10r at the setting over L10r at the reference. Neither depends on speed, temperature
 * or lubricant, so a row with the loads and the setting of the one before takes them over. */

/* Rows of a grid that start one from another. The bytes of a sweep do not depend on where a run, a
 * shard or a thread begins if every call of spt_sweep_work gets the rows of one chain from its
 * first on, chains beginning at the multiples of this number. */
#define SPT_SWEEP_CHAIN 64

/* The last loads and setting that were solved, and what came of them. */
struct spt_sweep_trail {
    bool known;
    struct spt_hub_load load;
    double setting_mm;
    enum spt_status status;
    double row_mrev[2]; /* L10r, averaged over positions of the cages */
    bool placed[SPT_HUB_CAGE_POSITIONS];
    struct spt_hub_position positions[SPT_HUB_CAGE_POSITIONS];
};

enum { SPT_SWEEP_AS_STATED, SPT_SWEEP_ALIGNED, SPT_SWEEP_RINGS };

/* Caller's memory of one worker: workspace of spt_sweep_hub_workspace doubles, and `trails` for the
 * phases of one bearing; the rest is set by spt_sweep_hub_start. */
struct spt_sweep_hub {
    double *workspace;
    struct spt_sweep_trail (*trails)[SPT_SWEEP_RINGS];
    bool warm; /* solve each row from the one before; else on its own, as `life` does */
    struct spt_hub_model models[SPT_SWEEP_RINGS][SPT_HUB_CAGE_POSITIONS];
    double mounted_mm; /* as the case states it; NaN where the setting is swept */
    double thermal_mm;
};

size_t spt_sweep_hub_workspace(const struct spt_case *question);

/* Prepares the models and the setting that the case states.
 * Status: SPT_BAD_ARGUMENT; those of spt_hub_preload_setting where a preload force is stated and no
 *         setting swept. */
enum spt_status spt_sweep_hub_start(const struct spt_sweep_plan *plan, struct spt_sweep_hub *hub);

#ifdef __cplusplus
}
#endif

#endif
