/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "chart/svg.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "format/page/palette.h"
#include "support/markup.h"

static char *finish(struct spt_svg *svg, const char *title, bool alone)
{
    char *text = NULL;
    size_t length = 0;
    FILE *out = open_memstream(&text, &length);
    cr_assert(spt_svg_finish(svg, out, title, alone));
    fclose(out);
    return text;
}

Test(svg, numbers_have_one_decimal_at_most_and_no_negative_zero)
{
    static const struct {
        double number;
        const char *want;
    } rows[] = {{0, "0"},           {-0.0, "0"},      {-0.04, "0"},  {12.345678, "12.3"},
                {-3.14159, "-3.1"}, {1e6, "1000000"}, {0.25, "0.3"}, {12.04, "12"}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char text[64] = "";
        FILE *out = fmemopen(text, sizeof text, "w");
        spt_svg_number(out, rows[i].number);
        fclose(out);
        cr_expect_str_eq(text, rows[i].want, "%g", rows[i].number);
    }
}

Test(svg, a_chart_carries_title_and_description_and_escapes_them)
{
    struct spt_svg svg;
    cr_assert(spt_svg_begin(&svg, "loss-0-0", 440));
    fputs("Shows <b>bold</b> & more", svg.desc);
    spt_svg_text(&svg, "small", SPT_SVG_MIDDLE, 10, 20, "</text><script>");
    spt_svg_open(&svg, "\"tip\" <1>");
    spt_svg_marker(&svg, SPT_MARKER_DIAMOND, "rust", 30, 30);
    spt_svg_close(&svg);
    svg.height = 60.2;
    char problem[200], *text = finish(&svg, "Title \"<&>\"", false);
    cr_expect(markup_read(text, NULL, NULL, problem, sizeof problem), "%s", problem);
    cr_expect(strstr(text, "role=\"img\""));
    cr_expect(strstr(text, "aria-labelledby=\"loss-0-0-t loss-0-0-d\""));
    cr_expect(strstr(text, "<title id=\"loss-0-0-t\">Title &quot;&lt;&amp;&gt;&quot;</title>"));
    cr_expect(strstr(text, "<desc id=\"loss-0-0-d\">Shows &lt;b&gt;bold&lt;/b&gt; &amp; more<"));
    cr_expect(strstr(text, "viewBox=\"0 0 440 61\""));
    cr_expect(strstr(text, "text-anchor=\"middle\" x=\"10\" y=\"20\">&lt;/text&gt;"));
    cr_expect_null(strstr(text, "<style>"), "an inline chart takes the style of its page");
    free(text);
}

Test(svg, a_chart_of_its_own_carries_its_style_for_light_and_dark)
{
    struct spt_svg svg;
    cr_assert(spt_svg_begin(&svg, "film", 440));
    spt_svg_hatched(&svg, 2, "rule", 1.5, 2.5, 30, 40);
    char problem[200], *text = finish(&svg, "t", true);
    cr_expect(markup_read(text, NULL, NULL, problem, sizeof problem), "%s", problem);
    cr_expect(strstr(text, "<style>") && strstr(text, "prefers-color-scheme:dark"));
    cr_expect(strstr(text, "<pattern id=\"film-h2\""), "the hatch that is used is defined");
    cr_expect_null(strstr(text, "<pattern id=\"film-h1\""), "and no other");
    free(text);
}

Test(svg, elements_without_a_place_are_left_out_and_counted)
{
    struct spt_svg svg;
    const double none = (double)NAN;
    cr_assert(spt_svg_begin(&svg, "x", 100));
    spt_svg_line(&svg, "w1", none, 1, 2, 3);
    spt_svg_rect(&svg, "w1", 1, (double)INFINITY, 2, 3);
    spt_svg_text(&svg, "w1", SPT_SVG_START, none, 1, "text");
    spt_svg_marker(&svg, SPT_MARKER_RING, "ink", 1, none);
    const struct spt_svg_point gone[] = {{none, 1}, {2, none}};
    spt_svg_path(&svg, "line", gone, 2, false);
    cr_expect_eq(svg.left_out, 5);
    const struct spt_svg_point broken[] = {{1, 2}, {3, 4}, {none, 5}, {6, 7}, {8, 9}};
    spt_svg_path(&svg, "line", broken, 5, false);
    char *text = finish(&svg, "t", false);
    cr_expect(strstr(text, "d=\"M1 2L3 4M6 7L8 9\""), "%s", text);
    cr_expect_null(strstr(text, "nan"));
    cr_expect_null(strstr(text, "inf"));
    free(text);
}

Test(svg, lines_of_one_look_in_a_row_are_one_path)
{
    struct spt_svg svg;
    cr_assert(spt_svg_begin(&svg, "x", 100));
    spt_svg_line(&svg, "w1", 1, 2, 1, 9);
    spt_svg_line(&svg, "w1", 1, 2, 8, 2);
    spt_svg_line(&svg, "w2", 1, 2, 3, 4);
    spt_svg_circle(&svg, "w2", 5, 5, 2);
    spt_svg_line(&svg, "w2", 0, 1.25, 4, 5);
    char problem[200], *text = finish(&svg, "t", false);
    cr_expect(markup_read(text, NULL, NULL, problem, sizeof problem), "%s", problem);
    cr_expect(strstr(text, "<path class=\"w1\" d=\"M1 2V9M1 2H8\"/>\n"
                           "<path class=\"w2\" d=\"M1 2L3 4\"/>\n<circle"),
              "%s", text);
    cr_expect(strstr(text, "<path class=\"w2\" d=\"M0 1.3L4 5\"/>\n</svg>"), "%s", text);
    free(text);
}

Test(svg, a_block_of_text_is_broken_at_spaces_and_loses_nothing)
{
    static const struct {
        const char *text;
        int lines;
        const char *second; /* the line that follows the first */
    } rows[] = {
        {"short", 1, NULL},
        {"two words that need more", 3, ">that need<"},
        {"a unbrokenlongwordofmanyletters", 4, ">longwordo<"},
        {"\xD0\xA4\xD0\xB0\xD0\xB7\xD0\xB0\xD0\xA4\xD0\xB0\xD0\xB7\xD0\xB0\xD0\xA4\xD0\xB0", 2,
         NULL},
        {"eeeeeeee\xCC\x81", 1, NULL}, /* an accent has no width and stays on its letter */
        {"", 0, NULL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_svg svg;
        const struct spt_svg_block block = {"", 1, 20, 80, 13};
        cr_assert(spt_svg_begin(&svg, "x", 100));
        spt_svg_text_block(&svg, &block, rows[i].text);
        char *text = finish(&svg, "t", false);
        cr_expect_eq(markup_count(text, "<text"), rows[i].lines, "%s: %s", rows[i].text, text);
        cr_expect_eq(spt_svg_text_lines(rows[i].text, 80, 13), rows[i].lines);
        cr_expect(!rows[i].second || strstr(text, rows[i].second), "%s", text);
        cr_expect_null(strstr(text, "\xEF\xBF\xBD"), "no half character");
        cr_expect_null(strstr(text, "\xE2\x80\xA6"), "no ellipsis");
        free(text);
    }
}

static double luminance(const char *color)
{
    unsigned rgb[3];
    double sum = 0;
    const double weights[3] = {0.2126, 0.7152, 0.0722};
    cr_assert_eq(sscanf(color, "#%2x%2x%2x", &rgb[0], &rgb[1], &rgb[2]), 3, "%s", color);
    for (int i = 0; i < 3; i++) {
        double part = rgb[i] / 255.0;
        sum += weights[i] * (part <= 0.04045 ? part / 12.92 : pow((part + 0.055) / 1.055, 2.4));
    }
    return sum;
}

/* Contrast ratio of the Web Content Accessibility Guidelines 2.1, success criterion 1.4.3. */
static double contrast(const char *a, const char *b)
{
    double x = luminance(a), y = luminance(b);
    return (fmax(x, y) + 0.05) / (fmin(x, y) + 0.05);
}

Test(palette, text_has_the_contrast_that_wcag_asks_for_on_every_ground)
{
    cr_assert(fabs(contrast("#000000", "#ffffff") - 21) < 1e-9);
    int pairs = 0;
    for (int i = 0; spt_palette(i); i++)
        for (int k = 0; spt_palette(k); k++) {
            const struct spt_color_pair *text = spt_palette(i), *ground = spt_palette(k);
            if (text->use != SPT_COLOR_TEXT || ground->use != SPT_COLOR_GROUND)
                continue;
            pairs++;
            cr_expect_geq(contrast(text->light, ground->light), 4.5, "%s on %s, light: %g",
                          text->name, ground->name, contrast(text->light, ground->light));
            cr_expect_geq(contrast(text->dark, ground->dark), 4.5, "%s on %s, dark: %g", text->name,
                          ground->name, contrast(text->dark, ground->dark));
        }
    cr_expect_eq(pairs, 36);
}
