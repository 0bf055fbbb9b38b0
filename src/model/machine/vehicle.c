/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/vehicle.h"

#include <math.h>

#define PI 3.14159265358979323846
#define KM_H_PER_M_S 3.6

/* Axles [first, end) that carry alike. */
struct group {
    int first, end;
    double middle_m;
};

static struct group make_group(const struct spt_vehicle *vehicle, int first, int end)
{
    struct group group = {first, end, 0};
    for (int i = first; i < end; i++)
        group.middle_m += vehicle->axles[i].behind_m / (end - first);
    return group;
}

static bool is_drawbar(const struct spt_vehicle *vehicle)
{
    return vehicle->kind == SPT_VEHICLE_DRAWBAR;
}

static bool vehicle_is_valid(const struct spt_vehicle *v)
{
    int least = is_drawbar(v) ? 2 : 1;
    if (v->mass_count < 1 || v->mass_count > SPT_MASSES_MAX || v->axle_count < least ||
        v->axle_count > SPT_AXLES_MAX || !(v->track_m > 0) || !(v->rolling_radius_mm > 0) ||
        !(v->loaded_radius_mm > 0) || !(v->eye_height_m >= 0) || !(v->scrub_stiffness >= 0) ||
        !(v->grip >= 0) || !isfinite(v->offset_mm + v->camber_rad))
        return false;
    for (int i = 0; i + 1 < v->axle_count; i++)
        if (!(v->axles[i].behind_m < v->axles[i + 1].behind_m))
            return false;
    return is_drawbar(v) || v->axles[0].behind_m > 0;
}

static bool run_is_valid(const struct spt_vehicle_run *r)
{
    return r->speed_km_h >= 0 && (r->bend == 0 || r->radius_m > 0) && r->braking_g >= 0 &&
           r->own_brakes >= 0 && r->own_brakes <= 1 && r->drag_n >= 0 && r->surface_factor >= 1 &&
           isfinite(r->speed_km_h + r->bank + r->braking_g + r->drag_n + r->surface_factor);
}

static void weigh(const struct spt_vehicle *vehicle, const struct spt_vehicle_run *run,
                  struct spt_vehicle_loads *loads)
{
    double moment_nm = 0;
    for (int i = 0; i < vehicle->mass_count; i++) {
        const struct spt_vehicle_mass *mass = &vehicle->masses[i];
        bool last = i == vehicle->mass_count - 1;
        double kg = last && !isnan(run->payload_kg) ? run->payload_kg : mass->mass_kg;
        if (run->without >> i & 1u)
            continue;
        loads->weight_n += kg * SPT_GRAVITY_M_S2;
        moment_nm += kg * SPT_GRAVITY_M_S2 * mass->behind_m;
        loads->lift_nm += kg * SPT_GRAVITY_M_S2 * mass->height_m;
        loads->lean_nm += kg * SPT_GRAVITY_M_S2 * mass->left_m;
    }
    loads->centre_m = moment_nm / loads->weight_n;
}

/* Weight on the group and on what carries the rest. */
static void balance(const struct spt_vehicle *vehicle, const struct spt_vehicle_run *run,
                    struct spt_vehicle_loads *loads)
{
    bool drawbar = is_drawbar(vehicle);
    struct group group = make_group(vehicle, drawbar ? 1 : 0, vehicle->axle_count);
    double front_m = drawbar ? vehicle->axles[0].behind_m : 0;
    double base_m = group.middle_m - front_m, b = run->braking_g;
    double tow_n = (1 - run->own_brakes) * b * loads->weight_n - run->drag_n;
    double still_n = loads->weight_n * (loads->centre_m - front_m) / base_m;
    loads->group_m = group.middle_m;
    loads->still_group_n = still_n;
    loads->group_n = still_n + (tow_n * vehicle->eye_height_m - b * loads->lift_nm) / base_m;
    loads->eye_pull_n = -tow_n;
    double rest_n = loads->weight_n - loads->group_n;
    loads->front_n = drawbar ? rest_n : 0;
    loads->eye_n = drawbar ? 0 : rest_n;
    loads->still_eye_n = drawbar ? 0 : loads->weight_n - still_n;
    for (int i = group.first; i < group.end; i++)
        loads->axle_n[i] = loads->group_n / (group.end - group.first);
    if (drawbar)
        loads->axle_n[0] = rest_n;
}

static double find_lateral(const struct spt_vehicle_run *run)
{
    double v = run->speed_km_h / KM_H_PER_M_S;
    if (run->bend == 0)
        return 0;
    return run->bend * (v * v / (SPT_GRAVITY_M_S2 * run->radius_m) - run->bank);
}

/* Left wheels of each axle, and where the inner ones lift. Only a centre-axle trailer has to hold
 * the roll by itself; its eye helps by its side force. */
static void roll(const struct spt_vehicle *vehicle, struct spt_vehicle_loads *loads)
{
    bool alone = vehicle->kind == SPT_VEHICLE_CENTRE_AXLE;
    double lever_nm =
        alone ? loads->lift_nm - loads->still_eye_n * vehicle->eye_height_m : loads->lift_nm;
    double carried_n = alone ? loads->group_n : loads->weight_n;
    double towards = loads->lateral_g < 0 ? -1 : 1; /* the bend is to the left */
    loads->tip_g = lever_nm > 0
                       ? (carried_n * vehicle->track_m / 2 + towards * loads->lean_nm) / lever_nm
                       : (double)INFINITY;
    for (int i = 0; i < vehicle->axle_count; i++) {
        double share = loads->axle_n[i] / carried_n;
        loads->left_n[i] =
            loads->axle_n[i] / 2 +
            share * (loads->lean_nm - loads->lateral_g * lever_nm) / vehicle->track_m;
    }
}

/* Side force over load of an axle, to the left: of the bend, and its scrub. */
static double find_scrub(const struct spt_vehicle *vehicle, const struct spt_vehicle_run *run,
                         int axle, double group_m)
{
    double slip = run->bend == 0 || (is_drawbar(vehicle) && axle == 0)
                      ? 0
                      : (vehicle->axles[axle].behind_m - group_m) / run->radius_m;
    double share = vehicle->scrub_stiffness * slip;
    return run->bend * fmax(-vehicle->grip, fmin(vehicle->grip, share));
}

/* What the hub feels: forces in the plane of the wheel and across it. */
static struct spt_hub_wheel load_hub(const struct spt_vehicle *vehicle, double surface_factor,
                                     double brake_n, const struct spt_vehicle_wheel *wheel)
{
    double c = cos(vehicle->camber_rad), s = sin(vehicle->camber_rad);
    struct spt_hub_wheel hub = {
        .radial_n = surface_factor * (wheel->load_n * c + wheel->side_n * s),
        .side_n = surface_factor * (wheel->side_n * c - wheel->load_n * s),
        .rearward_n = surface_factor * wheel->rearward_n,
        .offset_mm = vehicle->offset_mm,
        .rolling_radius_mm = vehicle->loaded_radius_mm,
    };
    if (brake_n > 0 && vehicle->disc_radius_mm > 0) {
        double pad_n =
            surface_factor * brake_n * vehicle->loaded_radius_mm / vehicle->disc_radius_mm;
        hub.pad_rearward_n = pad_n * cos(vehicle->caliper_rad);
        hub.pad_up_n = pad_n * sin(vehicle->caliper_rad);
        hub.pad_offset_mm = vehicle->disc_offset_mm;
    }
    return hub;
}

static void load_wheel(const struct spt_vehicle *vehicle, const struct spt_vehicle_run *run,
                       int index, struct spt_vehicle_loads *loads)
{
    struct spt_vehicle_wheel *wheel = &loads->wheels[index];
    int axle = index / 2;
    bool left = index % 2 == 0, front = is_drawbar(vehicle) && axle == 0;
    double ground_n = loads->group_n + loads->front_n;
    double now_n = front ? loads->front_n : loads->group_n;
    double still_n = front ? loads->weight_n - loads->still_group_n : loads->still_group_n;
    double outwards = left ? 1 : -1;
    double load_n = left ? loads->left_n[axle] : loads->axle_n[axle] - loads->left_n[axle];
    double scrub_n = find_scrub(vehicle, run, axle, loads->group_m) * load_n;
    double brake_n = run->own_brakes * run->braking_g * loads->weight_n / ground_n * load_n;
    *wheel = (struct spt_vehicle_wheel){
        .axle = axle,
        .left = left,
        .load_n = load_n,
        /* + 0: no zero below 0 */
        .side_n = outwards * (loads->lateral_g * still_n / now_n * load_n + scrub_n) + 0.0,
        .scrub_n = outwards * scrub_n + 0.0,
        .rearward_n = brake_n + run->drag_n / ground_n * load_n,
        .speed_rpm = run->speed_km_h * 1e6 / 60 / (2 * PI * vehicle->rolling_radius_mm),
    };
    wheel->hub = load_hub(vehicle, run->surface_factor, brake_n, wheel);
}

static enum spt_vehicle_problem find_problem(const struct spt_vehicle *vehicle,
                                             const struct spt_vehicle_loads *loads)
{
    if (!(loads->group_n > 0) || (is_drawbar(vehicle) && !(loads->front_n > 0)))
        return SPT_VEHICLE_LIFTS;
    for (int i = 0; i < vehicle->axle_count; i++)
        if (!(loads->left_n[i] > 0) || !(loads->left_n[i] < loads->axle_n[i]))
            return SPT_VEHICLE_TIPS;
    return SPT_VEHICLE_FINE;
}

enum spt_status spt_vehicle_load(const struct spt_vehicle *vehicle,
                                 const struct spt_vehicle_run *run, struct spt_vehicle_loads *loads,
                                 enum spt_vehicle_problem *problem)
{
    *loads = (struct spt_vehicle_loads){0};
    *problem = SPT_VEHICLE_BAD;
    if (!vehicle_is_valid(vehicle) || !run_is_valid(run))
        return SPT_BAD_ARGUMENT;
    weigh(vehicle, run, loads);
    if (!(loads->weight_n > 0) || !isfinite(loads->centre_m + loads->lift_nm + loads->lean_nm))
        return SPT_BAD_ARGUMENT;
    balance(vehicle, run, loads);
    loads->lateral_g = find_lateral(run);
    loads->eye_side_n = loads->lateral_g * loads->still_eye_n;
    roll(vehicle, loads);
    *problem = find_problem(vehicle, loads);
    if (*problem)
        return SPT_CANNOT_CARRY;
    loads->wheel_count = 2 * vehicle->axle_count;
    for (int i = 0; i < loads->wheel_count; i++)
        load_wheel(vehicle, run, i, loads);
    return SPT_OK;
}

double spt_vehicle_scrub(const struct spt_vehicle *vehicle, double radius_m)
{
    struct group group = make_group(vehicle, is_drawbar(vehicle) ? 1 : 0, vehicle->axle_count);
    double farthest_m = vehicle->axles[group.end - 1].behind_m - group.middle_m;
    return fmin(SPT_SCRUB_GRIP, SPT_SCRUB_STIFFNESS * farthest_m / radius_m);
}
