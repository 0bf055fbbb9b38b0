/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Whether a bearing may go back: never a plain yes. Judgement of practice, no source. */
#include "answer/diagnosis/diagnosis.h"

#define SHOWN 0.5 /* a mode of this chance is shown */

/* What a mode of the guide says. */
static enum spt_goes_back back_of_mode(const struct spt_diagnosis_report *report, int mode)
{
    return report->causes->guide->entries[mode].goes_back == SPT_RETURN_NO
               ? SPT_GOES_BACK_NO
               : SPT_GOES_BACK_INSPECTED;
}

/* The strictest word of the modes that are shown. */
static enum spt_goes_back by_modes(const struct spt_diagnosis_report *report, const char **because)
{
    enum spt_goes_back back = SPT_GOES_BACK_UNKNOWN;
    for (int mode = 0; mode < report->causes->table.mode_count; mode++) {
        if (!(report->result.modes[mode] >= SHOWN) || back_of_mode(report, mode) >= back)
            continue;
        back = back_of_mode(report, mode);
        *because = report->causes->table.modes[mode];
    }
    return back;
}

enum spt_goes_back spt_diagnosis_goes_back(const struct spt_diagnosis_report *report,
                                           const char **because)
{
    const struct spt_damage_case *stated = report->stated;
    const struct spt_diagnosis_finding *findings = report->causes->table.findings;
    bool inspected = false;
    *because = NULL;
    if (stated->destroyed) {
        *because = "run to destruction";
        return SPT_GOES_BACK_NO;
    }
    for (int i = 0; i < stated->finding_count; i++) {
        const struct spt_diagnosis_finding *finding = &findings[stated->findings[i].finding];
        if (!stated->findings[i].seen || finding->back == SPT_FINDING_BACK_OPEN)
            continue;
        if (finding->back == SPT_FINDING_BACK_NO) {
            *because = finding->name;
            return SPT_GOES_BACK_NO;
        }
        inspected = true;
        *because = finding->name;
    }
    return inspected ? SPT_GOES_BACK_INSPECTED : by_modes(report, because);
}
