/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "chart/axis.h"
#include "chart/chart.h"
#include "chart/plot.h"
#include "format/text.h"
#include "sentence/verdict.h"

#define LEFT 14.0
#define RIGHT 326.0
#define AXIS_LEFT 34.0
#define AXIS_RIGHT 236.0 /* the lives stand at the right of it */
#define STEP 42.0        /* height of one */
#define BAR 12.0         /* height of a bar */
#define LENGTH 64

bool spt_chart_stairs_applies(const struct spt_chart_input *input)
{
    return input->report->judged && input->report->judged->judgement.stairs.count > 1;
}

static bool is_drawn(double life_h)
{
    return isfinite(life_h) && life_h > 0;
}

/* The axis over every life and the target; false where there is none. */
static bool make_axis(const struct spt_stairs *stairs, double target_h, struct spt_axis *axis)
{
    double low = is_drawn(target_h) ? target_h : (double)INFINITY;
    double high = is_drawn(target_h) ? target_h : 0;
    for (int i = 0; i < stairs->count; i++) {
        const double life_h = stairs->steps[i].life_h;
        low = is_drawn(life_h) ? fmin(low, life_h) : low;
        high = is_drawn(life_h) ? fmax(high, life_h) : high;
    }
    if (!(high > 0) || !spt_axis_log(axis, low, high))
        return false;
    axis->start = AXIS_LEFT;
    axis->end = AXIS_RIGHT;
    return true;
}

/* "22 100 h", "no limit", "none". */
static void write_life(double life_h, char *words)
{
    char hours[SPT_HOURS_LENGTH];
    snprintf(words, LENGTH, "%s%s", spt_chart_hours(life_h, hours), isfinite(life_h) ? " h" : "");
}

/* The way from the life before a step to the life after it: hatched where it takes life, solid
 * where it gives, a stroke where it changes nothing. */
static void draw_way(struct spt_svg *svg, const struct spt_axis *axis, double before_h,
                     double after_h, double y)
{
    const double from = spt_axis_at(axis, before_h), to = spt_axis_at(axis, after_h);
    if (!is_drawn(after_h))
        return;
    if (is_drawn(before_h) && to < from)
        spt_svg_hatched(svg, 0, "rust", to, y, from - to, BAR);
    else if (is_drawn(before_h))
        spt_svg_rect(svg, "f-steel", from, y, to - from, BAR);
    spt_svg_line(svg, "s-ink w3", to, y - 3, to, y + BAR + 3);
}

static void draw_step(struct spt_svg *svg, const struct spt_stairs *stairs, int index,
                      const struct spt_axis *axis, double top)
{
    char life[LENGTH], factor[SPT_HOURS_LENGTH], times[LENGTH] = "", tip[4 * LENGTH];
    const struct spt_stair_step *step = &stairs->steps[index];
    const char *name = spt_stair_name(step->what);
    write_life(step->life_h, life);
    if (index && isfinite(step->factor))
        snprintf(times, sizeof times, "\xC3\x97\xC2\xA0%s", spt_text_ratio(step->factor, factor));
    snprintf(tip, sizeof tip, "%s: %s%s%s", name, times, *times ? ", " : "", life);
    spt_svg_open(svg, tip);
    spt_svg_text(svg, "halo", SPT_SVG_START, LEFT, top + 13, name);
    spt_svg_text(svg, "halo", SPT_SVG_END, RIGHT, top + 13, times);
    spt_svg_text(svg, "bold halo", SPT_SVG_END, RIGHT, top + 30, life);
    if (axis && index)
        draw_way(svg, axis, stairs->steps[index - 1].life_h, step->life_h, top + 20);
    else if (axis)
        draw_way(svg, axis, (double)NAN, step->life_h, top + 20);
    spt_svg_close(svg);
    fprintf(svg->desc, "%s. ", tip);
}

static void draw_target(struct spt_svg *svg, const struct spt_axis *axis, double target_h,
                        double top, double bottom)
{
    char life[LENGTH], words[2 * LENGTH];
    const double x = spt_axis_at(axis, target_h);
    if (!is_drawn(target_h))
        return;
    write_life(target_h, life);
    snprintf(words, sizeof words, "target %s", life);
    const double half = 0.5 * spt_svg_text_width(words, 13);
    spt_svg_line(svg, "s-ink w2 d1", x, top, x, bottom);
    spt_svg_text(svg, "", SPT_SVG_MIDDLE, fmax(x, LEFT + half), top - 5, words);
    fprintf(svg->desc, "The target is %s. ", life);
}

static void draw_key(struct spt_svg *svg)
{
    spt_svg_hatched(svg, 0, "rust", LEFT, svg->height, 18, BAR);
    spt_svg_text(svg, "", SPT_SVG_START, LEFT + 26, svg->height + 11, "takes life");
    spt_svg_rect(svg, "f-steel", 150, svg->height, 18, BAR);
    spt_svg_text(svg, "", SPT_SVG_START, 176, svg->height + 11, "gives life");
    svg->height += 22;
}

void spt_chart_stairs(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_stairs *stairs = &input->report->judged->judgement.stairs;
    const double target_h = input->part->assessment->question->target_life_h;
    const double top = svg->height + 24, bottom = top + STEP * stairs->count;
    struct spt_axis axis;
    const bool drawn = make_axis(stairs, target_h, &axis);
    fputs("What leads from the basic rating life to the life under the plan, step by step, on a "
          "log axis of hours. ",
          svg->desc);
    if (drawn) {
        spt_plot_x_axis(svg, &axis, top, bottom, "life in hours, log scale");
        draw_target(svg, &axis, target_h, top, bottom);
    }
    for (int i = 0; i < stairs->count; i++)
        draw_step(svg, stairs, i, drawn ? &axis : NULL, top + STEP * i);
    svg->height = bottom + (drawn ? 44 : 8);
    draw_key(svg);
}
