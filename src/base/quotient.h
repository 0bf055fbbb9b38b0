/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef BASE_QUOTIENT_H
#define BASE_QUOTIENT_H

#include <math.h>

/* part/whole of two numbers that are not below 0, said outright where the whole is 0: a life
 * without damage has no end. Infinite there, NaN where the part is 0 too or either is NaN. */
static inline double spt_quotient(double part, double whole)
{
    if (whole != 0)
        return part / whole;
    return part > 0 ? (double)INFINITY : (double)NAN;
}

#endif
