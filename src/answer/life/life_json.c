/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/hub.h"
#include "answer/life/life.h"
#include "answer/life/loss.h"
#include "answer/life/machine.h"
#include "answer/life/phases.h"
#include "answer/service/greasing.h"
#include "answer/vehicle/vehicle.h"
#include "base/table.h"
#include "sentence/life_status.h"
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

static void write_phases(struct spt_json *json, const struct spt_page *page,
                         const struct spt_assessment *assessment, int index)
{
    const struct spt_bearing_result *result = &assessment->bearings[index];
    char id[SPT_PHASES_ID_LENGTH];
    const struct spt_table *phases = spt_page_find(page, spt_phases_id(index, id));
    spt_json_open(json, "phases", '[');
    for (int i = 0; i < result->phase_count; i++) {
        spt_json_open(json, NULL, '{');
        spt_table_json_row(phases, i, json);
        if (assessment->question->machine)
            spt_machine_phase_json(json, page, assessment, index, i);
        spt_json_notes(json, &result->phases[i].notes);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

static void write_bearing(struct spt_json *json, const struct spt_page *page,
                          const struct spt_assessment *assessment, int index)
{
    const struct spt_bearing_result *result = &assessment->bearings[index];
    const struct spt_bearing *bearing = &result->bearing_case->bearing;
    spt_json_open(json, NULL, '{');
    spt_json_text(json, "name", bearing->name);
    if (assessment->question->machine)
        spt_machine_bearing_json(json, assessment->question->machine, index);
    spt_json_text(json, "type", spt_bearing_type_name(bearing->type));
    spt_json_number(json, "dynamic_load_rating_n", bearing->dynamic_load_rating_n);
    spt_json_number(json, "static_load_rating_n", bearing->static_load_rating_n);
    spt_json_number(json, "fatigue_load_limit_n", bearing->fatigue_load_limit_n);
    spt_json_number(json, "pitch_diameter_mm", bearing->pitch_diameter_mm);
    write_phases(json, page, assessment, index);
    spt_json_number(json, "basic_rating_life_mrev", result->basic_rating_life_mrev);
    spt_json_number(json, "basic_rating_life_h", result->basic_rating_life_h);
    spt_json_life(json, result->modified_rating_life_h);
    if (assessment->spread)
        spt_band_json(json, &assessment->spread->bearings[index]);
    spt_json_number(json, "mean_equivalent_load_n", result->mean_equivalent_load_n);
    spt_json_number(json, "mean_speed_rpm", result->mean_speed_rpm);
    spt_json_number(json, "grease_interval_h", result->grease_interval_h);
    spt_life_loss_json(json, &result->loss);
    spt_json_notes(json, &result->notes);
    spt_json_close(json, '}');
}

void spt_life_json(struct spt_json *json, const struct spt_page *page,
                   const struct spt_assessment *assessment)
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
        write_bearing(json, page, assessment, i);
    spt_json_close(json, ']');
    spt_json_open(json, "system", '{');
    spt_json_number(json, "basic_rating_life_h", assessment->basic_rating_life_h);
    spt_json_life(json, assessment->modified_rating_life_h);
    if (assessment->spread)
        spt_band_json(json, &assessment->spread->system);
    if (assessment->dents.differ) {
        spt_json_number(json, "life_if_cured_h", assessment->dents.if_cured_h);
        spt_json_number(json, "life_half_credit_h", assessment->dents.half_credit_h);
    }
    if (assessment->remaining.hours_run > 0) {
        spt_json_number(json, "hours_run_h", assessment->remaining.hours_run);
        spt_json_number(json, "remaining_life_h", assessment->remaining.life_h);
        spt_json_number(json, "survival_so_far", assessment->remaining.survival);
    }
    if (assessment->question->machine)
        spt_machine_system_json(json, page, assessment);
    spt_json_close(json, '}');
    spt_greasing_json(json, &assessment->greasing);
    spt_json_notes(json, &assessment->notes);
    if (assessment->question->vehicle)
        spt_vehicle_json(json, page, assessment);
    if (assessment->hub)
        spt_hub_json(json, spt_page_find(page, "contacts"), assessment->hub);
}
