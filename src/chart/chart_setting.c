/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "chart/chart.h"
#include "chart/plot.h"
#include "sentence/sentence.h"
#include "sentence/setting.h"

#define LEFT 46.0
#define RIGHT 322.0
#define HEIGHT 250.0
#define STRIP 16.0 /* height of the strip of the usual range at the bottom */
#define INCH_MM 25.4
#define LENGTH 200 /* length of a sentence below the chart */

bool spt_chart_setting_applies(const struct spt_chart_input *input)
{
    const struct spt_hub_curve *curve = input->report->setting;
    return curve && !isnan(curve->study.best.setting_mm);
}

static void make_axes(const struct spt_hub_curve *curve, double top, struct spt_axis *x,
                      struct spt_axis *y)
{
    spt_axis_linear(x, curve->hub->lowest_mm, curve->hub->highest_mm, 10);
    x->low = curve->hub->lowest_mm;
    x->high = curve->hub->highest_mm;
    x->start = LEFT;
    x->end = RIGHT;
    spt_axis_linear(y, 0, 100, 5);
    y->start = top + HEIGHT;
    y->end = top;
}

/* The lowest recommended setting that keeps most of the life. */
static double find_kept_from(const struct spt_hub_curve *curve)
{
    double from_mm = curve->study.kept_from_mm;
    return curve->hub->preload_allowed ? from_mm : fmax(from_mm, curve->least_mm);
}

/* The part of a range of settings that is inside the axis. */
static bool find_range(const struct spt_axis *x, double from_mm, double to_mm, double *left,
                       double *right)
{
    *left = spt_axis_at(x, fmax(from_mm, x->low));
    *right = spt_axis_at(x, fmin(to_mm, x->high));
    return *right > *left;
}

static void draw_kept(struct spt_svg *svg, const struct spt_hub_curve *curve,
                      const struct spt_axis *x, double top)
{
    double left, right;
    if (find_range(x, find_kept_from(curve), curve->study.kept_to_mm, &left, &right))
        spt_svg_rect(svg, "f-moss-wash", left, top, right - left, HEIGHT);
}

/* Draws the usual range: a strip at the bottom, and its ends over the whole height. */
static void draw_trade(struct spt_svg *svg, const struct spt_axis *x, double top)
{
    double left, right;
    if (!find_range(x, SPT_HUB_PLAY_LOW_MM, SPT_HUB_PLAY_HIGH_MM, &left, &right))
        return;
    spt_svg_rect(svg, "f-ochre-wash", left, top + HEIGHT - STRIP, right - left, STRIP);
    spt_svg_hatched(svg, 0, "ochre", left, top + HEIGHT - STRIP, right - left, STRIP);
    spt_svg_line(svg, "s-ochre w2 d4", left, top, left, top + HEIGHT);
    spt_svg_line(svg, "s-ochre w2 d4", right, top, right, top + HEIGHT);
}

/* Draws the end of the usual range, where preload begins, cold or running. */
static void draw_preload(struct spt_svg *svg, const struct spt_hub_curve *curve,
                         const struct spt_axis *x, double top)
{
    if (!spt_axis_holds(x, curve->least_mm))
        return;
    double at = spt_axis_at(x, curve->least_mm);
    spt_svg_hatched(svg, 1, "rust", LEFT, top + HEIGHT - STRIP, at - LEFT, STRIP);
    spt_svg_line(svg, "s-rust w2 d1", at, top, at, top + HEIGHT);
}

static void draw_curve(struct spt_svg *svg, const struct spt_hub_curve *curve,
                       const struct spt_axis *x, const struct spt_axis *y)
{
    double settings[SPT_HUB_CURVE_POINTS], percent[SPT_HUB_CURVE_POINTS];
    for (int i = 0; i < SPT_HUB_CURVE_POINTS; i++) {
        settings[i] = curve->points[i].setting_mm;
        percent[i] = 100 * curve->points[i].relative;
    }
    spt_plot_curve(svg, "line s-steel w3", x, y, settings, percent, SPT_HUB_CURVE_POINTS);
}

static void draw_point(struct spt_svg *svg, const struct spt_setting_point *point,
                       enum spt_svg_marker marker, const char *color, const struct spt_axis *x,
                       const struct spt_axis *y)
{
    if (spt_axis_holds(x, point->setting_mm))
        spt_svg_marker(svg, marker, color, spt_axis_at(x, point->setting_mm),
                       spt_axis_at(y, 100 * point->relative));
}

static void write_points(struct spt_svg *svg, const struct spt_hub_curve *curve,
                         const struct spt_axis *x)
{
    const struct spt_setting_study *study = &curve->study;
    char words[LENGTH], setting[SPT_SETTING_LENGTH];
    spt_svg_marker(svg, SPT_MARKER_DIAMOND, "steel", 20, svg->height + 8);
    snprintf(words, LENGTH, "Best for fatigue of rigid rings only: %s%s",
             spt_text_setting(study->best.setting_mm, setting),
             study->best_at_limit ? " (at the end of what was searched)" : "");
    spt_plot_sentence(svg, words);
    if (spt_setting_has_other_best(curve)) {
        spt_svg_marker(svg, SPT_MARKER_RING, "moss", 20, svg->height + 8);
        snprintf(words, LENGTH, "Best without preload: %s, %.3g %% of that life",
                 spt_text_setting(study->advised.setting_mm, setting),
                 100 * study->advised.relative);
        spt_plot_sentence(svg, words);
    }
    spt_svg_marker(svg, SPT_MARKER_DISC, "rust", 20, svg->height + 8);
    snprintf(words, LENGTH, "As set: %s, %.3g %% of the best life%s",
             spt_text_setting(study->asked.setting_mm, setting), 100 * study->asked.relative,
             spt_axis_holds(x, study->asked.setting_mm) ? "" : " (beyond this chart)");
    spt_plot_sentence(svg, words);
}

static void write_ranges(struct spt_svg *svg, const struct spt_hub_curve *curve)
{
    const struct spt_setting_study *study = &curve->study;
    char words[LENGTH], from[SPT_SETTING_LENGTH], to[SPT_SETTING_LENGTH];
    double from_mm = find_kept_from(curve);
    bool whole = from_mm == study->kept_from_mm;
    spt_svg_rect(svg, "f-moss-wash", 14, svg->height + 2, 12, 12);
    snprintf(words, LENGTH, "Keeps %.0f %%%s: %s%s to %s%s", 100 * SPT_SETTING_KEPT,
             whole ? "" : " without preload", spt_text_setting(from_mm, from),
             whole && study->kept_from_open ? " (and beyond)" : "",
             spt_text_setting(study->kept_to_mm, to), study->kept_to_open ? " (and beyond)" : "");
    if (from_mm >= study->kept_to_mm)
        snprintf(words, LENGTH, "Keeps %.0f %% without preload: no setting",
                 100 * SPT_SETTING_KEPT);
    spt_plot_sentence(svg, words);
    spt_svg_hatched(svg, 1, "rust", 14, svg->height + 2, 12, 12);
    spt_plot_sentence(svg, "Preloaded, cold or running: its heat is not in the curve");
    spt_svg_rect(svg, "f-ochre-wash", 14, svg->height + 2, 12, 12);
    spt_svg_hatched(svg, 0, "ochre", 14, svg->height + 2, 12, 12);
    snprintf(words, LENGTH,
             "%.3g to %.3g mm (%.3f to %.3f in) end play: common practice, no source",
             SPT_HUB_PLAY_LOW_MM, SPT_HUB_PLAY_HIGH_MM, SPT_HUB_PLAY_LOW_MM / INCH_MM,
             SPT_HUB_PLAY_HIGH_MM / INCH_MM);
    spt_plot_sentence(svg, words);
}

static void write_foot(struct spt_svg *svg, const struct spt_hub_curve *curve,
                       const struct spt_axis *x)
{
    write_points(svg, curve, x);
    write_ranges(svg, curve);
    if (!curve->modified)
        spt_plot_sentence(svg, "Basic rating lives: a phase has no modified life");
    if (curve->thermal_mm != 0)
        spt_plot_sentence(svg, "Settings are those of the cold hub");
    spt_plot_sentence(svg, spt_preload_practice());
    svg->height += 4;
}

void spt_chart_setting(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_hub_curve *curve = input->report->setting;
    const struct spt_setting_study *study = &curve->study;
    struct spt_axis x, y;
    double top = svg->height + 28;
    make_axes(curve, top, &x, &y);
    fprintf(svg->desc,
            "Life in percent of the best against the setting, from %.3g to %.3g mm; preload is "
            "below 0, end play above. ",
            x.low, x.high);
    draw_kept(svg, curve, &x, top);
    spt_plot_x_axis(svg, &x, top, top + HEIGHT, "preload below 0, end play above 0, in mm");
    spt_plot_y_axis(svg, &y, LEFT, RIGHT, "life in % of the best");
    draw_trade(svg, &x, top);
    if (spt_axis_holds(&x, 0))
        spt_svg_line(svg, "s-edge w2", spt_axis_at(&x, 0), top, spt_axis_at(&x, 0), top + HEIGHT);
    draw_preload(svg, curve, &x, top);
    draw_curve(svg, curve, &x, &y);
    draw_point(svg, &study->best, SPT_MARKER_DIAMOND, "steel", &x, &y);
    if (spt_setting_has_other_best(curve))
        draw_point(svg, &study->advised, SPT_MARKER_RING, "moss", &x, &y);
    draw_point(svg, &study->asked, SPT_MARKER_DISC, "rust", &x, &y);
    svg->height = top + HEIGHT + 38;
    write_foot(svg, curve, &x);
}
