/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_HUB_CASE_H
#define SPT_HUB_CASE_H

#include "spalltime/hub.h"

/* What a wheel hub states beside the bearings and phases of its spt_case. bearings[0] is the
 * inboard row, bearings[1] the outboard one; the loads in their phases come from
 * spt_hub_handbook_reactions. */

#define SPT_HUB_PHASES_MAX 64         /* phases of a hub: SPT_SETTING_CASES_MAX of setting.h */
#define SPT_HUB_SEARCH_LOW_MM (-0.15) /* settings searched where nothing else is stated; ours */
#define SPT_HUB_SEARCH_HIGH_MM 0.5
#define SPT_HUB_PRELOAD_LEAST_MM 5e-5 /* less than this is no preload; ours */

enum spt_hub_setting_kind {
    SPT_HUB_SET_END_PLAY,     /* mm */
    SPT_HUB_SET_PRELOAD,      /* mm */
    SPT_HUB_SET_PRELOAD_FORCE /* N in the unloaded pair */
};

struct spt_hub_case {
    struct spt_hub hub; /* z = 0 is the plane of the wheel load */
    enum spt_hub_setting_kind setting_kind;
    double setting_value;            /* >= 0, as set in the workshop; a force > 0 */
    double temperature_difference_k; /* inner body warmer than outer when it runs */
    double scatter_mm;               /* standard deviation of the setting; 0: not stated */
    double lowest_mm, highest_mm;    /* workshop settings to search for the best, play > 0 */
    bool preload_allowed;            /* the maker prescribes a preload, so a remedy may lie there;
                                        else none does: see spt_hub_bench_least */
    double rolling_radius_mm;
    struct spt_hub_handbook handbook;   /* the rows as the induced-thrust rule sees them */
    const struct spt_hub_wheel *wheels; /* one for each phase */
};

#endif
