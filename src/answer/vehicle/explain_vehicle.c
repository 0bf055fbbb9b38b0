/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stdio.h>

#include "answer/vehicle/vehicle.h"

#define SYMBOL_LENGTH 120
#define RIGID "equilibrium of a rigid body, derived here"
#define USUAL "common practice, no source"

/* A phase that is explained. */
struct view {
    const struct spt_step_sink *sink;
    const struct spt_vehicle *vehicle;
    const struct spt_vehicle_run *run;
    const struct spt_vehicle_loads *loads;
};

static void explain_masses(const struct view *v)
{
    const struct spt_vehicle_loads *l = v->loads;
    int there = 0;
    for (int i = 0; i < v->vehicle->mass_count; i++)
        there += !(v->run->without >> i & 1u);
    spt_explain_step(v->sink, "W", "g sum m", l->weight_n, "N", "weight", "%d of %d masses%s",
                     there, v->vehicle->mass_count,
                     isnan(v->run->payload_kg) ? "" : ", the last with the payload of the phase");
    spt_explain_step(v->sink, "x_c", "g sum m x / W", l->centre_m, "m", "centre of mass",
                     "behind the eye; W h %.6g N m, W y %.6g N m", l->lift_nm, l->lean_nm);
}

static void explain_axles(const struct view *v)
{
    const struct spt_vehicle_loads *l = v->loads;
    const struct spt_vehicle_run *r = v->run;
    bool drawbar = v->vehicle->kind == SPT_VEHICLE_DRAWBAR;
    spt_explain_step(v->sink, "R",
                     drawbar ? "[W (x_c - x_f) - b W h + (1 - q) b W h_e - D h_e]/(x_g - x_f)"
                             : "[W x_c - b W h + (1 - q) b W h_e - D h_e]/x_g",
                     l->group_n, "N", RIGID, "x_g %.6g m, h_e %.4g m, b %.4g g, q %.4g, D %.6g N",
                     l->group_m, v->vehicle->eye_height_m, r->braking_g, r->own_brakes, r->drag_n);
    if (drawbar)
        spt_explain_step(v->sink, "R_f", "W - R", l->front_n, "N", RIGID,
                         "steered axle %.6g m behind the eye", v->vehicle->axles[0].behind_m);
    else
        spt_explain_step(v->sink, "V", "W - R", l->eye_n, "N", RIGID,
                         "without braking and drag %.6g N", l->still_eye_n);
}

static void explain_bend(const struct view *v)
{
    const struct spt_vehicle_loads *l = v->loads;
    const struct spt_vehicle_run *r = v->run;
    bool alone = v->vehicle->kind == SPT_VEHICLE_CENTRE_AXLE;
    if (r->bend == 0 && l->lean_nm == 0)
        return;
    if (r->bend != 0)
        spt_explain_step(v->sink, "a_y", "v^2/(g r) - bank, to the left above 0", l->lateral_g, "g",
                         "bend at steady speed", "%.6g km/h, r %.6g m, bank %.4g", r->speed_km_h,
                         r->radius_m, r->bank);
    spt_explain_step(v->sink, "a_tip",
                     alone ? "(R t/2 +- W y)/(W h - V h_e)" : "(W t/2 +- W y)/(W h)", l->tip_g, "g",
                     alone ? RIGID : "coupling plate and separate axles share the roll: " USUAL,
                     "t %.6g m; the bend asks %.3g %% of it", v->vehicle->track_m,
                     100 * fabs(l->lateral_g) / l->tip_g);
}

static void explain_wheel(const struct view *v, int wheel)
{
    const struct spt_vehicle_wheel *w = &v->loads->wheels[wheel];
    char name[SPT_WHEEL_NAME_LENGTH], symbol[SYMBOL_LENGTH];
    double axle_n = v->loads->axle_n[w->axle];
    bool alone = v->vehicle->kind == SPT_VEHICLE_CENTRE_AXLE;
    spt_vehicle_wheel_name(v->vehicle, wheel, name);
    snprintf(symbol, sizeof symbol, "N (%s)", name);
    spt_explain_step(
        v->sink, symbol,
        alone ? "axle/2 +- share [W y - a_y (W h - V h_e)]/t" : "axle/2 +- share [W y - a_y W h]/t",
        w->load_n, "N", RIGID, "axle %.6g N, roll on it %.6g N m over %.6g m", axle_n,
        fabs(v->loads->left_n[w->axle] - axle_n / 2) * v->vehicle->track_m, v->vehicle->track_m);
    snprintf(symbol, sizeof symbol, "S (%s)", name);
    spt_explain_step(v->sink, symbol, "a_y (R0/R) N + scrub, outwards above 0", w->side_n, "N",
                     w->scrub_n == 0 ? "balance about the upright axis, derived here"
                                     : "the same; stiffness of the tyre from memory",
                     "scrub %.6g N", w->scrub_n);
    if (w->rearward_n > 0)
        spt_explain_step(v->sink, "Fx", "(q b W + D)/R N", w->rearward_n, "N", RIGID,
                         "backwards on the tyre%s",
                         v->vehicle->disc_radius_mm > 0 ? "; the caliper pushes Fx r/r_disc" : "");
    if (v->run->surface_factor > 1 || v->vehicle->camber_rad != 0)
        spt_explain_step(v->sink, "W_hub", "f (N cos gamma + S sin gamma)", w->hub.radial_n, "N",
                         "shock factors: " USUAL, "f %.4g, gamma %.4g rad; S_hub %.6g N",
                         v->run->surface_factor, v->vehicle->camber_rad, w->hub.side_n);
}

static void explain_balance(const struct view *v)
{
    const struct spt_vehicle_loads *l = v->loads;
    double up_n = l->eye_n, left_n = l->eye_side_n;
    for (int i = 0; i < l->wheel_count; i++) {
        up_n += l->wheels[i].load_n;
        left_n += l->wheels[i].left ? l->wheels[i].side_n : -l->wheels[i].side_n;
    }
    spt_explain_step(v->sink, "sum N", "wheels and eye, less W", (up_n - l->weight_n) / l->weight_n,
                     "", "balance of the upright forces, over W", "%.6g - %.6g N", up_n,
                     l->weight_n);
    spt_explain_step(v->sink, "sum S", "wheels and eye, less a_y W",
                     (left_n - l->lateral_g * l->weight_n) / l->weight_n, "",
                     "balance of the forces across, over W", "%.6g - %.6g N, to the left", left_n,
                     l->lateral_g * l->weight_n);
}

void spt_explain_vehicle(const struct spt_assessment *assessment, const struct spt_step_sink *sink)
{
    const struct spt_vehicle_case *vehicle = assessment->question->vehicle;
    for (int i = 0; i < vehicle->phase_count; i++) {
        const struct view v = {sink, &vehicle->vehicle, &vehicle->runs[i], &vehicle->phases[i]};
        sink->place(sink->context, "trailer", assessment->bearings[0].phases[i].phase->name);
        explain_masses(&v);
        explain_axles(&v);
        explain_bend(&v);
        for (int w = 0; w < vehicle->wheel_count; w++)
            explain_wheel(&v, w);
        explain_balance(&v);
    }
}
