/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_SETTING_H
#define ANSWER_LIFE_SETTING_H

#include "format/json.h"
#include "format/text.h"
#include "sentence/setting.h"
#include "spalltime/setting.h"

/* Write the life of a hub against its setting: the verdict, a plot, common settings, the range that
 * keeps most of the life, the loss by scatter. The CSV is the curve. */
void spt_setting_text(const struct spt_text *text, const struct spt_case *question,
                      const struct spt_hub_curve *curve);
void spt_setting_json(struct spt_json *json, const struct spt_case *question,
                      const struct spt_hub_curve *curve);
void spt_setting_csv(FILE *out, const struct spt_hub_curve *curve);

#endif
