/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef FORMAT_PAGE_PALETTE_H
#define FORMAT_PAGE_PALETTE_H

#include <stdio.h>

/* A colour with its name in class names and custom properties. Text colours have a contrast of at
 * least 4.5 to 1 against the colours paper, card and all washes, in light and in dark mode. */
struct spt_color_pair {
    const char *name;
    const char *light;
    const char *dark;
    enum spt_color_use { SPT_COLOR_GROUND, SPT_COLOR_TEXT, SPT_COLOR_LINE } use;
};

/* Colour i of the palette, NULL past the last. */
const struct spt_color_pair *spt_palette(int i);

/* The custom properties (--ink, ...) for light and dark, as CSS. */
void spt_palette_properties(FILE *out);

/* The style of charts as CSS: f-NAME fills and s-NAME strokes with each colour (its light value
 * first, for readers without custom properties), then text, line and dash classes. */
void spt_palette_chart_style(FILE *out);

#endif
