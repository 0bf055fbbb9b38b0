/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_FIGURE_H
#define CHART_FIGURE_H

#include "chart/chart.h"
#include "format/page/page.h"

/* What a picture of a page draws: one chart of a case, or of a bearing of it. */
struct spt_figure {
    const struct spt_chart *chart;
    const struct spt_report *report;
    int case_index, bearing_index;
    const char *place; /* before its id, where a page has the chart twice */
};

/* Adds the charts of a scope that apply to this case and bearing of a report to a page, as pictures
 * that HTML draws, with the tables that they have. The report has to live as long as the page. */
void spt_figures_page(struct spt_page *page, const struct spt_report *report,
                      enum spt_chart_scope scope, int case_index, int bearing_index);

/* Adds one chart of the scenario as written, without tables, to the front of a page that has it
 * once more below; `bearing_index` counts where the chart is of one bearing. */
void spt_figure_of_front(struct spt_page *page, const char *chart, const struct spt_report *report,
                         int bearing_index);

/* Adds one chart where it applies to the only case of a report; in text by `text`, whose subject is
 * a struct spt_figure (NULL: not in text). Report and case are copied, what they point at has to
 * live as long as the page. */
void spt_figure_page(struct spt_page *page, const char *chart, const struct spt_report *report,
                     const struct spt_report_case *part,
                     void (*text)(const struct spt_text *text, const void *subject));

#endif
