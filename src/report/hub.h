/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef REPORT_HUB_H
#define REPORT_HUB_H

#include "report/explain.h"
#include "report/json.h"
#include "report/text.h"
#include "spalltime/hub_bench.h"

/* The second answer about a hub, by its load distribution; each value is named as what it is. */
void spt_hub_text(const struct spt_text *text, const struct spt_hub_answer *hub);

/* Writes the member "hub". */
void spt_hub_json(struct spt_json *json, const struct spt_hub_answer *hub);

/* The steps from the wheel loads to the setting factors. */
void spt_explain_hub(const struct spt_assessment *assessment, const struct spt_step_sink *sink);

/* "0.05 mm end play", "0.02 mm preload", "no end play"; buffer of SPT_SETTING_LENGTH bytes. */
#define SPT_SETTING_LENGTH 32
/* A sentence where a setting that is advised is looser than practice; else nothing. */
void spt_hub_loose_text(const struct spt_text *text, double setting_mm);

const char *spt_text_setting(double setting_mm, char *buffer);

/* "inboard", "outboard" */
const char *spt_hub_row_name(int row);

#endif
