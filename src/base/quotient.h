/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_QUOTIENT_H
#define BASE_QUOTIENT_H

#include <math.h>

/* part/whole of two numbers >= 0, without a division by 0: INFINITY where only `whole` is 0 (a life
 * without damage is unlimited), NaN where both are 0 or either is NaN. */
static inline double spt_quotient(double part, double whole)
{
    if (whole != 0)
        return part / whole;
    return part > 0 ? (double)INFINITY : (double)NAN;
}

#endif
