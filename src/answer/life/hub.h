/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_HUB_H
#define ANSWER_LIFE_HUB_H

#include "answer/life/explain.h"
#include "format/json.h"
#include "format/text.h"
#include "sentence/setting.h"
#include "spalltime/setting.h"

/* Writes the results from the load distribution of a hub; each value is labelled with its
 * method. */
void spt_hub_text(const struct spt_text *text, const struct spt_hub_answer *hub);

/* Writes the member "hub". */
void spt_hub_json(struct spt_json *json, const struct spt_hub_answer *hub);

/* The steps from the wheel loads to the setting factors. */
void spt_explain_hub(const struct spt_assessment *assessment, const struct spt_step_sink *sink);

/* Writes a sentence where a recommended setting has more end play than is usual; else nothing. */
void spt_hub_loose_text(const struct spt_text *text, double setting_mm);

#endif
