/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/hub.h"

#include <math.h>

#define PI 3.14159265358979323846
#define STEP (1.0 / 16.0)
#define REACH 64 /* nodes each side of the middle: t to 4 */

/* The bracket of the integrand; `from_end` is the distance to the end of the loaded arc, which is
 * accurate near that end. */
static double find_depth(double epsilon, double arc, double phi, double from_end)
{
    if (epsilon >= 1)
        return 1 - (1 - cos(phi)) / (2 * epsilon);
    return sin(0.5 * (arc + phi)) * sin(0.5 * from_end) / epsilon;
}

/* Tanh-sinh rule (Takahasi and Mori 1974): it tolerates the branch point at the end of the arc. */
enum spt_status spt_sjoevall(double epsilon, double exponent, struct spt_sjoevall *integrals)
{
    *integrals = (struct spt_sjoevall){(double)NAN, (double)NAN};
    if (!(epsilon > 0 && epsilon <= 1e6) || !(exponent >= 1 && exponent <= 3))
        return SPT_BAD_ARGUMENT;
    double arc = epsilon >= 1 ? PI : 2 * asin(sqrt(epsilon));
    double radial = 0, axial = 0;
    for (int i = -REACH; i <= REACH; i++) {
        double t = i * STEP, u = 0.5 * PI * sinh(t);
        double phi = arc / (1 + exp(-2 * u)), left = arc / (1 + exp(2 * u));
        double weight = STEP * arc * 0.25 * PI * cosh(t) / (cosh(u) * cosh(u));
        double depth = fmax(0.0, find_depth(epsilon, arc, phi, left));
        double load = pow(depth, exponent) * weight;
        axial += load;
        radial += load * cos(phi);
    }
    integrals->radial = radial / PI;
    integrals->axial = axial / PI;
    return SPT_OK;
}
