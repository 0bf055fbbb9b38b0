/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef REPORT_SETTING_H
#define REPORT_SETTING_H

#include "report/json.h"
#include "report/text.h"
#include "spalltime/hub_bench.h"

/* The best setting that is advised is another than the best for fatigue of rigid rings. */
bool spt_setting_has_other_best(const struct spt_hub_curve *curve);

/* Life of a hub against its setting: the verdict, a plot, the settings people ask about, the range
 * that keeps most of the life, what scatter costs. The CSV is the curve. */
void spt_setting_text(const struct spt_text *text, const struct spt_case *question,
                      const struct spt_hub_curve *curve);
void spt_setting_json(struct spt_json *json, const struct spt_case *question,
                      const struct spt_hub_curve *curve);
void spt_setting_csv(FILE *out, const struct spt_hub_curve *curve);

#endif
