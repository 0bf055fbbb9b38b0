/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SENTENCE_SETTING_H
#define SENTENCE_SETTING_H

#include "spalltime/setting.h"

/* "0.05 mm end play", "0.02 mm preload", "no end play"; buffer of SPT_SETTING_LENGTH bytes. */
#define SPT_SETTING_LENGTH 32
const char *spt_text_setting(double setting_mm, char *buffer);

/* "inboard", "outboard" */
const char *spt_hub_row_name(int row);

/* True where the best recommended setting differs from the best for fatigue with rigid rings. */
bool spt_setting_has_other_best(const struct spt_hub_curve *curve);

/* True for a preload at this mounted setting, cold or running. */
bool spt_setting_is_preloaded(const struct spt_hub_curve *curve, double mounted_mm);

#endif
