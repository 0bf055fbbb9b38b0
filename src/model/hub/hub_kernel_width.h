/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The kernel of hub_kernel.h for one width. Without include guard: see lanes_width.h for LANES,
 * LANE and LANE_TARGET. */

#include "model/batch/lanes_width.h"

/* The sums over the laminae of one roller. */
struct LANE(roller) {
    LANE(spt_lanes) load, load_x, root, root_x, root_xx, energy;
};

/* Adds LANE_TEAM vectors of laminae from k on, `weight` times to the sums of the lives. */
LANE_TARGET SPT_INLINE void LANE(add_laminae)(const struct spt_hub_table *t,
                                              const struct spt_hub_roller *roller, int k,
                                              double weight, bool lives, struct LANE(roller) * to)
{
    LANE(spt_lanes) x[LANE_TEAM], d[LANE_TEAM], root[LANE_TEAM];
    for (int i = 0; i < LANE_TEAM; i++) {
        x[i] = LANE(lanes_load)(t->x_mm + k + i * LANES);
        d[i] = roller->approach_mm + roller->tilt_rad * x[i] -
               LANE(lanes_load)(t->profile_mm + k + i * LANES);
        d[i] = LANE(lanes_where_above)(d[i], SPT_ROOT_MIN, d[i]);
    }
    LANE(lanes_ninth_roots)(d, root);
    for (int i = 0; i < LANE_TEAM; i++) {
        LANE(spt_lanes) q = d[i] * root[i], root_x = root[i] * x[i];
        to->load += q;
        to->load_x += q * x[i];
        to->energy += q * d[i];
        to->root += root[i];
        to->root_x += root_x;
        to->root_xx += root_x * x[i];
        if (lives) {
            double *fourth = t->lamina_sum + k + i * LANES, *half = fourth + t->padded;
            LANE(spt_lanes) q2 = q * q, q4 = weight * (q2 * q2), root2 = root[i] * root[i];
            LANE(lanes_store)(fourth, LANE(lanes_load)(fourth) + q4);
            /* q^(1/2) = d^(5/9) */
            LANE(lanes_store)(half, LANE(lanes_load)(half) + q4 * (root2 * root2 * root[i]));
        }
    }
}

/* Adds a roller at an angle to the sums of its row. */
LANE_TARGET SPT_INLINE void LANE(add_roller)(const struct LANE(roller) * r, double c, double s,
                                             double weight,
                                             LANE(spt_lanes) total[SPT_HUB_SUM_COUNT])
{
    double wc = weight * c, ws = weight * s, wcc = wc * c, wcs = wc * s, wss = ws * s;
    total[SPT_HUB_LOAD] += weight * r->load;
    total[SPT_HUB_LOAD_C] += wc * r->load;
    total[SPT_HUB_LOAD_S] += ws * r->load;
    total[SPT_HUB_LOAD_X_C] += wc * r->load_x;
    total[SPT_HUB_LOAD_X_S] += ws * r->load_x;
    total[SPT_HUB_ROOT] += weight * r->root;
    total[SPT_HUB_ROOT_C] += wc * r->root;
    total[SPT_HUB_ROOT_S] += ws * r->root;
    total[SPT_HUB_ROOT_CC] += wcc * r->root;
    total[SPT_HUB_ROOT_CS] += wcs * r->root;
    total[SPT_HUB_ROOT_SS] += wss * r->root;
    total[SPT_HUB_ROOT_X_C] += wc * r->root_x;
    total[SPT_HUB_ROOT_X_S] += ws * r->root_x;
    total[SPT_HUB_ROOT_X_CC] += wcc * r->root_x;
    total[SPT_HUB_ROOT_X_CS] += wcs * r->root_x;
    total[SPT_HUB_ROOT_X_SS] += wss * r->root_x;
    total[SPT_HUB_ROOT_XX_CC] += wcc * r->root_xx;
    total[SPT_HUB_ROOT_XX_CS] += wcs * r->root_xx;
    total[SPT_HUB_ROOT_XX_SS] += wss * r->root_xx;
    total[SPT_HUB_ENERGY] += weight * r->energy;
}

LANE_TARGET SPT_INLINE void LANE(sum_rollers)(const struct spt_hub_table *t,
                                              const struct spt_hub_pose *pose, double reach_mm,
                                              const struct spt_hub_rollers *rollers, bool lives,
                                              double sums[SPT_HUB_SUM_COUNT])
{
    LANE(spt_lanes) total[SPT_HUB_SUM_COUNT];
    for (int i = 0; i < SPT_HUB_SUM_COUNT; i++)
        total[i] = LANE(lanes_fill)(0);
    for (int j = 0; j < rollers->count; j++) {
        double c = rollers->cosine[j], s = rollers->sine[j];
        const struct spt_hub_roller roller = spt_hub_roller(pose, c, s);
        if (roller.approach_mm + fabs(roller.tilt_rad) * reach_mm <= 0)
            continue;
        double weight = j < rollers->single ? 1 : rollers->weight;
        LANE(spt_lanes) zero = LANE(lanes_fill)(0);
        struct LANE(roller) sum = {zero, zero, zero, zero, zero, zero};
        for (int k = 0; k < t->laminae; k += LANE_TEAM * LANES)
            LANE(add_laminae)(t, &roller, k, weight, lives, &sum);
        LANE(add_roller)(&sum, c, s, weight, total);
    }
    for (int i = 0; i < SPT_HUB_SUM_COUNT; i++)
        sums[i] = LANE(lanes_sum)(total[i]);
}

LANE_TARGET static void LANE(sum)(const struct spt_hub_table *t, const struct spt_hub_pose *pose,
                                  double reach_mm, const struct spt_hub_rollers *rollers,
                                  double sums[SPT_HUB_SUM_COUNT])
{
    LANE(sum_rollers)(t, pose, reach_mm, rollers, false, sums);
}

LANE_TARGET static void LANE(sum_lives)(const struct spt_hub_table *t,
                                        const struct spt_hub_pose *pose, double reach_mm,
                                        const struct spt_hub_rollers *rollers,
                                        double sums[SPT_HUB_SUM_COUNT])
{
    memset(t->lamina_sum, 0, 2 * (size_t)t->padded * sizeof *t->lamina_sum);
    LANE(sum_rollers)(t, pose, reach_mm, rollers, true, sums);
}

/* A plain loop over all of the padding, which the compiler vectorises: a lamina without load has no
 * damage. */
LANE_TARGET SPT_INLINE struct spt_hub_damage LANE(sum_damage)(const struct spt_hub_table *t,
                                                              bool outer_turns,
                                                              const struct spt_hub_lamina_law *law)
{
    const double *fourth = t->lamina_sum, *half = fourth + t->padded;
    const double *turning_scale = t->lamina_scale, *standing_scale = turning_scale + t->padded;
    const struct spt_hub_lamina_law a = law ? *law : (struct spt_hub_lamina_law){.ring = 0};
    double turning_rate = outer_turns ? t->outer_rate : t->inner_rate;
    double standing_rate = outer_turns ? t->inner_rate : t->outer_rate;
    double turning_ring = outer_turns ? a.ring : 1, standing_ring = outer_turns ? 1 : a.ring;
    double basic = 0, modified = 0;
#pragma omp simd reduction(+ : basic, modified)
    for (int k = 0; k < t->padded; k++) {
        double q = fourth[k] * turning_scale[k], standing = half[k] * standing_scale[k];
        double turning = q * sqrt(sqrt(sqrt(q)));
        double own = turning * turning_rate + standing * standing_rate;
        basic += own;
        if (!law)
            continue;
        double s = turning * turning_ring + standing * standing_ring + SPT_HUB_STRESS_MIN;
        double bracket = 1 - a.factor * spt_vector_exp2(a.exponent * spt_vector_log2(s));
        bracket = bracket > SPT_HUB_BRACKET_MIN ? bracket : SPT_HUB_BRACKET_MIN;
        double rate = a.scale * spt_vector_exp2(a.power * spt_vector_log2(bracket));
        modified += own * (rate > a.least ? rate : a.least);
    }
    return (struct spt_hub_damage){basic, modified};
}

LANE_TARGET static struct spt_hub_damage
LANE(damage)(const struct spt_hub_table *t, bool outer_turns, const struct spt_hub_lamina_law *law)
{
    return law ? LANE(sum_damage)(t, outer_turns, law) : LANE(sum_damage)(t, outer_turns, NULL);
}

static const struct spt_hub_kernel LANE(kernel) = {LANES, LANE(sum), LANE(sum_lives), LANE(damage)};
