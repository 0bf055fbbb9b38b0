/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "chart/chart.h"
#include "chart/plot.h"
#include "format/text.h"
#include "spalltime/lubricant.h"

#define LEFT 48.0
#define RIGHT 352.0
#define HEIGHT 290.0
#define OWN_SPEED_K 12 /* the curve of a phase is drawn this far to each side */
#define LOWEST 0.03    /* lower limit of the kappa axis, far below the bands */
#define HIGHEST 40.0

bool spt_chart_film_applies(const struct spt_chart_input *input)
{
    return input->part->film[input->bearing_index].curve_count > 0;
}

/* Index of the last point of the curves whose temperature is not above this one, excluding the
 * final point. */
static int nearest_point(const struct spt_film_curves *film, double temperature_c)
{
    int i = 0;
    while (i < SPT_FILM_POINTS - 2 && film->temperature_c[i + 1] <= temperature_c)
        i++;
    return i;
}

/* True where worn grease thins the film visibly: the chart then shows both points. */
static bool is_thinned(const struct spt_phase_result *phase)
{
    return phase->effective_viscosity_ratio < 0.97 * phase->viscosity_ratio;
}

static void make_axes(const struct spt_film_curves *film, const struct spt_bearing_result *bearing,
                      double top, struct spt_axis *x, struct spt_axis *y)
{
    double low = 0.05, high = 10; /* all four bands are visible */
    for (int k = 0; k < film->curve_count; k++)
        for (int i = 0; i < SPT_FILM_POINTS; i++) {
            double kappa = film->curves[k].viscosity_ratio[i];
            low = isnan(kappa) ? low : fmin(low, kappa);
            high = isnan(kappa) ? high : fmax(high, kappa);
        }
    for (int i = 0; i < bearing->phase_count; i++) {
        double kappa = bearing->phases[i].effective_viscosity_ratio;
        low = kappa > 0 ? fmin(low, kappa) : low;
        high = kappa > 0 ? fmax(high, kappa) : high;
    }
    spt_axis_linear(x, film->temperature_c[0], film->temperature_c[SPT_FILM_POINTS - 1], 6);
    x->low = film->temperature_c[0];
    x->high = film->temperature_c[SPT_FILM_POINTS - 1];
    x->start = LEFT;
    x->end = RIGHT;
    spt_axis_log(y, fmax(low, LOWEST), fmin(high, HIGHEST));
    y->start = top + HEIGHT;
    y->end = top;
}

struct band {
    double low, high;
    int hatch; /* -1: none */
    const char *wash;
    const char *words;
};
static const struct band bands[] = {
    {0, SPT_KAPPA_MIN, 3, "f-rust-wash", "below 0.1: no life can be given"},
    {SPT_KAPPA_MIN, 1, 0, "f-ochre-wash", "0.1 to 1: thin film, metal touches"},
    {1, SPT_KAPPA_MAX, -1, "f-moss-wash", "1 to 4: a film that carries"},
    {SPT_KAPPA_MAX, (double)INFINITY, 2, "f-steel-wash", "above 4: counts as 4"},
};

static double find_edge(const struct spt_axis *y, double kappa)
{
    return spt_axis_at(y, fmin(fmax(kappa, y->low), y->high));
}

static void draw_bands(struct spt_svg *svg, const struct spt_axis *y)
{
    for (size_t i = 0; i < sizeof bands / sizeof *bands; i++) {
        double bottom = find_edge(y, bands[i].low), top = find_edge(y, bands[i].high);
        if (bottom - top < 1)
            continue;
        spt_svg_rect(svg, bands[i].wash, LEFT, top, RIGHT - LEFT, bottom - top);
        if (bands[i].hatch >= 0)
            spt_svg_hatched(svg, bands[i].hatch, "rule", LEFT, top, RIGHT - LEFT, bottom - top);
    }
}

static bool is_inside(const struct spt_plot_area *box, double x, double y, double margin)
{
    return x > box->left - margin && x < box->right + margin && y > box->top - margin &&
           y < box->bottom + margin;
}

/* Weight of what a text in this box would cover; points count most. */
static int count_covered(const struct spt_plot_area *box, const struct spt_film_curves *film,
                         const struct spt_axis *x, const struct spt_axis *y,
                         const struct spt_plot_point *points, int count)
{
    int covered = 0;
    for (int i = 0; i < count; i++)
        covered += 100 * is_inside(box, points[i].x, points[i].y, 22);
    for (int k = 0; k < film->curve_count; k++)
        for (int i = 0; i < SPT_FILM_POINTS; i++)
            covered += is_inside(box, spt_axis_at(x, film->temperature_c[i]),
                                 spt_axis_at(y, film->curves[k].viscosity_ratio[i]), 2);
    return covered;
}

/* Writes the name of each band into the corner where it covers least. */
static void name_bands(struct spt_svg *svg, const struct spt_film_curves *film,
                       const struct spt_axis *x, const struct spt_axis *y,
                       const struct spt_plot_point *points, int count)
{
    for (size_t i = 0; i < sizeof bands / sizeof *bands; i++) {
        double bottom = find_edge(y, bands[i].low), top = find_edge(y, bands[i].high);
        double width = spt_svg_text_width(bands[i].words, 11.5);
        struct spt_plot_area best = {0};
        int least = -1;
        for (int corner = 0; corner < 4 && bottom - top >= 14; corner++) {
            double left = corner & 1 ? LEFT + 6 : RIGHT - 6 - width;
            double foot = corner & 2 ? bottom - 3 : top + 17;
            const struct spt_plot_area box = {left, foot - 13, left + width, foot};
            int covered = count_covered(&box, film, x, y, points, count);
            if (least >= 0 && covered >= least)
                continue;
            least = covered;
            best = box;
        }
        if (least >= 0)
            spt_svg_text(svg, "small halo", SPT_SVG_START, best.left, best.bottom - 3,
                         bands[i].words);
    }
}

/* The last value of a curve inside the area. */
static double find_end(const struct spt_film_curve *curve, const struct spt_axis *y)
{
    for (int i = SPT_FILM_POINTS - 1; i >= 0; i--)
        if (spt_axis_holds(y, curve->viscosity_ratio[i]))
            return spt_axis_at(y, curve->viscosity_ratio[i]);
    return (double)NAN;
}

static void name_curves(struct spt_svg *svg, const struct spt_film_curves *film,
                        const struct spt_axis *y)
{
    double ends[SPT_FILM_CURVES_MAX], spots[SPT_FILM_CURVES_MAX];
    for (int i = 0; i < film->curve_count; i++) {
        ends[i] = find_end(&film->curves[i], y);
        spots[i] = isnan(ends[i]) ? y->start : ends[i];
    }
    spt_plot_spread(spots, film->curve_count, 14, y->end, y->start);
    for (int i = 0; i < film->curve_count; i++) {
        char words[48] = "this oil";
        if (film->curves[i].grade)
            snprintf(words, sizeof words, "VG %d", film->curves[i].grade);
        spt_svg_line(svg, "s-edge w1", RIGHT + 1, ends[i], RIGHT + 12, spots[i]);
        spt_svg_text(svg, film->curves[i].grade ? "small" : "bold", SPT_SVG_START, RIGHT + 15,
                     spots[i] + 4, words);
    }
}

static void draw_curves(struct spt_svg *svg, const struct spt_film_curves *film,
                        const struct spt_axis *x, const struct spt_axis *y)
{
    static const char *const dashes[] = {"line s-muted w2 d1", "line s-muted w2 d2",
                                         "line s-muted w2 d3", "line s-muted w2 d4"};
    int dash = 0;
    for (int i = 0; i < film->curve_count; i++) {
        bool own = film->curves[i].grade == 0;
        spt_plot_curve(svg, own ? "line s-steel w3" : dashes[dash++ % 4], x, y, film->temperature_c,
                       film->curves[i].viscosity_ratio, SPT_FILM_POINTS);
    }
}

/* Draws the curve of the oil of the case through each phase that runs at another speed, near its
 * temperature: on a log axis another speed only shifts the curve. */
static void draw_own_speeds(struct spt_svg *svg, const struct spt_chart_input *input,
                            const struct spt_axis *x, const struct spt_axis *y)
{
    const struct spt_film_curves *film = &input->part->film[input->bearing_index];
    const struct spt_film_curve *own = film->curves;
    while (own->grade)
        own++;
    for (int i = 0; i < input->bearing->phase_count; i++) {
        const struct spt_phase_result *phase = &input->bearing->phases[i];
        double ratios[SPT_FILM_POINTS], at_c = phase->temperature_c;
        int near = nearest_point(film, at_c);
        if (!(phase->viscosity_ratio > 0) || phase->phase->speed_rpm == film->speed_rpm ||
            !spt_chart_shows_phase(input->bearing, i))
            continue;
        double step_c = film->temperature_c[1] - film->temperature_c[0];
        double slope = log(own->viscosity_ratio[near + 1] / own->viscosity_ratio[near]) / step_c;
        double here = own->viscosity_ratio[near] * exp(slope * (at_c - film->temperature_c[near]));
        for (int k = 0; k < SPT_FILM_POINTS; k++)
            ratios[k] = fabs(film->temperature_c[k] - at_c) > OWN_SPEED_K
                            ? (double)NAN
                            : own->viscosity_ratio[k] * phase->viscosity_ratio / here;
        spt_plot_curve(svg, "line s-steel w1", x, y, film->temperature_c, ratios, SPT_FILM_POINTS);
    }
}

static int collect_points(const struct spt_chart_input *input, const struct spt_axis *x,
                          const struct spt_axis *y, struct spt_plot_point *points)
{
    int count = 0;
    const struct spt_bearing_result *bearing = input->bearing;
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *phase = &bearing->phases[i];
        double kappa = phase->effective_viscosity_ratio;
        char number[SPT_HOURS_LENGTH];
        if (!(kappa > 0) || !spt_chart_shows_phase(bearing, i))
            continue;
        struct spt_plot_point *point = &points[count++];
        *point = (struct spt_plot_point){
            .x = spt_axis_at(x, phase->temperature_c),
            .y = find_edge(y, kappa),
            .number = i + 1,
            .name = phase->phase->name,
            .off = !spt_axis_holds(y, kappa),
        };
        spt_text_number(kappa, number);
        snprintf(point->tip, sizeof point->tip, "%.200s: %.4g degC, %.6g r/min, kappa %s%s",
                 phase->phase->name, phase->temperature_c, phase->phase->speed_rpm, number,
                 is_thinned(phase) ? ", thinned by worn grease" : "");
    }
    return count;
}

/* Draws a line from kappa of the fresh lubricant down to kappa with worn grease. */
static void draw_thinning(struct spt_svg *svg, const struct spt_bearing_result *bearing,
                          const struct spt_axis *x, const struct spt_axis *y)
{
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *phase = &bearing->phases[i];
        if (!(phase->effective_viscosity_ratio > 0) || !is_thinned(phase) ||
            !spt_chart_shows_phase(bearing, i))
            continue;
        double at = spt_axis_at(x, phase->temperature_c);
        double fresh = find_edge(y, phase->viscosity_ratio);
        spt_svg_line(svg, "s-rust w2 d2", at, fresh, at,
                     find_edge(y, phase->effective_viscosity_ratio));
        spt_svg_marker(svg, SPT_MARKER_RING, "rust", at, fresh);
    }
}

static bool any_thinned(const struct spt_bearing_result *bearing)
{
    for (int i = 0; i < bearing->phase_count; i++)
        if (is_thinned(&bearing->phases[i]))
            return true;
    return false;
}

static bool any_other_speed(const struct spt_bearing_result *bearing, double speed_rpm)
{
    for (int i = 0; i < bearing->phase_count; i++)
        if (bearing->phases[i].viscosity_ratio > 0 &&
            bearing->phases[i].phase->speed_rpm != speed_rpm)
            return true;
    return false;
}

static void write_foot(struct spt_svg *svg, const struct spt_chart_input *input)
{
    char words[160], speed[SPT_HOURS_LENGTH];
    const struct spt_film_curves *film = &input->part->film[input->bearing_index];
    bool others = any_other_speed(input->bearing, film->speed_rpm);
    snprintf(words, sizeof words, "Curves at %s r/min and the same viscosity index of %.0f%s",
             spt_text_amount(film->speed_rpm, speed),
             input->part->assessment->question->lubricant.viscosity_index, others ? ";" : ".");
    spt_svg_text(svg, "small", SPT_SVG_START, 14, svg->height + 12, words);
    if (others)
        spt_svg_text(svg, "small", SPT_SVG_START, 14, svg->height + 27,
                     "short thin curves: this oil at the speeds of the other phases.");
    svg->height += others ? 34 : 19;
    if (!any_thinned(input->bearing))
        return;
    spt_svg_marker(svg, SPT_MARKER_RING, "rust", 20, svg->height + 8);
    spt_svg_text(svg, "small", SPT_SVG_START, 31, svg->height + 12,
                 "with fresh grease; the line leads to what worn grease leaves");
    svg->height += 18;
}

void spt_chart_film(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_film_curves *film = &input->part->film[input->bearing_index];
    struct spt_axis x, y;
    struct spt_plot_point points[SPT_CHART_PHASES_MAX];
    double top = svg->height + 28;
    char speed[SPT_HOURS_LENGTH];
    make_axes(film, input->bearing, top, &x, &y);
    fprintf(svg->desc,
            "Viscosity ratio kappa against temperature for this oil and neighbouring ISO 3448 "
            "grades at %s r/min. Bands: below 0.1 no life can be given, 0.1 to 1 thin film, 1 to "
            "4 a film that carries, above 4 counts as 4. ",
            spt_text_amount(film->speed_rpm, speed));
    draw_bands(svg, &y);
    spt_plot_x_axis(svg, &x, top, top + HEIGHT,
                    "temperature of the bearing in \xC2\xB0"
                    "C");
    spt_plot_y_axis(svg, &y, LEFT, RIGHT, "kappa, the film against what is needed");
    draw_curves(svg, film, &x, &y);
    draw_own_speeds(svg, input, &x, &y);
    int count = collect_points(input, &x, &y, points);
    name_bands(svg, film, &x, &y, points, count);
    name_curves(svg, film, &y);
    draw_thinning(svg, input->bearing, &x, &y);
    const struct spt_plot_area area = {LEFT, top, RIGHT, top + HEIGHT};
    spt_plot_points(svg, &area, points, count);
    for (int i = 0; i < count; i++)
        fprintf(svg->desc, "%s. ", points[i].tip);
    svg->height = top + HEIGHT + 38;
    spt_plot_key(svg, points, count);
    write_foot(svg, input);
}
