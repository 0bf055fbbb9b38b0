/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/svg.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/utf8.h"
#include "format/escape.h"
#include "format/page/palette.h"

#define NEAREST 1.5       /* units between two points of a path that are worth drawing */
#define BLOCK_LENGTH 1024 /* length of one line in bytes, far beyond the width of a chart */

bool spt_svg_begin(struct spt_svg *svg, const char *id, double width)
{
    *svg = (struct spt_svg){.id = id, .width = width};
    if (!spt_gather_open(&svg->elements))
        return false;
    if (!spt_gather_open(&svg->description)) {
        free(spt_gather_close(&svg->elements));
        return false;
    }
    svg->out = svg->elements.stream;
    svg->desc = svg->description.stream;
    return true;
}

void spt_svg_number(FILE *out, double number)
{
    const double rounded = round(number * 10) / 10 + 0.0; /* + 0.0: a negative zero becomes zero */
    fprintf(out, "%.*f", rounded == round(rounded) ? 0 : 1, rounded);
}

static void put_attribute(FILE *out, const char *name, double number)
{
    fprintf(out, " %s=\"", name);
    spt_svg_number(out, number);
    fputc('"', out);
}

static void write_hatch(FILE *out, const char *id, int hatch, const char *path)
{
    fprintf(out,
            "<pattern id=\"%s-h%d\" width=\"6\" height=\"6\" patternUnits=\"userSpaceOnUse\">"
            "<path class=\"s-edge w1\" fill=\"none\" d=\"%s\"/></pattern>\n",
            id, hatch, path);
}

static void write_head(const struct spt_svg *svg, FILE *out, bool alone)
{
    fprintf(out, "<svg xmlns=\"http://www.w3.org/2000/svg\" class=\"chart\" role=\"img\" id=\"%s\"",
            svg->id);
    fprintf(out, " aria-labelledby=\"%s-t %s-d\" viewBox=\"0 0 %.0f %.0f\"", svg->id, svg->id,
            svg->width, ceil(svg->height));
    if (alone)
        fprintf(out, " width=\"%.0f\" height=\"%.0f\"", 1.5 * svg->width, 1.5 * ceil(svg->height));
    fputs(">\n", out);
}

static void write_defs(const struct spt_svg *svg, const char *elements, FILE *out)
{
    static const char *const paths[SPT_SVG_HATCHES] = {"M-1 1L1 -1M0 6L6 0M5 7L7 5",
                                                       "M-1 5L1 7M0 0L6 6M5 -1L7 1",
                                                       "M1 1h.8M4 4h.8", "M0 0L6 6M0 6L6 0"};
    fputs("<defs>\n", out);
    for (int i = 0; i < SPT_SVG_HATCHES; i++) {
        char mark[16];
        snprintf(mark, sizeof mark, "-h%d)", i);
        if (strstr(elements, mark))
            write_hatch(out, svg->id, i, paths[i]);
    }
    fputs("</defs>\n", out);
}

/* Ends the path that holds lines in a row; before any other element. */
static FILE *end_lines(struct spt_svg *svg)
{
    if (*svg->lines)
        fputs("\"/>\n", svg->out);
    *svg->lines = 0;
    return svg->out;
}

bool spt_svg_finish(struct spt_svg *svg, FILE *out, const char *title, bool alone)
{
    end_lines(svg);
    char *elements = spt_gather_close(&svg->elements);
    char *description = spt_gather_close(&svg->description);
    bool whole = elements && description;
    if (whole) {
        write_head(svg, out, alone);
        fprintf(out, "<title id=\"%s-t\">", svg->id);
        spt_escape(out, title);
        fprintf(out, "</title>\n<desc id=\"%s-d\">", svg->id);
        spt_escape(out, description);
        fputs("</desc>\n", out);
        if (alone) {
            fputs("<style>\n", out);
            spt_palette_properties(out);
            spt_palette_chart_style(out);
            fputs("</style>\n", out);
        }
        write_defs(svg, elements, out);
        if (alone)
            fputs("<rect class=\"f-paper\" width=\"100%\" height=\"100%\"/>\n", out);
        fwrite(elements, 1, svg->elements.length, out);
        fputs("</svg>\n", out);
    }
    free(elements);
    free(description);
    return whole;
}

/* True for a coordinate that can be drawn; false for NaN too. */
static bool is_place(double a)
{
    return fabs(a) <= SPT_SVG_FARTHEST;
}

static bool check(struct spt_svg *svg, double a, double b, double c, double d)
{
    bool fine = is_place(a) && is_place(b) && is_place(c) && is_place(d);
    svg->left_out += !fine;
    return fine;
}

static void put_point(FILE *out, char command, double x, double y)
{
    fputc(command, out);
    spt_svg_number(out, x);
    fputc(' ', out);
    spt_svg_number(out, y);
}

static void put_end(FILE *out, double x1, double y1, double x2, double y2)
{
    if (x1 != x2 && y1 != y2) {
        put_point(out, 'L', x2, y2);
        return;
    }
    fputc(x1 == x2 ? 'V' : 'H', out);
    spt_svg_number(out, x1 == x2 ? y2 : x2);
}

/* Lines of the same look in a row are one path, a third of the bytes. */
void spt_svg_line(struct spt_svg *svg, const char *classes, double x1, double y1, double x2,
                  double y2)
{
    if (!check(svg, x1, y1, x2, y2))
        return;
    if (strcmp(svg->lines, classes) != 0) {
        fprintf(end_lines(svg), "<path class=\"%s\" d=\"", classes);
        snprintf(svg->lines, sizeof svg->lines, "%s", classes);
    }
    put_point(svg->out, 'M', x1, y1);
    put_end(svg->out, x1, y1, x2, y2);
}

static void put_box(FILE *out, double x, double y, double width, double height)
{
    put_attribute(out, "x", x);
    put_attribute(out, "y", y);
    put_attribute(out, "width", width);
    put_attribute(out, "height", height);
}

void spt_svg_rect(struct spt_svg *svg, const char *classes, double x, double y, double width,
                  double height)
{
    if (!check(svg, x, y, width, height) || !(width >= 0) || !(height >= 0))
        return;
    fprintf(end_lines(svg), "<rect class=\"%s\"", classes);
    put_box(svg->out, x, y, width, height);
    fputs("/>\n", svg->out);
}

void spt_svg_hatched(struct spt_svg *svg, int hatch, const char *color, double x, double y,
                     double width, double height)
{
    if (!check(svg, x, y, width, height) || !(width >= 0) || !(height >= 0))
        return;
    fprintf(end_lines(svg), "<rect class=\"s-%s w1\" fill=\"url(#%s-h%d)\"", color, svg->id, hatch);
    put_box(svg->out, x, y, width, height);
    fputs("/>\n", svg->out);
}

/* True where leaving out a point of an open path is not seen: it is next to the last one drawn, and
 * the path goes on. */
static bool is_dense(const struct spt_svg_point *points, int count, int index,
                     struct spt_svg_point drawn)
{
    return index + 1 < count && is_place(points[index + 1].x) && is_place(points[index + 1].y) &&
           hypot(points[index].x - drawn.x, points[index].y - drawn.y) < NEAREST;
}

void spt_svg_path(struct spt_svg *svg, const char *classes, const struct spt_svg_point *points,
                  int count, bool closed)
{
    bool down = false, started = false;
    struct spt_svg_point drawn = {0, 0};
    for (int i = 0; i < count; i++) {
        if (!is_place(points[i].x) || !is_place(points[i].y)) {
            down = false;
            continue;
        }
        if (down && !closed && is_dense(points, count, i, drawn))
            continue;
        if (!started)
            fprintf(end_lines(svg), "<path class=\"%s\" d=\"", classes);
        put_point(svg->out, down ? 'L' : 'M', points[i].x, points[i].y);
        drawn = points[i];
        down = started = true;
    }
    if (started)
        fputs(closed ? "Z\"/>\n" : "\"/>\n", svg->out);
    else
        svg->left_out++;
}

void spt_svg_text(struct spt_svg *svg, const char *classes, enum spt_svg_anchor anchor, double x,
                  double y, const char *text)
{
    static const char *const anchors[] = {"", " text-anchor=\"middle\"", " text-anchor=\"end\""};
    if (!check(svg, x, y, 0, 0))
        return;
    fputs("<text", end_lines(svg));
    if (*classes)
        fprintf(svg->out, " class=\"%s\"", classes);
    fputs(anchors[anchor], svg->out);
    put_attribute(svg->out, "x", x);
    put_attribute(svg->out, "y", y);
    fputc('>', svg->out);
    spt_escape(svg->out, text);
    fputs("</text>\n", svg->out);
}

/* Width of a character over the font size, a little above that of common sans-serif fonts. */
static double find_width(const char *text, size_t size)
{
    if (size > 1)
        return size > 3 ? 1.3 : size > 2 ? 1.0 : 0.7;
    if (strchr(" .,:;ijl|'!()[]/", *text))
        return 0.38;
    if (strchr("mwMW@%", *text))
        return 0.95;
    return *text >= 'A' && *text <= 'Z' ? 0.7 : 0.62;
}

double spt_svg_text_width(const char *text, double font_size)
{
    size_t left = strlen(text);
    double width = 0;
    while (left) {
        size_t size = spt_utf8_size(text, left);
        size = size ? size : 1;
        width += find_width(text, size);
        text += size;
        left -= size;
    }
    return width * font_size;
}

/* True where a character combines with the previous one: combining marks, joiners, variation
 * selectors. */
static bool joins(const char *text)
{
    const unsigned char *bytes = (const unsigned char *)text;
    if (bytes[0] == 0xCC || (bytes[0] == 0xCD && bytes[1] < 0xB0))
        return true;
    return (bytes[0] == 0xE2 && bytes[1] == 0x80 && bytes[2] == 0x8D) ||
           (bytes[0] == 0xEF && bytes[1] == 0xB8 && bytes[2] >= 0x80 && bytes[2] <= 0x8F);
}

/* True where the first word fits on a line of its own. */
static bool fits(const char *text, double available)
{
    size_t left = strcspn(text, " ");
    double width = 0;
    while (left && width <= available) {
        size_t size = spt_utf8_size(text, left);
        size = size ? size : 1;
        width += joins(text) ? 0 : find_width(text, size);
        text += size;
        left -= size;
    }
    return width <= available;
}

/* Number of bytes of the first line of a text; `*next` is where the second begins. */
static size_t find_line(const char *text, double available, size_t *next)
{
    size_t used = 0, left = strlen(text), space = 0, whole = 0;
    double width = 0;
    while (left) {
        size_t size = spt_utf8_size(text + used, left);
        size = size ? size : 1;
        width += joins(text + used) ? 0 : find_width(text + used, size);
        if (text[used] == ' ')
            space = used;
        else if (width > available && whole)
            break;
        used += size;
        left -= size;
        if (!joins(text + used))
            whole = used;
    }
    *next = left ? whole : used;
    if (!left || !space || (2 * space < whole && !fits(text + space + 1, available)))
        return *next;
    *next = space + strspn(text + space, " ");
    return space;
}

int spt_svg_text_lines(const char *text, double width, double font_size)
{
    int lines = 0;
    size_t next;
    for (; *text; text += next, lines++)
        find_line(text, width / font_size, &next);
    return lines;
}

void spt_svg_text_block(struct spt_svg *svg, const struct spt_svg_block *block, const char *text)
{
    char line[BLOCK_LENGTH];
    double y = block->y;
    size_t next;
    for (; *text; text += next, y += SPT_SVG_LINE) {
        size_t length = find_line(text, block->width / block->font_size, &next);
        snprintf(line, sizeof line, "%.*s", (int)length, text);
        spt_svg_text(svg, block->classes, SPT_SVG_START, block->x, y, line);
    }
}

void spt_svg_circle(struct spt_svg *svg, const char *classes, double x, double y, double radius)
{
    if (!check(svg, x, y, radius, 0) || !(radius >= 0))
        return;
    fprintf(end_lines(svg), "<circle class=\"%s\"", classes);
    put_attribute(svg->out, "r", radius);
    put_attribute(svg->out, "cx", x);
    put_attribute(svg->out, "cy", y);
    fputs("/>\n", svg->out);
}

static void draw_round(struct spt_svg *svg, const char *fill, const char *color, double x, double y)
{
    char classes[64];
    snprintf(classes, sizeof classes, "f-%s s-%s w2", fill, color);
    spt_svg_circle(svg, classes, x, y, 4.5);
}

void spt_svg_marker(struct spt_svg *svg, enum spt_svg_marker marker, const char *color, double x,
                    double y)
{
    char classes[64];
    if (!check(svg, x, y, 0, 0))
        return;
    snprintf(classes, sizeof classes, "f-%s s-%s w1", color, color);
    const struct spt_svg_point diamond[] = {{x - 5.5, y}, {x, y - 5.5}, {x + 5.5, y}, {x, y + 5.5}};
    const struct spt_svg_point triangle[] = {{x - 5, y - 4.5}, {x + 5, y - 4.5}, {x, y + 4.5}};
    switch (marker) {
    case SPT_MARKER_DISC:
        draw_round(svg, color, color, x, y);
        break;
    case SPT_MARKER_RING:
        draw_round(svg, "paper", color, x, y);
        break;
    case SPT_MARKER_DIAMOND:
        spt_svg_path(svg, classes, diamond, 4, true);
        break;
    case SPT_MARKER_TRIANGLE:
        spt_svg_path(svg, classes, triangle, 3, true);
        break;
    }
}

void spt_svg_open(struct spt_svg *svg, const char *tip)
{
    fputs("<g class=\"tip\"><title>", end_lines(svg));
    spt_escape(svg->out, tip);
    fputs("</title>\n", svg->out);
}

void spt_svg_close(struct spt_svg *svg)
{
    fputs("</g>\n", end_lines(svg));
}
