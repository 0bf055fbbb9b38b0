/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_LANES_H
#define MODEL_BATCH_LANES_H

/* Two doubles at a time where the compiler has vector types (gcc, clang), one elsewhere. Wider ones
 * are for functions of a wider instruction set alone (model/hub/hub_kernel.c): a vector that the
 * instruction set does not have goes through memory. */

#include <math.h>
#include <stdint.h>
#include <string.h>

#define SPT_ROOT_MIN 1e-30 /* no root is taken of a smaller argument */

/* SPT_SCALAR_LANES selects the scalar form although vector types are available */
#if defined(__GNUC__) && !defined(SPT_SCALAR_LANES)
#define SPT_LANES 2
#else
#define SPT_LANES 1
#endif

#define LANES SPT_LANES
#define LANE(name) name
#define LANE_TARGET
#define LANE_TEAM 1
#include "model/batch/lanes_width.h"
#undef LANES
#undef LANE
#undef LANE_TEAM
#undef LANE_TARGET

static inline spt_lanes lanes_ninth_root(spt_lanes a)
{
    spt_lanes root;
    lanes_ninth_roots(&a, &root);
    return root;
}

#endif
