/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "chart/chart.h"
#include "chart/plot.h"
#include "format/text.h"
#include "spalltime/lubricant.h"

#define LEFT 54.0
#define RIGHT 266.0
#define HEIGHT 280.0
#define OWN_K 6        /* half the width of the stroke of a needed viscosity */
#define LOWEST 1.0     /* ends of the axis in mm2/s: */
#define HIGHEST 100000 /* what is beyond is drawn at the edge */
#define LENGTH 200

bool spt_chart_film_applies(const struct spt_chart_input *input)
{
    return input->part->film[input->bearing_index].curve_count > 0;
}

/* The viscosity in mm2/s that gives this phase kappa 1; NaN where nothing is known of its film. */
static double find_needed(const struct spt_phase_result *phase)
{
    return phase->viscosity_ratio > 0 ? phase->viscosity_mm2_s / phase->viscosity_ratio
                                      : (double)NAN;
}

/* What the lubricant is worth: with worn grease as much as an oil that leaves the same film. */
static double find_worth(const struct spt_phase_result *phase)
{
    return phase->effective_viscosity_ratio * find_needed(phase);
}

/* A phase that stands still, or of which nothing is known, has no film. */
static bool is_shown(const struct spt_bearing_result *bearing, int index)
{
    const struct spt_phase_result *phase = &bearing->phases[index];
    return phase->effective_viscosity_ratio > 0 && isfinite(find_needed(phase)) &&
           spt_chart_shows_phase(bearing, index);
}

static bool is_thinned(const struct spt_phase_result *phase)
{
    return phase->effective_viscosity_ratio < 0.97 * phase->viscosity_ratio;
}

static void make_axes(const struct spt_film_curves *film, const struct spt_bearing_result *bearing,
                      double top, struct spt_axis *x, struct spt_axis *y)
{
    double low = (double)INFINITY, high = 0;
    for (int k = 0; k < film->curve_count; k++)
        for (int i = 0; i < SPT_FILM_POINTS; i++) {
            double nu = film->curves[k].viscosity_mm2_s[i];
            low = isnan(nu) ? low : fmin(low, nu);
            high = isnan(nu) ? high : fmax(high, nu);
        }
    for (int i = 0; i < bearing->phase_count; i++) {
        if (!is_shown(bearing, i))
            continue;
        const double needed = find_needed(&bearing->phases[i]);
        const double worth = find_worth(&bearing->phases[i]);
        low = fmin(low, fmin(needed, worth));
        high = fmax(high, fmax(needed, worth));
    }
    spt_axis_linear(x, film->temperature_c[0], film->temperature_c[SPT_FILM_POINTS - 1], 5);
    x->low = film->temperature_c[0];
    x->high = film->temperature_c[SPT_FILM_POINTS - 1];
    x->start = LEFT;
    x->end = RIGHT;
    spt_axis_log(y, fmax(low, LOWEST), fmin(high, HIGHEST));
    y->start = top + HEIGHT;
    y->end = top;
}

static double find_edge(const struct spt_axis *y, double nu)
{
    return spt_axis_at(y, fmin(fmax(nu, y->low), y->high));
}

/* The last value of a curve inside the area. */
static double find_end(const struct spt_film_curve *curve, const struct spt_axis *y)
{
    for (int i = SPT_FILM_POINTS - 1; i >= 0; i--)
        if (spt_axis_holds(y, curve->viscosity_mm2_s[i]))
            return spt_axis_at(y, curve->viscosity_mm2_s[i]);
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
    spt_plot_spread(spots, film->curve_count, 15, y->end, y->start);
    for (int i = 0; i < film->curve_count; i++) {
        char words[48] = "this oil";
        if (film->curves[i].grade)
            snprintf(words, sizeof words, "VG %d", film->curves[i].grade);
        spt_svg_line(svg, "s-edge w1", RIGHT + 1, ends[i], RIGHT + 10, spots[i]);
        spt_svg_text(svg, film->curves[i].grade ? "" : "bold", SPT_SVG_START, RIGHT + 12,
                     spots[i] + 4, words);
    }
}

static void draw_curves(struct spt_svg *svg, const struct spt_film_curves *film,
                        const struct spt_axis *x, const struct spt_axis *y)
{
    static const char *const dashes[] = {"line s-muted w1 d1", "line s-muted w1 d2",
                                         "line s-muted w1 d3", "line s-muted w1 d4"};
    int dash = 0;
    for (int i = 0; i < film->curve_count; i++)
        spt_plot_curve(svg, film->curves[i].grade ? dashes[dash++ % 4] : "line s-steel w3", x, y,
                       film->temperature_c, film->curves[i].viscosity_mm2_s, SPT_FILM_POINTS);
}

/* The needed viscosity of a phase as a stroke, and the way from it to what the lubricant is worth:
 * solid where that is enough, dashed where it falls short. */
static void draw_needed(struct spt_svg *svg, const struct spt_phase_result *phase,
                        const struct spt_axis *x, const struct spt_axis *y)
{
    const double needed = find_edge(y, find_needed(phase)), worth = find_edge(y, find_worth(phase));
    const double at = spt_axis_at(x, phase->temperature_c);
    const bool enough = phase->effective_viscosity_ratio >= 1;
    const double left = fmax(spt_axis_at(x, phase->temperature_c - OWN_K), LEFT);
    const double right = fmin(spt_axis_at(x, phase->temperature_c + OWN_K), RIGHT);
    spt_svg_line(svg, enough ? "s-steel w2" : "s-rust w3 d2", at, needed, at, worth);
    spt_svg_line(svg, enough ? "s-steel w3" : "s-rust w3", left, needed, right, needed);
}

static int collect_points(const struct spt_chart_input *input, const struct spt_axis *x,
                          const struct spt_axis *y, struct spt_plot_point *points)
{
    int count = 0;
    const struct spt_bearing_result *bearing = input->bearing;
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase_result *phase = &bearing->phases[i];
        char kappa[SPT_HOURS_LENGTH], needed[SPT_HOURS_LENGTH], worth[SPT_HOURS_LENGTH];
        if (!is_shown(bearing, i))
            continue;
        struct spt_plot_point *point = &points[count++];
        *point = (struct spt_plot_point){
            .x = spt_axis_at(x, phase->temperature_c),
            .y = find_edge(y, find_worth(phase)),
            .number = i + 1,
            .name = phase->phase->name,
            .off = !spt_axis_holds(y, find_worth(phase)),
        };
        snprintf(point->tip, sizeof point->tip,
                 "%.200s: %.4g \xC2\xB0"
                 "C, %.6g r/min, has %s mm\xC2\xB2/s%s, needs %s: kappa %s",
                 phase->phase->name, phase->temperature_c, phase->phase->speed_rpm,
                 spt_text_number(find_worth(phase), worth),
                 is_thinned(phase) ? " with worn grease" : "",
                 spt_text_number(find_needed(phase), needed),
                 spt_text_number(phase->effective_viscosity_ratio, kappa));
    }
    return count;
}

static void write_foot(struct spt_svg *svg, const struct spt_chart_input *input)
{
    char words[LENGTH];
    bool thinned = false, none = false;
    for (int i = 0; i < input->bearing->phase_count; i++) {
        thinned =
            thinned || (is_shown(input->bearing, i) && is_thinned(&input->bearing->phases[i]));
        none = none || !(input->bearing->phases[i].effective_viscosity_ratio > 0);
    }
    spt_svg_line(svg, "s-steel w3", 8, svg->height + 8, 26, svg->height + 8);
    spt_plot_sentence(svg, "the viscosity that a phase needs at its speed (kappa 1); the disc is "
                           "what it has, above is enough");
    spt_svg_line(svg, "s-rust w3 d2", 17, svg->height + 2, 17, svg->height + 16);
    spt_plot_sentence(svg, "so much is missing: the film is thin");
    if (thinned)
        spt_plot_sentence(svg, "A disc below the line of this oil: worn grease leaves less film");
    if (none)
        spt_plot_sentence(svg, "Phases that stand still have no film and no disc");
    snprintf(words, LENGTH, "Grades with the same viscosity index, %.0f",
             input->part->assessment->question->lubricant.viscosity_index);
    spt_plot_sentence(svg, words);
    svg->height += 4;
}

void spt_chart_film(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_film_curves *film = &input->part->film[input->bearing_index];
    struct spt_axis x, y;
    struct spt_plot_point points[SPT_CHART_PHASES_MAX];
    double top = svg->height + 28;
    make_axes(film, input->bearing, top, &x, &y);
    fputs("Viscosity against temperature, on a log axis, of this oil and the neighbouring ISO 3448 "
          "grades, with the viscosity that each phase has and the one that it needs. ",
          svg->desc);
    spt_plot_x_axis(svg, &x, top, top + HEIGHT,
                    "temperature of the bearing in \xC2\xB0"
                    "C");
    spt_plot_y_axis(svg, &y, LEFT, RIGHT, "viscosity in mm\xC2\xB2/s, log scale");
    draw_curves(svg, film, &x, &y);
    for (int i = 0; i < input->bearing->phase_count; i++)
        if (is_shown(input->bearing, i))
            draw_needed(svg, &input->bearing->phases[i], &x, &y);
    int count = collect_points(input, &x, &y, points);
    name_curves(svg, film, &y);
    const struct spt_plot_area area = {LEFT, top, RIGHT, top + HEIGHT};
    spt_plot_points(svg, &area, points, count);
    for (int i = 0; i < count; i++)
        fprintf(svg->desc, "%s. ", points[i].tip);
    svg->height = top + HEIGHT + 40;
    spt_plot_key(svg, points, count);
    write_foot(svg, input);
}
