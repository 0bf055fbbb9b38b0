/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#include <math.h>

enum spt_status spt_water_factor(double water_ppm, double *a_w)
{
    *a_w = (double)NAN;
    if (!(water_ppm >= 0.0 && water_ppm <= 1e6))
        return SPT_BAD_ARGUMENT;
    if (water_ppm <= SPT_WATER_REFERENCE_PPM)
        *a_w = 1.0;
    else
        *a_w = fmax(SPT_WATER_FLOOR, pow(SPT_WATER_REFERENCE_PPM / water_ppm, SPT_WATER_EXPONENT));
    return SPT_OK;
}

enum spt_status spt_water_free(enum spt_solubility kind, double water_ppm, double temperature_c,
                               double *free_ppm)
{
    double dissolved_ppm;
    *free_ppm = (double)NAN;
    if (!(water_ppm >= 0.0 && water_ppm <= 1e6) || !(temperature_c >= SPT_COLDEST_C) ||
        spt_water_saturation(kind, fmax(temperature_c, 0.0), &dissolved_ppm))
        return SPT_BAD_ARGUMENT;
    *free_ppm = fmax(0.0, water_ppm - dissolved_ppm);
    return SPT_OK;
}

enum spt_status spt_water_saturation(enum spt_solubility kind, double temperature_c, double *ppm)
{
    static const struct {
        double a, b_k;
    } lines[] = {
        [SPT_SOLUBILITY_PLAIN] = {7.0895, 1567.0},
        [SPT_SOLUBILITY_ADDITIVATED] = {6.65036, 1189.46},
    };
    *ppm = (double)NAN;
    if ((int)kind < 0 || kind >= SPT_SOLUBILITY_COUNT ||
        !(temperature_c >= -40.0 && temperature_c <= 200.0))
        return SPT_BAD_ARGUMENT;
    *ppm = pow(10.0, lines[kind].a - lines[kind].b_k / (temperature_c + 273.15));
    return SPT_OK;
}
