/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "chart/chart.h"
#include "chart/plot.h"
#include "format/text.h"
#include "spalltime/lubricant.h"

#define LEFT 46.0
#define RIGHT 292.0
#define HEIGHT 290.0
#define LOWEST 1e-4 /* lower end of the x axis */
#define HIGHEST 1e2

static bool has_factor(const struct spt_phase_result *phase)
{
    return !isnan(phase->factor.a_iso);
}

bool spt_chart_contamination_applies(const struct spt_chart_input *input)
{
    for (int i = 0; i < input->bearing->phase_count; i++)
        if (has_factor(&input->bearing->phases[i]))
            return true;
    return false;
}

static void make_axes(const struct spt_bearing_result *bearing, double top, struct spt_axis *x,
                      struct spt_axis *y)
{
    double low = 0.005, high = 5;
    for (int i = 0; i < bearing->phase_count; i++) {
        double value = bearing->phases[i].factor.x;
        if (!has_factor(&bearing->phases[i]) || !(value > 0))
            continue;
        low = fmin(low, value);
        high = fmax(high, value);
    }
    spt_axis_log(x, SPT_KAPPA_MIN, SPT_KAPPA_MAX);
    x->high = SPT_KAPPA_MAX;
    x->start = LEFT;
    x->end = RIGHT;
    spt_axis_log(y, fmax(low, LOWEST), fmin(high, HIGHEST));
    y->start = top + HEIGHT;
    y->end = top;
}

/* The y position of a contour at one kappa, limited to the edges of the area; a value that is never
 * reached is at the upper edge. */
static double find_height(const struct spt_axis *y, double value)
{
    return isnan(value) ? y->end : spt_axis_at(y, fmin(fmax(value, y->low), y->high));
}

/* Fills the area between contour `lower` (-1: the bottom) and contour `upper` (or the top). */
static void fill_between(struct spt_svg *svg, const struct spt_contours *map, int lower, int upper,
                         const char *classes, const struct spt_axis *x, const struct spt_axis *y)
{
    struct spt_svg_point points[2 * SPT_CONTOUR_POINTS];
    for (int i = 0; i < SPT_CONTOUR_POINTS; i++) {
        struct spt_svg_point *there = &points[i], *back = &points[2 * SPT_CONTOUR_POINTS - 1 - i];
        there->x = back->x = spt_axis_at(x, map->viscosity_ratio[i]);
        there->y = lower < 0 ? y->start : find_height(y, map->contours[lower].x[i]);
        back->y = upper < 0 ? y->end : find_height(y, map->contours[upper].x[i]);
    }
    spt_svg_path(svg, classes, points, 2 * SPT_CONTOUR_POINTS, true);
}

static int find_contour(const struct spt_contours *map, double a_iso)
{
    for (int i = 0; i < SPT_CONTOUR_COUNT; i++)
        if (map->contours[i].a_iso == a_iso)
            return i;
    return -1;
}

static void draw_ground(struct spt_svg *svg, const struct spt_contours *map,
                        const struct spt_axis *x, const struct spt_axis *y)
{
    int one = find_contour(map, 1), ten = find_contour(map, 10), full = SPT_CONTOUR_COUNT - 1;
    fill_between(svg, map, -1, one, "f-rust-wash", x, y);
    fill_between(svg, map, one, ten, "f-ochre-wash", x, y);
    fill_between(svg, map, ten, full, "f-moss-wash", x, y);
    fill_between(svg, map, full, -1, "f-steel-wash", x, y);
}

static void draw_contour(struct spt_svg *svg, const struct spt_contours *map, int index,
                         const struct spt_axis *x, const struct spt_axis *y)
{
    const struct spt_contour *contour = &map->contours[index];
    bool strong = contour->a_iso == 1;
    bool last = index == SPT_CONTOUR_COUNT - 1;
    const char *classes = strong ? "line s-ink w3" : last ? "line s-moss w2 d1" : "line s-muted w1";
    spt_plot_curve(svg, classes, x, y, map->viscosity_ratio, contour->x, SPT_CONTOUR_POINTS);
}

static void name_contours(struct spt_svg *svg, const struct spt_contours *map,
                          const struct spt_axis *y)
{
    double ends[SPT_CONTOUR_COUNT], spots[SPT_CONTOUR_COUNT];
    int count = 0, first = 0;
    for (int i = 0; i < SPT_CONTOUR_COUNT; i++) {
        double end = map->contours[i].x[SPT_CONTOUR_POINTS - 1];
        if (!spt_axis_holds(y, end)) {
            first = count ? first : i + 1;
            continue;
        }
        ends[count] = spots[count] = spt_axis_at(y, end);
        count++;
    }
    spt_plot_spread(spots, count, 15, y->end, y->start);
    for (int i = 0; i < count; i++) {
        char words[32];
        double a_iso = map->contours[first + i].a_iso;
        snprintf(words, sizeof words, "%g", a_iso);
        spt_svg_line(svg, "s-edge w1", RIGHT + 1, ends[i], RIGHT + 10, spots[i]);
        spt_svg_text(svg, a_iso == 1 ? "bold" : "small", SPT_SVG_START, RIGHT + 13, spots[i] + 4,
                     words);
    }
    spt_svg_text(svg, "quiet", SPT_SVG_END, RIGHT + 38, y->end - 9, "a_ISO");
}

static void write_tip(struct spt_plot_point *point, const struct spt_phase_result *phase)
{
    char a_iso[SPT_HOURS_LENGTH], kappa[SPT_HOURS_LENGTH], x[SPT_HOURS_LENGTH];
    snprintf(point->tip, sizeof point->tip, "%.200s: a_ISO %s at kappa %s and e_C C_u/P %s%s%s",
             phase->phase->name, spt_text_number(phase->factor.a_iso, a_iso),
             spt_text_number(phase->factor.viscosity_ratio, kappa),
             spt_text_number(phase->factor.x, x),
             phase->factor.ep_applied ? ", EP rule: at most 3" : "",
             point->off ? ", beyond the edge of the chart" : "");
}

static int collect_points(const struct spt_bearing_result *bearing, const struct spt_axis *x,
                          const struct spt_axis *y, struct spt_plot_point *points)
{
    int count = 0;
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *phase = &bearing->phases[i];
        if (!has_factor(phase) || !spt_chart_shows_phase(bearing, i))
            continue;
        struct spt_plot_point *point = &points[count++];
        *point = (struct spt_plot_point){
            .x = spt_axis_at(x, phase->factor.viscosity_ratio),
            .y = find_height(y, phase->factor.x),
            .number = i + 1,
            .name = phase->phase->name,
            .off = !spt_axis_holds(y, phase->factor.x),
        };
        write_tip(point, phase);
    }
    return count;
}

static void write_foot(struct spt_svg *svg)
{
    spt_svg_line(svg, "s-ink w3", 8, svg->height + 8, 26, svg->height + 8);
    spt_plot_sentence(svg, "a_ISO 1: below this line dirt and thin film shorten the life");
    spt_svg_line(svg, "s-moss w2 d1", 8, svg->height + 8, 26, svg->height + 8);
    spt_plot_sentence(svg, "a_ISO 50: above this line the standard credits no more");
    svg->height += 4;
}

void spt_chart_contamination(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_contours *map = &input->part->contours[input->bearing_index];
    enum spt_bearing_type type = input->bearing->bearing_case->bearing.type;
    struct spt_axis x, y;
    struct spt_plot_point points[SPT_CHART_PHASES_MAX];
    double top = svg->height + 28;
    make_axes(input->bearing, top, &x, &y);
    fputs("Contours of the life modification factor a_ISO over the viscosity ratio kappa and e_C "
          "C_u/P, both on log axes. ",
          svg->desc);
    draw_ground(svg, map, &x, &y);
    spt_plot_x_axis(svg, &x, top, top + HEIGHT, "kappa: thin film at the left, thick at the right");
    spt_plot_y_axis(svg, &y, LEFT, RIGHT,
                    !spt_bearing_is_thrust(type) ? "e_C C_u/P: dirt or load at the bottom"
                    : spt_bearing_is_ball(type)  ? "e_C C_u/(3 P): dirt or load at the bottom"
                                                 : "e_C C_u/(2.5 P): dirt or load at the bottom");
    for (int i = 0; i < SPT_CONTOUR_COUNT; i++)
        draw_contour(svg, map, i, &x, &y);
    name_contours(svg, map, &y);
    int count = collect_points(input->bearing, &x, &y, points);
    const struct spt_plot_area area = {LEFT, top, RIGHT, top + HEIGHT};
    spt_plot_points(svg, &area, points, count);
    for (int i = 0; i < count; i++)
        fprintf(svg->desc, "%s. ", points[i].tip);
    svg->height = top + HEIGHT + 38;
    spt_plot_key(svg, points, count);
    write_foot(svg);
}
