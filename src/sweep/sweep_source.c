/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "base/checksum.h"
#include "spalltime/sweep.h"
#include "spalltime/vehicle.h"
#include "spalltime/version.h"
#include "sweep/sweep.h"
#include "sweep/sweep_cases.h"

bool spt_sweep_read_unit(struct spt_sweep_run *run, struct sweep_progress *at,
                         struct sweep_unit *unit, bool *error)
{
    *error = false;
    if (run->cases)
        return spt_sweep_cases_read_unit(run->cases, at, unit, error);
    unsigned long long left = run->last_row - run->first_row - at->rows;
    unit->first_row = run->first_row + at->rows;
    /* a unit of a hub is a chain or what a shard has of it */
    unsigned long long most =
        run->plan.question->hub ? SPT_SWEEP_CHAIN - unit->first_row % SPT_SWEEP_CHAIN : SWEEP_UNIT;
    unit->rows = (int)(left < most ? left : most);
    at->rows += (unsigned long long)unit->rows;
    unit->after = *at;
    return unit->rows > 0;
}

static void add_text(struct spt_checksum *hash, const char *text)
{
    if (text)
        spt_checksum_add(hash, text, strlen(text) + 1);
}

/* One pattern for every NaN. */
static void add_number(struct spt_checksum *hash, double value)
{
    if (isnan(value))
        add_text(hash, "none");
    else
        spt_checksum_add(hash, &value, sizeof value);
}

static void add_bearing(struct spt_checksum *hash, const struct spt_bearing *bearing)
{
    const double numbers[] = {
        bearing->type,
        bearing->bore_mm,
        bearing->outside_diameter_mm,
        bearing->width_mm,
        bearing->pitch_diameter_mm,
        bearing->dynamic_load_rating_n,
        bearing->static_load_rating_n,
        bearing->fatigue_load_limit_n,
        bearing->rows,
        bearing->contact_angle_rad,
        bearing->limit_ratio,
        bearing->radial_factor,
        bearing->axial_factor,
        bearing->static_axial_factor,
        bearing->f0,
        bearing->rib_diameter_mm,
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        add_number(hash, numbers[i]);
}

static void add_phase(struct spt_checksum *hash, const struct spt_phase *phase)
{
    const struct spt_condition *state = &phase->condition;
    const double numbers[] = {
        phase->time_share,
        phase->speed_rpm,
        phase->radial_load_n,
        phase->axial_load_n,
        phase->equivalent_load_n,
        phase->temperature_c,
        phase->ambient_c,
        phase->extra_heat_w,
        phase->cooling_factor,
        phase->setting_factor,
        state->cleanliness,
        state->contamination_factor,
        state->water_ppm,
        state->grease_age_h,
        state->surroundings.dust,
        state->surroundings.moisture,
        state->surroundings.vibration,
        state->surroundings.shaft,
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        add_number(hash, numbers[i]);
}

static void add_case(struct spt_checksum *hash, const struct spt_case *question)
{
    const struct spt_lubricant *oil = &question->lubricant;
    const double numbers[] = {oil->kind,
                              oil->viscosity_40_mm2_s,
                              oil->viscosity_100_mm2_s,
                              oil->line.a,
                              oil->line.b,
                              oil->viscosity_index,
                              oil->ep_additive,
                              oil->density_g_cm3,
                              question->reliability_percent};
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        add_number(hash, numbers[i]);
    for (int b = 0; b < question->bearing_count; b++) {
        add_bearing(hash, &question->bearings[b].bearing);
        for (int j = 0; j < question->bearings[b].phase_count; j++)
            add_phase(hash, &question->bearings[b].phases[j]);
    }
}

static void add_row(struct spt_checksum *hash, const struct spt_hub_row *row)
{
    const struct spt_geometry *shape = &row->geometry;
    const double numbers[] = {
        shape->elements,          shape->element_diameter_mm, shape->element_length_mm,
        shape->contact_angle_rad, shape->pitch_diameter_mm,   row->position_mm,
        row->misalignment_x_rad,  row->misalignment_y_rad,
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        add_number(hash, numbers[i]);
}

static void add_hub(struct spt_checksum *hash, const struct spt_hub_case *hub, int phases)
{
    const double numbers[] = {
        hub->hub.mounting,      hub->hub.turning,   hub->hub.laminae,
        hub->setting_kind,      hub->setting_value, hub->temperature_difference_k,
        hub->rolling_radius_mm,
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        add_number(hash, numbers[i]);
    for (int row = 0; row < 2; row++)
        add_row(hash, &hub->hub.rows[row]);
    for (int j = 0; j < phases; j++) {
        add_number(hash, hub->wheels[j].radial_n);
        add_number(hash, hub->wheels[j].side_n);
        add_number(hash, hub->wheels[j].side_share);
        add_number(hash, hub->wheels[j].rearward_n);
        add_number(hash, hub->wheels[j].pad_rearward_n);
        add_number(hash, hub->wheels[j].pad_up_n);
    }
}

static void add_vehicle(struct spt_checksum *hash, const struct spt_vehicle_case *vehicle)
{
    const struct spt_vehicle *v = &vehicle->vehicle;
    const double numbers[] = {
        v->kind,       v->eye_height_m,    v->track_m, v->rolling_radius_mm, v->loaded_radius_mm,
        v->camber_rad, v->scrub_stiffness, v->grip,    vehicle->wheel,
    };
    for (size_t i = 0; i < sizeof numbers / sizeof *numbers; i++)
        add_number(hash, numbers[i]);
    for (int i = 0; i < v->mass_count; i++) {
        add_number(hash, v->masses[i].mass_kg);
        add_number(hash, v->masses[i].behind_m);
        add_number(hash, v->masses[i].left_m);
        add_number(hash, v->masses[i].height_m);
    }
    for (int i = 0; i < v->axle_count; i++)
        add_number(hash, v->axles[i].behind_m);
    for (int i = 0; i < vehicle->phase_count; i++) {
        const struct spt_vehicle_run *run = &vehicle->runs[i];
        add_number(hash, run->bend * run->radius_m);
        add_number(hash, run->without);
    }
}

/* Two runs with the same number would write the same bytes. */
uint64_t spt_sweep_fingerprint(const struct spt_sweep_run *run)
{
    struct spt_checksum hash;
    const struct spt_sweep *sweep = &run->scenario->sweep;
    spt_checksum_begin(&hash);
    add_text(&hash, SPT_VERSION);
    add_case(&hash, run->plan.question);
    if (run->plan.question->hub)
        add_hub(&hash, run->plan.question->hub, run->plan.question->bearings[0].phase_count);
    if (run->plan.question->vehicle)
        add_vehicle(&hash, run->plan.question->vehicle);
    add_number(&hash, run->layout.form);
    for (int f = 0; f < run->layout.field_count; f++)
        add_text(&hash, spt_sweep_field_name(run->layout.fields[f]));
    for (int c = 0; c < run->layout.column_count; c++)
        add_text(&hash, spt_sweep_column_name(run->layout.columns[c]));
    add_number(&hash, run->shard);
    add_number(&hash, run->shards);
    add_text(&hash, run->order->rejects ? "rejects" : "no rejects");
    if (run->cases) {
        spt_checksum_add(&hash, run->cases->head.bytes, run->cases->head.length);
        add_number(&hash, (double)run->cases->size);
        return spt_checksum_value(&hash);
    }
    add_number(&hash, sweep->zip);
    for (int a = 0; a < sweep->count; a++)
        for (size_t i = 0; i < sweep->axes[a].count; i++)
            add_number(&hash, sweep->axes[a].values[i]);
    return spt_checksum_value(&hash);
}
