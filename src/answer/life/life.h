/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_LIFE_LIFE_H
#define ANSWER_LIFE_LIFE_H

#include "chart/report.h"
#include "format/page/page.h"

/* The life of one case of a report as a page: findings, inputs, phases, losses, load distribution
 * of a hub, flags, where `explain` the inputs as tables, what is assumed and the calculation; with
 * the charts for which the report has what they need. The CSV has one row for each phase of each
 * bearing, then one for the bearing, at the end one for several bearings together. */
void spt_life_page(struct spt_page *page, const struct spt_report *report, int index, bool explain);

/* The members of the same answer in an object that the caller has opened; the phases are those of
 * the page. Keys are a contract: add, never rename. */
void spt_life_json(struct spt_json *json, const struct spt_page *page,
                   const struct spt_assessment *assessment);

/* Writes the member modified_rating_life_h and the member life_status, which distinguishes the two
 * lives that are null: "rated", "unlimited" or "none". */
void spt_json_life(struct spt_json *json, double life_h);
void spt_json_notes(struct spt_json *json, const struct spt_notes *notes);
void spt_json_tool(struct spt_json *json);

#endif
