/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/field/history.h"
#include "answer/page/html_parts.h"
#include "chart/chart.h"
#include "format/escape.h"
#include "format/html_table.h"
#include "format/text.h"
#include "words/words.h"

#define PI 3.14159265358979323846

static const char *const pair_heads[] = {"quantity", "value", NULL};

static void write_ratings(FILE *out, const struct spt_bearing *bearing)
{
    spt_table_pair(out, "dynamic load rating C", "%.4g kN%s", bearing->dynamic_load_rating_n / 1e3,
                   bearing->ratings_from_geometry ? ", from the inside geometry" : "");
    spt_table_pair(out, "static load rating C0", "%.4g kN", bearing->static_load_rating_n / 1e3);
    spt_table_pair(out, "fatigue load limit C_u", "%.3g kN%s", bearing->fatigue_load_limit_n / 1e3,
                   bearing->fatigue_limit_assumed ? ", by the simplified rule from C0" : "");
}

static void write_factors(FILE *out, const struct spt_bearing *bearing)
{
    const struct {
        const char *name;
        double value;
    } factors[] = {
        {"limit ratio e", bearing->limit_ratio},
        {"radial factor X", bearing->radial_factor},
        {"axial factor Y", bearing->axial_factor},
        {"static axial factor Y0", bearing->static_axial_factor},
        {"factor f0", bearing->f0},
    };
    for (size_t i = 0; i < sizeof factors / sizeof *factors; i++)
        if (!isnan(factors[i].value))
            spt_table_pair(out, factors[i].name, "%.4g", factors[i].value);
}

static void write_bearing(FILE *out, const struct spt_bearing *bearing)
{
    char caption[300];
    const struct spt_geometry *inside = &bearing->geometry;
    snprintf(caption, sizeof caption, "Bearing: %.250s", bearing->name);
    spt_table_open(out, caption, pair_heads);
    spt_table_pair(out, "type", "%s, %d %s", spt_bearing_type_name(bearing->type), bearing->rows,
                   bearing->rows == 1 ? "row" : "rows");
    spt_table_pair(out, "bore x outside diameter x width", "%.6g x %.6g x %.6g mm",
                   bearing->bore_mm, bearing->outside_diameter_mm, bearing->width_mm);
    spt_table_pair(out, "pitch diameter D_pw", "%.6g mm%s", bearing->pitch_diameter_mm,
                   bearing->pitch_assumed ? ", mean of bore and outside diameter" : "");
    write_ratings(out, bearing);
    write_factors(out, bearing);
    if (bearing->has_geometry)
        spt_table_pair(out, "inside", "%d %s of %.6g mm, contact angle %.4g\xC2\xB0",
                       inside->elements, spt_bearing_is_ball(bearing->type) ? "balls" : "rollers",
                       inside->element_diameter_mm, inside->contact_angle_rad * 180 / PI);
    spt_table_close(out);
}

static void write_lubricant(FILE *out, const struct spt_lubricant *oil)
{
    char caption[300];
    snprintf(caption, sizeof caption, "Lubricant: %.250s", oil->name);
    spt_table_open(out, caption, pair_heads);
    spt_table_pair(out, "way of lubricating", "%s",
                   spt_word(&spt_lubrication_words, (int)oil->kind));
    spt_table_pair(out,
                   "viscosity at 40 \xC2\xB0"
                   "C",
                   "%.4g mm\xC2\xB2/s%s", oil->viscosity_40_mm2_s,
                   oil->kind == SPT_LUBRICATION_GREASE ? " (base oil)" : "");
    spt_table_pair(out,
                   "viscosity at 100 \xC2\xB0"
                   "C",
                   "%.3g mm\xC2\xB2/s", oil->viscosity_100_mm2_s);
    spt_table_pair(out, "viscosity index", "%.0f%s", oil->viscosity_index,
                   oil->index_assumed ? ", assumed" : "");
    spt_table_pair(out, "EP additive", "%s", oil->ep_additive ? "proven effective" : "no");
    if (!isnan(oil->density_g_cm3))
        spt_table_pair(out, "density", "%.4g g/cm\xC2\xB3", oil->density_g_cm3);
    spt_table_close(out);
}

static void write_dirt(FILE *out, const struct spt_condition *state)
{
    char words[80];
    if (isnan(state->contamination_factor))
        snprintf(words, sizeof words, "%s%s", spt_cleanliness_name(state->cleanliness),
                 state->code_rounded ? " (next dirtier class)" : "");
    else
        snprintf(words, sizeof words, "e_C %.4g given", state->contamination_factor);
    spt_table_text(out, words);
}

static void write_temperature(FILE *out, const struct spt_phase_result *result)
{
    if (isnan(result->phase->temperature_c))
        spt_table_numberf(out, "%.3g, estimated", result->temperature_c);
    else
        spt_table_numberf(out, "%.4g", result->temperature_c);
}

static void write_duty_row(FILE *out, const struct spt_phase_result *result, int number)
{
    char cell[SPT_HOURS_LENGTH], name[300];
    const struct spt_phase *phase = result->phase;
    bool given = !isnan(phase->equivalent_load_n);
    snprintf(name, sizeof name, "%d %.280s", number, phase->name);
    spt_table_row(out, name);
    spt_table_numberf(out, "%.4g", 100 * phase->time_share);
    spt_table_number(out, spt_text_number(phase->speed_rpm, cell));
    if (given) {
        spt_table_numberf(out, "P %.4g", phase->equivalent_load_n / 1e3);
        spt_table_number(out, "-");
    } else {
        spt_table_number(out, spt_text_number(phase->radial_load_n / 1e3, cell));
        spt_table_number(out, spt_text_number(phase->axial_load_n / 1e3, cell));
    }
    write_temperature(out, result);
    write_dirt(out, &phase->condition);
    spt_table_numberf(out, "%.6g", phase->condition.water_ppm);
    spt_table_numberf(out, "%.6g", phase->condition.grease_age_h);
    spt_table_row_end(out);
}

static void write_duty(FILE *out, const struct spt_bearing_result *bearing, bool named)
{
    static const char *const heads[] = {"phase",
                                        "#time %",
                                        "#speed r/min",
                                        "#radial load kN",
                                        "#axial load kN",
                                        "#temperature \xC2\xB0"
                                        "C",
                                        "cleanliness",
                                        "#water ppm",
                                        "#grease age h",
                                        NULL};
    char caption[300] = "Duty and condition";
    if (named)
        snprintf(caption, sizeof caption, "Duty and condition of %.250s",
                 bearing->bearing_case->bearing.name);
    spt_table_open(out, caption, heads);
    for (int i = 0; i < bearing->phase_count; i++)
        write_duty_row(out, &bearing->phases[i], i + 1);
    spt_table_close(out);
}

static bool same_surroundings(const struct spt_surroundings *a, const struct spt_surroundings *b)
{
    return a->dust == b->dust && a->moisture == b->moisture && a->vibration == b->vibration &&
           a->shaft == b->shaft;
}

/* Writes the surroundings, which affect only the relubrication interval, for grease. */
static void write_surroundings(FILE *out, const struct spt_bearing_result *bearing)
{
    static const char *const dusts[] = {"light", "heavy", "light abrasive", "heavy abrasive"};
    static const char *const moistures[] = {"dry", "humid", "condensation", "splash"};
    static const char *const vibrations[] = {"low", "medium", "high"};
    static const char *const shafts[] = {"horizontal", "inclined", "vertical"};
    const struct spt_surroundings *first = &bearing->phases[0].phase->condition.surroundings;
    for (int i = 0; i < bearing->phase_count; i++) {
        const struct spt_phase *phase = bearing->phases[i].phase;
        const struct spt_surroundings *around = &phase->condition.surroundings;
        if (i && same_surroundings(around, first))
            continue;
        fputs("<p>", out);
        spt_escape(out, i ? phase->name : "Surroundings of the grease");
        fprintf(out, ": dust %s, moisture %s, vibration %s, shaft %s.</p>\n", dusts[around->dust],
                moistures[around->moisture], vibrations[around->vibration], shafts[around->shaft]);
    }
}

static void write_history(FILE *out, const struct spt_history_summary *summary)
{
    char line[SPT_HISTORY_LINE];
    if (!summary)
        return;
    spt_history_line(summary, line, sizeof line);
    fputs("<p>The duty was ", out);
    spt_escape(out, line);
    fputs(".</p>\n", out);
}

void spt_html_inputs(FILE *out, const struct spt_assessment *assessment)
{
    const struct spt_lubricant *oil = &assessment->question->lubricant;
    fputs("<div class=\"pair\">\n", out);
    for (int i = 0; i < assessment->bearing_count; i++)
        write_bearing(out, &assessment->bearings[i].bearing_case->bearing);
    write_lubricant(out, oil);
    fputs("</div>\n", out);
    write_history(out, assessment->question->history);
    for (int i = 0; i < assessment->bearing_count; i++)
        write_duty(out, &assessment->bearings[i], assessment->bearing_count > 1);
    if (oil->kind == SPT_LUBRICATION_GREASE)
        write_surroundings(out, &assessment->bearings[0]);
}
