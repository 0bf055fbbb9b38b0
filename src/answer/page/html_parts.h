/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_PAGE_HTML_PARTS_H
#define ANSWER_PAGE_HTML_PARTS_H

#include <stdio.h>

#include "chart/report.h"

/* The parts of the page that html.c assembles. */

/* Bearing, lubricant, surroundings and duty as the tool understood them. */
void spt_html_inputs(FILE *out, const struct spt_assessment *assessment);

/* Tables of results: the phases of a bearing, and its loss by cause. */
void spt_html_phases(FILE *out, const struct spt_bearing_result *bearing, bool of_hub);
void spt_html_loss(FILE *out, const struct spt_bearing_result *bearing);

/* The maintenance plan with its notes and cautions. */
void spt_html_plan(FILE *out, const struct spt_schedule *plan);

/* Every step of the calculation of one case, and the sources cited by all cases, each once. */
void spt_html_working(FILE *out, const struct spt_assessment *assessment);
void spt_html_sources(FILE *out, const struct spt_report *report);

#endif
