/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#define COUNT(array) (int)(sizeof(array) / sizeof *(array))

int spt_surroundings_dust_implied(double contamination_factor)
{
    static const double least[] = {0.6, 0.4, 0.1, 0.03};
    int level = 0;
    while (level < COUNT(least) && contamination_factor < least[level])
        level++;
    return level;
}

int spt_surroundings_moisture_implied(double water_ppm)
{
    static const double most[] = {100, 200, 400, 1000};
    int level = 0;
    while (level < COUNT(most) && water_ppm > most[level])
        level++;
    return level;
}

int spt_surroundings_level(int stated, int implied)
{
    int level = stated < 0 ? implied : stated;
    if (stated >= 0 && level < implied - 1)
        level = implied - 1;
    return level < SPT_SURROUNDINGS_HARSHEST ? level : SPT_SURROUNDINGS_HARSHEST;
}
