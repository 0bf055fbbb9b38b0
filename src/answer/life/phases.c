/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/life/phases.h"

#include <math.h>
#include <stddef.h>

#include "sentence/life_status.h"
#include "sentence/notes.h"
#include "sentence/together.h"
#include "spalltime/uncertainty.h"

#define PERCENT 1

/* Numbers that are not known are NaN. */
struct spt_phase_row {
    const char *bearing, *phase, *life_status, *codes;
    int number; /* from 1 */
    double time_share, speed_rpm, radial_load_n, axial_load_n, load_n, load_kn;
    double static_load_n, static_safety, static_guide, temperature_c;
    double viscosity_mm2_s, reference_viscosity_mm2_s, viscosity_ratio, effective_viscosity_ratio;
    double contamination_factor, a_iso, water_factor, setting_factor;
    double clearance_factor, half_zone_deg;
    double grease_interval_h, film_ratio, basic_h, life_h, damage_share;
    double band_p5_h, band_p95_h;
};

#define AT(member) .at = offsetof(struct spt_phase_row, member)
static const struct spt_column columns[] = {
    {.key = "bearing", .only = SPT_ONLY_CSV, .kind = SPT_WORDS, AT(bearing)},
    {.head = "no. ", .kind = SPT_COUNT, .extra = true, .unit = " ", .width = 4, AT(number)},
    {.head = "phase",
     .key = "phase",
     .only = SPT_ONLY_CSV,
     .kind = SPT_WORDS,
     .width = 17,
     AT(phase)},
    {.key = "name", .only = SPT_ONLY_JSON, .kind = SPT_WORDS, AT(phase)},
    {.head = "time",
     .under = "%",
     .key = "time_share",
     .kind = SPT_PERCENT,
     .digits = PERCENT,
     .width = 5,
     .gap = 1,
     AT(time_share)},
    {.head = "speed",
     .under = "rpm",
     .key = "speed_rpm",
     .kind = SPT_CELL,
     .width = 5,
     .gap = 1,
     AT(speed_rpm)},
    {.key = "radial_load_n", .only = SPT_ONLY_JSON, .kind = SPT_NUMBER, AT(radial_load_n)},
    {.key = "axial_load_n", .only = SPT_ONLY_JSON, .kind = SPT_NUMBER, AT(axial_load_n)},
    {.head = "P", .under = "kN", .kind = SPT_CELL, .width = 5, .gap = 1, AT(load_kn)},
    {.key = "equivalent_load_n", .kind = SPT_NUMBER, AT(load_n)},
    {.key = "static_equivalent_load_n",
     .only = SPT_ONLY_JSON,
     .kind = SPT_NUMBER,
     AT(static_load_n)},
    {.head = "safety",
     .under = "s_0",
     .key = "static_safety_factor",
     .kind = SPT_CELL,
     .extra = true,
     .width = 6,
     .gap = 1,
     AT(static_safety)},
    {.key = "static_safety_guide", .only = SPT_ONLY_JSON, .kind = SPT_NUMBER, AT(static_guide)},
    {.head = "temp",
     .under = "degC",
     .key = "temperature_c",
     .kind = SPT_FIXED,
     .width = 4,
     .gap = 1,
     AT(temperature_c)},
    {.key = "viscosity_mm2_s", .kind = SPT_NUMBER, AT(viscosity_mm2_s)},
    {.key = "reference_viscosity_mm2_s",
     .only = SPT_ONLY_JSON,
     .kind = SPT_NUMBER,
     AT(reference_viscosity_mm2_s)},
    {.head = "kappa",
     .under = "fresh",
     .key = "viscosity_ratio",
     .kind = SPT_CELL,
     .extra = true,
     .width = 5,
     .gap = 1,
     AT(viscosity_ratio)},
    {.head = "kappa",
     .key = "effective_viscosity_ratio",
     .kind = SPT_CELL,
     .width = 5,
     .gap = 1,
     AT(effective_viscosity_ratio)},
    {.head = "e_C",
     .key = "contamination_factor",
     .kind = SPT_CELL,
     .width = 5,
     .gap = 1,
     AT(contamination_factor)},
    {.head = "a_ISO",
     .key = "life_modification_factor",
     .kind = SPT_CELL,
     .width = 5,
     .gap = 1,
     AT(a_iso)},
    {.head = "a_w",
     .key = "water_factor",
     .kind = SPT_CELL,
     .width = 5,
     .gap = 1,
     AT(water_factor)},
    {.head = "setting",
     .under = "factor",
     .kind = SPT_CELL,
     .extra = true,
     .width = 7,
     .gap = 1,
     AT(setting_factor)},
    {.head = "zone",
     .under = "factor",
     .kind = SPT_CELL,
     .extra = true,
     .width = 6,
     .gap = 1,
     AT(clearance_factor)},
    {.key = "clearance_factor", .only = SPT_ONLY_JSON, .kind = SPT_NUMBER, AT(clearance_factor)},
    {.key = "half_zone_deg", .only = SPT_ONLY_JSON, .kind = SPT_NUMBER, AT(half_zone_deg)},
    {.key = "grease_interval_h", .only = SPT_ONLY_JSON, .kind = SPT_NUMBER, AT(grease_interval_h)},
    {.key = "film_ratio", .only = SPT_ONLY_JSON, .kind = SPT_NUMBER, AT(film_ratio)},
    {.head = "basic life",
     .under = "h",
     .key = "basic_rating_life_h",
     .kind = SPT_HOURS,
     .extra = true,
     .width = 10,
     .gap = 1,
     AT(basic_h)},
    {.head = "life",
     .under = "h",
     .key = "modified_rating_life_h",
     .kind = SPT_HOURS,
     .width = 9,
     .gap = 1,
     AT(life_h)},
    {.key = "life_status", .only = SPT_ONLY_JSON, .kind = SPT_WORDS, AT(life_status)},
    {.head = "cost",
     .under = "%",
     .key = "damage_share",
     .kind = SPT_PERCENT,
     .digits = PERCENT,
     .width = 5,
     .gap = 1,
     AT(damage_share)},
    {.key = "warnings", .only = SPT_ONLY_CSV, .kind = SPT_WORDS, AT(codes)},
    {.key = "band_p5_h", .only = SPT_ONLY_CSV, .kind = SPT_HOURS, AT(band_p5_h)},
    {.key = "band_p95_h", .only = SPT_ONLY_CSV, .kind = SPT_HOURS, AT(band_p95_h)},
    {.key = "static_safety_guide", .only = SPT_ONLY_CSV, .kind = SPT_NUMBER, AT(static_guide)},
};
#define COLUMNS (int)(sizeof columns / sizeof *columns)

/* A row of which only the life is known. */
static struct spt_phase_row begin_row(const char *bearing, const char *phase, double life_h)
{
    struct spt_phase_row row;
    spt_row_clear(columns, COLUMNS, &row, sizeof row);
    row.bearing = bearing;
    row.phase = phase;
    row.life_h = life_h;
    row.life_status = spt_life_status_name(spt_life_status(life_h));
    return row;
}

static struct spt_phase_row phase_row(struct spt_page *page, const char *bearing,
                                      const struct spt_phase_result *result)
{
    const struct spt_phase *phase = result->phase;
    const bool parts = isnan(phase->equivalent_load_n);
    struct spt_phase_row row = begin_row(bearing, phase->name, result->modified_rating_life_h);
    row.codes = spt_page_codes(page, &result->notes, NULL);
    row.time_share = phase->time_share;
    row.speed_rpm = phase->speed_rpm;
    if (parts) {
        row.radial_load_n = phase->radial_load_n;
        row.axial_load_n = phase->axial_load_n;
    }
    row.load_n = result->dynamic.load_n;
    row.load_kn = result->dynamic.load_n / 1e3;
    row.static_load_n = result->resting.load_n;
    row.static_safety = result->static_safety_factor;
    row.static_guide = result->static_safety_guide;
    row.temperature_c = result->temperature_c;
    row.viscosity_mm2_s = result->viscosity_mm2_s;
    row.reference_viscosity_mm2_s = result->reference_viscosity_mm2_s;
    row.viscosity_ratio = result->viscosity_ratio;
    row.effective_viscosity_ratio = result->effective_viscosity_ratio;
    row.contamination_factor = result->contamination_factor;
    row.a_iso = result->factor.a_iso;
    row.water_factor = result->water_factor;
    row.setting_factor = phase->setting_factor;
    row.clearance_factor = result->zone.factor;
    row.half_zone_deg = result->zone.half_deg;
    row.grease_interval_h = result->interval.interval_h;
    row.film_ratio = result->grease.film_ratio;
    row.basic_h = result->basic_rating_life_h;
    row.damage_share = result->damage_share;
    return row;
}

static void put_band(struct spt_phase_row *row, const struct spt_band *band)
{
    row->band_p5_h = band->p5_h;
    row->band_p95_h = band->p95_h;
}

/* The row of a bearing; a single bearing has the notes of the case too. */
static struct spt_phase_row bearing_row(struct spt_page *page,
                                        const struct spt_assessment *assessment, int index)
{
    const struct spt_bearing_result *result = &assessment->bearings[index];
    const bool alone = assessment->bearing_count == 1;
    struct spt_phase_row row = begin_row(result->bearing_case->bearing.name, "(whole duty)",
                                         result->modified_rating_life_h);
    row.codes = spt_page_codes(page, &result->notes, alone ? &assessment->notes : NULL);
    row.time_share = 1;
    row.speed_rpm = result->mean_speed_rpm;
    row.load_n = result->mean_equivalent_load_n;
    row.basic_h = result->basic_rating_life_h;
    row.damage_share = 0; /* NaN where damage is unknown or there is none */
    for (int i = 0; i < result->phase_count; i++)
        row.damage_share += result->phases[i].damage_share;
    if (assessment->spread)
        put_band(&row, &assessment->spread->bearings[index]);
    return row;
}

/* All bearings together: the life that is held against the target. */
static struct spt_phase_row system_row(struct spt_page *page,
                                       const struct spt_assessment *assessment)
{
    struct spt_phase_row row =
        begin_row(spt_page_words(page, "(%s)", spt_together(assessment->question)), "(whole duty)",
                  assessment->modified_rating_life_h);
    row.codes = spt_page_codes(page, &assessment->notes, NULL);
    row.time_share = 1;
    row.basic_h = assessment->basic_rating_life_h;
    if (assessment->spread)
        put_band(&row, &assessment->spread->system);
    return row;
}

static int count_rows(const struct spt_assessment *assessment)
{
    int count = assessment->bearing_count > 1;
    for (int i = 0; i < assessment->bearing_count; i++)
        count += assessment->bearings[i].phase_count + 1;
    return count;
}

static bool has_seat(const struct spt_case *question)
{
    bool seated = false;
    for (int b = 0; b < question->bearing_count; b++)
        seated = seated || question->bearings[b].bearing.has_seat;
    return seated;
}

/* The columns of this assessment: some need a band, a hub or a seat. */
static struct spt_column *pick_columns(struct spt_page *page,
                                       const struct spt_assessment *assessment)
{
    struct spt_column *picked = spt_page_columns(page, columns, COLUMNS);
    for (int i = 0; picked && i < COLUMNS; i++) {
        const size_t at = picked[i].at;
        if (!assessment->spread && (at == offsetof(struct spt_phase_row, band_p5_h) ||
                                    at == offsetof(struct spt_phase_row, band_p95_h)))
            picked[i].key = NULL;
        if (!assessment->question->hub && at == offsetof(struct spt_phase_row, setting_factor))
            picked[i].head = NULL;
        if (!has_seat(assessment->question) &&
            (at == offsetof(struct spt_phase_row, clearance_factor) ||
             at == offsetof(struct spt_phase_row, half_zone_deg)))
            picked[i].head = picked[i].key = NULL;
    }
    return picked;
}

struct spt_phase_table spt_phase_table_of(struct spt_page *page,
                                          const struct spt_assessment *assessment)
{
    const int count = count_rows(assessment);
    struct spt_phase_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    int at = 0;
    for (int i = 0; rows && i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        for (int j = 0; j < bearing->phase_count; j++) {
            rows[at] = phase_row(page, bearing->bearing_case->bearing.name, &bearing->phases[j]);
            rows[at++].number = j + 1;
        }
        rows[at++] = bearing_row(page, assessment, i);
    }
    if (rows && assessment->bearing_count > 1)
        rows[at] = system_row(page, assessment);
    return (struct spt_phase_table){pick_columns(page, assessment), COLUMNS, rows, count};
}

static struct spt_table table_of(const struct spt_phase_table *table, int from, int count)
{
    return (struct spt_table){.columns = table->columns,
                              .column_count = table->column_count,
                              .rows = table->rows ? table->rows + from : NULL,
                              .row_size = sizeof *table->rows,
                              .row_count = count};
}

const char *spt_phases_id(int bearing, char *id)
{
    snprintf(id, SPT_PHASES_ID_LENGTH, "phases %d", bearing);
    return id;
}

void spt_page_phases(struct spt_page *page, const struct spt_phase_table *table,
                     const struct spt_assessment *assessment, int bearing)
{
    char id[SPT_PHASES_ID_LENGTH];
    int from = 0;
    for (int i = 0; i < bearing; i++)
        from += assessment->bearings[i].phase_count + 1;
    struct spt_table shown = table_of(table, from, assessment->bearings[bearing].phase_count);
    spt_page_table(page, spt_page_words(page, "%s", spt_phases_id(bearing, id)), &shown);
}

void spt_page_phase_data(struct spt_page *page, const struct spt_phase_table *table)
{
    struct spt_table data = table_of(table, 0, table->row_count);
    data.left_out = data.row_count;
    data.is_data = true;
    spt_page_table(page, "rows", &data);
}
