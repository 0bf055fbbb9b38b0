/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/chart.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "chart/axis.h"
#include "format/text.h"

#define TITLE_LENGTH 1024 /* enough for three texts of 200 bytes and words */
#define TEXT_WIDTH 312.0

const struct spt_chart spt_chart_table[] = {
    {"stairs", "Rating life to life under the plan", SPT_CHART_OF_BASE,
     "a life to follow step by step", spt_chart_stairs_applies, spt_chart_stairs, NULL},
    {"variants", "Life of the scenario and its variants", SPT_CHART_OF_CASES,
     "a scenario with variants", spt_chart_variants_applies, spt_chart_variants, NULL},
    {"phases", "Damage of each phase", SPT_CHART_OF_BEARING, "a duty with phases",
     spt_chart_phases_applies, spt_chart_phases, NULL},
    {"loss", "Where the life goes", SPT_CHART_OF_BEARING, "a cause that takes life",
     spt_chart_loss_applies, spt_chart_loss, NULL},
    {"film", "Viscosity: what the phases need and have", SPT_CHART_OF_BEARING,
     "a phase that turns at a known temperature", spt_chart_film_applies, spt_chart_film, NULL},
    {"contamination", "Life factor, film and dirt", SPT_CHART_OF_BEARING,
     "a phase with a life factor", spt_chart_contamination_applies, spt_chart_contamination, NULL},
    {"survival", "Survival over the running hours", SPT_CHART_OF_CASE, "a life that ends",
     spt_chart_survival_applies, spt_chart_survival, spt_chart_survival_tables},
    {"timeline", "Life spent over the running hours", SPT_CHART_OF_BASE,
     "a section `service` with a life to follow", spt_chart_timeline_applies, spt_chart_timeline,
     NULL},
    {"zones", "Load zones of the two rows", SPT_CHART_OF_CASE, "a section `hub`",
     spt_chart_zones_applies, spt_chart_zones, spt_chart_zones_tables},
    {"setting", "Life against end play and preload", SPT_CHART_OF_BASE,
     "a hub with a life at its setting", spt_chart_setting_applies, spt_chart_setting, NULL},
};
const int spt_chart_count = (int)(sizeof spt_chart_table / sizeof *spt_chart_table);

const char *spt_report_case_name(const struct spt_report_case *part)
{
    return part->name ? part->name : "as written";
}

const struct spt_chart *spt_chart_find(const char *name)
{
    for (int i = 0; i < spt_chart_count; i++)
        if (!strcmp(spt_chart_table[i].name, name))
            return &spt_chart_table[i];
    return NULL;
}

static struct spt_chart_input make_input(const struct spt_chart *chart,
                                         const struct spt_report *report, int case_index,
                                         int bearing_index)
{
    const struct spt_report_case *part = &report->cases[case_index];
    return (struct spt_chart_input){
        .report = report,
        .part = part,
        .bearing = chart->scope == SPT_CHART_OF_BEARING ? &part->assessment->bearings[bearing_index]
                                                        : NULL,
        .bearing_index = bearing_index,
    };
}

bool spt_chart_applies(const struct spt_chart *chart, const struct spt_report *report,
                       int case_index, int bearing_index)
{
    struct spt_chart_input input = make_input(chart, report, case_index, bearing_index);
    return chart->applies(&input);
}

static void write_title(const struct spt_chart *chart, const struct spt_chart_input *input,
                        bool of_one_bearing, char *title, size_t size)
{
    const struct spt_report_case *part = input->part;
    bool named = chart->scope != SPT_CHART_OF_CASES && part->name;
    bool split = of_one_bearing && input->bearing && part->assessment->bearing_count > 1;
    snprintf(title, size, "%s: %s%s%s%s%s", chart->title, input->report->title, named ? ", " : "",
             named ? part->name : "", split ? ", " : "",
             split ? input->bearing->bearing_case->bearing.name : "");
}

bool spt_chart_inline(const struct spt_chart *chart, const struct spt_report *report,
                      int case_index, int bearing_index, const char *place, FILE *out)
{
    char id[64], title[TITLE_LENGTH];
    struct spt_svg svg;
    struct spt_chart_input input = make_input(chart, report, case_index, bearing_index);
    snprintf(id, sizeof id, "%s%s-%d-%d", place, chart->name, case_index, bearing_index);
    write_title(chart, &input, true, title, sizeof title);
    if (!spt_svg_begin(&svg, id, SPT_CHART_WIDTH))
        return false;
    chart->draw(&svg, &input);
    return spt_svg_finish(&svg, out, title, false);
}

/* The elements of a chart as if of the first case, to be freed. NULL: out of memory. */
static char *draw_elements(const struct spt_chart *chart, const struct spt_report *report,
                           int case_index, int bearing_index)
{
    struct spt_svg svg;
    struct spt_chart_input input = make_input(chart, report, case_index, bearing_index);
    if (!spt_svg_begin(&svg, chart->name, SPT_CHART_WIDTH))
        return NULL;
    chart->draw(&svg, &input);
    free(spt_gather_close(&svg.description));
    return spt_gather_close(&svg.elements);
}

bool spt_chart_is_same(const struct spt_chart *chart, const struct spt_report *report,
                       int case_index, int bearing_index)
{
    if (!case_index || !spt_chart_applies(chart, report, 0, bearing_index) ||
        !spt_chart_applies(chart, report, case_index, bearing_index))
        return false;
    char *base = draw_elements(chart, report, 0, bearing_index);
    char *own = draw_elements(chart, report, case_index, bearing_index);
    const bool same = base && own && !strcmp(base, own);
    free(base);
    free(own);
    return same;
}

void spt_chart_tables(const struct spt_chart *chart, const struct spt_report *report,
                      int case_index, int bearing_index, struct spt_page *page)
{
    struct spt_chart_input input = make_input(chart, report, case_index, bearing_index);
    if (chart->tables)
        chart->tables(page, &input);
}

static void draw_bearings(struct spt_svg *svg, const struct spt_chart *chart,
                          const struct spt_report *report, int case_index)
{
    const struct spt_assessment *assessment = report->cases[case_index].assessment;
    for (int i = 0; i < assessment->bearing_count; i++) {
        struct spt_chart_input input = make_input(chart, report, case_index, i);
        if (!chart->applies(&input))
            continue;
        if (assessment->bearing_count > 1) {
            const char *name = assessment->bearings[i].bearing_case->bearing.name;
            const struct spt_svg_block block = {"bold", 14, svg->height + 20, TEXT_WIDTH, 13};
            spt_svg_text_block(svg, &block, name);
            fprintf(svg->desc, "%s: ", name);
            svg->height += 12 + SPT_SVG_LINE * spt_svg_text_lines(name, TEXT_WIDTH, 13);
        }
        chart->draw(svg, &input);
    }
}

/* Writes the titles of chart and scenario, and the name of the case where it is a variant. */
static void write_head(struct spt_svg *svg, const struct spt_chart *chart,
                       const struct spt_chart_input *input)
{
    const char *lines[2] = {input->report->title,
                            chart->scope == SPT_CHART_OF_CASES ? NULL : input->part->name};
    spt_svg_text(svg, "bold", SPT_SVG_START, 14, 22, chart->title);
    svg->height = 30;
    for (int i = 0; i < 2 && lines[i]; i++) {
        const struct spt_svg_block block = {"quiet", 14, svg->height + 9, TEXT_WIDTH, 13};
        spt_svg_text_block(svg, &block, lines[i]);
        svg->height += SPT_SVG_LINE * spt_svg_text_lines(lines[i], TEXT_WIDTH, 13);
    }
}

bool spt_chart_alone(const struct spt_chart *chart, const struct spt_report *report, int case_index,
                     FILE *out)
{
    char title[TITLE_LENGTH];
    struct spt_svg svg;
    struct spt_chart_input input = make_input(chart, report, case_index, 0);
    write_title(chart, &input, false, title, sizeof title);
    if (!spt_svg_begin(&svg, chart->name, SPT_CHART_WIDTH))
        return false;
    write_head(&svg, chart, &input);
    if (chart->scope != SPT_CHART_OF_BEARING)
        chart->draw(&svg, &input);
    else
        draw_bearings(&svg, chart, report, case_index);
    return spt_svg_finish(&svg, out, title, true);
}

const char *spt_chart_hours(double hours, char *buffer)
{
    char label[SPT_TICK_LABEL_LENGTH];
    if (!isfinite(hours) || hours < 1e7)
        return spt_text_hours(hours, buffer);
    int decimals = 2 - (int)floor(log10(hours));
    snprintf(buffer, SPT_HOURS_LENGTH, "%.23s", spt_axis_label(hours, decimals, label));
    return buffer;
}

static double find_damage(const struct spt_bearing_result *bearing, int index)
{
    double share = bearing->phases[index].damage_share;
    return isnan(share) ? 0 : share;
}

bool spt_chart_shows_phase(const struct spt_bearing_result *bearing, int index)
{
    int costlier = 0;
    double damage = find_damage(bearing, index);
    for (int i = 0; i < bearing->phase_count && costlier < SPT_CHART_PHASES_MAX; i++) {
        double other = find_damage(bearing, i);
        costlier += other > damage || (i < index && !(other < damage));
    }
    return costlier < SPT_CHART_PHASES_MAX;
}
