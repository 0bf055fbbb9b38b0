/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/sweep.h"

#include "model/batch/batch_block.h"

SPT_VARIANTS
static void run_points(const struct spt_batch_plan *plan, size_t first, size_t count,
                       const struct spt_batch_results *to)
{
    struct block b;
    load_constants(plan, &b);
    memset(b.ep, 0, sizeof b.ep);
    for (size_t at = 0; at < count; at += POINTS) {
        int here = count - at < POINTS ? (int)(count - at) : POINTS;
        for (int c = 0; c < SPT_BATCH_VARIABLE_COUNT; c++)
            if (plan->varies[c])
                load_column(&b, c, &plan->batch->columns[c], first + at, here);
        run_block(plan, &b, to, at, here);
    }
}

enum spt_status spt_batch_points(const struct spt_batch *batch, size_t first, size_t count,
                                 const struct spt_batch_results *results)
{
    struct spt_batch_plan plan;
    enum spt_status status = spt_batch_plan_make(batch, &plan);
    if (status == SPT_OK)
        run_points(&plan, first, count, results);
    return status;
}

const char *spt_batch_variant(void)
{
#if SPT_HAS_VARIANTS
    __builtin_cpu_init();
    if (__builtin_cpu_supports("x86-64-v4"))
        return "x86-64-v4";
    if (__builtin_cpu_supports("x86-64-v3"))
        return "x86-64-v3";
#endif
    return "portable";
}
