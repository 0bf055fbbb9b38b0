/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "chart/chart.h"
#include "chart/rows.h"
#include "format/text.h"

bool spt_chart_variants_applies(const struct spt_chart_input *input)
{
    return input->report->case_count > 1;
}

double spt_report_life_h(const struct spt_report_case *part)
{
    return part->judgement ? part->judgement->hours_run + part->judgement->lower_h
                           : part->assessment->modified_rating_life_h;
}

static void fill_row(struct spt_row *row, const struct spt_report_case *part)
{
    char modified[SPT_HOURS_LENGTH], basic[SPT_HOURS_LENGTH];
    const struct spt_assessment *assessment = part->assessment;
    double target_h = assessment->question->target_life_h;
    const double life_h = spt_report_life_h(part);
    const char *unit = isfinite(life_h) ? " h" : "";
    spt_chart_hours(life_h, modified);
    spt_chart_hours(assessment->basic_rating_life_h, basic);
    row->from_h = assessment->basic_rating_life_h;
    row->to_h = life_h;
    row->share = (double)NAN;
    row->bad = row->to_h < target_h;
    snprintf(row->name, sizeof row->name, "%.290s", spt_report_case_name(part));
    snprintf(row->value, sizeof row->value, "%s%s", modified, unit);
    snprintf(row->tip, sizeof row->tip, "%.200s: life %s%s%s, basic rating life %s%s",
             spt_report_case_name(part), modified, unit,
             isnan(target_h) ? ""
             : row->bad      ? ", misses the target"
                             : ", meets the target",
             basic, isfinite(assessment->basic_rating_life_h) ? " h" : "");
    if (isnan(row->to_h))
        snprintf(row->tip, sizeof row->tip, "%.200s: no life can be stated",
                 spt_report_case_name(part));
}

/* The target common to all cases; NaN where they differ: each triangle then refers to its own
 * target. */
static double find_common_target(const struct spt_report *report)
{
    double target_h = report->cases[0].assessment->question->target_life_h;
    for (int i = 1; i < report->case_count; i++)
        if (report->cases[i].assessment->question->target_life_h != target_h)
            return (double)NAN;
    return target_h;
}

void spt_chart_variants(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_report *report = input->report;
    struct spt_rows rows = {
        .ring_words = "basic rating life: load and speed alone",
        .disc_words = report->cases[0].assessment->question->hub
                          ? "under the plan, with film, dirt, water, setting"
                          : "under the plan, with film, dirt and water",
        .triangle_words = "the same, shorter than the target",
        .marks = {{find_common_target(report), "target", "s-rust w2 d1"}, {(double)NAN, "", ""}},
    };
    fputs("Life in hours of the scenario as written and of each variant, on a log axis. ",
          svg->desc);
    for (int i = 0; i < report->case_count && rows.count < SPT_ROWS_MAX; i++) {
        struct spt_row *row = &rows.rows[rows.count++];
        fill_row(row, &report->cases[i]);
        fprintf(svg->desc, "%s. ", row->tip);
    }
    spt_rows_draw(svg, &rows);
    if (rows.count < report->case_count) {
        spt_svg_text(svg, "small", SPT_SVG_START, 14, svg->height + 12,
                     "More variants stand in the table.");
        svg->height += 20;
    }
}
