/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/rows.h"

#include <math.h>

#include "chart/chart.h"
#include "chart/plot.h"
#include "format/text.h"

#define LEFT 34.0
#define STRIP 9.0 /* half the height of the strip with the lives */
#define ROW_HEIGHT 40.0
#define FONT 13.0
#define BAR_LEFT 252.0
#define BAR_WIDTH 76.0

static void stretch(double life_h, double *low, double *high)
{
    if (!isfinite(life_h) || !(life_h > 0))
        return;
    *low = fmin(*low, life_h);
    *high = fmax(*high, life_h);
}

/* The axis over every life that can be drawn; false where there is none. */
static bool make_axis(const struct spt_rows *rows, double right, struct spt_axis *axis)
{
    double low = (double)INFINITY, high = 0;
    for (int i = 0; i < rows->count; i++) {
        stretch(rows->rows[i].to_h, &low, &high);
        stretch(rows->rows[i].from_h, &low, &high);
    }
    for (int i = 0; i < 2; i++)
        stretch(rows->marks[i].life_h, &low, &high);
    if (!(high > 0) || !spt_axis_log(axis, low, high))
        return false;
    axis->start = LEFT;
    axis->end = right;
    return true;
}

static void draw_strip(struct spt_svg *svg, const struct spt_rows *rows,
                       const struct spt_axis *axis, double y)
{
    spt_svg_rect(svg, "f-card", LEFT, y - STRIP, axis->end - LEFT, 2 * STRIP);
    for (int i = 0; i < axis->tick_count; i++) {
        double x = spt_axis_at(axis, axis->ticks[i].value);
        if (axis->ticks[i].major)
            spt_svg_line(svg, "s-edge w1", x, y - STRIP, x, y + STRIP);
    }
    for (int i = 0; i < 2; i++) {
        double x = spt_axis_at(axis, rows->marks[i].life_h);
        if (isfinite(x))
            spt_svg_line(svg, rows->marks[i].classes, x, y - STRIP - 1, x, y + STRIP + 1);
    }
}

static bool is_drawn(const struct spt_row_mark *mark)
{
    return isfinite(mark->life_h) && mark->life_h > 0;
}

/* Writes the name of a mark. Result: half its width. */
static double write_mark(const struct spt_row_mark *mark, char *words, size_t size)
{
    char hours[SPT_HOURS_LENGTH];
    snprintf(words, size, "%s %s h", mark->words, spt_chart_hours(mark->life_h, hours));
    return 0.5 * spt_svg_text_width(words, 13);
}

static void name_mark(struct spt_svg *svg, const struct spt_axis *axis,
                      const struct spt_row_mark *mark, double top, double base)
{
    char words[80];
    double x = spt_axis_at(axis, mark->life_h);
    if (!is_drawn(mark))
        return;
    double half = write_mark(mark, words, sizeof words);
    spt_svg_line(svg, mark->classes, x, base + 4, x, top + 3);
    spt_svg_text(svg, "small", SPT_SVG_MIDDLE, fmax(fmin(x, axis->end + 12 - half), 14 + half),
                 base, words);
}

/* True where the names of the two marks need separate lines. */
static bool marks_touch(const struct spt_rows *rows, const struct spt_axis *axis)
{
    char words[80];
    if (!is_drawn(&rows->marks[0]) || !is_drawn(&rows->marks[1]))
        return false;
    double needed = 8;
    for (int i = 0; i < 2; i++)
        needed += write_mark(&rows->marks[i], words, sizeof words);
    /* a name near an end is moved inwards by up to half its width */
    return fabs(spt_axis_at(axis, rows->marks[0].life_h) -
                spt_axis_at(axis, rows->marks[1].life_h)) < needed + 40;
}

static void draw_lives(struct spt_svg *svg, const struct spt_rows *rows, const struct spt_row *row,
                       const struct spt_axis *axis, double y)
{
    double from = spt_axis_at(axis, row->from_h), to = spt_axis_at(axis, row->to_h);
    const char *color = row->bad ? "rust" : "steel";
    if (isfinite(from) && isfinite(to))
        spt_svg_line(svg, row->bad ? "s-rust w2 d2" : "s-steel w2", from, y, to, y);
    if (isfinite(from) && rows->ring_words)
        spt_svg_marker(svg, SPT_MARKER_RING, color, from, y);
    if (isfinite(to))
        spt_svg_marker(svg, row->bad ? SPT_MARKER_TRIANGLE : SPT_MARKER_DISC, color, to, y);
}

static void draw_share(struct spt_svg *svg, const struct spt_row *row, double y)
{
    char words[32] = "-";
    if (!isnan(row->share)) {
        double length = BAR_WIDTH * fmin(fmax(row->share, 0), 1);
        spt_svg_hatched(svg, 0, "steel", BAR_LEFT, y - 5, length, 10);
        snprintf(words, sizeof words, "%.1f %%", 100 * row->share);
    }
    spt_svg_line(svg, "s-edge w1", BAR_LEFT, y - 8, BAR_LEFT, y + 8);
    spt_svg_text(svg, "", SPT_SVG_END, BAR_LEFT + BAR_WIDTH, y - 13, words);
}

/* Width available for the name beside the value. */
static double find_width(const struct spt_row *row, double right)
{
    return right - 16 - spt_svg_text_width(row->value, FONT);
}

/* Distance by which further lines of the name move the strip of a row down. */
static double find_more(const struct spt_row *row, double right)
{
    int lines = spt_svg_text_lines(row->name, find_width(row, right), FONT);
    return lines > 1 ? SPT_SVG_LINE * (lines - 1) : 0;
}

/* Draws a row. Result: its height. */
static double draw_row(struct spt_svg *svg, const struct spt_rows *rows, const struct spt_row *row,
                       const struct spt_axis *axis, double top, double right)
{
    const struct spt_svg_block name = {"", 14, top + 16, find_width(row, right), FONT};
    double more = find_more(row, right);
    spt_svg_open(svg, row->tip);
    spt_svg_text_block(svg, &name, row->name);
    spt_svg_text(svg, "bold", SPT_SVG_END, right + 12, top + 16, row->value);
    top += more;
    if (axis) {
        draw_strip(svg, rows, axis, top + 29);
        draw_lives(svg, rows, row, axis, top + 29);
    }
    if (rows->share_title)
        draw_share(svg, row, top + 29);
    spt_svg_close(svg);
    return ROW_HEIGHT + more;
}

static void draw_key_entry(struct spt_svg *svg, enum spt_svg_marker marker, const char *color,
                           const char *words)
{
    if (!words)
        return;
    spt_svg_marker(svg, marker, color, 20, svg->height + 8);
    spt_svg_text(svg, "small", SPT_SVG_START, 31, svg->height + 12, words);
    svg->height += 17;
}

static bool has_bad(const struct spt_rows *rows, bool bad)
{
    for (int i = 0; i < rows->count; i++)
        if (rows->rows[i].bad == bad && isfinite(rows->rows[i].to_h))
            return true;
    return false;
}

static void draw_key(struct spt_svg *svg, const struct spt_rows *rows)
{
    draw_key_entry(svg, SPT_MARKER_RING, "steel", rows->ring_words);
    if (has_bad(rows, false))
        draw_key_entry(svg, SPT_MARKER_DISC, "steel", rows->disc_words);
    if (has_bad(rows, true))
        draw_key_entry(svg, SPT_MARKER_TRIANGLE, "rust", rows->triangle_words);
    svg->height += 5;
}

void spt_rows_draw(struct spt_svg *svg, const struct spt_rows *rows)
{
    struct spt_axis axis;
    double right = rows->share_title ? 228 : 314;
    bool drawn = make_axis(rows, right, &axis);
    bool twice = drawn && marks_touch(rows, &axis);
    bool headed = rows->share_title || is_drawn(&rows->marks[0]) || is_drawn(&rows->marks[1]);
    double top = svg->height + (twice ? 42 : headed ? 26 : 4), bottom = top + 2;
    for (int i = 0; i < rows->count; i++)
        bottom += ROW_HEIGHT + find_more(&rows->rows[i], right);
    if (drawn) {
        spt_plot_x_axis(svg, &axis, bottom, bottom, "life in hours, log scale");
        for (int i = 0; i < 2; i++)
            name_mark(svg, &axis, &rows->marks[i], top, top - 8 - (twice && i == 0 ? 15 : 0));
    }
    if (rows->share_title)
        spt_svg_text(svg, "quiet", SPT_SVG_END, BAR_LEFT + BAR_WIDTH, top - 8, rows->share_title);
    for (int i = 0; i < rows->count; i++)
        top += draw_row(svg, rows, &rows->rows[i], drawn ? &axis : NULL, top, right);
    svg->height = bottom + (drawn ? 38 : 8);
    draw_key(svg, rows);
}
