/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/seal.h"

#include <math.h>
#include <stddef.h>

#define PER_LARGER 8.0 /* three scale numbers between those over 6 and over 14 um */
#define OVERWHELMED 3  /* scale numbers */
#define MINUTES_PER_HOUR 60.0

static bool is_filter(const struct spt_filter *filter)
{
    const double share = filter->bypass_share;
    return (int)filter->place >= 0 && filter->place < SPT_FILTER_PLACE_COUNT &&
           (isnan(filter->ingress_per_min) || filter->ingress_per_min >= 0) &&
           (isnan(filter->volume_ml) || filter->volume_ml > 0) &&
           (filter->place == SPT_FILTER_NONE ||
            (filter->flow_ml_min > 0 && filter->beta >= 1 && share >= 0 && share <= 1));
}

static struct spt_iso4406 code_of(double over_6_per_ml)
{
    return (struct spt_iso4406){-1, spt_iso4406_number(over_6_per_ml),
                                spt_iso4406_number(over_6_per_ml / PER_LARGER)};
}

enum spt_status spt_filter_balance(const struct spt_filter *filter,
                                   struct spt_filter_balance *balance)
{
    static const struct spt_iso4406 no_code = {-1, -1, -1};
    const double none = (double)NAN;
    *balance = (struct spt_filter_balance){none, none, none, none, no_code, no_code};
    if (!is_filter(filter))
        return SPT_BAD_ARGUMENT;
    const double efficiency = 1 - 1 / filter->beta;
    const double held = efficiency * (1 - filter->bypass_share);
    if (filter->place == SPT_FILTER_NONE || !(held > 0) || isnan(filter->ingress_per_min))
        return SPT_NOT_APPLICABLE;
    balance->efficiency = efficiency;
    balance->sump_per_ml = filter->ingress_per_min / (filter->flow_ml_min * held);
    balance->behind_per_ml = balance->sump_per_ml * (1 - held);
    balance->clean_up_min = filter->volume_ml / (filter->flow_ml_min * held);
    balance->sump_code = code_of(balance->sump_per_ml);
    balance->behind_code = code_of(balance->behind_per_ml);
    return SPT_OK;
}

enum spt_cleanliness spt_filter_earned(const struct spt_filter *filter)
{
    static const struct {
        double size_um, beta;
        enum spt_cleanliness condition;
    } rows[] = {{6, 200, SPT_CLEANLINESS_CIRCULATING_13_10},
                {12, 200, SPT_CLEANLINESS_CIRCULATING_15_12},
                {25, 75, SPT_CLEANLINESS_CIRCULATING_17_14},
                {40, 75, SPT_CLEANLINESS_CIRCULATING_19_16}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        if (filter->beta_size_um <= rows[i].size_um && filter->beta >= rows[i].beta)
            return rows[i].condition;
    return SPT_CLEANLINESS_COUNT;
}

/* True where all of the oil is meant to pass the filter and its rating counts. */
static bool is_rated(const struct spt_filter *filter)
{
    return filter->place == SPT_FILTER_FULL_FLOW &&
           spt_filter_earned(filter) < SPT_CLEANLINESS_COUNT;
}

/* Number over 6 um of the first code of a class of circulating oil. */
static int number_of(enum spt_cleanliness condition)
{
    return 13 + 2 * ((int)condition - (int)SPT_CLEANLINESS_CIRCULATING_13_10);
}

static enum spt_status keep_at_rating(const struct spt_filter_balance *balance,
                                      struct spt_filter_class *kept)
{
    const enum spt_cleanliness earned = kept->condition;
    enum spt_cleanliness behind;
    bool rounded;
    kept->overwhelmed = kept->sump_number > kept->earned_number + OVERWHELMED;
    enum spt_status status = spt_cleanliness_from_code(SPT_LUBRICATION_CIRCULATING,
                                                       &balance->behind_code, &behind, &rounded);
    kept->condition = behind > earned ? behind : earned;
    return status ? SPT_NOT_APPLICABLE : SPT_OK;
}

/* By the oil before the filter, rows of the bath; a full-flow filter never beats what its rating
 * earns, the last row where that is none. */
static enum spt_status keep_at_sump(const struct spt_filter_balance *balance, bool full_flow,
                                    struct spt_filter_class *kept)
{
    const enum spt_cleanliness earned = kept->condition;
    const enum spt_cleanliness rating =
        earned < SPT_CLEANLINESS_COUNT ? earned : SPT_CLEANLINESS_CIRCULATING_19_16;
    const int least =
        (int)SPT_CLEANLINESS_BATH_13_10 + (int)rating - (int)SPT_CLEANLINESS_CIRCULATING_13_10;
    bool rounded;
    if (spt_cleanliness_from_code(SPT_LUBRICATION_OIL_BATH, &balance->sump_code, &kept->condition,
                                  &rounded))
        return SPT_NOT_APPLICABLE;
    if (full_flow && (int)kept->condition < least)
        kept->condition = (enum spt_cleanliness)least;
    return SPT_OK;
}

enum spt_status spt_filter_class(const struct spt_filter *filter, struct spt_filter_class *kept)
{
    struct spt_filter_balance balance;
    enum spt_status status = spt_filter_balance(filter, &balance);
    *kept = (struct spt_filter_class){SPT_CLEANLINESS_COUNT, false, -1, -1};
    if (status == SPT_BAD_ARGUMENT)
        return status;
    const bool rated = is_rated(filter);
    kept->sump_number = balance.sump_code.over_6;
    if (rated) {
        kept->condition = spt_filter_earned(filter);
        kept->earned_number = number_of(kept->condition);
    }
    if (rated && filter->bypass_share <= 0)
        return status ? SPT_OK : keep_at_rating(&balance, kept);
    return status ? status : keep_at_sump(&balance, filter->place == SPT_FILTER_FULL_FLOW, kept);
}

enum spt_status spt_filter_fill_time(const struct spt_filter *filter, int from_number,
                                     int to_number, double *hours)
{
    *hours = (double)NAN;
    const double from_per_ml = spt_iso4406_most(from_number);
    const double to_per_ml = spt_iso4406_most(to_number);
    if (!is_filter(filter) || isnan(from_per_ml) || isnan(to_per_ml))
        return SPT_BAD_ARGUMENT;
    if (!(filter->ingress_per_min > 0) || isnan(filter->volume_ml))
        return SPT_NOT_APPLICABLE;
    *hours = fmax(0, filter->volume_ml * (to_per_ml - from_per_ml) / filter->ingress_per_min /
                         MINUTES_PER_HOUR);
    return SPT_OK;
}
