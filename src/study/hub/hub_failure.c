/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/hub/hub_failure.h"

#include <math.h>
#include <stdio.h>

/* Why the method gives no value, by the step that failed. */
static const char *find_gap(enum spt_hub_step step)
{
    switch (step) {
    case SPT_HUB_STEP_FORCE:
        return "this preload force needs more preload than the model covers (10 mm)";
    case SPT_HUB_STEP_REFERENCE:
        return "one row carries nothing at all there, so its life has nothing to be compared with";
    case SPT_HUB_STEP_LIVES:
        return "no phase turns, or a phase that turns has no finite life, so no setting is better "
               "than another";
    case SPT_HUB_STEP_SETTING:
        return "the inner part has to move farther than the model covers";
    case SPT_HUB_STEP_START:
        break;
    }
    return spt_status_text(SPT_NOT_APPLICABLE);
}

/* A sentence for a status of the hub model. */
static const char *find_reason(const struct spt_hub_failure *failure)
{
    switch (failure->status) {
    case SPT_CANNOT_CARRY:
        return "the pair cannot carry this load: the inner part moves along the axis without end";
    case SPT_FREE:
        return "nothing is loaded, so the hub is free and no setting is better than another";
    case SPT_NOT_APPLICABLE:
        return find_gap(failure->step);
    case SPT_NOT_CONVERGED:
        return "the balance of the roller loads was not found to the accuracy that is asked for";
    case SPT_OK:
    case SPT_BAD_ARGUMENT:
    case SPT_NO_MEMORY:
    case SPT_TOO_SMALL:
    case SPT_STATUS_COUNT:
        break;
    }
    return spt_status_text(failure->status);
}

struct spt_hub_failure spt_hub_failure_start(void)
{
    return (struct spt_hub_failure){SPT_NO_MEMORY, SPT_HUB_STEP_START, NULL, (double)NAN};
}

enum spt_status spt_hub_failure_say(const struct spt_hub_failure *failure,
                                    const struct spt_case *question, struct spt_error *error)
{
    char phase[200] = "", setting[120] = "";
    if (failure->phase)
        snprintf(phase, sizeof phase, "phase `%.150s`: ", failure->phase);
    if (failure->step == SPT_HUB_STEP_REFERENCE)
        snprintf(setting, sizeof setting,
                 "at the reference (no end play when running, rings aligned): ");
    else if (!isnan(failure->mounted_mm))
        snprintf(setting, sizeof setting, "set to %.4g mm %s: ", fabs(failure->mounted_mm),
                 failure->mounted_mm < 0 ? "preload" : "end play");
    return spt_error_say(error, failure->status, failure->status != SPT_NO_MEMORY, question->title,
                         "%s%s%s", phase, setting, find_reason(failure));
}
