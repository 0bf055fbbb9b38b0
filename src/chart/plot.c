/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/plot.h"

#include <math.h>
#include <string.h>

#define FONT 13.0
#define LABEL_RADIUS 8.0
#define POINTS_MAX 64
#define KEY_FONT 13.0
#define KEY_COLUMN 130.0 /* width of one of two columns of the key */
#define KEY_LINE 300.0
#define SENTENCE 302.0

/* True where a label of this half width overlaps none of those placed. */
static bool fits(const double *taken, const double *halves, int count, double at, double half)
{
    for (int i = 0; i < count; i++)
        if (fabs(taken[i] - at) < halves[i] + half)
            return false;
    return true;
}

/* The labels picked so far: position and half the extent of each along the axis. */
struct labels {
    int count;
    double at[SPT_TICKS_MAX], half[SPT_TICKS_MAX];
    bool picked[SPT_TICKS_MAX]; /* by tick */
};

/* Picks every `stride`-th labelled tick of a kind that does not overlap another; false where one of
 * them did. */
static bool pick_kind(const struct spt_axis *axis, bool across, bool major, int stride,
                      struct labels *labels)
{
    int seen = 0;
    bool all = true;
    for (int i = 0; i < axis->tick_count; i++) {
        const struct spt_tick *tick = &axis->ticks[i];
        if (!*tick->label || tick->major != major || !spt_axis_holds(axis, tick->value))
            continue;
        double at = spt_axis_at(axis, tick->value);
        double half = across ? 0.5 * spt_svg_text_width(tick->label, FONT) + 3 : 7;
        if (seen++ % stride)
            continue;
        if (!fits(labels->at, labels->half, labels->count, at, half)) {
            all = false;
            continue;
        }
        labels->at[labels->count] = at;
        labels->half[labels->count++] = half;
        labels->picked[i] = true;
    }
    return all;
}

/* Picks the major ticks in equal steps without overlap, then the minor ones that still fit. */
static void pick_labels(const struct spt_axis *axis, bool across, struct labels *labels)
{
    for (int stride = 1; stride <= SPT_TICKS_MAX; stride++) {
        *labels = (struct labels){0};
        if (pick_kind(axis, across, true, stride, labels))
            break;
    }
    pick_kind(axis, across, false, 1, labels);
}

/* The lines of a grid at the ticks of an axis, those of one kind in a row: they become one path. */
static void draw_grid(struct spt_svg *svg, const struct spt_axis *axis, bool across, double from,
                      double to)
{
    for (int major = 0; major < 2; major++)
        for (int i = 0; i < axis->tick_count; i++) {
            const struct spt_tick *tick = &axis->ticks[i];
            const double at = spt_axis_at(axis, tick->value);
            const char *classes = major ? "s-edge w1" : "s-rule w1";
            if (tick->major != (major == 1) || !spt_axis_holds(axis, tick->value))
                continue;
            if (across)
                spt_svg_line(svg, classes, at, from, at, to);
            else
                spt_svg_line(svg, classes, from, at, to, at);
        }
}

static void draw_ticks(struct spt_svg *svg, const struct spt_axis *axis, double y)
{
    spt_svg_line(svg, "s-edge w1", axis->start, y, axis->end, y);
    for (int i = 0; i < axis->tick_count; i++) {
        const double x = spt_axis_at(axis, axis->ticks[i].value);
        if (spt_axis_holds(axis, axis->ticks[i].value))
            spt_svg_line(svg, "s-edge w1", x, y, x, y + (axis->ticks[i].major ? 5 : 3));
    }
}

/* Labels below an axis; the last one may be too long for its place and moves onto the paper. */
static void write_labels(struct spt_svg *svg, const struct spt_axis *axis, double y)
{
    struct labels labels;
    pick_labels(axis, true, &labels);
    for (int i = 0; i < axis->tick_count; i++) {
        const struct spt_tick *tick = &axis->ticks[i];
        const double half = 0.5 * spt_svg_text_width(tick->label, FONT);
        if (labels.picked[i])
            spt_svg_text(svg, "quiet", SPT_SVG_MIDDLE,
                         fmin(spt_axis_at(axis, tick->value), svg->width - half), y, tick->label);
    }
}

void spt_plot_x_axis(struct spt_svg *svg, const struct spt_axis *axis, double top, double bottom,
                     const char *title)
{
    draw_grid(svg, axis, true, top, bottom);
    write_labels(svg, axis, bottom + 14);
    spt_svg_text(svg, "quiet", SPT_SVG_MIDDLE, 0.5 * (axis->start + axis->end), bottom + 30, title);
}

void spt_plot_scale(struct spt_svg *svg, const struct spt_axis *axis, double y, const char *title)
{
    draw_ticks(svg, axis, y);
    write_labels(svg, axis, y + 15);
    spt_svg_text(svg, "quiet", SPT_SVG_MIDDLE, 0.5 * (axis->start + axis->end), y + 30, title);
}

void spt_plot_y_axis(struct spt_svg *svg, const struct spt_axis *axis, double left, double right,
                     const char *title)
{
    struct labels labels;
    pick_labels(axis, false, &labels);
    draw_grid(svg, axis, false, left, right);
    for (int i = 0; i < axis->tick_count; i++)
        if (labels.picked[i])
            spt_svg_text(svg, "quiet", SPT_SVG_END, left - 5,
                         spt_axis_at(axis, axis->ticks[i].value) + 4, axis->ticks[i].label);
    spt_svg_text(svg, "quiet", SPT_SVG_START, 8, fmin(axis->start, axis->end) - 9, title);
}

/* Fraction of the way from a value inside the axis to one outside at which the axis ends; 1: the
 * second is inside too. */
static double find_end(const struct spt_axis *axis, double inside, double outside)
{
    double least = fmin(axis->start, axis->end), most = fmax(axis->start, axis->end);
    double edge = outside < least ? least : most;
    if (outside >= least && outside <= most)
        return 1;
    return outside == inside ? 0 : fmin(fmax((edge - inside) / (outside - inside), 0), 1);
}

/* The point where a line from inside leaves the area. */
static struct spt_svg_point leave(const struct spt_axis *x, const struct spt_axis *y,
                                  struct spt_svg_point inside, struct spt_svg_point outside)
{
    double part = fmin(find_end(x, inside.x, outside.x), find_end(y, inside.y, outside.y));
    return (struct spt_svg_point){inside.x + part * (outside.x - inside.x),
                                  inside.y + part * (outside.y - inside.y)};
}

void spt_plot_curve(struct spt_svg *svg, const char *classes, const struct spt_axis *x,
                    const struct spt_axis *y, const double *xs, const double *ys, int count)
{
    struct spt_svg_point points[3 * SPT_PLOT_CURVE_MAX], before = {(double)NAN, (double)NAN};
    bool before_held = false;
    int used = 0;
    for (int i = 0; i < count && i < SPT_PLOT_CURVE_MAX; i++) {
        struct spt_svg_point at = {spt_axis_at(x, xs[i]), spt_axis_at(y, ys[i])};
        bool held = spt_axis_holds(x, xs[i]) && spt_axis_holds(y, ys[i]);
        bool both = isfinite(at.x) && isfinite(at.y) && isfinite(before.x) && isfinite(before.y);
        if (both && held != before_held)
            points[used++] = held ? leave(x, y, at, before) : leave(x, y, before, at);
        points[used++] = held ? at : (struct spt_svg_point){(double)NAN, (double)NAN};
        before = at;
        before_held = held;
    }
    spt_svg_path(svg, classes, points, used, false);
}

static bool overlaps(double ax, double ay, double bx, double by, double distance)
{
    return hypot(ax - bx, ay - by) < distance;
}

/* Places the number of point `index` at the first free position around it. */
static struct spt_svg_point place_number(const struct spt_plot_area *area,
                                         const struct spt_plot_point *points, int count,
                                         const struct spt_svg_point *placed, int index)
{
    static const double ways[][2] = {{1, -1},   {1, 1},   {-1, -1}, {-1, 1},
                                     {0, -1.3}, {0, 1.3}, {1.3, 0}, {-1.3, 0}};
    const struct spt_plot_point *point = &points[index];
    for (int ring = 1; ring <= 6; ring++)
        for (int way = 0; way < 8; way++) {
            double x = point->x + 11.0 * ring * ways[way][0];
            double y = point->y + 11.0 * ring * ways[way][1];
            bool free = x > area->left + LABEL_RADIUS && x < area->right - LABEL_RADIUS &&
                        y > area->top + LABEL_RADIUS && y < area->bottom - LABEL_RADIUS;
            for (int i = 0; i < count && free; i++)
                free =
                    !overlaps(x, y, points[i].x, points[i].y, LABEL_RADIUS + 4) &&
                    !(i < index && overlaps(x, y, placed[i].x, placed[i].y, 2 * LABEL_RADIUS + 1));
            if (free)
                return (struct spt_svg_point){x, y};
        }
    /* no position is free: place it beside the point, on the side away from the nearest edge */
    bool left = point->x > 0.5 * (area->left + area->right);
    return (struct spt_svg_point){point->x + (left ? -11 : 11), point->y};
}

void spt_plot_points(struct spt_svg *svg, const struct spt_plot_area *area,
                     const struct spt_plot_point *points, int count)
{
    struct spt_svg_point placed[POINTS_MAX];
    count = count < POINTS_MAX ? count : POINTS_MAX;
    for (int i = 0; i < count; i++)
        placed[i] = place_number(area, points, count, placed, i);
    for (int i = 0; i < count; i++) {
        char number[16];
        const struct spt_plot_point *point = &points[i];
        snprintf(number, sizeof number, "%d", point->number);
        spt_svg_open(svg, point->tip);
        spt_svg_line(svg, "s-ink w1", point->x, point->y, placed[i].x, placed[i].y);
        if (point->off)
            spt_svg_marker(svg, SPT_MARKER_TRIANGLE, "rust", point->x, point->y);
        else
            spt_svg_marker(svg, SPT_MARKER_DISC, "ink", point->x, point->y);
        spt_svg_rect(svg, "f-paper s-ink w1", placed[i].x - LABEL_RADIUS,
                     placed[i].y - LABEL_RADIUS + 1, 2 * LABEL_RADIUS, 2 * LABEL_RADIUS - 2);
        spt_svg_text(svg, "small bold", SPT_SVG_MIDDLE, placed[i].x, placed[i].y + 4, number);
        spt_svg_close(svg);
    }
}

static void draw_entry(struct spt_svg *svg, const struct spt_plot_point *point, double x, double y,
                       double width)
{
    char number[16];
    const struct spt_svg_block block = {"", x + 21, y, width, KEY_FONT};
    snprintf(number, sizeof number, "%d", point->number);
    spt_svg_text(svg, "bold", SPT_SVG_END, x + 14, y, number);
    spt_svg_text_block(svg, &block, point->name);
}

static bool all_short(const struct spt_plot_point *points, int count)
{
    for (int i = 0; i < count; i++)
        if (spt_svg_text_width(points[i].name, KEY_FONT) > KEY_COLUMN)
            return false;
    return true;
}

void spt_plot_key(struct spt_svg *svg, const struct spt_plot_point *points, int count)
{
    bool columns = all_short(points, count);
    int lines = columns ? (count + 1) / 2 : 0;
    for (int i = 0; i < count; i++) {
        if (columns) {
            draw_entry(svg, &points[i], i < lines ? 14 : 178, svg->height + 15 + 17 * (i % lines),
                       KEY_COLUMN);
            continue;
        }
        draw_entry(svg, &points[i], 14, svg->height + 15, KEY_LINE);
        svg->height += 1 + SPT_SVG_LINE * spt_svg_text_lines(points[i].name, KEY_LINE, KEY_FONT);
    }
    svg->height += 17 * lines + 8;
}

void spt_plot_sentence(struct spt_svg *svg, const char *words)
{
    const struct spt_svg_block block = {"small", 31, svg->height + 12, SENTENCE, FONT};
    spt_svg_text_block(svg, &block, words);
    size_t length = strlen(words);
    fprintf(svg->desc, "%s%s ", words, length && words[length - 1] == '.' ? "" : ".");
    svg->height += 1 + SPT_SVG_LINE * spt_svg_text_lines(words, SENTENCE, FONT);
}

void spt_plot_spread(double *y, int count, double gap, double top, double bottom)
{
    for (int round = 0; round < 40; round++)
        for (int i = 0; i < count; i++)
            for (int k = 0; k < count; k++) {
                double apart = y[k] - y[i];
                if (i == k || apart < 0 || (apart == 0 && k < i) || apart >= gap)
                    continue;
                double push = 0.5 * (gap - apart);
                y[i] = fmax(y[i] - push, top);
                y[k] = fmin(y[k] + push, bottom);
            }
}
