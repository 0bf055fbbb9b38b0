/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "report/chart.h"
#include "report/hub.h"
#include "report/plot.h"
#include "report/sentence.h"
#include "report/setting.h"

#define LEFT 48.0
#define RIGHT 418.0
#define HEIGHT 250.0
#define LENGTH 200 /* of a sentence in the foot */

bool spt_chart_setting_applies(const struct spt_chart_input *input)
{
    const struct spt_hub_curve *curve = input->report->setting;
    return curve && !isnan(curve->study.best.setting_mm);
}

static void make_axes(const struct spt_hub_curve *curve, double top, struct spt_axis *x,
                      struct spt_axis *y)
{
    spt_axis_linear(x, curve->hub->lowest_mm, curve->hub->highest_mm, 6);
    x->low = curve->hub->lowest_mm;
    x->high = curve->hub->highest_mm;
    x->start = LEFT;
    x->end = RIGHT;
    spt_axis_linear(y, 0, 100, 5);
    y->start = top + HEIGHT;
    y->end = top;
}

/* The part of a range of settings that is on the paper, between two heights. */
static void draw_range(struct spt_svg *svg, const struct spt_axis *x, double from_mm, double to_mm,
                       bool of_trade, double top, double height)
{
    double left = spt_axis_at(x, fmax(from_mm, x->low));
    double width = spt_axis_at(x, fmin(to_mm, x->high)) - left;
    if (!(width > 0))
        return;
    if (of_trade)
        spt_svg_hatched(svg, 0, "ochre", left, top, width, height);
    else
        spt_svg_rect(svg, "f-moss-wash", left, top, width, height);
}

/* Where the trade's range ends and preload begins, cold or running. */
static void draw_preload(struct spt_svg *svg, const struct spt_hub_curve *curve,
                         const struct spt_axis *x, double top)
{
    if (!spt_axis_holds(x, curve->least_mm))
        return;
    double at = spt_axis_at(x, curve->least_mm);
    spt_svg_hatched(svg, 1, "rust", LEFT, top + HEIGHT - 14, at - LEFT, 14);
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

static void write_line(struct spt_svg *svg, const char *words)
{
    size_t length = strlen(words);
    fprintf(svg->desc, "%s%s ", words, length && words[length - 1] == '.' ? "" : ".");
    spt_plot_words(svg, words);
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
    write_line(svg, words);
    if (spt_setting_has_other_best(curve)) {
        spt_svg_marker(svg, SPT_MARKER_RING, "moss", 20, svg->height + 8);
        snprintf(words, LENGTH, "Best without preload: %s, %.3g %% of that life",
                 spt_text_setting(study->advised.setting_mm, setting),
                 100 * study->advised.relative);
        write_line(svg, words);
    }
    spt_svg_marker(svg, SPT_MARKER_DISC, "rust", 20, svg->height + 8);
    snprintf(words, LENGTH, "As set: %s, %.3g %% of the best life%s",
             spt_text_setting(study->asked.setting_mm, setting), 100 * study->asked.relative,
             spt_axis_holds(x, study->asked.setting_mm) ? "" : " (beyond this chart)");
    write_line(svg, words);
}

/* The lowest setting that keeps most of the life and is advised. */
static double find_kept_from(const struct spt_hub_curve *curve)
{
    double from_mm = curve->study.kept_from_mm;
    return curve->hub->preload_allowed ? from_mm : fmax(from_mm, curve->least_mm);
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
    write_line(svg, words);
    spt_svg_hatched(svg, 1, "rust", 14, svg->height + 2, 12, 12);
    write_line(svg, "Preloaded, cold or running: its heat is not in the curve");
    spt_svg_hatched(svg, 0, "ochre", 14, svg->height + 2, 12, 12);
    snprintf(words, LENGTH, "%.3g to %.3g mm: common practice, no source", SPT_HUB_PLAY_LOW_MM,
             SPT_HUB_PLAY_HIGH_MM);
    write_line(svg, words);
}

static void write_foot(struct spt_svg *svg, const struct spt_hub_curve *curve,
                       const struct spt_axis *x)
{
    write_points(svg, curve, x);
    write_ranges(svg, curve);
    if (!curve->modified)
        write_line(svg, "Basic rating lives: a phase has no modified life");
    if (curve->thermal_mm != 0)
        write_line(svg, "Settings are those of the cold hub");
    write_line(svg, spt_preload_practice());
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
    draw_range(svg, &x, find_kept_from(curve), study->kept_to_mm, false, top, HEIGHT);
    draw_range(svg, &x, SPT_HUB_PLAY_LOW_MM, SPT_HUB_PLAY_HIGH_MM, true, top + HEIGHT - 14, 14);
    spt_plot_x_axis(svg, &x, top, top + HEIGHT, "preload below 0, end play above 0, in mm");
    spt_plot_y_axis(svg, &y, LEFT, RIGHT, "life in % of the best");
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
