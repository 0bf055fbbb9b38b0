/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/field/duty.h"

#include <ctype.h>
#include <math.h>
#include <string.h>

#include "answer/field/duty_parts.h"
#include "answer/field/history.h"
#include "sentence/sentence.h"

#define SAME_LIFE 1e-9 /* relative difference that is only round-off */

const char *spt_duty_name_phase(const struct spt_duty_report *report,
                                const struct spt_history_bin *bin, char *name)
{
    static const char letters[SPT_HISTORY_AXES] = {'L', 'F', 'S', 'T'};
    size_t used = 0;
    *name = 0;
    if (bin->standing) {
        snprintf(name, SPT_DUTY_NAME, "standing");
        return name;
    }
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        if (spt_history_bins_used(report->history, (enum spt_history_axis)i,
                                  report->summary->bins[i]) > 1)
            used += (size_t)snprintf(name + used, SPT_DUTY_NAME - used, "%s%c%d", used ? " " : "",
                                     letters[i], bin->at[i] + 1);
    if (!used)
        snprintf(name, SPT_DUTY_NAME, "turning");
    return name;
}

bool spt_duty_has_side(const struct spt_duty_report *report)
{
    for (int i = 0; i < report->count; i++)
        if (report->bins[i].side_n != 0)
            return true;
    return false;
}

bool spt_duty_is_on_road(const struct spt_duty_report *report)
{
    return report->speed_key && !strcmp(report->speed_key, "road_speed");
}

const char *spt_duty_speed_unit(const struct spt_duty_report *report)
{
    return spt_duty_is_on_road(report) ? "km/h" : "rpm";
}

static void say_axes(struct spt_page *page, const struct spt_duty_report *report)
{
    static const struct {
        const char *name, *unit;
        double scale;
    } axes[SPT_HISTORY_AXES] = {{"L load", "kN", 1e-3},
                                {"F side load", "kN", 1e-3},
                                {"S speed", "rpm", 1},
                                {"T temperature", "degC", 1}};
    for (int i = 0; i < SPT_HISTORY_AXES; i++) {
        double low, high, end;
        int bins = report->summary->bins[i];
        int used = spt_history_bins_used(report->history, (enum spt_history_axis)i, bins);
        spt_history_edges(report->history, (enum spt_history_axis)i, bins, 0, &low, &high);
        spt_history_edges(report->history, (enum spt_history_axis)i, bins, used - 1, &end, &high);
        if (used > 1)
            spt_page_say(page, SPT_BODY, "- ", "%s: %d bins of equal width from %.4g to %.4g %s",
                         axes[i].name, used, low * axes[i].scale, high * axes[i].scale,
                         i == SPT_HISTORY_SPEED ? spt_duty_speed_unit(report) : axes[i].unit);
    }
}

static void say_error(struct spt_page *page, const struct spt_duty_report *report)
{
    const struct spt_history_summary *summary = report->summary;
    double off = summary->basic.bins_h / summary->basic.samples_h - 1;
    if (isinf(summary->basic.samples_h))
        spt_page_say(page, SPT_BODY, "",
                     "Nothing turns under load: the basic rating life has no limit.");
    else if (fabs(off) < SAME_LIFE)
        spt_page_say(page, SPT_BODY, "",
                     "Basic rating life %s from the samples and from the phases alike.",
                     spt_page_life(page, summary->basic.samples_h));
    else if (!isnan(off))
        spt_page_say(page, SPT_BODY, "",
                     "Basic rating life %s from the samples, %s from the phases (%+.2g %%).",
                     spt_page_life(page, summary->basic.samples_h),
                     spt_page_life(page, summary->basic.bins_h), 100 * off);
    if (isfinite(summary->refined_h) && isfinite(summary->modified_h))
        spt_page_say(page, SPT_BODY, "",
                     "Modified rating life %s with these phases, %s with bins half as wide (%d "
                     "phases): %+.2g %%%s.",
                     spt_page_life(page, summary->modified_h),
                     spt_page_life(page, summary->refined_h), summary->refined_phases,
                     100 * (summary->refined_h / summary->modified_h - 1),
                     report->history->rows > 1 ? ", both without the setting of the hub" : "");
    else if (report->title)
        spt_page_say(page, SPT_BODY, "",
                     "What finer bins would make of the modified rating life is not known.");
}

/* Reports a step that may be a gap: it counts as running time unless stated otherwise. */
static void say_hold(struct spt_page *page, const struct spt_history_summary *summary)
{
    struct spt_notes notes = {0};
    char sentence[SPT_SENTENCE_LENGTH];
    spt_history_note_hold(summary, &notes);
    if (!notes.count)
        return;
    spt_sentence(&notes.list[0], sentence, sizeof sentence);
    spt_page_say(page, SPT_BODY, "", "%s", sentence);
}

static void say_rules(struct spt_page *page, const struct spt_duty_report *report)
{
    const struct spt_history_summary *summary = report->summary;
    spt_page_say(page, SPT_BODY, "",
                 "Load: power mean with p %.4g, weighted by revolutions%s. Speed: revolutions over "
                 "time. Temperature: mean over revolutions%s.",
                 summary->exponent,
                 report->title ? "" : " (no scenario: p of a roller bearing, each load by itself)",
                 summary->standing_h > 0 ? "; standing: over time" : "");
    if (summary->standing_h > 0)
        spt_page_say(page, SPT_BODY, "",
                     "Standing: %.3g %% of the time, no revolutions; its loads are the largest "
                     "seen while it stood.",
                     100 * summary->standing_h / summary->hours);
    if (summary->standing_revolutions > 0)
        spt_page_say(page, SPT_BODY, "",
                     "%.4g revolutions at or below %.4g %s (--standing) are not counted.",
                     summary->standing_revolutions, summary->standing_rpm,
                     spt_duty_speed_unit(report));
    if (summary->stamped)
        spt_page_say(page, SPT_BODY, "",
                     "Each row holds until the time of the next one; the last only ends the "
                     "record.");
    say_hold(page, summary);
    if (summary->coarsened)
        spt_page_say(page, SPT_BODY, "",
                     "The number of bins was reduced to keep within the limit.");
    if (report->missing)
        spt_page_say(page, SPT_BODY, "", "In a scenario each phase still needs %s.",
                     report->missing);
}

static void say_head(struct spt_page *page, const struct spt_duty_report *report)
{
    const struct spt_history_summary *summary = report->summary;
    char line[SPT_HISTORY_LINE];
    spt_history_line(summary, line, sizeof line);
    line[0] = (char)toupper((unsigned char)line[0]);
    spt_page_say(page, SPT_BODY, "", "%s.", line);
    spt_page_say(
        page, SPT_BODY, "",
        "Mean speed %.4g %s, mean load %.4g kN, largest load %.4g kN (equivalent loads%s).",
        summary->mean_speed_rpm, spt_duty_speed_unit(report), summary->mean_load_n / 1e3,
        summary->largest_n / 1e3, report->history->rows > 1 ? " of the row that carries more" : "");
}

void spt_duty_page(struct spt_page *page, const struct spt_duty_report *report)
{
    say_head(page, report);
    spt_page_open(page, "Phases");
    spt_duty_page_phases(page, report);
    say_axes(page, report);
    spt_page_close(page);
    spt_page_open(page, "What binning costs");
    say_error(page, report);
    say_rules(page, report);
    spt_page_close(page);
}

void spt_duty_json(struct spt_json *json, const struct spt_page *page,
                   const struct spt_duty_report *report)
{
    spt_json_text(json, "title", report->title);
    spt_history_json(json, report->summary);
    spt_table_json(spt_page_find(page, "members"), "phases", json);
}
