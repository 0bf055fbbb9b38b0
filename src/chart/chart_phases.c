/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "chart/chart.h"
#include "chart/rows.h"
#include "format/text.h"

bool spt_chart_phases_applies(const struct spt_chart_input *input)
{
    return input->bearing->phase_count > 0;
}

static void fill_row(struct spt_row *row, const struct spt_phase_result *result, int number,
                     double target_h)
{
    char modified[SPT_HOURS_LENGTH], basic[SPT_HOURS_LENGTH];
    const char *unit = isfinite(result->modified_rating_life_h) ? " h" : "";
    spt_chart_hours(result->modified_rating_life_h, modified);
    spt_chart_hours(result->basic_rating_life_h, basic);
    row->from_h = result->basic_rating_life_h;
    row->to_h = result->modified_rating_life_h;
    row->share = result->damage_share;
    row->bad = row->to_h < target_h;
    snprintf(row->name, sizeof row->name, "%d  %.280s", number, result->phase->name);
    snprintf(row->value, sizeof row->value, "%s%s", modified, unit);
    snprintf(
        row->tip, sizeof row->tip,
        "%.200s: life %s%s, basic rating life %s%s, %.1f %% of the time, %.1f %% of the damage",
        result->phase->name, modified, unit, basic,
        isfinite(result->basic_rating_life_h) ? " h" : "", 100 * result->phase->time_share,
        isnan(result->damage_share) ? 0 : 100 * result->damage_share);
}

static void note_rest(struct spt_svg *svg, const struct spt_bearing_result *bearing, int shown)
{
    char words[120];
    double rest = 0;
    if (shown == bearing->phase_count)
        return;
    for (int i = 0; i < bearing->phase_count; i++)
        if (!spt_chart_shows_phase(bearing, i) && !isnan(bearing->phases[i].damage_share))
            rest += bearing->phases[i].damage_share;
    snprintf(words, sizeof words, "The %d costliest phases; %d more do %.1f %% of the damage.",
             shown, bearing->phase_count - shown, 100 * rest);
    spt_svg_text(svg, "small", SPT_SVG_START, 14, svg->height + 12, words);
    fprintf(svg->desc, "%s ", words);
    svg->height += 20;
}

void spt_chart_phases(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_bearing_result *bearing = input->bearing;
    double target_h = input->part->assessment->question->target_life_h;
    struct spt_rows rows = {
        .ring_words = "basic rating life: load and speed alone",
        .disc_words = "life with film, dirt and water counted",
        .triangle_words = "the same, shorter than the target",
        .share_title = "of the damage",
        .marks = {{target_h, "target", "s-rust w2 d1"}, {(double)NAN, "", ""}},
    };
    fputs("Life of each phase in hours on a log axis, and its share of the damage. ", svg->desc);
    for (int i = 0; i < bearing->phase_count && rows.count < SPT_CHART_PHASES_MAX; i++) {
        if (!spt_chart_shows_phase(bearing, i))
            continue;
        struct spt_row *row = &rows.rows[rows.count++];
        fill_row(row, &bearing->phases[i], i + 1, target_h);
        fprintf(svg->desc, "%s. ", row->tip);
    }
    spt_rows_draw(svg, &rows);
    note_rest(svg, bearing, rows.count);
}
