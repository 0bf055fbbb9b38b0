/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/hub.h"
#include "answer/life/life.h"
#include "base/table.h"
#include "sentence/sentence.h"
#include "spalltime/version.h"

void spt_json_tool(struct spt_json *json)
{
    spt_json_open(json, "tool", '{');
    spt_json_text(json, "name", "spalltime");
    spt_json_text(json, "version", SPT_VERSION);
    spt_json_close(json, '}');
}

void spt_json_notes(struct spt_json *json, const struct spt_notes *notes)
{
    spt_json_open(json, "warnings", '[');
    for (int i = 0; i < notes->count; i++) {
        char sentence[SPT_SENTENCE_LENGTH];
        spt_sentence(&notes->list[i], sentence, sizeof sentence);
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "code", spt_flag_code(notes->list[i].flag));
        spt_json_text(json, "text", sentence);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_json_life(struct spt_json *json, double life_h)
{
    spt_json_number(json, "modified_rating_life_h", life_h);
    spt_json_text(json, "life_status", spt_life_status_name(spt_life_status(life_h)));
}

static void write_phase(struct spt_json *json, const struct spt_phase_result *result)
{
    const struct spt_phase *phase = result->phase;
    bool parts = isnan(phase->equivalent_load_n);
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "name", phase->name);
    const struct {
        const char *key;
        double value;
    } numbers[] = {
        {"time_share", phase->time_share},
        {"speed_rpm", phase->speed_rpm},
        {"radial_load_n", parts ? phase->radial_load_n : (double)NAN},
        {"axial_load_n", parts ? phase->axial_load_n : (double)NAN},
        {"equivalent_load_n", result->dynamic.load_n},
        {"static_equivalent_load_n", result->resting.load_n},
        {"static_safety_factor", result->static_safety_factor},
        {"static_safety_guide", result->static_safety_guide},
        {"temperature_c", result->temperature_c},
        {"viscosity_mm2_s", result->viscosity_mm2_s},
        {"reference_viscosity_mm2_s", result->reference_viscosity_mm2_s},
        {"viscosity_ratio", result->viscosity_ratio},
        {"effective_viscosity_ratio", result->effective_viscosity_ratio},
        {"contamination_factor", result->contamination_factor},
        {"life_modification_factor", result->factor.a_iso},
        {"water_factor", result->water_factor},
        {"grease_interval_h", result->interval.interval_h},
        {"film_ratio", result->grease.film_ratio},
        {"basic_rating_life_h", result->basic_rating_life_h},
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        spt_json_number(json, numbers[i].key, numbers[i].value);
    spt_json_life(json, result->modified_rating_life_h);
    spt_json_number(json, "damage_share", result->damage_share);
    spt_json_notes(json, &result->notes);
    spt_json_close(json, '}');
}

void spt_life_loss_json(struct spt_json *json, const struct spt_loss *loss)
{
    spt_json_open(json, "loss", '{');
    spt_json_number(json, "reference_life_h", loss->reference_life_h);
    spt_json_open(json, "causes", '[');
    for (int i = 0; i < SPT_CAUSE_COUNT; i++) {
        if (!loss->causes[i].applies)
            continue;
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "cause", spt_cause_name((enum spt_cause)i));
        spt_json_number(json, "log_life_share", loss->causes[i].log_life_share);
        spt_json_number(json, "life_if_cured_h", loss->causes[i].life_if_cured_h);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    spt_json_close(json, '}');
}

static void write_bearing(struct spt_json *json, const struct spt_bearing_result *result,
                          const struct spt_band *band)
{
    const struct spt_bearing *bearing = &result->bearing_case->bearing;
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "name", bearing->name);
    spt_json_text(json, "type", spt_bearing_type_name(bearing->type));
    spt_json_number(json, "dynamic_load_rating_n", bearing->dynamic_load_rating_n);
    spt_json_number(json, "static_load_rating_n", bearing->static_load_rating_n);
    spt_json_number(json, "fatigue_load_limit_n", bearing->fatigue_load_limit_n);
    spt_json_number(json, "pitch_diameter_mm", bearing->pitch_diameter_mm);
    spt_json_open(json, "phases", '[');
    for (int i = 0; i < result->phase_count; i++)
        write_phase(json, &result->phases[i]);
    spt_json_close(json, ']');
    spt_json_number(json, "basic_rating_life_mrev", result->basic_rating_life_mrev);
    spt_json_number(json, "basic_rating_life_h", result->basic_rating_life_h);
    spt_json_life(json, result->modified_rating_life_h);
    if (band)
        spt_band_json(json, band);
    spt_json_number(json, "mean_equivalent_load_n", result->mean_equivalent_load_n);
    spt_json_number(json, "mean_speed_rpm", result->mean_speed_rpm);
    spt_json_number(json, "grease_interval_h", result->grease_interval_h);
    spt_life_loss_json(json, &result->loss);
    spt_json_notes(json, &result->notes);
    spt_json_close(json, '}');
}

void spt_life_json(struct spt_json *json, const struct spt_assessment *assessment)
{
    const struct spt_case *question = assessment->question;
    spt_json_text(json, "title", question->title);
    spt_history_json(json, question->history);
    spt_json_number(json, "reliability_percent", question->reliability_percent);
    spt_json_text(json, "running", spt_running_name(question->running));
    spt_json_number(json, "reliability_factor", assessment->reliability_factor);
    spt_json_number(json, "target_life_h", question->target_life_h);
    spt_json_open(json, "bearings", '[');
    for (int i = 0; i < assessment->bearing_count; i++)
        write_bearing(json, &assessment->bearings[i],
                      assessment->spread ? &assessment->spread->bearings[i] : NULL);
    spt_json_close(json, ']');
    spt_json_open(json, "system", '{');
    spt_json_number(json, "basic_rating_life_h", assessment->basic_rating_life_h);
    spt_json_life(json, assessment->modified_rating_life_h);
    if (assessment->spread)
        spt_band_json(json, &assessment->spread->system);
    spt_json_close(json, '}');
    spt_json_notes(json, &assessment->notes);
    if (assessment->hub)
        spt_hub_json(json, assessment->hub);
}
