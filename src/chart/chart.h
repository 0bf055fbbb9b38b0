/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_CHART_H
#define CHART_CHART_H

#include "chart/report.h"
#include "chart/svg.h"
#include "format/page/page.h"

#define SPT_CHART_WIDTH 340.0
/* a chart shows those with most damage, and tells how many it omits */
#define SPT_CHART_PHASES_MAX 20

/* Subject of a chart: one bearing of one case, one case, the scenario as written, or all cases. */
struct spt_chart_input {
    const struct spt_report *report;
    const struct spt_report_case *part;       /* the case */
    const struct spt_bearing_result *bearing; /* NULL where the chart is not of a single bearing */
    int bearing_index;
};

/* One figure of all cases, one of the scenario as written, one of each case, or one of each bearing
 * of each case. */
enum spt_chart_scope {
    SPT_CHART_OF_CASES,
    SPT_CHART_OF_BASE,
    SPT_CHART_OF_CASE,
    SPT_CHART_OF_BEARING
};

/* One chart: dispatch, the help of --chart and the figures of the HTML report come from the table
 * in chart.c; to add one, write its two functions and a row. */
struct spt_chart {
    const char *name;  /* for --chart */
    const char *title; /* of the figure */
    enum spt_chart_scope scope;
    const char *needs; /* why it may not apply: "needs variants" */
    bool (*applies)(const struct spt_chart_input *input);
    /* Draws below svg->height and increases it; writes sentences to svg->desc. */
    void (*draw)(struct spt_svg *svg, const struct spt_chart_input *input);
    /* Puts its numbers on a page as tables; NULL where other tables of the page have them. */
    void (*tables)(struct spt_page *page, const struct spt_chart_input *input);
};
extern const struct spt_chart spt_chart_table[];
extern const int spt_chart_count;

const struct spt_chart *spt_chart_find(const char *name);

/* True where the chart has something to show of this bearing of this case. */
bool spt_chart_applies(const struct spt_chart *chart, const struct spt_report *report,
                       int case_index, int bearing_index);

/* Writes a chart of one bearing of one case for an HTML page; its id begins with `place`, "" where
 * the page has it once. Result: false when memory is exhausted. */
bool spt_chart_inline(const struct spt_chart *chart, const struct spt_report *report,
                      int case_index, int bearing_index, const char *place, FILE *out);

/* True where the chart of one bearing of a variant is drawn line for line as that of the scenario
 * as written, so that a page need not show it twice. The variant has as many bearings. */
bool spt_chart_is_same(const struct spt_chart *chart, const struct spt_report *report,
                       int case_index, int bearing_index);

/* Puts the tables of such a chart on a page; nothing where it has none of its own. */
void spt_chart_tables(const struct spt_chart *chart, const struct spt_report *report,
                      int case_index, int bearing_index, struct spt_page *page);

/* Writes a chart of one case as an SVG file, its bearings one below the other. */
bool spt_chart_alone(const struct spt_chart *chart, const struct spt_report *report, int case_index,
                     FILE *out);

/* Formats hours as spt_text_hours does, but as in 2.69*10^7 with superscript digits above ten
 * million. */
const char *spt_chart_hours(double hours, char *buffer);

/* True where a chart shows this phase of a bearing: it is one of those with most damage. */
bool spt_chart_shows_phase(const struct spt_bearing_result *bearing, int index);

/* The charts of the table. */
bool spt_chart_phases_applies(const struct spt_chart_input *input);
void spt_chart_phases(struct spt_svg *svg, const struct spt_chart_input *input);
bool spt_chart_loss_applies(const struct spt_chart_input *input);
void spt_chart_loss(struct spt_svg *svg, const struct spt_chart_input *input);
bool spt_chart_variants_applies(const struct spt_chart_input *input);
void spt_chart_variants(struct spt_svg *svg, const struct spt_chart_input *input);
bool spt_chart_film_applies(const struct spt_chart_input *input);
void spt_chart_film(struct spt_svg *svg, const struct spt_chart_input *input);
bool spt_chart_contamination_applies(const struct spt_chart_input *input);
void spt_chart_contamination(struct spt_svg *svg, const struct spt_chart_input *input);
bool spt_chart_stairs_applies(const struct spt_chart_input *input);
void spt_chart_stairs(struct spt_svg *svg, const struct spt_chart_input *input);
bool spt_chart_timeline_applies(const struct spt_chart_input *input);
void spt_chart_timeline(struct spt_svg *svg, const struct spt_chart_input *input);
bool spt_chart_setting_applies(const struct spt_chart_input *input);
void spt_chart_setting(struct spt_svg *svg, const struct spt_chart_input *input);
bool spt_chart_survival_applies(const struct spt_chart_input *input);
void spt_chart_survival(struct spt_svg *svg, const struct spt_chart_input *input);
void spt_chart_survival_tables(struct spt_page *page, const struct spt_chart_input *input);
bool spt_chart_zones_applies(const struct spt_chart_input *input);
void spt_chart_zones(struct spt_svg *svg, const struct spt_chart_input *input);
void spt_chart_zones_tables(struct spt_page *page, const struct spt_chart_input *input);

#endif
