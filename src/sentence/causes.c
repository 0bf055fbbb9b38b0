/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "sentence/causes.h"

#include <math.h>

#include "base/quotient.h"

/* Ranks by a number, the smallest first, NaN last; equal ones in the order of the causes. */
static int rank(const struct spt_loss *loss, double (*number)(const struct spt_cause_share *cause),
                int *order)
{
    int count = 0;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
        if (!loss->causes[i].applies)
            continue;
        int at = count++;
        while (at > 0 && number(&loss->causes[order[at - 1]]) > number(&loss->causes[i])) {
            order[at] = order[at - 1];
            at--;
        }
        order[at] = i;
    }
    return count;
}

static double find_share(const struct spt_cause_share *cause)
{
    return isnan(cause->log_life_share) ? (double)INFINITY : cause->log_life_share;
}

static double find_gain(const struct spt_cause_share *cause)
{
    return isnan(cause->life_if_cured_h) ? (double)INFINITY : -cause->life_if_cured_h;
}

int spt_causes_by_share(const struct spt_loss *loss, int *order)
{
    return rank(loss, find_share, order);
}

int spt_causes_by_gain(const struct spt_loss *loss, int *order)
{
    return rank(loss, find_gain, order);
}

double spt_causes_whole(const struct spt_loss *loss)
{
    double whole = 0;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        whole += loss->causes[i].applies ? loss->causes[i].log_life_share : 0;
    return whole == 0 ? (double)NAN : whole;
}

const char *spt_causes_none(const struct spt_bearing_result *bearing)
{
    return isnan(bearing->modified_rating_life_h)
               ? "This cannot be said: there is no life to be stated, whichever of the known "
                 "causes is put right; see the flags for the reason."
               : "None of the known causes shortens this life.";
}

double spt_causes_gain(const struct spt_bearing_result *bearing, int cause)
{
    return spt_quotient(bearing->loss.causes[cause].life_if_cured_h,
                        bearing->modified_rating_life_h);
}

int spt_causes_costliest(const struct spt_loss *loss)
{
    int order[SPT_CAUSE_COUNT];
    return spt_causes_by_share(loss, order) && loss->causes[order[0]].log_life_share < 0 ? order[0]
                                                                                         : -1;
}

int spt_causes_best_remedy(const struct spt_bearing_result *bearing)
{
    int order[SPT_CAUSE_COUNT];
    const struct spt_loss *loss = &bearing->loss;
    return spt_causes_by_gain(loss, order) &&
                   loss->causes[order[0]].life_if_cured_h > bearing->modified_rating_life_h
               ? order[0]
               : -1;
}
