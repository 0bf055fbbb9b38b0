/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_HUB_SETTING_MEAN_H
#define STUDY_HUB_SETTING_MEAN_H

#include "study/hub/setting_store.h"

/* Mean life over settings that scatter; the first failure stays. */
struct spt_setting_mean {
    struct spt_setting_store *store;
    const struct spt_setting_inputs *inputs;
    enum spt_status status;
    double failed_mm; /* the setting without an answer */
    bool downwards;   /* the next mean begins at its upper end */
};

/* Mean life about a setting in million revolutions. */
double spt_setting_mean(struct spt_setting_mean *mean, double setting_mm);

/* The setting with the longest mean life, searched from three standard deviations below `best_mm`
 * to five above; NaN where there is no maximum. Exact to 1e-6 mm, unless it is more than a standard
 * deviation below least_mm: then only that is known. */
double spt_setting_mean_best(struct spt_setting_mean *mean, double best_mm, double least_mm);

#endif
