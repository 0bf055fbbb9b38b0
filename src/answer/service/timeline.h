/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_TIMELINE_H
#define ANSWER_SERVICE_TIMELINE_H

#include "format/json.h"
#include "format/text.h"
#include "spalltime/ask.h"

/* Write a service life: the life, the stages, the effect of each event, the flags (not where
 * `quiet`) at the first stage that raises them. The CSV is the curve. */
void spt_timeline_text(const struct spt_text *text, const struct spt_service_life *life,
                       bool quiet);
void spt_timeline_json(struct spt_json *json, const struct spt_service_life *life);
void spt_timeline_csv(FILE *out, const struct spt_damage_curve *curve);

/* Writes the calculation: each stage, their sum, the life without each event or drift. */
void spt_timeline_explain_text(const struct spt_text *text, const struct spt_timeline *timeline);
void spt_timeline_explain_json(struct spt_json *json, const struct spt_timeline *timeline);

#endif
