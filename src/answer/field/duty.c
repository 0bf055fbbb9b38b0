/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/field/duty.h"
#include "sentence/sentence.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "answer/field/history.h"
#include "answer/life/life.h"
#include "format/csv.h"
#include "sentence/sentence.h"

#define DUTY_NAME 64
#define SAME_LIFE 1e-9 /* relative difference that is only round-off */

/* Writes the name of the phase of a bin to DUTY_NAME bytes. Result: `name`. */
static const char *name_phase(const struct spt_duty_report *report,
                              const struct spt_history_bin *bin, char *name)
{
    static const char letters[SPT_HISTORY_AXES] = {'L', 'F', 'S', 'T'};
    size_t used = 0;
    *name = 0;
    if (bin->standing) {
        snprintf(name, DUTY_NAME, "standing");
        return name;
    }
    for (int i = 0; i < SPT_HISTORY_AXES; i++)
        if (spt_history_bins_used(report->history, (enum spt_history_axis)i,
                                  report->summary->bins[i]) > 1)
            used += (size_t)snprintf(name + used, DUTY_NAME - used, "%s%c%d", used ? " " : "",
                                     letters[i], bin->at[i] + 1);
    if (!used)
        snprintf(name, DUTY_NAME, "turning");
    return name;
}

/* ---- YAML ---------------------------------------------------------------------------------------
 */

/* Formats with the fewest digits that parse to the same double, but not with exactly three
 * decimals, which a scenario rejects as ambiguous (thousands separator). */
static const char *write_exactly(double value, char *text, size_t size)
{
    for (int digits = 6; digits <= 17; digits++) {
        snprintf(text, size, "%.*g", digits, value);
        if (strtod(text, NULL) == value)
            break;
    }
    const char *point = strchr(text, '.');
    size_t length = strlen(text);
    if (point && strspn(point + 1, "0123456789") == 3 && !point[4] && length + 1 < size)
        memcpy(text + length, "0", 2);
    return text;
}

static void write_quantity(FILE *out, const char *key, double value, const char *unit)
{
    char number[40];
    if (key && !isnan(value))
        fprintf(out, ", %s: %s %s", key, write_exactly(value, number, sizeof number), unit);
}

/* Writes the text of a YAML comment; characters that would end it become "?". */
static void write_comment(FILE *out, const char *words)
{
    fputs("# ", out);
    for (; *words; words++)
        fputc(iscntrl((unsigned char)*words) ? '?' : *words, out);
    fputc('\n', out);
}

static bool has_side(const struct spt_duty_report *report)
{
    for (int i = 0; i < report->count; i++)
        if (report->bins[i].side_n != 0)
            return true;
    return false;
}

void spt_duty_yaml(FILE *out, const struct spt_duty_report *report)
{
    char line[SPT_HISTORY_LINE], name[DUTY_NAME];
    bool road = report->speed_key && !strcmp(report->speed_key, "road_speed");
    spt_history_line(report->summary, line, sizeof line);
    write_comment(out, line);
    if (report->missing) {
        snprintf(line, sizeof line, "each phase still needs %s", report->missing);
        write_comment(out, line);
    }
    fputs("duty:\n", out);
    for (int i = 0; i < report->count; i++) {
        const struct spt_history_bin *bin = &report->bins[i];
        fprintf(out, "  - {phase: %s", name_phase(report, bin, name));
        write_quantity(out, "time", bin->time_h, "h");
        write_quantity(out, report->speed_key, bin->speed_rpm, road ? "km/h" : "rpm");
        write_quantity(out, report->load_key, bin->load_n, "N");
        write_quantity(out, has_side(report) ? report->side_key : NULL, bin->side_n, "N");
        write_quantity(out, "temperature", bin->temperature_c, "degC");
        fprintf(out, "%s}\n", report->shared);
    }
}

/* ---- text ---------------------------------------------------------------------------------------
 */

static double hardest_row(const struct spt_history_bin *bin)
{
    return fmax(bin->equivalent_n[0], bin->equivalent_n[1]);
}

static void write_table(const struct spt_text *text, const struct spt_duty_report *report)
{
    char cell[SPT_HOURS_LENGTH], name[DUTY_NAME];
    bool side = has_side(report),
         road = report->speed_key && !strcmp(report->speed_key, "road_speed");
    fprintf(text->out, "phase              time    time speed   load%s      P  temp  samples\n",
            side ? "   side" : "");
    fprintf(text->out, "                      h       %% %5s     kN%s     kN  degC\n",
            road ? "km/h" : "rpm", side ? "     kN" : "");
    for (int i = 0; i < report->count; i++) {
        const struct spt_history_bin *bin = &report->bins[i];
        spt_text_fit(text, name_phase(report, bin, name), 16);
        if (bin->time_h >= 99999.5 && bin->time_h < 999999.5)
            fprintf(text->out, " %6.0f", bin->time_h); /* fits in a cell of this width */
        else
            fprintf(text->out, " %6s", spt_text_cell(bin->time_h, cell));
        fprintf(text->out, " %7.3f", 100 * bin->time_h / report->summary->hours);
        fprintf(text->out, " %5s",
                report->speed_key || bin->standing ? spt_text_cell(bin->speed_rpm, cell) : "-");
        fprintf(text->out, " %6s", spt_text_cell(bin->load_n / 1e3, cell));
        if (side) {
            char signed_cell[SPT_HOURS_LENGTH + 1];
            snprintf(signed_cell, sizeof signed_cell, "%s%s", bin->side_n < 0 ? "-" : "",
                     spt_text_cell(fabs(bin->side_n) / 1e3, cell));
            fprintf(text->out, " %6s", signed_cell);
        }
        fprintf(text->out, " %6s", spt_text_cell(hardest_row(bin) / 1e3, cell));
        fprintf(text->out, " %5s",
                isnan(bin->temperature_c) ? "-" : spt_text_number(round(bin->temperature_c), cell));
        fprintf(text->out, " %8lld\n", bin->sums.samples);
    }
}

static void write_axes(const struct spt_text *text, const struct spt_duty_report *report)
{
    static const struct {
        const char *name, *unit;
        double scale;
    } axes[SPT_HISTORY_AXES] = {{"L load", "kN", 1e-3},
                                {"F side load", "kN", 1e-3},
                                {"S speed", "rpm", 1},
                                {"T temperature", "degC", 1}};
    bool road = report->speed_key && !strcmp(report->speed_key, "road_speed");
    for (int i = 0; i < SPT_HISTORY_AXES; i++) {
        double low, high, end;
        int bins = report->summary->bins[i];
        int used = spt_history_bins_used(report->history, (enum spt_history_axis)i, bins);
        spt_history_edges(report->history, (enum spt_history_axis)i, bins, 0, &low, &high);
        spt_history_edges(report->history, (enum spt_history_axis)i, bins, used - 1, &end, &high);
        if (used > 1)
            spt_text_wrapf(text, "- ", "%s: %d bins of equal width from %.4g to %.4g %s",
                           axes[i].name, used, low * axes[i].scale, high * axes[i].scale,
                           i == SPT_HISTORY_SPEED && road ? "km/h" : axes[i].unit);
    }
}

static void write_error(const struct spt_text *text, const struct spt_duty_report *report)
{
    const struct spt_history_summary *summary = report->summary;
    char one[SPT_HOURS_LENGTH], two[SPT_HOURS_LENGTH];
    double off = summary->basic.bins_h / summary->basic.samples_h - 1;
    if (isinf(summary->basic.samples_h))
        spt_text_wrap(text, "", "Nothing turns under load: the basic rating life has no limit.");
    else if (fabs(off) < SAME_LIFE)
        spt_text_wrapf(text, "", "Basic rating life %s from the samples and from the phases alike.",
                       spt_text_life(summary->basic.samples_h, one));
    else if (!isnan(off))
        spt_text_wrapf(text, "",
                       "Basic rating life %s from the samples, %s from the phases (%+.2g %%).",
                       spt_text_life(summary->basic.samples_h, one),
                       spt_text_life(summary->basic.bins_h, two), 100 * off);
    if (isfinite(summary->refined_h) && isfinite(summary->modified_h))
        spt_text_wrapf(text, "",
                       "Modified rating life %s with these phases, %s with bins half as wide (%d "
                       "phases): %+.2g %%%s.",
                       spt_text_life(summary->modified_h, one),
                       spt_text_life(summary->refined_h, two), summary->refined_phases,
                       100 * (summary->refined_h / summary->modified_h - 1),
                       report->history->rows > 1 ? ", both without the setting of the hub" : "");
    else if (report->title)
        spt_text_wrap(text, "",
                      "What finer bins would make of the modified rating life is not known.");
}

/* Reports a step that may be a gap: it counts as running time unless stated otherwise. */
static void write_hold(const struct spt_text *text, const struct spt_history_summary *summary)
{
    struct spt_notes notes = {0};
    char sentence[SPT_SENTENCE_LENGTH];
    spt_history_note_hold(summary, &notes);
    if (!notes.count)
        return;
    spt_sentence(&notes.list[0], sentence, sizeof sentence);
    spt_text_wrap(text, "", sentence);
}

static void write_rules(const struct spt_text *text, const struct spt_duty_report *report)
{
    const struct spt_history_summary *summary = report->summary;
    spt_text_wrapf(
        text, "",
        "Load: power mean with p %.4g, weighted by revolutions%s. Speed: revolutions over "
        "time. Temperature: mean over revolutions%s.",
        summary->exponent,
        report->title ? "" : " (no scenario: p of a roller bearing, each load by itself)",
        summary->standing_h > 0 ? "; standing: over time" : "");
    if (summary->standing_h > 0)
        spt_text_wrapf(text, "",
                       "Standing: %.3g %% of the time, no revolutions; its loads are the largest "
                       "seen while it stood.",
                       100 * summary->standing_h / summary->hours);
    if (summary->standing_revolutions > 0)
        spt_text_wrapf(
            text, "", "%.4g revolutions at or below %.4g %s (--standing) are not counted.",
            summary->standing_revolutions, summary->standing_rpm,
            report->speed_key && !strcmp(report->speed_key, "road_speed") ? "km/h" : "rpm");
    if (summary->stamped)
        spt_text_wrap(text, "",
                      "Each row holds until the time of the next one; the last only ends the "
                      "record.");
    write_hold(text, summary);
    if (summary->coarsened)
        spt_text_wrap(text, "", "The number of bins was reduced to keep within the limit.");
    if (report->missing)
        spt_text_wrapf(text, "", "In a scenario each phase still needs %s.", report->missing);
}

static void write_head(const struct spt_text *text, const struct spt_duty_report *report)
{
    const struct spt_history_summary *summary = report->summary;
    char line[SPT_HISTORY_LINE];
    spt_history_line(summary, line, sizeof line);
    line[0] = (char)toupper((unsigned char)line[0]);
    if (report->title)
        spt_text_wrap(text, "", report->title);
    spt_text_wrapf(text, "", "%s.", line);
    spt_text_wrapf(
        text, "",
        "Mean speed %.4g %s, mean load %.4g kN, largest load %.4g kN (equivalent loads%s).",
        summary->mean_speed_rpm,
        report->speed_key && !strcmp(report->speed_key, "road_speed") ? "km/h" : "rpm",
        summary->mean_load_n / 1e3, summary->largest_n / 1e3,
        report->history->rows > 1 ? " of the row that carries more" : "");
}

void spt_duty_text(const struct spt_text *text, const struct spt_duty_report *report)
{
    write_head(text, report);
    spt_text_heading(text, "PHASES");
    write_table(text, report);
    write_axes(text, report);
    spt_text_heading(text, "WHAT BINNING COSTS");
    write_error(text, report);
    write_rules(text, report);
}

/* ---- JSON and CSV
 * -------------------------------------------------------------------------------- */

void spt_duty_json(struct spt_json *json, const struct spt_duty_report *report)
{
    char name[DUTY_NAME];
    bool road = report->speed_key && !strcmp(report->speed_key, "road_speed");
    spt_json_text(json, "title", report->title);
    spt_history_json(json, report->summary);
    spt_json_open(json, "phases", '[');
    for (int i = 0; i < report->count; i++) {
        const struct spt_history_bin *bin = &report->bins[i];
        char load[40], side[40];
        snprintf(load, sizeof load, "%s_n", report->load_key);
        snprintf(side, sizeof side, "%s_n", report->side_key ? report->side_key : "");
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", name_phase(report, bin, name));
        spt_json_number(json, "time_h", bin->time_h);
        spt_json_number(json, "time_share", bin->time_h / report->summary->hours);
        if (report->speed_key)
            spt_json_number(json, road ? "road_speed_km_h" : "speed_rpm", bin->speed_rpm);
        spt_json_number(json, load, bin->load_n);
        if (report->side_key)
            spt_json_number(json, side, bin->side_n);
        spt_json_number(json, "equivalent_load_n", bin->equivalent_n[0]);
        if (report->history->rows > 1)
            spt_json_number(json, "equivalent_load_outboard_n", bin->equivalent_n[1]);
        spt_json_number(json, "temperature_c", bin->temperature_c);
        spt_json_number(json, "samples", (double)bin->sums.samples);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_duty_csv(FILE *out, const struct spt_duty_report *report)
{
    char name[DUTY_NAME];
    struct spt_csv csv = {out, false};
    bool road = report->speed_key && !strcmp(report->speed_key, "road_speed");
    fprintf(out, "phase,time_h,%s,%s_n,%s%sequivalent_load_n,temperature_c,samples\n",
            road ? "road_speed_km_h" : "speed_rpm", report->load_key,
            report->side_key ? report->side_key : "", report->side_key ? "_n," : "");
    for (int i = 0; i < report->count; i++) {
        const struct spt_history_bin *bin = &report->bins[i];
        spt_csv_text(&csv, name_phase(report, bin, name));
        spt_csv_number(&csv, bin->time_h);
        spt_csv_number(&csv, report->speed_key || bin->standing ? bin->speed_rpm : (double)NAN);
        spt_csv_number(&csv, bin->load_n);
        if (report->side_key)
            spt_csv_number(&csv, bin->side_n);
        spt_csv_number(&csv, hardest_row(bin));
        spt_csv_number(&csv, bin->temperature_c);
        spt_csv_number(&csv, (double)bin->sums.samples);
        spt_csv_end(&csv);
    }
}
