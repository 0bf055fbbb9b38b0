/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SUSPECT_H
#define SPT_SUSPECT_H

#include "spalltime/assess.h"

#ifdef __cplusplus
extern "C" {
#endif

/* What one suspected cause costs a bearing, and what its cure alone would give. */
struct spt_suspicion {
    enum spt_cause cause;
    bool weighed;           /* the case states what the cause needs, see below */
    bool applies;           /* the cause shortens this life */
    double life_h;          /* as it stands; NaN where no life can be stated */
    double life_if_cured_h; /* with this cause alone cured; `life_h` where it does not apply */
    double life_ratio;      /* cured over now; 1 where it does not apply, NaN without both lives */
    double loss_share;      /* its share of the whole loss on ln(life), 0 to 1 as a rule; 0 where it
                               does not apply */
    /* the setting does not err towards the side asked about, of spt_suspect_side */
    bool other_side;
};

/* The way in which the setting of a hub may err. */
enum spt_setting_side {
    SPT_SETTING_SIDE_EITHER,
    SPT_SETTING_SIDE_PRELOAD, /* preloaded, cold or running, and tighter than the cured setting */
    SPT_SETTING_SIDE_PLAY,    /* not preloaded, and looser than the cured setting */
    SPT_SETTING_SIDE_TILT,    /* a ring is out of true */
    SPT_SETTING_SIDE_COUNT
};

/* Reads one cause out of an assessment.
 * In:     the assessment, the index of the bearing in it, the cause.
 * Result: the suspicion. Not weighed are worn grease in an oil-lubricated bearing, overload without
 *         a reference load, the setting without a setting factor other than 1: the last three
 *         members are then NaN, as is the share where no life can be stated.
 * Status: SPT_BAD_ARGUMENT for an index or a cause that is not there; every number is then NaN.
 * Source: the shares are those of loss.h; nothing is worked out anew. */
enum spt_status spt_suspect(const struct spt_assessment *assessment, int bearing_index,
                            enum spt_cause cause, struct spt_suspicion *suspicion);

/* Strikes a suspicion of the cause "setting" that spt_suspect has read, where the hub does not err
 * to that side: the cause then costs nothing. Others are left as they are.
 * In:     an assessment of a case that spt_hub_settle has cured. */
void spt_suspect_side(const struct spt_assessment *assessment, enum spt_setting_side side,
                      struct spt_suspicion *suspicion);

#ifdef __cplusplus
}
#endif

#endif
