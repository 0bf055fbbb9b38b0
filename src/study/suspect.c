/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/suspect.h"

#include <math.h>

static double whole_loss(const struct spt_loss *loss)
{
    double whole = 0;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        whole += loss->causes[i].applies ? loss->causes[i].log_life_share : 0;
    return whole;
}

enum spt_status spt_suspect(const struct spt_bearing_result *bearing, enum spt_cause cause,
                            struct spt_suspicion *suspicion)
{
    double none = (double)NAN;
    *suspicion = (struct spt_suspicion){cause, false, none, none, none, none};
    if ((int)cause < 0 || cause >= SPT_CAUSE_COUNT)
        return SPT_BAD_ARGUMENT;
    const struct spt_cause_share *share = &bearing->loss.causes[cause];
    suspicion->applies = share->applies;
    suspicion->life_h = bearing->modified_rating_life_h;
    suspicion->life_if_cured_h = share->life_if_cured_h;
    suspicion->life_ratio = 1;
    suspicion->loss_share = 0;
    if (share->applies) {
        /* inf / inf and a missing life give NaN by themselves */
        suspicion->life_ratio = share->life_if_cured_h / bearing->modified_rating_life_h;
        suspicion->loss_share = share->log_life_share / whole_loss(&bearing->loss);
    }
    return SPT_OK;
}
