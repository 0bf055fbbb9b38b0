/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "scenario/vehicle/vehicle.h"

#define MM_PER_M 1e3

static double or_usual(double value, double usual)
{
    return isnan(value) ? usual : value;
}

static bool states(const struct raw_phase *raw, const char *key)
{
    return spt_node_find(raw->at, key) != NULL;
}

static void need(struct spt_build *build, const struct raw_phase *raw, const char *key,
                 const char *needed, const char *example)
{
    if (states(raw, key) && !states(raw, needed))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, key),
                            "`%s` needs `%s` beside it; add it, such as `%s: %s`", key, needed,
                            needed, example);
}

void spt_build_road_check(struct spt_build *build, const struct raw_phase *raw)
{
    need(build, raw, "bend", "radius", "60 m");
    need(build, raw, "radius", "bend", "left");
    need(build, raw, "bank", "bend", "left");
    need(build, raw, "own_brakes", "braking", "0.3 g");
    if (states(raw, "time") && states(raw, "distance"))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "distance"),
                            "`time` and `distance` say the same thing twice; keep one");
    if (states(raw, "distance") && raw->road_speed_km_h == 0)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "distance"),
                            "a trailer that stands covers no distance; state the `time` of every "
                            "phase, or leave this one out");
}

static unsigned find_mass(struct spt_build *build, const struct raw_phase *raw,
                          const struct spt_vehicle *vehicle)
{
    const char *names[SPT_MASSES_MAX];
    for (int i = 0; raw->without && i < vehicle->mass_count; i++) {
        names[i] = vehicle->masses[i].name ? vehicle->masses[i].name : "";
        if (!strcmp(names[i], raw->without))
            return 1u << i;
    }
    if (!raw->without || !vehicle->mass_count)
        return 0;
    const char *near = spt_nearest(raw->without, names, vehicle->mass_count);
    spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "without"),
                        "the trailer has no mass called `%.60s`; %s `%.60s`%s", raw->without,
                        near ? "did you mean" : "its last one is",
                        near ? near : names[vehicle->mass_count - 1], near ? "?" : "");
    return 0;
}

void spt_build_run(struct spt_build *build, const struct raw_phase *raw,
                   const struct spt_vehicle_case *vehicle, struct spt_vehicle_run *run)
{
    *run = (struct spt_vehicle_run){
        .speed_km_h = raw->road_speed_km_h,
        .bend = raw->bend == 0   ? 1
                : raw->bend == 1 ? -1
                                 : 0,
        .radius_m = raw->radius_mm / MM_PER_M,
        .bank = or_usual(raw->bank, 0),
        .braking_g = or_usual(raw->braking_g, 0),
        .own_brakes = or_usual(raw->own_brakes, 1),
        .drag_n = or_usual(raw->drag_n, 0),
        .surface_factor = or_usual(raw->surface_factor, 1),
        .without = find_mass(build, raw, &vehicle->vehicle),
        .payload_kg = raw->payload_kg,
    };
}

/* "in the phase `bend left` " for messages about the loads. */
struct complaint {
    struct spt_build *build;
    const struct spt_node *phase;
    const char *name;
    const struct spt_vehicle *vehicle;
    const struct spt_vehicle_run *run;
    const struct spt_vehicle_loads *loads;
};

static void complain_of_tipping(const struct complaint *c)
{
    const struct spt_vehicle_loads *l = c->loads;
    if (c->run->bend == 0)
        spt_diagnostics_add(c->build->diags, c->phase->mark,
                            "in the phase `%.40s` the trailer tips sideways by itself: its masses "
                            "lie %.4g m off the middle on a track of %.4g m; check "
                            "`left_of_middle`",
                            c->name, fabs(l->lean_nm / l->weight_n), c->vehicle->track_m);
    else
        spt_diagnostics_add(c->build->diags, c->phase->mark,
                            "in the phase `%.40s` the trailer tips: %.4g km/h in a bend of %.6g m "
                            "is %.3g g sideways, and its inner wheels lift at %.3g g; drive "
                            "slower, take a wider bend, or check masses and heights",
                            c->name, c->run->speed_km_h, c->run->radius_m, fabs(l->lateral_g),
                            l->tip_g);
}

static void complain_of_lifting(const struct complaint *c)
{
    const struct spt_vehicle_loads *l = c->loads;
    bool drawbar = c->vehicle->kind == SPT_VEHICLE_DRAWBAR;
    bool front = drawbar && !(l->front_n > 0);
    spt_diagnostics_add(c->build->diags, c->phase->mark,
                        "in the phase `%.40s` the %s carries nothing: %.5g N of a weight of %.5g "
                        "N, whose centre lies %.4g m behind the eye; check masses, places and "
                        "braking",
                        c->name,
                        front     ? "steered axle"
                        : drawbar ? "rear"
                                  : "group of axles",
                        front ? l->front_n : l->group_n, l->weight_n, l->centre_m);
}

static void complain(const struct complaint *c, enum spt_vehicle_problem problem)
{
    switch (problem) {
    case SPT_VEHICLE_TIPS:
        complain_of_tipping(c);
        break;
    case SPT_VEHICLE_LIFTS:
        complain_of_lifting(c);
        break;
    case SPT_VEHICLE_BAD:
    case SPT_VEHICLE_FINE:
        spt_diagnostics_add(c->build->diags, c->phase->mark,
                            "in the phase `%.40s` the trailer weighs nothing, or its loads cannot "
                            "be worked out from these numbers",
                            c->name);
        break;
    }
}

static bool solve_phases(struct spt_build *build, const struct spt_duty_terms *terms,
                         struct spt_vehicle_loads *loads, const struct spt_phase *phases, int count)
{
    bool solved = true;
    for (int i = 0; i < count; i++) {
        enum spt_vehicle_problem problem;
        if (!spt_vehicle_load(&terms->vehicle->vehicle, &terms->runs[i], &loads[i], &problem))
            continue;
        complain(&(struct complaint){build, terms->duty->items[i], phases[i].name,
                                     &terms->vehicle->vehicle, &terms->runs[i], &loads[i]},
                 problem);
        solved = false;
    }
    return solved;
}

/* The wheel whose hub has the shortest life. Where that has no answer the command that asks for it
 * tells why. */
static int find_worst(struct spt_build *build, const struct spt_case *question)
{
    struct spt_vehicle_answer answer;
    struct spt_error error;
    enum spt_status status = spt_ask_vehicle(question, build->arena, &answer, &error);
    if (status == SPT_NO_MEMORY)
        build->diags->out_of_memory = true;
    return status ? 0 : answer.worst;
}

/* Puts the loads of the wheel that the case is about into its phases. */
static void take_wheel(struct spt_build *build, const struct spt_vehicle_case *vehicle,
                       struct spt_hub_case *hub, struct spt_case *question)
{
    size_t count = (size_t)vehicle->phase_count;
    struct spt_phase *phases = spt_arena_allocate(build->arena, 2 * count * sizeof *phases);
    struct spt_hub_wheel *wheels = spt_arena_allocate(build->arena, count * sizeof *wheels);
    struct spt_case turned;
    struct spt_hub_case own;
    if (!phases || !wheels)
        build->diags->out_of_memory = true;
    else if (!spt_vehicle_turn(question, vehicle->wheel, phases, wheels, &own, &turned)) {
        hub->wheels = wheels;
        for (int row = 0; row < 2; row++)
            question->bearings[row] = turned.bearings[row];
    }
}

void spt_build_vehicle_loads(struct spt_build *build, const struct spt_duty_terms *terms,
                             struct spt_hub_case *hub, struct spt_case *question)
{
    int count = question->bearings[0].phase_count;
    struct spt_vehicle_case *vehicle = spt_arena_allocate(build->arena, sizeof *vehicle);
    struct spt_vehicle_loads *loads =
        spt_arena_allocate(build->arena, (size_t)count * sizeof *loads);
    struct spt_hub_wheel *first = spt_arena_allocate(build->arena, (size_t)count * sizeof *first);
    if (!vehicle || !loads || !first) {
        build->diags->out_of_memory = true;
        return;
    }
    *vehicle = *terms->vehicle;
    if (!solve_phases(build, terms, loads, question->bearings[0].phases, count))
        return;
    vehicle->phase_count = count;
    vehicle->runs = terms->runs;
    vehicle->phases = loads;
    question->vehicle = vehicle;
    for (int i = 0; i < count; i++)
        first[i] = loads[i].wheels[0].hub;
    struct spt_duty_terms own = *terms;
    own.wheels = first;
    spt_build_hub_loads(build, &own, hub, question);
    if (spt_diagnostics_any(build->diags))
        return;
    if (build->pinned_wheel > 0 && build->pinned_wheel <= vehicle->wheel_count)
        vehicle->wheel = build->pinned_wheel - 1;
    else if (vehicle->wheel < 0)
        vehicle->wheel = find_worst(build, question);
    take_wheel(build, vehicle, hub, question);
}
