/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/text/readings.h"

bool spt_say_readings(const struct spt_call *call, const char *option, const char *value,
                      enum spt_quantity_problem problem)
{
    char thousands[SPT_READING_LENGTH], decimals[SPT_READING_LENGTH];
    if (problem != SPT_QUANTITY_AMBIGUOUS)
        return false;
    spt_quantity_readings(value, thousands, decimals);
    spt_say(call, "spalltime: %s `%.60s` can be read in two ways; write %s or %s\n", option, value,
            thousands, decimals);
    return true;
}
