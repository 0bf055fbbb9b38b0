/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_HUB_HUB_KERNEL_H
#define MODEL_HUB_HUB_KERNEL_H

#include "model/hub/hub_internal.h"

/* The two loops over laminae that take nearly all of the time of a hub, compiled for several
 * widths of vectors. */

/* Rollers of one row. The first `single` count once in the sums, the others `weight` times. */
struct spt_hub_rollers {
    const double *cosine;
    const double *sine;
    int count;
    int single;
    double weight;
};

/* Sums over the laminae of these rollers, without the factor c_s: of d^(10/9) (LOAD), d^(1/9)
 * (ROOT) and d^(19/9) (ENERGY); times x or x^2 of the lamina (_X, _XX); times cos phi and sin phi
 * of the roller (_C, _S). */
enum spt_hub_sum {
    SPT_HUB_LOAD,
    SPT_HUB_LOAD_C,
    SPT_HUB_LOAD_S,
    SPT_HUB_LOAD_X_C,
    SPT_HUB_LOAD_X_S,
    SPT_HUB_ROOT,
    SPT_HUB_ROOT_C,
    SPT_HUB_ROOT_S,
    SPT_HUB_ROOT_CC,
    SPT_HUB_ROOT_CS,
    SPT_HUB_ROOT_SS,
    SPT_HUB_ROOT_X_C,
    SPT_HUB_ROOT_X_S,
    SPT_HUB_ROOT_X_CC,
    SPT_HUB_ROOT_X_CS,
    SPT_HUB_ROOT_X_SS,
    SPT_HUB_ROOT_XX_CC,
    SPT_HUB_ROOT_XX_CS,
    SPT_HUB_ROOT_XX_SS,
    SPT_HUB_ENERGY,
    SPT_HUB_SUM_COUNT
};

/* Damage per 10^6 revolutions, each to the power 9/8, without and with a_ISO. */
struct spt_hub_damage {
    double basic;
    double modified;
};

/* a_ISO^(-9/8) of a lamina is scale b^power, at least `least`, with b = 1 - factor s^exponent and s
 * = inner + ring * outer of its equivalent loads of both rings to the power 9/2. */
struct spt_hub_lamina_law {
    double ring;
    double factor;
    double exponent;
    double scale;
    double power;
    double least;
};
#define SPT_HUB_STRESS_MIN 1e-300 /* added to s, for its logarithm */
/* b below this: a_ISO has been at its cap since 0.508, and the power stays a double */
#define SPT_HUB_BRACKET_MIN 0.1

struct spt_hub_kernel {
    int lanes; /* doubles at a time */

    /* One row in a pose. `reach_mm` is half the length of a roller. */
    void (*sum)(const struct spt_hub_table *table, const struct spt_hub_pose *pose, double reach_mm,
                const struct spt_hub_rollers *rollers, double sums[SPT_HUB_SUM_COUNT]);

    /* The same, and into table->lamina_sum the sums over the rollers for the lives: of q^4, then of
     * q^(9/2), of each lamina, without c_s and f. */
    void (*sum_lives)(const struct spt_hub_table *table, const struct spt_hub_pose *pose,
                      double reach_mm, const struct spt_hub_rollers *rollers,
                      double sums[SPT_HUB_SUM_COUNT]);

    /* Damage from table->lamina_sum. `law`: of the modified life, or NULL (0 then). */
    struct spt_hub_damage (*damage)(const struct spt_hub_table *table, bool outer_turns,
                                    const struct spt_hub_lamina_law *law);
};

/* The kernel of this many lanes; NULL where the compiler or the machine has none. */
const struct spt_hub_kernel *spt_hub_kernel(int lanes);

/* The widest one of this machine. The choice is made here alone. */
const struct spt_hub_kernel *spt_hub_kernel_widest(void);

#endif
