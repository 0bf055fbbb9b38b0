/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <math.h>

#include "base/quotient.h"
#include "spalltime/hub.h"

static double whole_loss(const struct spt_loss *loss)
{
    double whole = 0;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        whole += loss->causes[i].applies ? loss->causes[i].log_life_share : 0;
    return whole;
}

static bool has_setting(const struct spt_bearing_result *bearing)
{
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase *phase = bearing->phases[i].phase;
        if (phase->setting_factor != 1 || phase->cured_setting_factor != 1)
            return true;
    }
    return false;
}

static bool is_weighed(const struct spt_assessment *assessment,
                       const struct spt_bearing_result *bearing, enum spt_cause cause)
{
    const struct spt_case *question = assessment->question;
    if (cause == SPT_CAUSE_WORN_GREASE)
        return question->lubricant.kind == SPT_LUBRICATION_GREASE;
    if (cause == SPT_CAUSE_OVERLOAD)
        return !isnan(question->reference_load_n);
    return cause != SPT_CAUSE_SETTING || has_setting(bearing);
}

enum spt_status spt_suspect(const struct spt_assessment *assessment, int bearing_index,
                            enum spt_cause cause, struct spt_suspicion *suspicion)
{
    double none = (double)NAN;
    *suspicion = (struct spt_suspicion){cause, false, false, none, none, none, none, false};
    if ((int)cause < 0 || cause >= SPT_CAUSE_COUNT || bearing_index < 0 ||
        bearing_index >= assessment->bearing_count)
        return SPT_BAD_ARGUMENT;
    const struct spt_bearing_result *bearing = &assessment->bearings[bearing_index];
    const struct spt_cause_share *share = &bearing->loss.causes[cause];
    suspicion->life_h = bearing->modified_rating_life_h;
    suspicion->weighed = is_weighed(assessment, bearing, cause);
    if (!suspicion->weighed)
        return SPT_OK;
    suspicion->applies = share->applies;
    suspicion->life_if_cured_h = share->life_if_cured_h;
    suspicion->life_ratio = 1;
    suspicion->loss_share = 0;
    if (share->applies) {
        /* infinity over infinity, or a missing life, gives NaN */
        suspicion->life_ratio =
            spt_quotient(share->life_if_cured_h, bearing->modified_rating_life_h);
        suspicion->loss_share = share->log_life_share / whole_loss(&bearing->loss);
    }
    return SPT_OK;
}

static bool errs_to(const struct spt_case_setting *setting, enum spt_setting_side side)
{
    bool preloaded = setting->preload_mm > 0;
    if (side == SPT_SETTING_SIDE_TILT)
        return setting->tilted;
    if (side == SPT_SETTING_SIDE_PRELOAD)
        return preloaded && setting->offset_mm < -SPT_HUB_PRELOAD_LEAST_MM;
    return !preloaded && setting->offset_mm > SPT_HUB_PRELOAD_LEAST_MM;
}

void spt_suspect_side(const struct spt_assessment *assessment, enum spt_setting_side side,
                      struct spt_suspicion *suspicion)
{
    if (suspicion->cause != SPT_CAUSE_SETTING || side == SPT_SETTING_SIDE_EITHER ||
        !suspicion->weighed || errs_to(&assessment->question->setting, side))
        return;
    suspicion->other_side = true;
    suspicion->applies = false;
    suspicion->life_if_cured_h = suspicion->life_h;
    suspicion->life_ratio = isnan(suspicion->life_h) ? (double)NAN : 1;
    suspicion->loss_share = isnan(suspicion->life_h) ? (double)NAN : 0;
}
