/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/hub/hub_kernel.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

#include "model/batch/lanes.h"
#include "model/batch/vector_math.h"

#if defined(__GNUC__) && !defined(SPT_SCALAR_LANES)
#define LANES 2
#define LANE(name) name##_2
#else
#define LANES 1
#define LANE(name) name##_1
#endif
#define LANE_TARGET
#define LANE_TEAM 2
static const int narrowest = LANES;
#include "model/hub/hub_kernel_width.h"
static const struct spt_hub_kernel *const narrow = &LANE(kernel);
#undef LANES
#undef LANE
#undef LANE_TEAM
#undef LANE_TARGET

/* SPT_NO_VARIANTS leaves the wider ones out, as in variants.h */
#if defined(__GNUC__) && defined(__x86_64__) && !defined(SPT_NO_VARIANTS) &&                       \
    !defined(SPT_SCALAR_LANES)
#define HAS_WIDE 1

#define LANES 4
#define LANE(name) name##_4
#define LANE_TEAM 2
#define LANE_TARGET __attribute__((target("avx2,fma")))
#include "model/hub/hub_kernel_width.h"
#undef LANES
#undef LANE
#undef LANE_TEAM
#undef LANE_TARGET

#define LANES 8
#define LANE(name) name##_8
#define LANE_TEAM 2
#define LANE_TARGET __attribute__((target("avx512f,avx512dq,avx512vl,avx2,fma")))
#include "model/hub/hub_kernel_width.h"
#undef LANES
#undef LANE
#undef LANE_TEAM
#undef LANE_TARGET
#else
#define HAS_WIDE 0
#endif

const struct spt_hub_kernel *spt_hub_kernel(int lanes)
{
#if HAS_WIDE
    bool has_4 = __builtin_cpu_supports("avx2") && __builtin_cpu_supports("fma");
    if (lanes == 4 && has_4)
        return &kernel_4;
    if (lanes == 8 && has_4 && __builtin_cpu_supports("avx512f") &&
        __builtin_cpu_supports("avx512dq") && __builtin_cpu_supports("avx512vl"))
        return &kernel_8;
#endif
    return lanes == narrowest ? narrow : NULL;
}

const struct spt_hub_kernel *spt_hub_kernel_widest(void)
{
    const struct spt_hub_kernel *kernel = NULL;
    for (int lanes = 8; !kernel; lanes /= 2)
        kernel = spt_hub_kernel(lanes);
    return kernel;
}
