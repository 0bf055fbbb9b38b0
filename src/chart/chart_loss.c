/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "chart/chart.h"
#include "chart/plot.h"
#include "chart/rows.h"
#include "format/text.h"
#include "sentence/causes.h"
#include "sentence/sentence.h"

bool spt_chart_loss_applies(const struct spt_chart_input *input)
{
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        if (input->bearing->loss.causes[i].applies)
            return true;
    return false;
}

static void fill_row(struct spt_row *row, const struct spt_bearing_result *bearing, int cause,
                     double whole)
{
    char cured[SPT_HOURS_LENGTH], gain[SPT_HOURS_LENGTH] = "";
    const struct spt_cause_share *share = &bearing->loss.causes[cause];
    const char *name = spt_cause_name((enum spt_cause)cause);
    const char *unit = isfinite(share->life_if_cured_h) ? " h" : "";
    double ratio = spt_causes_gain(bearing, cause);
    spt_chart_hours(share->life_if_cured_h, cured);
    if (isfinite(ratio))
        spt_text_ratio(ratio, gain);
    row->from_h = bearing->modified_rating_life_h;
    row->to_h = share->life_if_cured_h;
    row->share = share->log_life_share / whole;
    snprintf(row->name, sizeof row->name, "%s", name);
    snprintf(row->value, sizeof row->value, "%s%s%s%s", cured, unit,
             *gain ? "  \xC3\x97\xC2\xA0" : "", gain);
    if (isnan(row->share))
        snprintf(row->tip, sizeof row->tip, "%s: with only this put right the life would be %s%s",
                 name, cured, unit);
    else
        snprintf(row->tip, sizeof row->tip,
                 "%s: %.1f %% of the loss; with only this put right the life would be %s%s", name,
                 100 * row->share, cured, unit);
}

void spt_chart_loss(struct spt_svg *svg, const struct spt_chart_input *input)
{
    const struct spt_bearing_result *bearing = input->bearing;
    const struct spt_loss *loss = &bearing->loss;
    struct spt_rows rows = {
        .disc_words = "life if only this cause were cured",
        .share_title = "of the loss",
        .marks = {{bearing->modified_rating_life_h, "now", "s-ink w2"},
                  {loss->reference_life_h, "all cured", "s-moss w2 d1"}},
    };
    int order[SPT_CAUSE_COUNT];
    double whole = spt_causes_whole(loss);
    fputs("Causes of lost life: the share of each in the loss, and the life in hours, on a log "
          "axis, if only this cause were cured. ",
          svg->desc);
    int count = spt_causes_by_share(loss, order);
    for (int i = 0; i < count; i++) {
        struct spt_row *row = &rows.rows[rows.count++];
        fill_row(row, bearing, order[i], whole);
        fprintf(svg->desc, "%s. ", row->tip);
    }
    spt_rows_draw(svg, &rows);
    const char *footnote = spt_share_footnote(loss);
    if (footnote)
        spt_plot_sentence(svg, footnote);
}
