/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/page/html_parts.h"
#include "chart/chart.h"
#include "format/escape.h"
#include "format/html_table.h"
#include "format/text.h"
#include "sentence/causes.h"
#include "sentence/sentence.h"

static void write_share(FILE *out, double share)
{
    if (isnan(share))
        spt_table_number(out, "-");
    else
        spt_table_numberf(out, "%.1f", 100 * share);
}

static void write_phase(FILE *out, const struct spt_phase_result *result, int number, bool of_hub)
{
    char cell[SPT_HOURS_LENGTH], name[300];
    snprintf(name, sizeof name, "%d %.280s", number, result->phase->name);
    spt_table_row(out, name);
    spt_table_number(out, spt_text_number(result->dynamic.load_n / 1e3, cell));
    spt_table_number(out, spt_text_number(result->static_safety_factor, cell));
    spt_table_number(out, spt_text_number(result->viscosity_ratio, cell));
    spt_table_number(out, spt_text_number(result->effective_viscosity_ratio, cell));
    spt_table_number(out, spt_text_number(result->contamination_factor, cell));
    spt_table_number(out, spt_text_number(result->factor.a_iso, cell));
    spt_table_number(out, spt_text_number(result->water_factor, cell));
    if (of_hub)
        spt_table_number(out, spt_text_number(result->phase->setting_factor, cell));
    spt_table_number(out, spt_chart_hours(result->basic_rating_life_h, cell));
    spt_table_number(out, spt_chart_hours(result->modified_rating_life_h, cell));
    write_share(out, result->damage_share);
    spt_table_row_end(out);
}

void spt_html_phases(FILE *out, const struct spt_bearing_result *bearing, bool of_hub)
{
    static const char *const heads[] = {"phase",         "#load P kN", "#static safety", "#kappa",
                                        "#kappa used",   "#e_C",       "#a_ISO",         "#a_w",
                                        "#basic life h", "#life h",    "#damage %",      NULL};
    static const char *const hub_heads[] = {
        "phase", "#load P kN", "#static safety", "#kappa",  "#kappa used", "#e_C", "#a_ISO",
        "#a_w",  "#setting",   "#basic life h",  "#life h", "#damage %",   NULL};
    char basic[SPT_HOURS_LENGTH], modified[SPT_HOURS_LENGTH], speed[SPT_HOURS_LENGTH];
    spt_table_open(out, "Life and damage of each phase", of_hub ? hub_heads : heads);
    for (int i = 0; i < bearing->phase_count; i++)
        write_phase(out, &bearing->phases[i], i + 1, of_hub);
    spt_table_close(out);
    fprintf(out,
            "<p>The whole duty: %s; the basic rating life alone %s %s (mean speed %s r/min, "
            "mean load %.4g kN).",
            spt_text_life(bearing->modified_rating_life_h, modified),
            isinf(bearing->basic_rating_life_h) ? "has" : "would be",
            spt_text_life(bearing->basic_rating_life_h, basic),
            spt_text_amount(bearing->mean_speed_rpm, speed), bearing->mean_equivalent_load_n / 1e3);
    if (!isnan(bearing->grease_interval_h))
        fprintf(out, " Relubrication interval for this duty: %s (good to a factor of about 2).",
                spt_text_life(bearing->grease_interval_h, basic));
    fputs("</p>\n<p class=\"note\">kappa used: after worn grease. e_C: contamination factor, 1 is "
          "clean. a_ISO: life modification factor. a_w: water factor.",
          out);
    if (of_hub)
        fputs(" setting: life at this setting over the one that the rating is of.", out);
    fputs("</p>\n", out);
}

static void write_cause(FILE *out, const struct spt_bearing_result *bearing, int cause,
                        double whole)
{
    char cell[SPT_HOURS_LENGTH];
    const struct spt_cause_share *share = &bearing->loss.causes[cause];
    spt_table_row(out, spt_cause_name((enum spt_cause)cause));
    write_share(out, share->log_life_share / whole);
    spt_table_number(out, spt_chart_hours(share->life_if_cured_h, cell));
    spt_table_number(out, spt_text_ratio(spt_causes_gain(bearing, cause), cell));
    spt_table_text(out, spt_cure((enum spt_cause)cause));
    spt_table_row_end(out);
}

void spt_html_loss(FILE *out, const struct spt_bearing_result *bearing)
{
    static const char *const heads[] = {
        "cause",  "#of the loss %",  "#life with only this put right h",
        "#times", "put right means", NULL};
    char life[SPT_HOURS_LENGTH];
    int order[SPT_CAUSE_COUNT];
    int count = spt_causes_by_share(&bearing->loss, order);
    if (!count) {
        fprintf(out, "<p>%s</p>\n", spt_causes_none(bearing));
        return;
    }
    spt_table_open(out, "Causes of the lost life, the costliest first", heads);
    for (int i = 0; i < count; i++)
        write_cause(out, bearing, order[i], spt_causes_whole(&bearing->loss));
    spt_table_close(out);
    if (spt_share_footnote(&bearing->loss))
        fprintf(out, "<p class=\"note\">%s</p>\n", spt_share_footnote(&bearing->loss));
    fprintf(out, "<p>With all of this put right from new the fatigue life would be %s.</p>\n",
            spt_text_life(bearing->loss.reference_life_h, life));
}
