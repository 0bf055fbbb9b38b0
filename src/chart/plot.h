/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_PLOT_H
#define CHART_PLOT_H

#include "chart/axis.h"
#include "chart/svg.h"

/* Grid lines, tick labels and title of a horizontal axis below an area. A label that would overlap
 * one of higher priority or an earlier one is left out. */
void spt_plot_x_axis(struct spt_svg *svg, const struct spt_axis *axis, double top, double bottom,
                     const char *title);

/* The same for a vertical axis at the left of an area; the title is above it. */
void spt_plot_y_axis(struct spt_svg *svg, const struct spt_axis *axis, double left, double right,
                     const char *title);

/* A second scale of the same axis on a separate line at `y`, such as distance below hours; its
 * title is below it. */
#define SPT_PLOT_SCALE_HEIGHT 36.0
void spt_plot_scale(struct spt_svg *svg, const struct spt_axis *axis, double y, const char *title);

/* A line through values, clipped to the axes; a NaN interrupts it. */
void spt_plot_curve(struct spt_svg *svg, const char *classes, const struct spt_axis *x,
                    const struct spt_axis *y, const double *xs, const double *ys, int count);
#define SPT_PLOT_CURVE_MAX 256 /* largest number of values of a curve */

/* enough for a name from the scenario, which has up to 200 bytes */
#define SPT_PLOT_TIP_LENGTH 480

/* A numbered point and its line in the key below the chart. */
struct spt_plot_point {
    double x, y; /* on the paper */
    int number;
    const char *name;
    char tip[SPT_PLOT_TIP_LENGTH];
    bool off; /* beyond the edge: drawn at the edge as a triangle */
};

/* Draws points with numbers beside them that do not overlap, inside the area. */
struct spt_plot_area {
    double left, top, right, bottom;
};
void spt_plot_points(struct spt_svg *svg, const struct spt_plot_area *area,
                     const struct spt_plot_point *points, int count);

/* Draws the key of the points below svg->height, in two columns where every name is short, else one
 * per line; names are not shortened. Increases svg->height. */
void spt_plot_key(struct spt_svg *svg, const struct spt_plot_point *points, int count);

/* Writes a sentence below svg->height, to the right of its mark, and into the description, where a
 * full stop is added; increases svg->height. */
void spt_plot_sentence(struct spt_svg *svg, const char *words);

/* Labels for the ends of lines at the right: moves the values of `y` (in any order) apart to
 * distances of at least `gap`. */
void spt_plot_spread(double *y, int count, double gap, double top, double bottom);

#endif
