/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_BATCH_BLOCK_H
#define MODEL_BATCH_BATCH_BLOCK_H

/* One block of points from inputs to results: inline stages for batch.c and batch_grid.c. */

#include "model/batch/batch_results.h"

/* The quantities that do not depend on the load. */
SPT_INLINE void find_state(const struct spt_batch_plan *plan, struct block *b, bool e_c_wanted)
{
    check_columns(plan, b);
    find_kappa(plan, b);
    find_contamination(plan, b, e_c_wanted);
    find_water(plan, b);
    if (is_due(plan, b, SPT_BATCH_DYNAMIC_LOAD_RATING_N))
        compute_logs(b->v[SPT_BATCH_DYNAMIC_LOAD_RATING_N], b->log_rating);
    if (is_due(plan, b, SPT_BATCH_FATIGUE_LOAD_LIMIT_N))
        compute_logs(b->v[SPT_BATCH_FATIGUE_LOAD_LIMIT_N], b->log_limit);
}

/* Computes one block whose columns are loaded; results go to element `at` onwards. */
SPT_INLINE void run_block(const struct spt_batch_plan *plan, struct block *b,
                          const struct spt_batch_results *to, size_t at, int count)
{
    bool ep = plan->batch->ep_additive;
    find_state(plan, b, ep || to->contamination_factor);
    if (is_due(plan, b, SPT_BATCH_EQUIVALENT_LOAD_N))
        compute_logs(b->v[SPT_BATCH_EQUIVALENT_LOAD_N], b->log_load);
    find_log_life(plan, b);
    check_log_life(b);
    if (to->life_modification_factor || to->modified_rating_life_h || to->status) {
        find_log_a_iso(plan, b);
        if (ep)
            apply_ep_rule(plan, b);
    }
    store_film(plan, b, to, at, count);
    store_life(plan, b, to, at, count);
    if (to->status)
        store_status(plan, b, to->status + at, count);
    b->fresh = false;
}

#endif
