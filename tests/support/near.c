/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "support/near.h"

#include <math.h>

bool near(double got, double want, double relative, double absolute)
{
    if (isinf(want))
        return got == want;
    return fabs(got - want) <= absolute + relative * fabs(want);
}

/* splitmix64 (Steele, Lea and Flood 2014) */
double random_between(unsigned long long *state, double low, double high)
{
    unsigned long long z = (*state += 0x9e3779b97f4a7c15ULL);
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    z ^= z >> 31;
    return low + (high - low) * ((double)(z >> 11) * 0x1p-53);
}
