/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BATCH_VECTOR_MATH_H
#define MODEL_BATCH_VECTOR_MATH_H

/* log2 and 2^x without branches, calls or tables, so that a compiler can vectorise loops over them.
 * The polynomials interpolate at Chebyshev nodes; the errors given are those of the polynomials,
 * and round-off adds about 1 ulp. (Tables are slower: gathers cost more than the terms they
 * save.) */

#include <stdint.h>
#include <string.h>

#if defined(__GNUC__)
#define SPT_INLINE static inline __attribute__((always_inline))
#else
#define SPT_INLINE static inline
#endif

SPT_INLINE uint64_t spt_bits_of(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

SPT_INLINE double spt_double_of(uint64_t bits)
{
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

/* log2 of a normal x > 0 (anything else gives an arbitrary double). x = 2^e m with m from sqrt(1/2)
 * to sqrt(2), s = (m - 1)/(m + 1), log2 m = (2/ln 2) atanh s: s times a polynomial of degree 6 in
 * s^2, error 2.1e-16 relative to log2 m. */
SPT_INLINE double spt_vector_log2(double x)
{
    const uint64_t half_root = 0x3fe6a09e667f3bcdULL;
    uint64_t shifted = spt_bits_of(x) + (0x3ff0000000000000ULL - half_root);
    double m = spt_double_of((shifted & 0x000fffffffffffffULL) + half_root);
    /* converts the exponent to a double with the low bits of 2^52 */
    double e = spt_double_of((shifted >> 52) | 0x4330000000000000ULL) - (0x1p52 + 1023.0);
    double s = (m - 1.0) / (m + 1.0);
    double z = s * s;
    double q = 0x1.0bb80a92c80ccp-2 + 0x1.f17dfd13ae0efp-3 * z;
    q = 0x1.484fa9965bc9cp-2 + q * z;
    q = 0x1.a61756810b0f8p-2 + q * z;
    q = 0x1.2776c516a083cp-1 + q * z;
    q = 0x1.ec709dc39ca40p-1 + q * z;
    q = 0x1.71547652b82ffp+1 + q * z;
    return e + s * q;
}

/* 2^x for x from -1022 to 1023 (elsewhere an arbitrary double): the integer part becomes the
 * exponent, a polynomial of degree 11 on -1/2 .. 1/2 does the rest, relative error 2e-17. The
 * argument is not limited here, because gcc would turn that into branches and no longer vectorise
 * the loop. */
SPT_INLINE double spt_vector_exp2(double x)
{
    const double to_integer = 0x1.8p52;
    double shifted = x + to_integer;
    double r = x - (shifted - to_integer);
    double r2 = r * r;
    double r4 = r2 * r2;
    double low =
        (1.0 + 0x1.62e42fefa39efp-1 * r) + (0x1.ebfbdff82c5aep-3 + 0x1.c6b08d704a0c6p-5 * r) * r2;
    double middle = (0x1.3b2ab6fb9f1a5p-7 + 0x1.5d87fe78a3f9cp-10 * r) +
                    (0x1.430913112c61bp-13 + 0x1.ffcbfc6da6ed1p-17 * r) * r2;
    double high = (0x1.62bfc2c86d700p-20 + 0x1.b524ebd13a55fp-24 * r) +
                  (0x1.e6228acd1c6e5p-28 + 0x1.e9ec1fcb69a7fp-32 * r) * r2;
    double power = low + (middle + high * r4) * r4;
    return spt_double_of(spt_bits_of(power) + (spt_bits_of(shifted) << 52));
}

#endif
