/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "chart/chart.h"
#include "format/text.h"

#define LEFT 14.0
#define RIGHT 326.0
#define BAR 14.0
#define AFTER_BAR 66.0 /* between a bar of full length and the edge, for its percent */
#define GAP 10.0
#define LENGTH 400

bool spt_chart_phases_applies(const struct spt_chart_input *input)
{
    return input->bearing->phase_count > 0;
}

static double find_share(const struct spt_phase_result *phase)
{
    return isnan(phase->damage_share) ? 0 : phase->damage_share;
}

/* The phases that are shown, those with most damage first. Result: how many. */
static int sort_phases(const struct spt_bearing_result *bearing, int order[SPT_CHART_PHASES_MAX])
{
    int count = 0;
    for (int i = 0; i < bearing->phase_count; i++) {
        if (!spt_chart_shows_phase(bearing, i) || count == SPT_CHART_PHASES_MAX)
            continue;
        int at = count++;
        for (; at && find_share(&bearing->phases[order[at - 1]]) < find_share(&bearing->phases[i]);
             at--)
            order[at] = order[at - 1];
        order[at] = i;
    }
    return count;
}

/* The life that the phase would have if it ran all the time, and its share of the time. */
static void write_life(const struct spt_phase_result *phase, char words[LENGTH])
{
    char life[SPT_HOURS_LENGTH];
    const double life_h = phase->modified_rating_life_h;
    int used = snprintf(words, LENGTH, "%.3g %% of the time", 100 * phase->phase->time_share);
    if (!(phase->phase->speed_rpm > 0))
        snprintf(words + used, LENGTH - (size_t)used, "; stands still");
    else if (isnan(life_h))
        snprintf(words + used, LENGTH - (size_t)used, "; no life can be stated");
    else
        snprintf(words + used, LENGTH - (size_t)used, "; all the time it would last %s%s",
                 spt_chart_hours(life_h, life), isfinite(life_h) ? " h" : "");
}

/* Draws a phase. Result: its height. */
static double draw_phase(struct spt_svg *svg, const struct spt_phase_result *phase, int number,
                         double top)
{
    char name[LENGTH], life[LENGTH], percent[32] = "-", tip[2 * LENGTH];
    const double share = find_share(phase), most = RIGHT - LEFT - AFTER_BAR;
    snprintf(name, sizeof name, "%d  %.280s", number, phase->phase->name);
    write_life(phase, life);
    if (!isnan(phase->damage_share))
        snprintf(percent, sizeof percent, "%.1f %%", 100 * share);
    snprintf(tip, sizeof tip, "%.280s: %s of the damage, %s", phase->phase->name, percent, life);
    const struct spt_svg_block title = {"bold", LEFT, top + 12, RIGHT - LEFT, 13};
    const struct spt_svg_block below = {"quiet", LEFT, 0, RIGHT - LEFT, 13};
    struct spt_svg_block foot = below;
    const double bar = top + 2 + SPT_SVG_LINE * spt_svg_text_lines(name, title.width, 13);
    spt_svg_open(svg, tip);
    spt_svg_text_block(svg, &title, name);
    spt_svg_line(svg, "s-edge w1", LEFT, bar - 1, LEFT, bar + BAR + 1);
    spt_svg_rect(svg, "f-steel", LEFT, bar, most * fmin(share, 1), BAR);
    spt_svg_text(svg, "bold", SPT_SVG_START, LEFT + most * fmin(share, 1) + 6, bar + 12, percent);
    foot.y = bar + BAR + 14;
    spt_svg_text_block(svg, &foot, life);
    spt_svg_close(svg);
    fprintf(svg->desc, "%s. ", tip);
    return bar - top + BAR + 4 + SPT_SVG_LINE * spt_svg_text_lines(life, foot.width, 13) + GAP;
}

static void note_rest(struct spt_svg *svg, const struct spt_bearing_result *bearing, int shown)
{
    char words[120];
    double rest = 0;
    if (shown == bearing->phase_count)
        return;
    for (int i = 0; i < bearing->phase_count; i++)
        if (!spt_chart_shows_phase(bearing, i))
            rest += find_share(&bearing->phases[i]);
    snprintf(words, sizeof words, "The %d costliest phases; %d more do %.1f %% of the damage.",
             shown, bearing->phase_count - shown, 100 * rest);
    const struct spt_svg_block block = {"small", LEFT, svg->height + 12, RIGHT - LEFT, 13};
    spt_svg_text_block(svg, &block, words);
    fprintf(svg->desc, "%s ", words);
    svg->height += 8 + SPT_SVG_LINE * spt_svg_text_lines(words, RIGHT - LEFT, 13);
}

void spt_chart_phases(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_bearing_result *bearing = input->bearing;
    int order[SPT_CHART_PHASES_MAX];
    const int count = sort_phases(bearing, order);
    fputs(
        "Share of each phase in the damage, the largest first, and the life that it would have if "
        "it ran all the time. ",
        svg->desc);
    svg->height += 6;
    for (int i = 0; i < count; i++)
        svg->height += draw_phase(svg, &bearing->phases[order[i]], order[i] + 1, svg->height);
    note_rest(svg, bearing, count);
}
