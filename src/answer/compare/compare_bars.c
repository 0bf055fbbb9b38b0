/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/compare/compare_parts.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/compare/compare_flags.h"
#include "answer/life/explain.h"
#include "chart/figure.h"

#define BAR_WIDTH 46

/* Shortest and longest finite life, widened to whole decades. */
static bool find_decades(const struct spt_compared *cases, int count, double *low, double *high)
{
    *low = (double)INFINITY;
    *high = 0;
    for (int i = 0; i < count; i++) {
        double life_h = spt_compare_life_h(&cases[i]);
        if (!isfinite(life_h) || life_h <= 0)
            continue;
        *low = fmin(*low, life_h);
        *high = fmax(*high, life_h);
    }
    if (!(*high > 0))
        return false;
    *low = pow(10, floor(log10(*low)));
    *high = fmax(pow(10, ceil(log10(*high))), *low * 10);
    return true;
}

/* Bars of the lives on a log scale. */
struct bars {
    const struct spt_compared *cases;
    int count;
    double low, high;
};

static void write_bars(const struct spt_text *text, const void *subject)
{
    const struct bars *bars = subject;
    const struct spt_compared *cases = bars->cases;
    const double low = bars->low, high = bars->high;
    char left[SPT_HOURS_LENGTH], right[SPT_HOURS_LENGTH];
    fprintf(text->out, "%*s %-*s%*s\n", SPT_COMPARE_NAME_WIDTH, "", BAR_WIDTH / 2,
            spt_text_stated(low, left), BAR_WIDTH / 2, spt_text_stated(high, right));
    for (int i = 0; i < bars->count; i++) {
        double life_h = spt_compare_life_h(&cases[i]);
        spt_text_fit(text, cases[i].name, SPT_COMPARE_NAME_WIDTH);
        fputc(' ', text->out);
        if (isnan(life_h))
            fputs("no life can be stated", text->out);
        else
            spt_text_bar(text, isinf(life_h) ? 1 : fmax(log(life_h / low), 1e-9),
                         isinf(life_h) ? 1 : log(high / low), BAR_WIDTH);
        fputc('\n', text->out);
    }
}

/* The cases as a report, of which there are charts. */
static const struct spt_report *report_of(struct spt_page *page, const struct spt_compared *cases,
                                          int count)
{
    struct spt_report *report = spt_page_allocate(page, sizeof *report);
    struct spt_report_case *parts = spt_page_allocate(page, (size_t)count * sizeof *parts);
    if (!report || !parts)
        return NULL;
    for (int i = 0; i < count; i++)
        parts[i] = (struct spt_report_case){
            .name = cases[i].name, .assessment = &cases[i].assessment, .judgement = cases[i].plan};
    *report = (struct spt_report){.case_count = count, .cases = parts};
    return report;
}

void spt_compare_bars(struct spt_page *page, const struct spt_compared *cases, int count)
{
    struct bars *bars = spt_page_allocate(page, sizeof *bars);
    if (!bars || !find_decades(cases, count, &bars->low, &bars->high))
        return;
    const struct spt_report *report = report_of(page, cases, count);
    bars->cases = cases;
    bars->count = count;
    spt_page_open(page, "Life in hours on a log scale");
    spt_page_picture(page, &(struct spt_picture){.subject = bars, .text = write_bars});
    if (report)
        spt_figures_page(page, report, SPT_CHART_OF_CASES, 0, 0);
    spt_page_close(page);
}
