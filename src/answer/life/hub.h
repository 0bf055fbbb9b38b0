/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_HUB_H
#define ANSWER_LIFE_HUB_H

#include "answer/life/explain.h"
#include "format/page/page.h"
#include "sentence/setting.h"
#include "spalltime/setting.h"

/* The load distribution of a hub as a section of a page, with the table "contacts"; each value is
 * labelled with its method. */
void spt_page_hub(struct spt_page *page, const struct spt_hub_answer *hub);

/* That table alone, under another name; where it is not `shown`, for JSON. */
void spt_page_contacts(struct spt_page *page, const char *id, const struct spt_hub_answer *hub,
                       bool shown);

/* Writes the member "hub", with the rows of that table. */
void spt_hub_json(struct spt_json *json, const struct spt_table *contacts,
                  const struct spt_hub_answer *hub);

/* The steps from the wheel loads to the setting factors. */
void spt_explain_hub(const struct spt_assessment *assessment, const struct spt_step_sink *sink);

/* The same of a hub without inside geometry: load centres of the sheets and statics. */
void spt_explain_sheet_hub(const struct spt_assessment *assessment,
                           const struct spt_step_sink *sink);

/* Writes a sentence where a recommended setting has more end play than is usual; else nothing. */
void spt_page_hub_loose(struct spt_page *page, double setting_mm);

#endif
