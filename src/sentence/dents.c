/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/dents.h"

#include <math.h>
#include <stdio.h>

#include "format/text.h"

#define LIFE_LENGTH 64
#define TELLS 0.005 /* relative difference from which three digits differ */

static const char *tell_life(double life_h, double until_h, char *words)
{
    char hours[SPT_HOURS_LENGTH];
    if (isnan(life_h))
        snprintf(words, LIFE_LENGTH, "no life");
    else if (isinf(life_h) && isfinite(until_h))
        snprintf(words, LIFE_LENGTH, "beyond %s h", spt_text_hours(until_h, hours));
    else if (isinf(life_h))
        snprintf(words, LIFE_LENGTH, "no end");
    else
        snprintf(words, LIFE_LENGTH, "%s h", spt_text_hours(life_h, hours));
    return words;
}

/* "1 200 h in `severe` dented the raceways." */
static void tell_dirt(const struct spt_dent_bounds *dents, char *words)
{
    char hours[SPT_HOURS_LENGTH];
    if (dents->of_class)
        snprintf(words, SPT_DENTS_LENGTH, "%s h in `%s` dented the raceways.",
                 spt_text_hours(dents->hours, hours), spt_cleanliness_name(dents->cleanliness));
    else
        snprintf(words, SPT_DENTS_LENGTH, "Earlier dirt dented the raceways.");
}

const char *spt_dents_words(const struct spt_dent_bounds *dents, double life_h, double until_h,
                            char *words)
{
    char stay[LIFE_LENGTH], cured[LIFE_LENGTH], half[LIFE_LENGTH], dirt[SPT_DENTS_LENGTH];
    tell_dirt(dents, dirt);
    snprintf(words, SPT_DENTS_LENGTH,
             "%.120s If the dents stay: %s (counts). If cleaning cured them all: %s. Between, with "
             "half their effect cured: %s. Only a new bearing removes dents.",
             dirt, tell_life(life_h, until_h, stay), tell_life(dents->if_cured_h, until_h, cured),
             tell_life(dents->half_credit_h, until_h, half));
    const bool alike = dents->if_cured_h <= life_h * (1 + TELLS);
    return dents->differ && !alike ? words : NULL;
}
