/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_AISO_POWER_H
#define MODEL_BATCH_AISO_POWER_H

/* The outer power of a_ISO without logarithm, exponential or division, so that loops over it are
 * vectorised and fast. */

#include "model/batch/vector_math.h"

/* The bracket ranges from the value at the cap of a_ISO, 0.508 (rollers) or 0.513 (balls), to 1. On
 * such a short range the 16th root of the power is well approximated by a polynomial of degree 19
 * in bracket - 0.75, interpolated at Chebyshev nodes; the relative error of the power is 3e-15, and
 * round-off adds 3e-15. The exponents are those of SPT_AISO_BALL and SPT_AISO_ROLLER over 16, which
 * tests check. */
#define SPT_AISO_ROOT_TERMS 20
#define SPT_AISO_ROOT_MIDDLE 0.75

static const double spt_aiso_root_ball[SPT_AISO_ROOT_TERMS] = {
    0x1.2e981dca9a79dp+0, -0x1.d50561606f725p-1, 0x1.ee6d23738736dp-1, -0x1.1b9bc233abbc9p+0,
    0x1.528ebca028a5cp+0, -0x1.9d9ac00ffed8fp+0, 0x1.007e03252c5f3p+1, -0x1.418803f3a68eep+1,
    0x1.96448767059b8p+1, -0x1.023e9110fe6bbp+2, 0x1.49ec74f44bf4fp+2, -0x1.a719fd1954599p+2,
    0x1.0fe7cb48587e3p+3, -0x1.5f90c129d383ep+3, 0x1.ce6db47cd9768p+3, -0x1.25e4562ff8d5ep+4,
    0x1.4568c2c9b8554p+4, -0x1.db2d890cb2574p+4, 0x1.0c910ecca0cc3p+6, -0x1.2d2708f41ede7p+6};
static const double spt_aiso_root_roller[SPT_AISO_ROOT_TERMS] = {
    0x1.2df81baf987b2p+0, -0x1.ce43b49f5e1fbp-1, 0x1.e516ba803328ep-1, -0x1.157a3ed74a2e4p+0,
    0x1.4a92f1be031dep+0, -0x1.9337b723fbb5ap+0, 0x1.f375364e6a03fp+0, -0x1.38b60d3a1bf2dp+1,
    0x1.8abf91d29ea00p+1, -0x1.f56c6390dc62ap+1, 0x1.4010473a60b49p+2, -0x1.9a3087969dd41p+2,
    0x1.0761a7d001aabp+3, -0x1.542da6045cdabp+3, 0x1.c07cd7ef7c857p+3, -0x1.1e659525cf32fp+4,
    0x1.35e5b1a50f8cdp+4, -0x1.b6ee4f1ac3d14p+4, 0x1.08471149ba451p+6, -0x1.372afcb6db715p+6};

/* bracket^power for the family of `root`. Even and odd terms are summed separately, because in a
 * single chain each step would have to wait for the previous one. */
SPT_INLINE double spt_aiso_power(const double *restrict root, double bracket)
{
    double t = bracket - SPT_AISO_ROOT_MIDDLE;
    double t2 = t * t;
    double even = root[SPT_AISO_ROOT_TERMS - 2];
    double odd = root[SPT_AISO_ROOT_TERMS - 1];
    for (int i = SPT_AISO_ROOT_TERMS - 4; i >= 0; i -= 2) {
        even = root[i] + even * t2;
        odd = root[i + 1] + odd * t2;
    }
    double power = even + odd * t;
    power *= power;
    power *= power;
    power *= power;
    return power * power;
}

#endif
