/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_LANES_H
#define MODEL_BATCH_LANES_H

/* Two doubles at a time where the compiler has vector types (gcc, clang), one elsewhere; and the
 * ninth root that the 10/9 power law of a roller contact needs, where pow() would take nearly all
 * of the time. */

#include <math.h>
#include <stdint.h>
#include <string.h>

/* SPT_SCALAR_LANES selects the scalar form although vector types are available */
#define SPT_ROOT_MIN 1e-30 /* smaller arguments are raised to this */

#if defined(__GNUC__) && !defined(SPT_SCALAR_LANES)
#define SPT_LANES 2
typedef double spt_lanes __attribute__((vector_size(16)));
typedef uint64_t spt_lane_bits __attribute__((vector_size(16)));

static inline spt_lanes lanes_load(const double *from)
{
    spt_lanes lanes;
    memcpy(&lanes, from, sizeof lanes);
    return lanes;
}

static inline void lanes_store(double *to, spt_lanes lanes)
{
    memcpy(to, &lanes, sizeof lanes);
}

static inline double lanes_sum(spt_lanes lanes)
{
    return lanes[0] + lanes[1];
}

static inline double lanes_max(spt_lanes lanes)
{
    return lanes[0] > lanes[1] ? lanes[0] : lanes[1];
}

static inline spt_lanes lanes_fill(double value)
{
    return (spt_lanes){value, value};
}

/* a where test > limit, else 0 */
static inline spt_lanes lanes_where_above(spt_lanes test, double limit, spt_lanes a)
{
    return (spt_lanes)((spt_lane_bits)(test > lanes_fill(limit)) & (spt_lane_bits)a);
}

static inline spt_lanes lanes_larger(spt_lanes a, spt_lanes b)
{
    spt_lane_bits mask = (spt_lane_bits)(a > b);
    return (spt_lanes)((mask & (spt_lane_bits)a) | (~mask & (spt_lane_bits)b));
}

static inline spt_lanes lanes_sqrt(spt_lanes a)
{
    return (spt_lanes){sqrt(a[0]), sqrt(a[1])};
}

static inline spt_lane_bits lanes_to_bits(spt_lanes a)
{
    return (spt_lane_bits)a;
}

static inline spt_lanes lanes_from_bits(spt_lane_bits a)
{
    return (spt_lanes)a;
}
#else
#define SPT_LANES 1
typedef double spt_lanes;
typedef uint64_t spt_lane_bits;

static inline spt_lanes lanes_load(const double *from)
{
    return *from;
}

static inline void lanes_store(double *to, spt_lanes lanes)
{
    *to = lanes;
}

static inline double lanes_sum(spt_lanes lanes)
{
    return lanes;
}

static inline double lanes_max(spt_lanes lanes)
{
    return lanes;
}

static inline spt_lanes lanes_fill(double value)
{
    return value;
}

static inline spt_lanes lanes_where_above(spt_lanes test, double limit, spt_lanes a)
{
    return test > limit ? a : 0.0;
}

static inline spt_lanes lanes_larger(spt_lanes a, spt_lanes b)
{
    return a > b ? a : b;
}

static inline spt_lanes lanes_sqrt(spt_lanes a)
{
    return sqrt(a);
}

static inline spt_lane_bits lanes_to_bits(spt_lanes a)
{
    spt_lane_bits bits;
    memcpy(&bits, &a, sizeof bits);
    return bits;
}

static inline spt_lanes lanes_from_bits(spt_lane_bits a)
{
    spt_lanes lanes;
    memcpy(&lanes, &a, sizeof lanes);
    return lanes;
}
#endif

/* Initial guess of a^(-1/9), within 4 %: the upper half of the bits of a double, read as an
 * integer, is nearly proportional to the logarithm; it is divided by -9. Adding 2^52 converts small
 * integers to doubles. */
static inline spt_lanes lanes_guess(spt_lanes a)
{
    const uint64_t magic_bits = 0x4330000000000000ULL; /* of 2^52 */
    const double magic = 0x1p52;
    const double bias = 1023.0 * 0x1p20;
    spt_lanes upper = lanes_from_bits((lanes_to_bits(a) >> 32) | magic_bits) - magic;
    spt_lanes guess = (10.0 / 9.0 * (bias - 0x1p20 * 0.0430)) - upper * (1.0 / 9.0);
    return lanes_from_bits(lanes_to_bits(guess + magic) << 32);
}

/* a^(1/9) for a >= SPT_ROOT_MIN to 1e10, within 1e-14 (relative). With y close to a^(-1/9) and r =
 * 1 - a y^9: a^(-1/9) = y (1-r)^(-1/9) and a^(1/9) = a y^8 (1-r)^(-8/9), both as series in r. The
 * first series reduces r to below 1e-3, the second has terms up to r^5. */
static inline spt_lanes lanes_ninth_root(spt_lanes a)
{
    spt_lanes y = lanes_guess(a);
    spt_lanes y2 = y * y, y4 = y2 * y2;
    spt_lanes r = 1.0 - a * (y4 * y4 * y);
    y += y * r * (1.0 / 9.0 + r * (5.0 / 81.0 + r * (95.0 / 2187.0 + r * (665.0 / 19683.0))));
    y2 = y * y;
    y4 = y2 * y2;
    spt_lanes root = a * (y4 * y4);
    r = 1.0 - root * y;
    /* 8/9, *17/18, *26/27, *35/36, *44/45 */
    spt_lanes series =
        1.0 + r * (26.0 / 27.0) * (1.0 + r * (35.0 / 36.0) * (1.0 + r * (44.0 / 45.0)));
    return root + root * r * (8.0 / 9.0) * (1.0 + r * (17.0 / 18.0) * series);
}

#endif
