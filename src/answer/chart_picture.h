/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_CHART_PICTURE_H
#define ANSWER_CHART_PICTURE_H

#include "chart/chart.h"
#include "format/page/page.h"

/* Puts the charts of a scope that apply to a case (and bearing) of a report on a page, as pictures
 * of HTML alone. The report has to live as long as the page. */
void spt_page_charts(struct spt_page *page, const struct spt_report *report,
                     enum spt_chart_scope scope, int case_index, int bearing_index);

/* Puts the chart of this name there where it applies. */
void spt_page_chart(struct spt_page *page, const char *name, const struct spt_report *report,
                    int case_index, int bearing_index);

#endif
