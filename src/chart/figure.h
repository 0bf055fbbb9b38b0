/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_FIGURE_H
#define CHART_FIGURE_H

#include "chart/chart.h"
#include "format/page/page.h"

/* What a picture of a page draws: one chart of one case. */
struct spt_figure {
    const struct spt_chart *chart;
    struct spt_report report;
    struct spt_report_case part; /* the only case of the report */
};

/* Adds a chart to a page as a picture, where it applies: drawn in HTML, with the tables that the
 * chart has; in text by `text`, whose subject is a struct spt_figure (NULL: not in text). Report
 * and case are copied, what they point at has to live as long as the page. */
void spt_figure_page(struct spt_page *page, const char *chart, const struct spt_report *report,
                     const struct spt_report_case *part,
                     void (*text)(const struct spt_text *text, const void *subject));

#endif
