/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_SVG_H
#define CHART_SVG_H

#include <stdbool.h>
#include <stdio.h>

#include "format/gather.h"

/* State of a chart being written as SVG 1.1. Coordinates are in units of the chart (y downwards)
 * and are written with one decimal at most, so that every compiler writes the same bytes. `classes`
 * are class names of palette.h. An element with a coordinate that is not finite, or too far from
 * the chart for viewers, is left out and counted. */
#define SPT_SVG_FARTHEST 1e7
struct spt_svg {
    FILE *out;  /* the elements, collected in memory */
    FILE *desc; /* description of the chart in sentences for people who cannot see it: plain text */
    struct spt_gather elements, description; /* memory of the two streams */
    const char *id;                          /* unique in its document, an XML name */
    double width, height;
    char lines[32]; /* classes of the path that holds the lines written last; "": none */
    int left_out;
};

/* Starts a chart; the struct must not be moved until it is finished. Result: false when memory is
 * exhausted; spt_svg_finish is then not to be called. */
bool spt_svg_begin(struct spt_svg *svg, const char *id, double width);

/* Writes the chart with its title and description, and frees it; `alone`: as a complete file with
 * its style, else for an HTML page that has the style. Result: false when memory was exhausted. */
bool spt_svg_finish(struct spt_svg *svg, FILE *out, const char *title, bool alone);

/* Writes a finite number in the format of all elements: "12.3", "12", never "-0". */
void spt_svg_number(FILE *out, double number);

void spt_svg_line(struct spt_svg *svg, const char *classes, double x1, double y1, double x2,
                  double y2);
void spt_svg_rect(struct spt_svg *svg, const char *classes, double x, double y, double width,
                  double height);

void spt_svg_circle(struct spt_svg *svg, const char *classes, double x, double y, double radius);

/* A path from point to point; a point that cannot be drawn (see above) interrupts it. */
struct spt_svg_point {
    double x, y;
};
void spt_svg_path(struct spt_svg *svg, const char *classes, const struct spt_svg_point *points,
                  int count, bool closed);

enum spt_svg_anchor { SPT_SVG_START, SPT_SVG_MIDDLE, SPT_SVG_END };
void spt_svg_text(struct spt_svg *svg, const char *classes, enum spt_svg_anchor anchor, double x,
                  double y, const char *text);

/* Writes a text in lines of about `width` units, broken at spaces where possible, with the baseline
 * of the first line at y. Result: the number of lines. The font size is that of the classes: 13. */
#define SPT_SVG_LINE 16.0 /* from line to line */
struct spt_svg_block {
    const char *classes;
    double x, y, width, font_size;
};
int spt_svg_text_lines(const char *text, double width, double font_size);
void spt_svg_text_block(struct spt_svg *svg, const struct spt_svg_block *block, const char *text);

/* Approximate width of a text in this font size. */
double spt_svg_text_width(const char *text, double font_size);

/* A marker of about 10 units. Shape and fill differ, so that colour is never the only
 * distinction. */
enum spt_svg_marker { SPT_MARKER_DISC, SPT_MARKER_RING, SPT_MARKER_DIAMOND, SPT_MARKER_TRIANGLE };
void spt_svg_marker(struct spt_svg *svg, enum spt_svg_marker marker, const char *color, double x,
                    double y);

/* A hatched rectangle on a transparent background: 0 "/", 1 "\", 2 dots, 3 "x". */
#define SPT_SVG_HATCHES 4
void spt_svg_hatched(struct spt_svg *svg, int hatch, const char *color, double x, double y,
                     double width, double height);

/* Groups the elements between the two calls; `tip` is shown when the pointer is over them. */
void spt_svg_open(struct spt_svg *svg, const char *tip);
void spt_svg_close(struct spt_svg *svg);

#endif
