/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_ROWS_H
#define CHART_ROWS_H

#include "chart/svg.h"

/* A chart of rows: a line from one life to another on a log axis of hours, and a bar at the
 * right. */

#define SPT_ROWS_MAX 64

struct spt_row {
    char name[300]; /* in as many lines as it needs */
    char value[64]; /* at the right of the name */
    char tip[600];
    double from_h; /* drawn as a ring; NaN or infinite: not drawn */
    double to_h;   /* drawn as a disc, or a triangle where `bad` */
    double share;  /* length of the bar, 0 to 1; NaN: a dash */
    bool bad;
};

/* A life with which all rows are compared, drawn as a vertical line. */
struct spt_row_mark {
    double life_h;     /* NaN or infinite: none */
    const char *words; /* "target" */
    const char *classes;
};

struct spt_rows {
    const char *ring_words; /* texts of ring, disc and triangle in the key; NULL: not drawn */
    const char *disc_words;
    const char *triangle_words;
    const char *share_title; /* NULL: no bars */
    struct spt_row_mark marks[2];
    int count;
    struct spt_row rows[SPT_ROWS_MAX];
};

/* Draws below svg->height and increases it. */
void spt_rows_draw(struct spt_svg *svg, const struct spt_rows *rows);

#endif
