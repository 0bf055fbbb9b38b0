/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Functions on LANES doubles at a time, and the ninth root that the 10/9 power law of a roller
 * contact needs, where pow() would take nearly all of the time. Without include guard: included
 * once for each width, with
 *   LANES         1, or a power of two where the compiler has vector types
 *   LANE(name)    the name that a type or function gets at this width
 *   LANE_TARGET   attribute with the instruction set of this width */

#define LANE_INLINE static inline LANE_TARGET

#if LANES == 1
typedef double LANE(spt_lanes);
typedef uint64_t LANE(spt_lane_bits);
#else
typedef double LANE(spt_lanes) __attribute__((vector_size(8 * LANES)));
typedef uint64_t LANE(spt_lane_bits) __attribute__((vector_size(8 * LANES)));
#endif

LANE_INLINE LANE(spt_lanes) LANE(lanes_load)(const double *from)
{
    LANE(spt_lanes) lanes;
    memcpy(&lanes, from, sizeof lanes);
    return lanes;
}

LANE_INLINE void LANE(lanes_store)(double *to, LANE(spt_lanes) lanes)
{
    memcpy(to, &lanes, sizeof lanes);
}

LANE_INLINE LANE(spt_lanes) LANE(lanes_fill)(double value)
{
#if LANES == 1
    return value;
#else
    const LANE(spt_lanes) zero = {0};
    return zero + value;
#endif
}

LANE_INLINE double LANE(lanes_sum)(LANE(spt_lanes) lanes)
{
    double parts[LANES];
    LANE(lanes_store)(parts, lanes);
    for (int half = LANES / 2; half > 0; half /= 2)
        for (int i = 0; i < half; i++)
            parts[i] += parts[i + half];
    return parts[0];
}

LANE_INLINE LANE(spt_lane_bits) LANE(lanes_to_bits)(LANE(spt_lanes) a)
{
    LANE(spt_lane_bits) bits;
    memcpy(&bits, &a, sizeof bits);
    return bits;
}

LANE_INLINE LANE(spt_lanes) LANE(lanes_from_bits)(LANE(spt_lane_bits) a)
{
    LANE(spt_lanes) lanes;
    memcpy(&lanes, &a, sizeof lanes);
    return lanes;
}

/* a where test > limit, else 0, whatever a is there */
LANE_INLINE LANE(spt_lanes)
    LANE(lanes_where_above)(LANE(spt_lanes) test, double limit, LANE(spt_lanes) a)
{
#if LANES == 1
    return test > limit ? a : 0.0;
#else
    return LANE(lanes_from_bits)((LANE(spt_lane_bits))(test > LANE(lanes_fill)(limit)) &
                                 LANE(lanes_to_bits)(a));
#endif
}

/* Initial guess of a^(-1/9), within 4 %: the upper half of the bits of a double, read as an
 * integer, is nearly proportional to the logarithm; it is divided by -9. Adding 2^52 converts small
 * integers to doubles. */
LANE_INLINE LANE(spt_lanes) LANE(lanes_guess)(LANE(spt_lanes) a)
{
    const uint64_t magic_bits = 0x4330000000000000ULL; /* of 2^52 */
    const double magic = 0x1p52;
    const double bias = 1023.0 * 0x1p20;
    LANE(spt_lanes)
    upper = LANE(lanes_from_bits)((LANE(lanes_to_bits)(a) >> 32) | magic_bits) - magic;
    LANE(spt_lanes) guess = (10.0 / 9.0 * (bias - 0x1p20 * 0.0430)) - upper * (1.0 / 9.0);
    return LANE(lanes_from_bits)(LANE(lanes_to_bits)(guess + magic) << 32);
}

/* a^(1/9) for a >= SPT_ROOT_MIN to 1e10, within 1e-14 (relative), and 0 of 0. Below 0 powers
 * underflow, which takes a processor a hundred times as long: such arguments are set to 0. With y
 * close to a^(-1/9) and r = 1 - a y^9: a^(-1/9) = y (1-r)^(-1/9) and a^(1/9) = a y^8 (1-r)^(-8/9),
 * both as series in r. The first series reduces r to below 1e-3, the second has terms up to r^5.
 * LANE_TEAM of them go in step, because a chain of so many operations that wait for each other
 * leaves most of a processor idle. */
#define TEAM for (int i = 0; i < LANE_TEAM; i++)
LANE_INLINE void LANE(lanes_ninth_roots)(const LANE(spt_lanes) a[LANE_TEAM],
                                         LANE(spt_lanes) root[LANE_TEAM])
{
    LANE(spt_lanes) y[LANE_TEAM], y2[LANE_TEAM], y4[LANE_TEAM], r[LANE_TEAM], series[LANE_TEAM];
    TEAM y[i] = LANE(lanes_guess)(a[i]);
    TEAM y2[i] = y[i] * y[i];
    TEAM y4[i] = y2[i] * y2[i];
    TEAM r[i] = 1.0 - a[i] * (y4[i] * y4[i] * y[i]);
    TEAM series[i] = 95.0 / 2187.0 + r[i] * (665.0 / 19683.0);
    TEAM series[i] = 5.0 / 81.0 + r[i] * series[i];
    TEAM series[i] = 1.0 / 9.0 + r[i] * series[i];
    TEAM y[i] += y[i] * r[i] * series[i];
    TEAM y2[i] = y[i] * y[i];
    TEAM y4[i] = y2[i] * y2[i];
    TEAM root[i] = a[i] * (y4[i] * y4[i]);
    TEAM r[i] = 1.0 - root[i] * y[i];
    /* each coefficient is the last one times 17/18, 26/27, 35/36, 44/45 */
    const double c1 = 8.0 / 9.0, c2 = c1 * 17.0 / 18.0, c3 = c2 * 26.0 / 27.0;
    const double c4 = c3 * 35.0 / 36.0, c5 = c4 * 44.0 / 45.0;
    TEAM series[i] = c4 + r[i] * c5;
    TEAM series[i] = c3 + r[i] * series[i];
    TEAM series[i] = c2 + r[i] * series[i];
    TEAM series[i] = c1 + r[i] * series[i];
    TEAM root[i] += root[i] * r[i] * series[i];
}
#undef TEAM

#undef LANE_INLINE
