/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"

#include <math.h>
#include <stddef.h>

#include "base/table.h"
#include "model/constants.h"

#define SLIGHT_B_CHANGE_MM 500.0
#define SLIGHT_B_LARGE 1.677

static const struct condition {
    const char *name;
    enum spt_lubrication kind;
    struct spt_cleanliness_constants constants;
} conditions[] = {
    [SPT_CLEANLINESS_CIRCULATING_13_10] = {"-/13/10",
                                           SPT_LUBRICATION_CIRCULATING,
                                           {0.0864, 0.5663}},
    [SPT_CLEANLINESS_CIRCULATING_15_12] = {"-/15/12",
                                           SPT_LUBRICATION_CIRCULATING,
                                           {0.0432, 0.9987}},
    [SPT_CLEANLINESS_CIRCULATING_17_14] = {"-/17/14",
                                           SPT_LUBRICATION_CIRCULATING,
                                           {0.0288, 1.6329}},
    [SPT_CLEANLINESS_CIRCULATING_19_16] = {"-/19/16",
                                           SPT_LUBRICATION_CIRCULATING,
                                           {0.0216, 2.3362}},
    [SPT_CLEANLINESS_BATH_13_10] = {"-/13/10", SPT_LUBRICATION_OIL_BATH, {0.0864, 0.6796}},
    [SPT_CLEANLINESS_BATH_15_12] = {"-/15/12", SPT_LUBRICATION_OIL_BATH, {0.0288, 1.141}},
    [SPT_CLEANLINESS_BATH_17_14] = {"-/17/14", SPT_LUBRICATION_OIL_BATH, {0.0133, 1.670}},
    [SPT_CLEANLINESS_BATH_19_16] = {"-/19/16", SPT_LUBRICATION_OIL_BATH, {0.00864, 2.5164}},
    [SPT_CLEANLINESS_BATH_21_18] = {"-/21/18", SPT_LUBRICATION_OIL_BATH, {0.00411, 3.8974}},
    [SPT_CLEANLINESS_GREASE_HIGH] = {"high", SPT_LUBRICATION_GREASE, {0.0864, 0.6796}},
    [SPT_CLEANLINESS_GREASE_NORMAL] = {"normal", SPT_LUBRICATION_GREASE, {0.0432, 1.141}},
    [SPT_CLEANLINESS_GREASE_SLIGHT] = {"slight", SPT_LUBRICATION_GREASE, {0.0177, 1.887}},
    [SPT_CLEANLINESS_GREASE_SEVERE] = {"severe", SPT_LUBRICATION_GREASE, {0.0115, 2.662}},
    [SPT_CLEANLINESS_GREASE_VERY_SEVERE] = {"very severe", SPT_LUBRICATION_GREASE, {0.00617, 4.06}},
};
SPT_ONE_EACH(conditions, SPT_CLEANLINESS_COUNT);

static bool is_condition(enum spt_cleanliness condition)
{
    return (int)condition >= 0 && (int)condition < SPT_CLEANLINESS_COUNT;
}

struct spt_cleanliness_constants spt_cleanliness_constants(enum spt_cleanliness condition,
                                                           double pitch_diameter_mm)
{
    struct spt_cleanliness_constants found = {(double)NAN, (double)NAN};
    if (!is_condition(condition))
        return found;
    found = conditions[condition].constants;
    if (condition == SPT_CLEANLINESS_GREASE_SLIGHT && pitch_diameter_mm >= SLIGHT_B_CHANGE_MM)
        found.b = SLIGHT_B_LARGE;
    return found;
}

enum spt_cleanliness spt_cleanliness_first(enum spt_lubrication kind)
{
    int i = 0;
    while (i < SPT_CLEANLINESS_COUNT && conditions[i].kind != spt_lubrication_like(kind))
        i++;
    return (enum spt_cleanliness)i;
}

int spt_cleanliness_count(enum spt_lubrication kind)
{
    int count = 0;
    for (int i = 0; i < SPT_CLEANLINESS_COUNT; i++)
        count += conditions[i].kind == spt_lubrication_like(kind);
    return count;
}

const char *spt_cleanliness_name(enum spt_cleanliness condition)
{
    return is_condition(condition) ? conditions[condition].name : "unknown";
}

enum spt_lubrication spt_cleanliness_kind(enum spt_cleanliness condition)
{
    return is_condition(condition) ? conditions[condition].kind : SPT_LUBRICATION_GREASE;
}

enum spt_status spt_cleanliness_factor(enum spt_cleanliness condition, double kappa,
                                       double pitch_diameter_mm, double *e_c)
{
    *e_c = (double)NAN;
    if (!is_condition(condition) || !(kappa > 0.0 && isfinite(kappa)) ||
        !(pitch_diameter_mm > 0.0 && isfinite(pitch_diameter_mm)))
        return SPT_BAD_ARGUMENT;
    struct spt_cleanliness_constants k = spt_cleanliness_constants(condition, pitch_diameter_mm);
    double bracket = 1.0 - k.b / cbrt(pitch_diameter_mm);
    if (bracket <= 0.0) { /* also avoids a result of -0 */
        *e_c = 0.0;
        return SPT_OK;
    }
    *e_c = fmin(1.0, k.c * pow(kappa, SPT_EC_KAPPA_EXPONENT) *
                         pow(pitch_diameter_mm, SPT_EC_PITCH_EXPONENT)) *
           bracket;
    return SPT_OK;
}
