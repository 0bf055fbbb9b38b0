/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/figure.h"

typedef void text_writer(const struct spt_text *text, const void *subject);

static bool draw(FILE *out, const void *subject)
{
    const struct spt_figure *of = subject;
    return spt_chart_inline(of->chart, of->report, of->case_index, of->bearing_index, of->place,
                            out);
}

/* The numbers of a chart as a page of their own; NULL: other tables have them. */
static const struct spt_page *make_tables(struct spt_page *page, const struct spt_figure *of)
{
    struct spt_page *tables = of->chart->tables && !*of->place ? spt_page_part(page) : NULL;
    if (tables)
        spt_chart_tables(of->chart, of->report, of->case_index, of->bearing_index, tables);
    return tables;
}

/* True where the scenario as written has the same drawing. */
static bool has_twin(const struct spt_figure *of)
{
    const struct spt_report_case *cases = of->report->cases;
    return of->case_index && of->bearing_index < cases[0].assessment->bearing_count &&
           spt_chart_is_same(of->chart, of->report, of->case_index, of->bearing_index);
}

static void put(struct spt_page *page, const struct spt_figure *of, text_writer *text)
{
    const struct spt_chart *chart = of->chart;
    struct spt_figure *figure = spt_page_allocate(page, sizeof *figure);
    if (!figure || !spt_chart_applies(chart, of->report, of->case_index, of->bearing_index))
        return;
    if (has_twin(of)) {
        spt_page_say(page, SPT_BODY, "", "%s: drawn as for the scenario as written.", chart->title);
        return;
    }
    *figure = *of;
    spt_page_picture(page, &(struct spt_picture){.title = chart->title,
                                                 .subject = figure,
                                                 .text = text,
                                                 .svg = draw,
                                                 .tables = make_tables(page, of)});
}

void spt_figures_page(struct spt_page *page, const struct spt_report *report,
                      enum spt_chart_scope scope, int case_index, int bearing_index)
{
    for (int i = 0; i < spt_chart_count; i++)
        if (spt_chart_table[i].scope == scope)
            put(page,
                &(struct spt_figure){&spt_chart_table[i], report, case_index, bearing_index, ""},
                NULL);
}

void spt_figure_page(struct spt_page *page, const char *chart, const struct spt_report *report,
                     const struct spt_report_case *part, text_writer *text)
{
    struct spt_report_case *copy = spt_page_allocate(page, sizeof *copy);
    struct spt_report *whole = spt_page_allocate(page, sizeof *whole);
    if (!copy || !whole)
        return;
    *copy = *part;
    *whole = *report;
    whole->cases = copy;
    whole->case_count = 1;
    put(page, &(struct spt_figure){spt_chart_find(chart), whole, 0, 0, ""}, text);
}

void spt_figure_of_front(struct spt_page *page, const char *chart, const struct spt_report *report,
                         int bearing_index)
{
    const struct spt_chart *found = spt_chart_find(chart);
    const int of = found->scope == SPT_CHART_OF_BEARING ? bearing_index : 0;
    put(page, &(struct spt_figure){found, report, 0, of, "front-"}, NULL);
}
