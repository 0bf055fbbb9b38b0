/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/field/spread.h"
#include "answer/life/life.h"
#include "format/csv.h"
#include "sentence/together.h"

static void write_heads(struct spt_csv *csv, bool with_band)
{
    static const char *const heads[] = {"bearing",
                                        "phase",
                                        "time_share",
                                        "speed_rpm",
                                        "equivalent_load_n",
                                        "static_safety_factor",
                                        "temperature_c",
                                        "viscosity_mm2_s",
                                        "viscosity_ratio",
                                        "effective_viscosity_ratio",
                                        "contamination_factor",
                                        "life_modification_factor",
                                        "water_factor",
                                        "basic_rating_life_h",
                                        "modified_rating_life_h",
                                        "damage_share",
                                        "warnings"};
    for (size_t i = 0; i < sizeof heads / sizeof *heads; i++)
        spt_csv_text(csv, heads[i]);
    if (with_band)
        spt_csv_band_heads(csv);
    spt_csv_text(csv, "static_safety_guide"); /* columns are added at the end */
    spt_csv_end(csv);
}

void spt_life_codes_csv(struct spt_csv *csv, const struct spt_notes *notes,
                        const struct spt_notes *more)
{
    const struct spt_notes *lists[] = {notes, more};
    char codes[2 * SPT_FLAG_COUNT * 32] = "";
    int used = 0;
    for (int k = 0; k < 2 && lists[k]; k++)
        for (int i = 0; i < lists[k]->count; i++)
            used += snprintf(codes + used, sizeof codes - (size_t)used, "%s%s", used ? " " : "",
                             spt_flag_code(lists[k]->list[i].flag));
    spt_csv_text(csv, codes);
}

static void write_phase(struct spt_csv *csv, const char *bearing,
                        const struct spt_phase_result *result, bool with_band)
{
    spt_csv_text(csv, bearing);
    spt_csv_text(csv, result->phase->name);
    const double numbers[] = {
        result->phase->time_share,      result->phase->speed_rpm,
        result->dynamic.load_n,         result->static_safety_factor,
        result->temperature_c,          result->viscosity_mm2_s,
        result->viscosity_ratio,        result->effective_viscosity_ratio,
        result->contamination_factor,   result->factor.a_iso,
        result->water_factor,           result->basic_rating_life_h,
        result->modified_rating_life_h, result->damage_share,
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        spt_csv_number(csv, numbers[i]);
    spt_life_codes_csv(csv, &result->notes, NULL);
    if (with_band)
        spt_csv_band(csv, NULL);
    spt_csv_number(csv, result->static_safety_guide);
    spt_csv_end(csv);
}

/* Sum of the damage shares; NaN where damage is unknown or there is none. */
static double sum_damage_shares(const struct spt_bearing_result *result)
{
    double sum = 0;
    for (int i = 0; i < result->phase_count; i++)
        sum += result->phases[i].damage_share;
    return sum;
}

/* Contents of a row for the whole duty. */
struct total {
    const char *name;
    double mean_speed_rpm, mean_equivalent_load_n;
    double basic_rating_life_h, modified_rating_life_h;
    double damage_share;
    const struct spt_notes *notes, *more; /* may be NULL */
    const struct spt_band *band;          /* may be NULL */
};

static void write_total(struct spt_csv *csv, const struct total *total)
{
    spt_csv_text(csv, total->name);
    spt_csv_text(csv, "(whole duty)");
    const double numbers[] = {1,
                              total->mean_speed_rpm,
                              total->mean_equivalent_load_n,
                              (double)NAN,
                              (double)NAN,
                              (double)NAN,
                              (double)NAN,
                              (double)NAN,
                              (double)NAN,
                              (double)NAN,
                              (double)NAN,
                              total->basic_rating_life_h,
                              total->modified_rating_life_h,
                              total->damage_share};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        spt_csv_number(csv, numbers[i]);
    spt_life_codes_csv(csv, total->notes, total->more);
    if (total->band)
        spt_csv_band(csv, total->band);
    spt_csv_number(csv, (double)NAN);
    spt_csv_end(csv);
}

/* Writes the row of a bearing; a single bearing has the notes of the case too. */
static void write_bearing(struct spt_csv *csv, const struct spt_assessment *assessment, int i)
{
    const struct spt_bearing_result *result = &assessment->bearings[i];
    bool alone = assessment->bearing_count == 1;
    const struct total total = {result->bearing_case->bearing.name,
                                result->mean_speed_rpm,
                                result->mean_equivalent_load_n,
                                result->basic_rating_life_h,
                                result->modified_rating_life_h,
                                sum_damage_shares(result),
                                &result->notes,
                                alone ? &assessment->notes : NULL,
                                assessment->spread ? &assessment->spread->bearings[i] : NULL};
    write_total(csv, &total);
}

/* All bearings together: the life that is held against the target. */
static void write_system(struct spt_csv *csv, const struct spt_assessment *assessment)
{
    char name[40];
    snprintf(name, sizeof name, "(%s)", spt_together(assessment->question));
    const struct total total = {name,
                                (double)NAN,
                                (double)NAN,
                                assessment->basic_rating_life_h,
                                assessment->modified_rating_life_h,
                                (double)NAN,
                                &assessment->notes,
                                NULL,
                                assessment->spread ? &assessment->spread->system : NULL};
    write_total(csv, &total);
}

void spt_life_csv(FILE *out, const struct spt_assessment *assessment)
{
    struct spt_csv csv = {out, false};
    write_heads(&csv, assessment->spread != NULL);
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        for (int j = 0; j < bearing->phase_count; j++)
            write_phase(&csv, bearing->bearing_case->bearing.name, &bearing->phases[j],
                        assessment->spread != NULL);
        write_bearing(&csv, assessment, i);
    }
    if (assessment->bearing_count > 1)
        write_system(&csv, assessment);
}
