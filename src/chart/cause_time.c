/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/cause_time.h"

#include <math.h>

#include "chart/plot.h"
#include "format/text.h"
#include "spalltime/diagnosis.h"

#define WIDTH 340.0
#define LEFT 46.0
#define RIGHT 328.0
#define KEY_X 44.0
#define KEY_WIDTH 288.0
#define TOP 34.0
#define HEIGHT 170.0
#define POINTS 81
#define LEAST_LIFE 0.02 /* of the shortest life: where the chart begins */
#define MOST_LIVES 30.0
#define WORDS_LENGTH 160

static const char *const strokes[SPT_CAUSE_TIME_CURVES] = {
    "line s-steel w2", "line s-rust w2 d1", "line s-moss w2 d3", "line s-ochre w2 d4"};

/* Chances of each curve over the hours. Result: the largest. */
static double fill_curves(const struct spt_cause_time_chart *chart, const struct spt_axis *x,
                          double *hours, double (*chances)[POINTS])
{
    double most = 0;
    for (int i = 0; i < POINTS; i++)
        hours[i] = x->low * pow(x->high / x->low, (double)i / (POINTS - 1));
    for (int k = 0; k < chart->count; k++)
        for (int i = 0; i < POINTS; i++) {
            spt_diagnosis_time(chart->life_h[k], chart->doubt, hours[i], (double)NAN,
                               &chances[k][i]);
            most = fmax(most, chances[k][i]);
        }
    return most;
}

static void draw_mark(struct spt_svg *svg, const struct spt_cause_time_chart *chart,
                      const struct spt_axis *x)
{
    char words[WORDS_LENGTH], hours[SPT_HOURS_LENGTH];
    const double at = spt_axis_at(x, chart->hours);
    const bool left = at > (LEFT + RIGHT) / 2;
    snprintf(words, sizeof words, "taken out at %s h", spt_text_hours(chart->hours, hours));
    spt_svg_line(svg, "s-ink w2", at, TOP, at, TOP + HEIGHT);
    spt_svg_text(svg, "small halo", left ? SPT_SVG_END : SPT_SVG_START, left ? at - 5 : at + 5,
                 TOP + 12, words);
    fprintf(svg->desc, "%s. ", words);
}

static void write_key(struct spt_svg *svg, const struct spt_cause_time_chart *chart)
{
    for (int k = 0; k < chart->count; k++) {
        char words[WORDS_LENGTH], life[SPT_HOURS_LENGTH];
        snprintf(words, sizeof words, "%s: L10 %s h", chart->names[k],
                 spt_text_hours(chart->life_h[k], life));
        const struct spt_svg_block block = {"small", KEY_X, svg->height + 16, KEY_WIDTH, 13};
        spt_svg_line(svg, strokes[k] + 5, 10, svg->height + 12, 36, svg->height + 12);
        spt_svg_text_block(svg, &block, words);
        svg->height += 2 + SPT_SVG_LINE * spt_svg_text_lines(words, KEY_WIDTH, 13);
        fprintf(svg->desc, "%s. ", words);
    }
    svg->height += 8;
}

bool spt_cause_time_svg(FILE *out, const void *subject)
{
    const struct spt_cause_time_chart *chart = subject;
    double hours[POINTS], chances[SPT_CAUSE_TIME_CURVES][POINTS];
    struct spt_svg svg;
    struct spt_axis x, y;
    double least = chart->life_h[0], most = chart->life_h[0];
    if (!spt_svg_begin(&svg, chart->id, WIDTH))
        return false;
    for (int k = 1; k < chart->count; k++) {
        least = fmin(least, chart->life_h[k]);
        most = fmax(most, chart->life_h[k]);
    }
    spt_axis_log(&x, fmin(LEAST_LIFE * least, chart->hours), fmax(MOST_LIVES * most, chart->hours));
    x.start = LEFT;
    x.end = RIGHT;
    const double highest = fill_curves(chart, &x, hours, chances);
    spt_axis_linear(&y, 0, highest > 0 ? highest : 1, 4);
    y.start = TOP + HEIGHT;
    y.end = TOP;
    fputs("Chance of failing about each running time, per unit of its logarithm, for each cause "
          "with a life. ",
          svg.desc);
    spt_plot_x_axis(&svg, &x, TOP, TOP + HEIGHT, "running hours");
    spt_plot_y_axis(&svg, &y, LEFT, RIGHT, "chance per unit of ln t");
    for (int k = 0; k < chart->count; k++)
        spt_plot_curve(&svg, strokes[k], &x, &y, hours, chances[k], POINTS);
    draw_mark(&svg, chart, &x);
    svg.height = TOP + HEIGHT + 40;
    write_key(&svg, chart);
    return spt_svg_finish(&svg, out, "When it strikes", false);
}
