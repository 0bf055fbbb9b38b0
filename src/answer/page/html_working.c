/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "answer/life/explain.h"
#include "answer/page/html_parts.h"
#include "chart/axis.h"
#include "format/escape.h"
#include "format/html_table.h"

#define SOURCES_MAX 64

struct working {
    FILE *out;
    bool open; /* a table is open */
};

static void open_place(void *context, const char *bearing, const char *phase)
{
    static const char *const heads[] = {"quantity", "formula", "numbers", "#result",
                                        "unit",     "source",  NULL};
    struct working *working = context;
    char caption[520];
    if (working->open)
        spt_table_close(working->out);
    snprintf(caption, sizeof caption, "%.250s%s%.250s", bearing, *bearing ? ": " : "", phase);
    spt_table_open(working->out, caption, heads);
    working->open = true;
}

static void write_step(void *context, const struct spt_step *step)
{
    struct working *working = context;
    spt_table_row(working->out, step->symbol);
    spt_table_text(working->out, step->formula);
    spt_table_text(working->out, step->numbers);
    if (isfinite(step->value))
        spt_table_numberf(working->out, "%.5g", step->value);
    else
        spt_table_number(working->out, isnan(step->value) ? "none" : "no limit");
    spt_table_text(working->out, step->unit);
    spt_table_text(working->out, step->source);
    spt_table_row_end(working->out);
}

void spt_html_working(FILE *out, const struct spt_assessment *assessment)
{
    struct working working = {out, false};
    const struct spt_step_sink sink = {open_place, write_step, &working};
    fputs("<details class=\"working\">\n<summary>Every step: formula, numbers, result, "
          "source</summary>\n",
          out);
    spt_explain_assessment(assessment, &sink);
    if (working.open)
        spt_table_close(out);
    fputs("</details>\n", out);
}

struct sources {
    FILE *out;
    int count;
    const char *seen[SOURCES_MAX]; /* the texts of the steps are constants of the program */
};

static void skip_place(void *context, const char *bearing, const char *phase)
{
    (void)context;
    (void)bearing;
    (void)phase;
}

static void list_source(void *context, const struct spt_step *step)
{
    struct sources *sources = context;
    for (int i = 0; i < sources->count; i++)
        if (!strcmp(sources->seen[i], step->source))
            return;
    if (sources->count < SOURCES_MAX)
        sources->seen[sources->count++] = step->source;
    fputs("<li>", sources->out);
    spt_escape(sources->out, step->source);
    fputs("</li>\n", sources->out);
}

void spt_html_sources(FILE *out, const struct spt_report *report)
{
    struct sources sources = {out, 0, {0}};
    const struct spt_step_sink sink = {skip_place, list_source, &sources};
    fputs("<ul class=\"sources\">\n", out);
    for (int i = 0; i < report->case_count; i++)
        spt_explain_assessment(report->cases[i].assessment, &sink);
    fputs("</ul>\n", out);
}
