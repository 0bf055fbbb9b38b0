/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/field/history.h"

#include <math.h>
#include <string.h>

/* Formats hours with three digits, also small values. */
static const char *say_time(double hours, char *buffer)
{
    if (hours >= 100)
        return spt_text_stated(round(hours), buffer);
    snprintf(buffer, SPT_HOURS_LENGTH, "%.3g", hours);
    return buffer;
}

void spt_history_line(const struct spt_history_summary *summary, char *line, size_t size)
{
    char hours[SPT_HOURS_LENGTH], samples[SPT_HOURS_LENGTH];
    snprintf(line, size, "binned from %s sample%s over %s h of %.200s: %d phase%s, p %.4g",
             spt_text_stated((double)summary->samples, samples), summary->samples == 1 ? "" : "s",
             say_time(summary->hours, hours), summary->source, summary->phases,
             summary->phases == 1 ? "" : "s", summary->exponent);
}

void spt_history_page(struct spt_page *page, const struct spt_case *question)
{
    char line[SPT_HISTORY_LINE];
    if (!question->history)
        return;
    spt_history_line(question->history, line, sizeof line);
    spt_page_say(page, SPT_BODY, "duty       ", "%s", line);
}

static void write_bins(struct spt_json *json, const struct spt_history_summary *summary)
{
    static const char *const keys[SPT_HISTORY_AXES] = {"load", "side", "speed", "temperature"};
    spt_json_open(json, "bins", '{');
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        spt_json_number(json, keys[i], summary->bins[i]);
    spt_json_close(json, '}');
}

void spt_history_json(struct spt_json *json, const struct spt_history_summary *summary)
{
    if (!summary)
        return;
    const struct {
        const char *key;
        double value;
    } numbers[] = {
        {"rows", (double)summary->rows},
        {"samples", (double)summary->samples},
        {"duration_h", summary->hours},
        {"turning_h", summary->turning_h},
        {"standing_h", summary->standing_h},
        {"standing_speed_rpm", summary->standing_rpm},
        {"standing_revolutions", summary->standing_revolutions},
        {"gaps", (double)summary->gaps},
        {"gaps_h", summary->gaps_h},
        {"longest_sample_h", summary->longest_h},
        {"longest_sample_line", summary->longest_line},
        {"median_sample_h", summary->usual_h},
        {"reversed_samples", (double)summary->reversed_samples},
        {"reversed_speeds", (double)summary->reversed_speeds},
        {"reversed_loads", (double)summary->reversed_loads},
        {"reversed_side_loads", (double)summary->reversed_sides},
        {"load_life_exponent", summary->exponent},
        {"mean_speed_rpm", summary->mean_speed_rpm},
        {"mean_equivalent_load_n", summary->mean_load_n},
        {"largest_equivalent_load_n", summary->largest_n},
        {"basic_rating_life_of_samples_h", summary->basic.samples_h},
        {"basic_rating_life_of_phases_h", summary->basic.bins_h},
        {"modified_rating_life_h", summary->modified_h},
        {"modified_rating_life_of_finer_bins_h", summary->refined_h},
        {"phases", summary->phases},
        {"phases_of_finer_bins", summary->refined_phases},
    };
    spt_json_open(json, "history", '{');
    spt_json_text(json, "source", summary->source);
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        spt_json_number(json, numbers[i].key, numbers[i].value);
    write_bins(json, summary);
    spt_json_bool(json, "bins_reduced_to_fit", summary->coarsened);
    spt_json_close(json, '}');
}
