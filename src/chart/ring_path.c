/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/ring_path.h"

#include <math.h>

#include "chart/svg.h"

#define WIDTH 340.0
#define MIDDLE_X 170.0
#define MIDDLE_Y 120.0
#define RING 80.0     /* radius of the raceway */
#define EXPECTED 80.0 /* radii of the two paths */
#define MEASURED 92.0
#define POINTS 73
#define WHOLE_DEG 359.5
#define WORDS_X 70.0
#define KEY_LINE 20.0
#define WORDS_LENGTH 160

/* An arc about the loaded point: the bottom of an inner ring below its load, the bottom of a cup.
 */
static void draw_arc(struct spt_svg *svg, const char *classes, double radius, double length_deg)
{
    struct spt_svg_point points[POINTS];
    const double whole = 2 * acos(-1), length = fmin(length_deg / 360, 1) * whole;
    for (int i = 0; i < POINTS; i++) {
        const double angle = length * ((double)i / (POINTS - 1) - 0.5);
        points[i] =
            (struct spt_svg_point){MIDDLE_X + radius * sin(angle), MIDDLE_Y + radius * cos(angle)};
    }
    spt_svg_path(svg, classes, points, POINTS, length_deg >= WHOLE_DEG);
}

static void draw_load(struct spt_svg *svg)
{
    const struct spt_svg_point head[] = {
        {MIDDLE_X - 5, MIDDLE_Y + 38}, {MIDDLE_X, MIDDLE_Y + 50}, {MIDDLE_X + 5, MIDDLE_Y + 38}};
    spt_svg_line(svg, "s-ink w2", MIDDLE_X, MIDDLE_Y - 20, MIDDLE_X, MIDDLE_Y + 48);
    spt_svg_path(svg, "line s-ink w2", head, 3, false);
    spt_svg_text(svg, "small", SPT_SVG_MIDDLE, MIDDLE_X, MIDDLE_Y - 28, "load");
}

/* A line of the key below the ring, and of the description. */
static void write_key(struct spt_svg *svg, const char *classes, const char *words)
{
    const double y = svg->height += KEY_LINE;
    spt_svg_line(svg, classes, WORDS_X - 4, y - 4, WORDS_X + 16, y - 4);
    spt_svg_text(svg, "small", SPT_SVG_START, WORDS_X + 24, y, words);
    fprintf(svg->desc, "%s. ", words);
}

bool spt_ring_path_svg(FILE *out, const void *subject)
{
    const struct spt_ring_path *path = subject;
    struct spt_svg svg;
    char words[WORDS_LENGTH];
    if (!spt_svg_begin(&svg, path->id, WIDTH))
        return false;
    svg.height = 2 * MIDDLE_Y;
    fprintf(svg.desc, "The %s ring seen along its axis, the loaded point at the bottom. ",
            path->ring);
    spt_svg_circle(&svg, "f-card s-edge w1", MIDDLE_X, MIDDLE_Y, RING);
    draw_arc(&svg, "line s-steel w3", EXPECTED, path->expected_deg);
    draw_load(&svg);
    snprintf(words, sizeof words, "the %s ring", path->ring);
    spt_svg_text(&svg, "bold", SPT_SVG_START, WORDS_X - 4, svg.height, words);
    snprintf(words, sizeof words, "as it should be: about %.0f\xC2\xB0", path->expected_deg);
    write_key(&svg, "s-steel w3", words);
    if (!isnan(path->measured_deg)) {
        draw_arc(&svg, "line s-rust w3 d1", MEASURED, path->measured_deg);
        snprintf(words, sizeof words, "as measured: %.0f\xC2\xB0", path->measured_deg);
        write_key(&svg, "s-rust w3 d1", words);
    }
    svg.height += 8;
    return spt_svg_finish(&svg, out, "Worn path", false);
}
