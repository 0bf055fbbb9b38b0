/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "scenario/build/build_machine.h"
#include "scenario/vehicle/vehicle.h"

#define SHARE_TOLERANCE 5e-3 /* tolerance on the sum of shares, for thirds written as 33.3 % */
#define USUAL_AMBIENT_C 20.0

static bool states(const struct raw_phase *raw, const char *key)
{
    return spt_node_find(raw->at, key) != NULL;
}

/* Rejects the first stated one of some keys; `reason` tells why it is not allowed here. */
static bool refuse_keys(struct spt_build *build, const struct raw_phase *raw,
                        const char *const *keys, const char *reason)
{
    for (; *keys; keys++)
        if (states(raw, *keys)) {
            spt_diagnostics_add(build->diags, spt_node_mark(raw->at, *keys), "`%s` %s", *keys,
                                reason);
            return true;
        }
    return false;
}

static const char *const machine_keys[] = {"power", "torque", "belt_speed", "turns", "parts", NULL};

static const char *const vehicle_keys[] = {"distance", "without",        "payload", "bend",
                                           "radius",   "bank",           "braking", "own_brakes",
                                           "drag",     "surface_factor", NULL};
static const char *const vehicle_reason = "belongs to a `machine` with a `trailer`; leave it out";

static void check_bearing_loads(struct spt_build *build, const struct raw_phase *raw)
{
    static const char *const wheel_keys[] = {"wheel_load", "side_force", "side_share", "road_speed",
                                             NULL};
    bool parts = states(raw, "radial_load") || states(raw, "axial_load");
    bool whole = states(raw, "equivalent_load");
    if (refuse_keys(build, raw, vehicle_keys, vehicle_reason))
        return;
    if (refuse_keys(build, raw, machine_keys,
                    "belongs to a scenario with a `machine`; here write `radial_load`, "
                    "`axial_load` and `speed`"))
        return;
    if (refuse_keys(build, raw, wheel_keys,
                    "belongs to a scenario with a `hub`; here write `radial_load`, `axial_load` "
                    "and `speed`"))
        return;
    if (parts && whole)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "equivalent_load"),
                            "`equivalent_load` stands beside `radial_load` or `axial_load`; keep "
                            "one of the two ways");
    if (!parts && !whole)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks a load; add `radial_load: 15 kN` (0 kN for none), or "
                            "`equivalent_load`");
    if (!states(raw, "speed"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks `speed`; add it, such as `speed: 420 rpm`");
}

static void check_machine(struct spt_build *build, const struct raw_phase *raw)
{
    static const char *const other_keys[] = {"radial_load", "axial_load", "equivalent_load",
                                             "wheel_load",  "side_force", "side_share",
                                             "road_speed",  NULL};
    if (refuse_keys(build, raw, vehicle_keys, vehicle_reason))
        return;
    if (refuse_keys(build, raw, other_keys,
                    "does not belong to a scenario with a `machine`, whose bearings are loaded by "
                    "what the shaft carries; write `speed` and `power` or `torque`"))
        return;
    if (states(raw, "power") && states(raw, "torque"))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "torque"),
                            "`power` and `torque` say the same thing twice; keep one");
    if (states(raw, "speed") && states(raw, "belt_speed"))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "belt_speed"),
                            "`speed` and `belt_speed` say the same thing twice; keep one");
    if (!states(raw, "speed") && !states(raw, "belt_speed"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks `speed`; add it, such as `speed: 420 rpm`");
}

static void check_wheel(struct spt_build *build, const struct raw_phase *raw)
{
    static const char *const bearing_keys[] = {"radial_load", "axial_load", "equivalent_load",
                                               NULL};
    bool turns = raw->speed_rpm > 0 || raw->road_speed_km_h > 0;
    if (refuse_keys(build, raw, vehicle_keys, vehicle_reason))
        return;
    if (refuse_keys(build, raw, machine_keys,
                    "belongs to a scenario with a `machine`; a hub has a `wheel_load`"))
        return;
    if (refuse_keys(build, raw, bearing_keys,
                    "belongs to a scenario with one `bearing`; the rows of a hub share its "
                    "`wheel_load` and `side_force` or `side_share`"))
        return;
    if (!states(raw, "wheel_load"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks `wheel_load`; add it, such as `wheel_load: 45 kN`");
    else if (turns && raw->wheel_load_n == 0)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "wheel_load"),
                            "a wheel that turns on the road carries a load; write a `wheel_load` "
                            "above 0, or a speed of 0");
    if (states(raw, "side_force") && states(raw, "side_share"))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "side_share"),
                            "`side_force` and `side_share` say the same thing twice; keep one");
    if (states(raw, "speed") && states(raw, "road_speed"))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "road_speed"),
                            "`speed` and `road_speed` say the same thing twice; keep one");
    if (!states(raw, "speed") && !states(raw, "road_speed"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks a speed; add `road_speed: 80 km/h` or `speed: 420 "
                            "rpm`");
}

static void check_road(struct spt_build *build, const struct raw_phase *raw)
{
    static const char *const load_keys[] = {
        "speed",      "radial_load", "axial_load", "equivalent_load", "wheel_load",
        "side_force", "side_share",  "power",      "torque",          "belt_speed",
        "turns",      "parts",       NULL};
    if (refuse_keys(build, raw, load_keys,
                    "does not belong to a trailer, whose wheels are loaded by its masses and its "
                    "road; write `road_speed`, and `bend` and `radius` where it turns"))
        return;
    if (!states(raw, "road_speed"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks `road_speed`; add it, such as `road_speed: 40 km/h`");
    spt_build_road_check(build, raw);
}

/* A trailer may state the distance of each phase instead. */
static void check_time(struct spt_build *build, const struct raw_phase *raw, bool road)
{
    if (!states(raw, "time") && !(road && states(raw, "distance")))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks `time`; add it, such as `time: 60 %%`");
}

static void check_temperature(struct spt_build *build, const struct raw_phase *raw)
{
    if (raw->temperature.word >= 0)
        return;
    static const char *const keys[] = {"ambient", "extra_heat", "cooling"};
    for (int i = 0; i < 3; i++)
        if (spt_node_find(raw->at, keys[i]))
            spt_diagnostics_add(build->diags, spt_node_mark(raw->at, keys[i]),
                                "`%s` belongs to `temperature: estimate`; the temperature is "
                                "stated here, so leave it out",
                                keys[i]);
}

static double or_usual(double value, double usual)
{
    return isnan(value) ? usual : value;
}

/* A rolling wheel turns once in 2 pi r; 1 km/h is 10^6/60 mm/min. */
static double find_speed(const struct raw_phase *raw, const struct spt_hub_case *hub)
{
    if (!hub || isnan(raw->road_speed_km_h))
        return raw->speed_rpm;
    return raw->road_speed_km_h * 1e6 / 60 / (2 * acos(-1.0) * hub->rolling_radius_mm);
}

/* Relative to the air assumed for the conductance of ISO 15312 (see spt_air). */
static double find_cooling(const struct raw_phase *raw)
{
    double air_w_m2k = raw->cooling.word < 0 ? raw->cooling.value
                                             : spt_heat_air_w_m2k((enum spt_air)raw->cooling.word);
    return or_usual(air_w_m2k, SPT_AIR_REFERENCE_W_M2K) / SPT_AIR_REFERENCE_W_M2K;
}

static struct spt_hub_wheel make_wheel(const struct raw_phase *raw, const struct spt_hub_case *hub)
{
    double side_n =
        isnan(raw->side_share) ? raw->side_force_n : raw->side_share * raw->wheel_load_n;
    return (struct spt_hub_wheel){.radial_n = raw->wheel_load_n,
                                  .side_n = or_usual(side_n, 0),
                                  .side_share = or_usual(raw->side_share, 0),
                                  .rolling_radius_mm = hub->rolling_radius_mm};
}

static void fill_phase(struct spt_build *build, const struct raw_phase *raw,
                       const struct spt_duty_terms *terms, struct spt_phase *phase)
{
    *phase = (struct spt_phase){
        .name = raw->phase,
        .time_share = raw->time.value,
        .speed_rpm = find_speed(raw, terms->hub),
        .radial_load_n = or_usual(raw->radial_load_n, 0),
        .axial_load_n = or_usual(raw->axial_load_n, 0),
        .equivalent_load_n = raw->equivalent_load_n,
        .temperature_c = raw->temperature.value,
        .ambient_assumed = isnan(raw->ambient_c),
        .ambient_c = or_usual(raw->ambient_c, USUAL_AMBIENT_C),
        .extra_heat_w = or_usual(raw->extra_heat_w, 0),
        .cooling_factor = find_cooling(raw),
        .setting_factor = 1,
        .cured_setting_factor = 1,
    };
    const struct spt_node *state = terms->condition;
    if (state && raw->condition) {
        const struct spt_node *own =
            spt_build_resolve(build, SPT_CATALOG_CONDITIONS, raw->condition);
        state = own ? spt_node_merge(terms->condition, own, NULL, NULL, build->arena) : NULL;
        if (own && !state)
            build->diags->out_of_memory = true;
    }
    if (state)
        spt_build_condition(build, state, terms->kind, &phase->condition);
}

static bool times_are_alike(struct spt_build *build, const struct raw_phase *raws, int count)
{
    for (int i = 1; i < count; i++)
        if (states(&raws[i], "distance") != states(&raws[0], "distance")) {
            spt_diagnostics_add(build->diags, raws[i].at->mark,
                                "some phases state their `time`, others their `distance`; use one "
                                "of the two for all");
            return false;
        }
    for (int i = 1; i < count; i++)
        if (raws[i].time.dimension != raws[0].time.dimension) {
            if (states(&raws[i], "distance")) {
                spt_diagnostics_add(build->diags, spt_node_mark(raws[i].at, "distance"),
                                    "some phases state their distance in %%, others in km; use one "
                                    "of the two for all");
                return false;
            }
            spt_diagnostics_add(build->diags, spt_node_mark(raws[i].at, "time"),
                                "some phases state their time in %%, others in hours; use one of "
                                "the two for all");
            return false;
        }
    return true;
}

static void check_distances(struct spt_build *build, const struct spt_node *duty,
                            const struct raw_phase *raws, int count)
{
    double sum = 0;
    for (int i = 0; i < count; i++)
        sum += raws[i].distance.value;
    if (fabs(sum - 1) > SHARE_TOLERANCE)
        spt_diagnostics_add(build->diags, duty->mark,
                            "the shares of the distance sum to %.6g %%, not to 100 %%", sum * 100);
}

/* Makes the shares sum to 1: hours are divided by their sum, percentages must sum to 100 within
 * half a percent and are scaled to it. */
static void normalise(struct spt_build *build, const struct spt_node *duty,
                      const struct raw_phase *raws, struct spt_phase *phases, int count)
{
    double sum = 0;
    if (!times_are_alike(build, raws, count))
        return;
    for (int i = 0; i < count; i++)
        sum += phases[i].time_share;
    if (isnan(sum))
        return;
    bool road = states(&raws[0], "distance"), shares = raws[0].time.dimension == SPT_SHARE;
    if (road && shares)
        check_distances(build, duty, raws, count);
    if (!road && shares && fabs(sum - 1) > SHARE_TOLERANCE)
        spt_diagnostics_add(build->diags, duty->mark,
                            "the time shares of the phases sum to %.6g %%, not to 100 %%",
                            sum * 100);
    else if (!(sum > 0))
        spt_diagnostics_add(build->diags, duty->mark, "no phase of the duty takes any time");
    build->shares_sum = shares && !road ? sum : 0;
    for (int i = 0; sum > 0 && i < count; i++)
        phases[i].time_share /= sum;
}

static void check_names(struct spt_build *build, const struct raw_phase *raws, int count)
{
    for (int i = 1; i < count; i++)
        for (int j = 0; j < i; j++)
            if (raws[i].phase && raws[j].phase && !strcmp(raws[i].phase, raws[j].phase)) {
                spt_diagnostics_add(build->diags, spt_node_mark(raws[i].at, "phase"),
                                    "two phases are called `%.60s`; give each its own name",
                                    raws[i].phase);
                break;
            }
}

/* The condition of a phase where it states the age of the grease, else NULL. */
static const struct spt_node *find_age(struct spt_build *build, const struct raw_phase *raw)
{
    const struct spt_node *own =
        raw->condition ? spt_build_resolve(build, SPT_CATALOG_CONDITIONS, raw->condition) : NULL;
    return own && spt_node_find(own, "grease_age") ? raw->condition : NULL;
}

/* All phases of a bearing run in the same grease. */
static void check_ages(struct spt_build *build, const struct raw_phase *raws,
                       const struct spt_phase *phases, int count)
{
    int i = 1;
    while (i < count && phases[i].condition.grease_age_h == phases[0].condition.grease_age_h)
        i++;
    if (i >= count)
        return;
    const struct spt_node *at = find_age(build, &raws[i]);
    if (!at)
        at = find_age(build, &raws[0]);
    spt_diagnostics_add(build->diags, at ? spt_node_mark(at, "grease_age") : raws[i].at->mark,
                        "the grease is %.6g h old in phase `%.60s` and %.6g h in phase `%.60s`, "
                        "but one bearing has one grease; state `grease_age` once, in the "
                        "`condition` of the scenario (`timeline` follows its ageing, `variants` "
                        "compare ages)",
                        phases[0].condition.grease_age_h, phases[0].name,
                        phases[i].condition.grease_age_h, phases[i].name);
}

static bool has_room(struct spt_build *build, const struct spt_duty_terms *terms)
{
    const struct spt_node *duty = terms->duty;
    int most = terms->hub ? SPT_HUB_PHASES_MAX : SPT_PHASES_MAX;
    if (duty->count > most)
        spt_diagnostics_add(build->diags, duty->mark, "%d phases are too many; the limit is %d",
                            duty->count, most);
    return duty->count <= most;
}

static void read_phase(struct spt_build *build, const struct spt_node *node,
                       const struct spt_duty_terms *terms, struct raw_phase *raw,
                       struct spt_phase *phase)
{
    spt_section_read(&spt_section_phase, node, raw, build->diags);
    check_time(build, raw, terms->vehicle != NULL);
    (terms->vehicle   ? check_road
     : terms->hub     ? check_wheel
     : terms->machine ? check_machine
                      : check_bearing_loads)(build, raw);
    if (states(raw, "distance")) {
        raw->time = raw->distance;
        raw->time.value = raw->distance.value / raw->road_speed_km_h;
    }
    check_temperature(build, raw);
    fill_phase(build, raw, terms, phase);
}

const struct spt_phase *spt_build_duty(struct spt_build *build, struct spt_duty_terms *terms,
                                       int *count)
{
    const struct spt_node *duty = terms->duty;
    size_t n = (size_t)duty->count;
    *count = duty->count;
    if (!has_room(build, terms))
        return NULL;
    struct spt_phase *phases = spt_arena_allocate(build->arena, n * sizeof *phases);
    struct raw_phase *raws = spt_arena_allocate(build->arena, n * sizeof *raws);
    terms->wheels = terms->hub ? spt_arena_allocate(build->arena, n * sizeof *terms->wheels) : NULL;
    terms->drives =
        terms->machine ? spt_arena_allocate(build->arena, n * sizeof *terms->drives) : NULL;
    terms->runs = terms->vehicle ? spt_arena_allocate(build->arena, n * sizeof *terms->runs) : NULL;
    if (!phases || !raws || (terms->hub && !terms->wheels) || (terms->vehicle && !terms->runs) ||
        (terms->machine && !terms->drives)) {
        build->diags->out_of_memory = true;
        return NULL;
    }
    int before = build->diags->raised;
    for (int i = 0; i < duty->count; i++) {
        if (duty->items[i]->kind != SPT_NODE_MAPPING) {
            spt_diagnostics_add(build->diags, duty->items[i]->mark,
                                "each phase should be a mapping that starts with `- phase: name`");
            return NULL;
        }
        read_phase(build, duty->items[i], terms, &raws[i], &phases[i]);
        if (terms->vehicle)
            spt_build_run(build, &raws[i], terms->vehicle, &terms->runs[i]);
        else if (terms->hub)
            terms->wheels[i] = make_wheel(&raws[i], terms->hub);
        if (terms->machine && build->diags->raised == before)
            spt_build_drive(build, &raws[i], terms->machine, &terms->drives[i]);
    }
    if (build->diags->raised > before)
        return NULL;
    check_names(build, raws, duty->count);
    if (terms->condition)
        check_ages(build, raws, phases, duty->count);
    normalise(build, duty, raws, phases, duty->count);
    return phases;
}
