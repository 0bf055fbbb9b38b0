/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/statistics.h"

/* Bearings that still run, by the law behind a1. Hazards are in units of ln(1/0.9). */
struct survivors {
    const double *start, *added;
    int count;
    double floor;
    double hazard; /* that may be added */
};

static double excess_of(double damage, double floor)
{
    return fmax((damage - floor) / (1.0 - floor), 0.0);
}

/* The stretch after which one bearing alone has used up the hazard. */
static double stretch_alone(const struct survivors *all, int i)
{
    const double before = pow(excess_of(all->start[i], all->floor), SPT_WEIBULL_SLOPE);
    const double end = pow(before + all->hazard, 1.0 / SPT_WEIBULL_SLOPE);
    return (all->floor + (1.0 - all->floor) * end - all->start[i]) / all->added[i];
}

/* The root of a convex rising sum, by Newton's method from above, which does not pass it. */
static double stretch_together(const struct survivors *all, double stretch)
{
    for (int round = 0; round < 100; round++) {
        double sum = -all->hazard, slope = 0.0;
        for (int i = 0; i < all->count; i++) {
            const double now = excess_of(all->start[i] + stretch * all->added[i], all->floor);
            sum += pow(now, SPT_WEIBULL_SLOPE) -
                   pow(excess_of(all->start[i], all->floor), SPT_WEIBULL_SLOPE);
            slope += SPT_WEIBULL_SLOPE * pow(now, SPT_WEIBULL_SLOPE - 1.0) * all->added[i] /
                     (1.0 - all->floor);
        }
        const double next = stretch - sum / slope;
        if (!(next < stretch * (1.0 - 1e-16)))
            break;
        stretch = next;
    }
    return stretch;
}

double spt_survival_spent(const double *start, const double *added, int count, double floor,
                          double survival)
{
    const struct survivors all = {start, added, count, floor, log(survival) / log1p(-0.1)};
    double least = (double)INFINITY;
    if (count < 1 || !start || !added || !(survival > 0.0) || !(survival < 1.0) ||
        !(floor >= 0.0) || !(floor < 1.0))
        return (double)NAN;
    for (int i = 0; i < count; i++) {
        if (!(start[i] >= 0.0) || !(added[i] >= 0.0) || isinf(start[i]))
            return (double)NAN;
        if (isinf(added[i]))
            return (double)INFINITY;
        if (added[i] > 0.0)
            least = fmin(least, stretch_alone(&all, i));
    }
    if (isinf(least))
        return 0.0;
    return 1.0 / (count == 1 ? least : stretch_together(&all, least));
}
