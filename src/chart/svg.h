/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_SVG_H
#define CHART_SVG_H

#include <stdbool.h>
#include <stdio.h>

#include "format/gather.h"

/* A chart under way as SVG 1.1. Coordinates are in units of the chart (y downwards) and are written
 * with two decimals, so that every compiler writes the same bytes. `classes` are class names of
 * palette.h. An element with a coordinate that is not finite, or farther from the paper than any
 * reader draws, is left out and counted. */
#define SPT_SVG_FARTHEST 1e7
struct spt_svg {
    FILE *out;  /* the elements, gathered in memory */
    FILE *desc; /* what the chart shows, in sentences, for those who cannot see it: plain text */
    struct spt_gather elements, description; /* behind the two streams */
    const char *id;                          /* unique in its document, an XML name */
    double width, height;
    int left_out;
};

/* Starts a chart, which must stay where it is until it is finished. Result: false when memory is
 * out; then there is nothing to finish. */
bool spt_svg_begin(struct spt_svg *svg, const char *id, double width);

/* Writes the chart with its title and description, and frees it; `alone` as a file of its own,
 * with its style, else to stand in an HTML page that has the style. False when memory ran out. */
bool spt_svg_finish(struct spt_svg *svg, FILE *out, const char *title, bool alone);

/* One number as every element writes it: "12.34", never "-0.00". Call it for finite numbers. */
void spt_svg_number(FILE *out, double number);

void spt_svg_line(struct spt_svg *svg, const char *classes, double x1, double y1, double x2,
                  double y2);
void spt_svg_rect(struct spt_svg *svg, const char *classes, double x, double y, double width,
                  double height);

void spt_svg_circle(struct spt_svg *svg, const char *classes, double x, double y, double radius);

/* A path from point to point; a point that is no place, as above, lifts the pen. */
struct spt_svg_point {
    double x, y;
};
void spt_svg_path(struct spt_svg *svg, const char *classes, const struct spt_svg_point *points,
                  int count, bool closed);

enum spt_svg_anchor { SPT_SVG_START, SPT_SVG_MIDDLE, SPT_SVG_END };
void spt_svg_text(struct spt_svg *svg, const char *classes, enum spt_svg_anchor anchor, double x,
                  double y, const char *text);

/* A text in as many lines of about `width` units as it needs, broken at spaces where it can be, the
 * first with its foot at y, and how many lines that are. The font size is that of the classes: 13,
 * or 11.5 for "small" and "quiet". */
#define SPT_SVG_LINE 16.0 /* from line to line */
struct spt_svg_block {
    const char *classes;
    double x, y, width, font_size;
};
int spt_svg_text_lines(const char *text, double width, double font_size);
void spt_svg_text_block(struct spt_svg *svg, const struct spt_svg_block *block, const char *text);

/* About how wide a text of this many units of font size will be. */
double spt_svg_text_width(const char *text, double font_size);

/* A marker of about 10 units. Shape and fill differ, so that colour never speaks alone. */
enum spt_svg_marker { SPT_MARKER_DISC, SPT_MARKER_RING, SPT_MARKER_DIAMOND, SPT_MARKER_TRIANGLE };
void spt_svg_marker(struct spt_svg *svg, enum spt_svg_marker marker, const char *color, double x,
                    double y);

/* A rectangle of hatching in the colour over nothing: 0 "/", 1 "\", 2 dots, 3 "x". */
#define SPT_SVG_HATCHES 4
void spt_svg_hatched(struct spt_svg *svg, int hatch, const char *color, double x, double y,
                     double width, double height);

/* Elements between the two belong together and share a value shown on hovering. */
void spt_svg_open(struct spt_svg *svg, const char *tip);
void spt_svg_close(struct spt_svg *svg);

#endif
