/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/figure.h"

static bool draw(FILE *out, const void *subject)
{
    const struct spt_figure *figure = subject;
    return spt_chart_inline(figure->chart, &figure->report, 0, 0, out);
}

static void write_tables(FILE *out, const void *subject)
{
    const struct spt_figure *figure = subject;
    spt_chart_tables(figure->chart, &figure->report, 0, 0, out);
}

void spt_figure_page(struct spt_page *page, const char *chart, const struct spt_report *report,
                     const struct spt_report_case *part,
                     void (*text)(const struct spt_text *text, const void *subject))
{
    struct spt_figure *figure = spt_page_allocate(page, sizeof *figure);
    if (!figure)
        return;
    *figure = (struct spt_figure){spt_chart_find(chart), *report, *part};
    figure->report.cases = &figure->part;
    figure->report.case_count = 1;
    if (!spt_chart_applies(figure->chart, &figure->report, 0, 0))
        return;
    spt_page_picture(page,
                     &(struct spt_picture){.title = figure->chart->title,
                                           .subject = figure,
                                           .text = text,
                                           .svg = draw,
                                           .tables = figure->chart->tables ? write_tables : NULL});
}
