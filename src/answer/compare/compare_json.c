/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/compare/compare_parts.h"

#include <math.h>
#include <stddef.h>
#include <string.h>

#include "answer/compare/compare_flags.h"
#include "answer/field/spread.h"
#include "answer/life/explain.h"
#include "answer/life/hub.h"
#include "answer/life/life.h"
#include "answer/life/loss.h"
#include "sentence/greasing.h"

#define ID_LENGTH 64

static void write_causes(struct spt_json *json, const struct spt_assessment *assessment)
{
    spt_json_open(json, "bearings", '[');
    for (int i = 0; i < assessment->bearing_count; i++) {
        const struct spt_bearing_result *bearing = &assessment->bearings[i];
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", bearing->bearing_case->bearing.name);
        spt_json_life(json, bearing->modified_rating_life_h);
        spt_life_loss_json(json, &bearing->loss);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

/* Writes the members about the shown phase. */
static void write_shown(struct spt_json *json, const struct spt_compared *cases, int i)
{
    const struct spt_shown_phase shown = spt_compare_shown(cases, i);
    spt_json_open(json, "shown_phase", '{');
    spt_json_text(json, "bearing", shown.bearing->bearing_case->bearing.name);
    spt_json_text(json, "name", shown.phase->phase->name);
    spt_json_number(json, "effective_viscosity_ratio", shown.phase->effective_viscosity_ratio);
    spt_json_number(json, "contamination_factor", shown.phase->contamination_factor);
    spt_json_number(json, "life_modification_factor", shown.phase->factor.a_iso);
    spt_json_number(json, "water_factor", shown.phase->water_factor);
    spt_json_close(json, '}');
}

static void write_case(struct spt_json *json, const struct spt_page *page,
                       const struct spt_compared *cases, int i)
{
    char id[ID_LENGTH];
    const struct spt_assessment *assessment = &cases[i].assessment;
    spt_table_json_row(spt_page_find(page, "cases"), i, json);
    if (assessment->spread) {
        spt_band_json(json, &assessment->spread->system);
        spt_json_number(json, "samples", assessment->spread->samples);
    }
    if (assessment->question->lubricant.kind == SPT_LUBRICATION_GREASE)
        spt_json_number(json, "grease_working_share", spt_greasing_working(assessment));
    write_shown(json, cases, i);
    if (spt_page_find(page, "limits"))
        spt_table_json_row(spt_page_find(page, "limits"), i, json);
    write_causes(json, assessment);
    snprintf(id, sizeof id, "contacts %d", i);
    if (assessment->hub)
        spt_hub_json(json, spt_page_find(page, id), assessment->hub);
    spt_json_notes(json, &cases[i].notes);
}

static void write_workings(struct spt_json *json, const struct spt_compared *cases, int count)
{
    spt_json_open(json, "workings", '[');
    for (int i = 0; i < count; i++) {
        spt_json_open(json, NULL, '{');
        spt_json_text(json, "name", cases[i].name);
        spt_explain_json(json, &cases[i].assessment);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
}

void spt_compare_json(struct spt_json *json, const struct spt_page *page,
                      const struct spt_compared *cases, int count, bool explain)
{
    spt_json_open(json, "cases", '[');
    for (int i = 0; i < count; i++) {
        spt_json_open(json, NULL, '{');
        write_case(json, page, cases, i);
        spt_json_close(json, '}');
    }
    spt_json_close(json, ']');
    if (explain)
        write_workings(json, cases, count);
}
