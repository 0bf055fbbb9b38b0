/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#include <math.h>
#include <stdbool.h>

#include "model/constants.h"

static bool is_positive(double value)
{
    return value > 0.0 && isfinite(value);
}

enum spt_status spt_film_reference_viscosity(double speed_rpm, double pitch_diameter_mm,
                                             double *nu1_mm2_s)
{
    *nu1_mm2_s = (double)NAN;
    if (!is_positive(speed_rpm) || !is_positive(pitch_diameter_mm))
        return SPT_BAD_ARGUMENT;
    double by_speed = speed_rpm < SPT_NU1_STEP_RPM
                          ? SPT_NU1_SLOW_COEFFICIENT * pow(speed_rpm, -SPT_NU1_SLOW_EXPONENT)
                          : SPT_NU1_FAST_COEFFICIENT / sqrt(speed_rpm);
    *nu1_mm2_s = by_speed / sqrt(pitch_diameter_mm);
    return SPT_OK;
}

enum spt_status spt_film_density_factor(double density_g_cm3, double *factor)
{
    *factor = (double)NAN;
    if (!(density_g_cm3 >= 0.6 && density_g_cm3 <= 1.5))
        return SPT_BAD_ARGUMENT;
    *factor = pow(density_g_cm3 / 0.89, 0.83);
    return SPT_OK;
}

enum spt_status spt_film_viscosity_ratio(double nu_mm2_s, double nu1_mm2_s, double density_factor,
                                         double *kappa)
{
    *kappa = (double)NAN;
    if (!is_positive(nu_mm2_s) || !is_positive(nu1_mm2_s) || !is_positive(density_factor))
        return SPT_BAD_ARGUMENT;
    *kappa = nu_mm2_s / nu1_mm2_s * density_factor;
    return SPT_OK;
}

enum spt_status spt_film_effective_ratio(double kappa, double film_ratio, double *effective)
{
    *effective = (double)NAN;
    if (!is_positive(kappa) || !(film_ratio >= 0.0 && film_ratio <= 1.0))
        return SPT_BAD_ARGUMENT;
    *effective = kappa * pow(film_ratio, SPT_FILM_RATIO_EXPONENT);
    return SPT_OK;
}
