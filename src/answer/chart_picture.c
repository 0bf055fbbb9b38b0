/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/chart_picture.h"

#include <string.h>

struct subject {
    const struct spt_chart *chart;
    const struct spt_report *report;
    int case_index, bearing_index;
};

static bool draw(FILE *out, const void *subject)
{
    const struct subject *of = subject;
    return spt_chart_inline(of->chart, of->report, of->case_index, of->bearing_index, out);
}

static void write_tables(FILE *out, const void *subject)
{
    const struct subject *of = subject;
    spt_chart_tables(of->chart, of->report, of->case_index, of->bearing_index, out);
}

static void put(struct spt_page *page, const struct spt_chart *chart,
                const struct spt_report *report, int case_index, int bearing_index)
{
    struct subject *subject;
    if (!spt_chart_applies(chart, report, case_index, bearing_index))
        return;
    subject = spt_page_allocate(page, sizeof *subject);
    if (!subject)
        return;
    *subject = (struct subject){chart, report, case_index, bearing_index};
    spt_page_picture(page, &(struct spt_picture){.title = chart->title,
                                                 .subject = subject,
                                                 .svg = draw,
                                                 .tables = chart->tables ? write_tables : NULL});
}

void spt_page_charts(struct spt_page *page, const struct spt_report *report,
                     enum spt_chart_scope scope, int case_index, int bearing_index)
{
    for (int i = 0; i < spt_chart_count; i++)
        if (spt_chart_table[i].scope == scope)
            put(page, &spt_chart_table[i], report, case_index, bearing_index);
}

void spt_page_chart(struct spt_page *page, const char *name, const struct spt_report *report,
                    int case_index, int bearing_index)
{
    put(page, spt_chart_find(name), report, case_index, bearing_index);
}
