/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/numeric.h"
#include "spalltime/machine.h"

enum { ROUNDS = 20 }; /* of the fixed point of e(Fa) */

/* Sine of the angle for the mean over a turn. */
struct mean {
    double steady_n, turning_n, exponent;
};

static double raise_load(double t, void *context)
{
    const struct mean *m = context;
    double squares = m->steady_n * m->steady_n + m->turning_n * m->turning_n +
                     2 * m->steady_n * m->turning_n * cos(t);
    return pow(fmax(squares, 0), m->exponent / 2);
}

enum spt_status spt_radial_mean(double steady_n, double turning_n, double exponent, double *mean_n)
{
    *mean_n = (double)NAN;
    if (!(steady_n >= 0) || !(turning_n >= 0) || !(exponent > 0) ||
        !isfinite(steady_n + turning_n + exponent))
        return SPT_BAD_ARGUMENT;
    double sum = steady_n + turning_n, integral;
    *mean_n = sum;
    if (steady_n == 0 || turning_n == 0)
        return SPT_OK;
    struct mean m = {steady_n / sum, turning_n / sum, exponent};
    gsl_function function = {raise_load, &m};
    enum spt_status status = spt_numeric_integral(&function, 0, acos(-1.0), &integral);
    *mean_n = status ? (double)NAN : sum * pow(integral / acos(-1.0), 1 / exponent);
    return status;
}

double spt_load_centre(const struct spt_bearing *bearing, double at_mm, double stops,
                       double centre_distance_mm, bool *estimated)
{
    bool angled =
        (bearing->type == SPT_TAPERED_ROLLER || bearing->type == SPT_ANGULAR_CONTACT_BALL) &&
        spt_bearing_rows(bearing->type, bearing->rows) == 1;
    *estimated = false;
    if (!angled || stops == 0)
        return at_mm;
    if (!isnan(centre_distance_mm))
        return at_mm - stops * (centre_distance_mm - bearing->width_mm / 2);
    double angle = bearing->contact_angle_rad;
    if (isnan(angle))
        angle = atan(bearing->limit_ratio / 1.5);
    if (isnan(angle))
        return at_mm;
    *estimated = true;
    return at_mm - stops * bearing->pitch_diameter_mm / 2 * tan(angle);
}

static bool stops(const struct spt_support *support, enum spt_locating way)
{
    return support->locating == SPT_LOCATES_BOTH || support->locating == way;
}

/* A support that is one-way beside one that takes both ways never has to take any thrust. */
enum spt_thrust_problem spt_shaft_located(const struct spt_machine_shaft *shaft, int *support)
{
    int both = 0, left = 0, right = 0;
    *support = -1;
    for (int i = 0; i < shaft->support_count; i++) {
        int *count = shaft->supports[i].locating == SPT_LOCATES_BOTH    ? &both
                     : shaft->supports[i].locating == SPT_LOCATES_LEFT  ? &left
                     : shaft->supports[i].locating == SPT_LOCATES_RIGHT ? &right
                                                                        : NULL;
        if (!count)
            continue;
        *support = i;
        if (++*count > 1)
            return SPT_THRUST_OVER_LOCATED;
    }
    *support = -1;
    return SPT_THRUST_FINE;
}

/* The support that takes thrust both ways, else one that takes it this way; -1: none. */
static int find_taker(const struct spt_machine_shaft *shaft, enum spt_locating way)
{
    for (int i = 0; i < shaft->support_count; i++)
        if (shaft->supports[i].locating == SPT_LOCATES_BOTH)
            return i;
    for (int i = 0; i < shaft->support_count; i++)
        if (stops(&shaft->supports[i], way))
            return i;
    return -1;
}

/* Thrust that the radial load of one row makes; 0 for bearings without. */
static double find_induced(const struct spt_bearing *bearing, double radial_n)
{
    struct spt_equivalent_load load;
    double thrust = 0;
    if (spt_load_induced_thrust(bearing, radial_n, &thrust))
        return 0;
    if (!spt_bearing_is_ball(bearing->type))
        return thrust;
    for (int i = 0; i < ROUNDS; i++) {
        if (spt_load_equivalent(bearing, radial_n, fmax(thrust, 1e-9 * radial_n), &load, NULL) ||
            isnan(load.limit_ratio))
            return thrust;
        thrust = load.limit_ratio * radial_n;
    }
    return thrust;
}

/* Both rows of an adjusted pair press against each other. */
static void share_pair(const struct spt_machine_shaft *shaft, double thrust_n, int squeezed,
                       int other, struct spt_support_load *supports)
{
    struct spt_support_load *a = &supports[squeezed], *b = &supports[other];
    a->induced_n = find_induced(shaft->bearings[squeezed], a->radial_n);
    b->induced_n = find_induced(shaft->bearings[other], b->radial_n);
    a->axial_n = fmax(a->induced_n, b->induced_n + fabs(thrust_n));
    b->axial_n = a->axial_n - fabs(thrust_n);
}

enum spt_status spt_shaft_thrust(const struct spt_machine_shaft *shaft, double thrust_n,
                                 struct spt_support_load *supports)
{
    enum spt_locating way = thrust_n < 0 ? SPT_LOCATES_LEFT : SPT_LOCATES_RIGHT;
    enum spt_locating back = thrust_n < 0 ? SPT_LOCATES_RIGHT : SPT_LOCATES_LEFT;
    for (int i = 0; i < shaft->support_count; i++) {
        supports[i].axial_n = supports[i].induced_n = 0;
        supports[i].takes_thrust = false;
    }
    int taker = find_taker(shaft, way), other = find_taker(shaft, back);
    if (taker < 0 && thrust_n != 0)
        return SPT_CANNOT_CARRY;
    if (taker >= 0 && other >= 0 && taker != other)
        share_pair(shaft, thrust_n, taker, other, supports);
    else if (taker >= 0)
        supports[taker].axial_n = fabs(thrust_n);
    if (taker >= 0 && thrust_n != 0)
        supports[taker].takes_thrust = true;
    return SPT_OK;
}
