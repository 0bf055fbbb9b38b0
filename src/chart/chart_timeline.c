/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "chart/chart.h"
#include "chart/plot.h"
#include "format/text.h"

#define LEFT 46.0
#define RIGHT 322.0
#define HEIGHT 250.0
/* a target beyond this multiple of the curve's length is mentioned, not drawn */
#define FARTHEST 4
#define LENGTH 200 /* length of a sentence below the chart */

static double find_end(const struct spt_service_life *life)
{
    return life->curve.times_h[life->curve.count - 1];
}

/* A target counts from new, the chart from now. */
static double target_of(const struct spt_service_life *life)
{
    return life->question.target_life_h - life->timeline.hours_run;
}

bool spt_chart_timeline_applies(const struct spt_chart_input *input)
{
    const struct spt_service_life *life = input->report->life;
    return life && life->curve.count > 1 && find_end(life) > 0;
}

static void make_axes(const struct spt_service_life *life, double top, struct spt_axis *x,
                      struct spt_axis *y)
{
    double end_h = find_end(life), target_h = target_of(life);
    double spent = 100 * life->timeline.damage_at_end;
    spt_axis_linear(x, 0, target_h <= FARTHEST * end_h ? fmax(end_h, target_h) : end_h, 5);
    x->start = LEFT;
    x->end = RIGHT;
    spt_axis_linear(y, 0, spent > 0 && spent < 30 ? spent : 100, 5);
    y->start = top + HEIGHT;
    y->end = top;
}

static bool is_reached(const struct spt_influence_result *influence)
{
    return !isnan(influence->damage_at);
}

/* Formats the hours of a mark; "0" at the start. */
static const char *write_hours(double hours, char *buffer)
{
    return hours > 0 ? spt_chart_hours(hours, buffer) : "0";
}

static void write_tip(struct spt_plot_point *point, const struct spt_service_life *life, int index)
{
    const struct spt_influence_result *influence = &life->timeline.influences[index];
    char at[SPT_HOURS_LENGTH], to[SPT_HOURS_LENGTH], span[64] = "";
    if (index >= life->service.event_count)
        snprintf(span, sizeof span, " to %s h",
                 write_hours(life->service.drifts[index - life->service.event_count].to_h, to));
    snprintf(point->tip, sizeof point->tip, "%.200s: at %s h%s, %.3g %% spent before",
             influence->name, write_hours(influence->at_h, at), span, 100 * influence->damage_at);
}

static int collect_points(const struct spt_service_life *life, const struct spt_axis *x,
                          const struct spt_axis *y, struct spt_plot_point *points)
{
    int count = 0;
    for (int i = 0; i < life->timeline.influence_count; i++) {
        const struct spt_influence_result *influence = &life->timeline.influences[i];
        if (!is_reached(influence))
            continue;
        struct spt_plot_point *point = &points[count++];
        *point = (struct spt_plot_point){
            .x = spt_axis_at(x, influence->at_h),
            .y = spt_axis_at(y, 100 * influence->damage_at),
            .number = i + 1,
            .name = influence->name,
        };
        write_tip(point, life, i);
    }
    return count;
}

/* Shades the hours of each drift up to the end of the curve, and draws a vertical line at each
 * event. */
static void draw_influences(struct spt_svg *svg, const struct spt_service_life *life,
                            const struct spt_axis *x, double top)
{
    for (int i = 0; i < life->timeline.influence_count; i++) {
        const struct spt_influence_result *influence = &life->timeline.influences[i];
        double at = spt_axis_at(x, influence->at_h);
        if (!is_reached(influence))
            continue;
        if (i < life->service.event_count) {
            spt_svg_line(svg, "s-edge w1 d4", at, top, at, top + HEIGHT);
            continue;
        }
        double to_h = life->service.drifts[i - life->service.event_count].to_h;
        double width = spt_axis_at(x, fmin(to_h, find_end(life))) - at;
        spt_svg_rect(svg, "f-ochre-wash", at, top, width, HEIGHT);
        spt_svg_hatched(svg, 0, "rule", at, top, width, HEIGHT);
    }
}

static void draw_curve(struct spt_svg *svg, const struct spt_damage_curve *curve,
                       const struct spt_axis *x, const struct spt_axis *y)
{
    double percent[SPT_PLOT_CURVE_MAX];
    int count = curve->count < SPT_PLOT_CURVE_MAX ? curve->count : SPT_PLOT_CURVE_MAX;
    for (int i = 0; i < count; i++)
        percent[i] = 100 * curve->damage[i];
    spt_plot_curve(svg, "line s-steel w3", x, y, curve->times_h, percent, count);
}

static void draw_ends(struct spt_svg *svg, const struct spt_service_life *life,
                      const struct spt_axis *x, const struct spt_axis *y)
{
    double target_h = target_of(life), end = spt_axis_at(x, find_end(life));
    if (spt_axis_holds(x, target_h))
        spt_svg_line(svg, "s-moss w3 d1", spt_axis_at(x, target_h), y->start,
                     spt_axis_at(x, target_h), y->end);
    spt_svg_line(svg, "s-rust w2 d2", end, y->start, end, y->end);
    spt_svg_marker(svg, SPT_MARKER_DIAMOND, "rust", end,
                   spt_axis_at(y, 100 * life->timeline.damage_at_end));
}

static void write_end(const struct spt_service_life *life, char words[LENGTH])
{
    const struct spt_timeline *timeline = &life->timeline;
    char hours[SPT_HOURS_LENGTH];
    if (isnan(timeline->life_h))
        snprintf(words, LENGTH, "From %s h on no life can be stated; %.3g %% is spent by then",
                 write_hours(timeline->stopped_h, hours), 100 * timeline->damage_at_end);
    else if (isinf(timeline->life_h))
        snprintf(words, LENGTH, "Not spent by %s h, where this stops; %.3g %% is",
                 write_hours(timeline->until_h, hours), 100 * timeline->damage_at_end);
    else
        snprintf(words, LENGTH, "End of life: %s h at %.6g %% reliability",
                 write_hours(timeline->life_h, hours), life->question.reliability_percent);
}

static void write_target(const struct spt_service_life *life, bool drawn, char words[LENGTH])
{
    double target_h = target_of(life), life_h = life->timeline.life_h;
    char hours[SPT_HOURS_LENGTH];
    snprintf(words, LENGTH, "Target: %s h, %s%s", write_hours(target_h, hours),
             isinf(life_h) && life->timeline.until_h < target_h ? "beyond the hours looked at"
             : life_h >= target_h                               ? "met"
                                                                : "missed",
             drawn ? "" : " (right of this chart)");
}

static void write_foot(struct spt_svg *svg, const struct spt_service_life *life,
                       const struct spt_axis *x, int shown)
{
    char words[LENGTH], hours[SPT_HOURS_LENGTH];
    double target_h = target_of(life), quiet_h = life->timeline.undisturbed_h;
    int missing = life->timeline.influence_count - shown;
    write_end(life, words);
    spt_svg_marker(svg, SPT_MARKER_DIAMOND, "rust", 20, svg->height + 8);
    spt_plot_sentence(svg, words);
    if (!isnan(target_h)) {
        write_target(life, spt_axis_holds(x, target_h), words);
        spt_svg_line(svg, "s-moss w3 d1", 14, svg->height + 8, 26, svg->height + 8);
        spt_plot_sentence(svg, words);
    }
    if (isfinite(quiet_h)) {
        snprintf(words, LENGTH, "Without any event or drift: %s h", write_hours(quiet_h, hours));
        spt_plot_sentence(svg, words);
    }
    if (life->service.drift_count > 0) {
        spt_svg_rect(svg, "f-ochre-wash", 14, svg->height + 2, 12, 12);
        spt_svg_hatched(svg, 0, "edge", 14, svg->height + 2, 12, 12);
        spt_plot_sentence(svg, "while a drift goes on");
    }
    if (life->service.drift_count > 0 && !isnan(life->service.oil_change_every_h))
        spt_plot_sentence(svg, "Water and dirt of a drift start again at each oil change");
    if (missing > 0) {
        snprintf(words, LENGTH, "Not reached: %d event%s or drift%s", missing,
                 missing > 1 ? "s" : "", missing > 1 ? "s" : "");
        spt_plot_sentence(svg, words);
    }
    svg->height += 4;
}

void spt_chart_timeline(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_service_life *life = input->report->life;
    struct spt_axis x, y;
    struct spt_plot_point points[SPT_EVENTS_MAX + SPT_DRIFTS_MAX];
    double top = svg->height + 28;
    make_axes(life, top, &x, &y);
    fputs("Life spent in percent over running hours, with the events and drifts of the service. ",
          svg->desc);
    draw_influences(svg, life, &x, top);
    spt_plot_x_axis(svg, &x, top, top + HEIGHT, "running hours");
    spt_plot_y_axis(svg, &y, LEFT, RIGHT, "life spent (damage) in %");
    draw_curve(svg, &life->curve, &x, &y);
    draw_ends(svg, life, &x, &y);
    int count = collect_points(life, &x, &y, points);
    const struct spt_plot_area area = {LEFT, top, RIGHT, top + HEIGHT};
    spt_plot_points(svg, &area, points, count);
    for (int i = 0; i < count; i++)
        fprintf(svg->desc, "%s. ", points[i].tip);
    svg->height = top + HEIGHT + 38;
    spt_plot_key(svg, points, count);
    write_foot(svg, life, &x, count);
}
