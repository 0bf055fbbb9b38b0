/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#include <math.h>

#include "base/table.h"

#define LONGEST_H 8000.0 /* at 50 degC and below */
#define LONGEST_TO_C 50.0
#define HALVING_K 15.0
#define CARE 3.0 /* synthetic oil, or filtered and sampled */
#define OXIDATION_LIVES 2.5

static bool is_temperature(double temperature_c)
{
    return temperature_c >= SPT_COLDEST_C && temperature_c <= SPT_HOTTEST_C;
}

enum spt_status spt_oil_oxidation_life(enum spt_inhibition inhibition, double temperature_c,
                                       double *hours)
{
    static const double k1[] = {
        [SPT_INHIBITION_NONE] = -10.64,
        [SPT_INHIBITION_EP_GEAR] = -10.31,
        [SPT_INHIBITION_HYDRAULIC] = -8.76,
        [SPT_INHIBITION_TURBINE] = -8.45,
    };
    SPT_ONE_EACH(k1, SPT_INHIBITION_COUNT);
    *hours = (double)NAN;
    if ((int)inhibition < 0 || inhibition >= SPT_INHIBITION_COUNT || !is_temperature(temperature_c))
        return SPT_BAD_ARGUMENT;
    *hours = pow(10.0, k1[inhibition] + 4750.0 / (temperature_c + 273.0));
    return SPT_OK;
}

enum spt_status spt_oil_life(const struct spt_oil *oil, double temperature_c, double *hours)
{
    double oxidation_h;
    *hours = (double)NAN;
    if ((int)oil->base < 0 || oil->base >= SPT_BASE_OIL_COUNT ||
        spt_oil_oxidation_life(oil->inhibition, temperature_c, &oxidation_h))
        return SPT_BAD_ARGUMENT;
    const bool mineral = oil->base == SPT_BASE_OIL_MINERAL;
    *hours = LONGEST_H * fmin(1.0, exp2((LONGEST_TO_C - temperature_c) / HALVING_K));
    if (!mineral || oil->circulating)
        *hours *= CARE;
    if (mineral)
        *hours = fmin(*hours, OXIDATION_LIVES * oxidation_h);
    return SPT_OK;
}

struct spt_oil_limits spt_oil_limits(enum spt_base_oil base)
{
    const double none = (double)NAN, never = (double)INFINITY;
    static const struct spt_oil_limits mineral = {80.0, 93.0, 120.0};
    if (base == SPT_BASE_OIL_MINERAL)
        return mineral;
    if (base == SPT_BASE_OIL_PAO)
        return (struct spt_oil_limits){110.0, 110.0, 150.0};
    return base == SPT_BASE_OIL_OTHER ? (struct spt_oil_limits){never, never, never}
                                      : (struct spt_oil_limits){none, none, none};
}
