/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "scenario/vehicle/vehicle.h"

#define MM_PER_M 1e3

static double or_usual(double value, double usual)
{
    return isnan(value) ? usual : value;
}

/* Items of a list that are mappings; -1 with a diagnostic. */
static int count_items(struct spt_build *build, const struct spt_node *list, int most,
                       const char *what)
{
    if (!list || !list->count) {
        if (list)
            spt_diagnostics_add(build->diags, list->mark, "the trailer has no %s; add one", what);
        return -1;
    }
    if (list->count > most) {
        spt_diagnostics_add(build->diags, list->mark, "%d of %s are too many; the limit is %d",
                            list->count, what, most);
        return -1;
    }
    for (int i = 0; i < list->count; i++)
        if (list->items[i]->kind != SPT_NODE_MAPPING) {
            spt_diagnostics_add(build->diags, list->items[i]->mark,
                                "each of the %s should be a mapping with its `behind_eye`", what);
            return -1;
        }
    return list->count;
}

static void build_masses(struct spt_build *build, const struct spt_node *list,
                         struct spt_vehicle *vehicle)
{
    int count = count_items(build, list, SPT_MASSES_MAX, "masses");
    for (int i = 0; i < count; i++) {
        struct raw_trailer_mass raw;
        spt_section_read(&spt_section_trailer_mass, list->items[i], &raw, build->diags);
        vehicle->masses[i] = (struct spt_vehicle_mass){
            raw.name, raw.mass_kg, raw.behind_mm / MM_PER_M, or_usual(raw.left_mm, 0) / MM_PER_M,
            raw.height_mm / MM_PER_M};
        for (int k = 0; raw.name && k < i; k++)
            if (vehicle->masses[k].name && !strcmp(vehicle->masses[k].name, raw.name))
                spt_diagnostics_add(build->diags, list->items[i]->mark,
                                    "two masses are called `%.60s`; give each its own name",
                                    raw.name);
        vehicle->mass_count = i + 1;
    }
}

static void build_axles(struct spt_build *build, const struct spt_node *list,
                        struct spt_vehicle *vehicle)
{
    int count = count_items(build, list, SPT_AXLES_MAX, "axles");
    for (int i = 0; i < count; i++) {
        struct raw_axle raw;
        spt_section_read(&spt_section_axle, list->items[i], &raw, build->diags);
        vehicle->axles[i] = (struct spt_vehicle_axle){raw.axle, raw.behind_mm / MM_PER_M};
        vehicle->axle_count = i + 1;
        if (i > 0 && vehicle->axles[i].behind_m <= vehicle->axles[i - 1].behind_m)
            spt_diagnostics_add(build->diags, spt_node_mark(list->items[i], "behind_eye"),
                                "this axle lies %.6g m behind the eye, not behind the one before "
                                "it (%.6g m); list the axles from front to rear",
                                vehicle->axles[i].behind_m, vehicle->axles[i - 1].behind_m);
        for (int k = 0; raw.axle && k < i; k++)
            if (vehicle->axles[k].name && !strcmp(vehicle->axles[k].name, raw.axle))
                spt_diagnostics_add(build->diags, list->items[i]->mark,
                                    "two axles are called `%.60s`; give each its own name",
                                    raw.axle);
    }
}

/* The axles of a group share the load only by equalisers; springs alone leave it open. */
static void check_axles(struct spt_build *build, const struct raw_trailer *raw,
                        const struct spt_vehicle *vehicle)
{
    bool drawbar = vehicle->kind == SPT_VEHICLE_DRAWBAR;
    int group = vehicle->axle_count - (drawbar ? 1 : 0);
    if (drawbar && group < 1)
        spt_diagnostics_add(build->diags, raw->axles->mark,
                            "a drawbar trailer has a steered axle in front and one behind at "
                            "least; this one has %d axle",
                            vehicle->axle_count);
    else if (!drawbar && vehicle->axles[0].behind_m <= 0)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->axles->items[0], "behind_eye"),
                            "the first axle lies %.6g m behind the eye; it should lie behind it, "
                            "above 0 m",
                            vehicle->axles[0].behind_m);
    else if (group > 1 && raw->equalised != 1)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "%d axles in a row on rigid springs share their load by the road and "
                            "the springs, which statics cannot tell; write `equalised: yes` where "
                            "rockers or air make them carry alike, or state one axle in their "
                            "middle",
                            group);
}

static void read_height(struct spt_build *build, const struct raw_trailer *raw,
                        struct spt_vehicle *vehicle)
{
    bool drawbar = vehicle->kind == SPT_VEHICLE_DRAWBAR;
    const char *wanted = drawbar ? "pivot_height" : "eye_height";
    const char *other = drawbar ? "eye_height" : "pivot_height";
    if (!spt_node_find(raw->at, wanted))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`trailer` lacks `%s`; add it, such as `%s: %s`", wanted, wanted,
                            drawbar ? "0.6 m" : "0.45 m");
    if (spt_node_find(raw->at, other))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, other),
                            "`%s` does not belong to this kind of trailer; write `%s`", other,
                            wanted);
    vehicle->eye_height_m = (drawbar ? raw->pivot_height_mm : raw->eye_height_mm) / MM_PER_M;
}

static void read_tyre(struct spt_build *build, const struct raw_trailer *raw,
                      struct spt_vehicle *vehicle)
{
    const struct raw_tyre *tyre = &raw->tyre;
    if (!spt_node_find(raw->at, "tyre"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`trailer` lacks `tyre`; add it, such as `tyre: {rolling_radius: 520 "
                            "mm}`");
    vehicle->rolling_radius_mm = tyre->rolling_radius_mm;
    vehicle->loaded_radius_mm = or_usual(tyre->loaded_radius_mm, tyre->rolling_radius_mm);
    vehicle->scrub_stiffness = or_usual(tyre->scrub_stiffness, 0);
    vehicle->grip = or_usual(tyre->grip, SPT_SCRUB_GRIP);
    vehicle->camber_rad = or_usual(tyre->camber_rad, 0);
    vehicle->offset_mm = or_usual(tyre->offset_mm, 0);
    bool disc = raw->brake.at != NULL;
    vehicle->disc_radius_mm = disc ? raw->brake.disc_radius_mm : (double)NAN;
    vehicle->caliper_rad = disc ? raw->brake.caliper_rad : 0;
    vehicle->disc_offset_mm = disc ? or_usual(raw->brake.disc_at_mm, 0) : 0;
}

static void read_trailer(struct spt_build *build, const struct raw_trailer *raw,
                         struct spt_vehicle *vehicle)
{
    int before = build->diags->raised;
    if (!spt_node_find(raw->at, "kind"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`trailer` lacks `kind`; add `kind: centre-axle`, `semi-trailer` or "
                            "`drawbar`");
    vehicle->kind = raw->kind < 0 ? SPT_VEHICLE_CENTRE_AXLE : (enum spt_vehicle_kind)raw->kind;
    vehicle->track_m = raw->track_mm / MM_PER_M;
    build_masses(build, raw->masses, vehicle);
    build_axles(build, raw->axles, vehicle);
    read_height(build, raw, vehicle);
    read_tyre(build, raw, vehicle);
    if (build->diags->raised == before && vehicle->axle_count > 0)
        check_axles(build, raw, vehicle);
}

/* The wheel that the trailer names; -1 where it names none, or with a diagnostic. */
static int find_wheel(struct spt_build *build, const struct raw_trailer *raw,
                      const struct spt_vehicle *vehicle)
{
    char name[SPT_WHEEL_NAME_LENGTH];
    if (!raw->wheel)
        return -1;
    for (int i = 0; i < 2 * vehicle->axle_count; i++)
        if (!strcmp(spt_vehicle_wheel_name(vehicle, i, name), raw->wheel))
            return i;
    spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "wheel"),
                        "no wheel is called `%.60s`; write the axle and the side, such as `%s`",
                        raw->wheel, spt_vehicle_wheel_name(vehicle, 0, name));
    return -1;
}

static bool stands_alone(struct spt_build *build, const struct spt_node *machine)
{
    for (int i = 0; i < machine->count; i++)
        if (strcmp(machine->keys[i]->text, "trailer") != 0) {
            spt_diagnostics_add(build->diags, machine->keys[i]->mark,
                                "`%.40s` stands beside `trailer`; a machine has one of the two",
                                machine->keys[i]->text);
            return false;
        }
    return true;
}

struct spt_hub_case *spt_build_vehicle(struct spt_build *build, const struct spt_node *machine,
                                       struct spt_case *question)
{
    const struct spt_node *node = spt_node_find(machine, "trailer");
    struct spt_vehicle_case *vehicle = spt_arena_allocate(build->arena, sizeof *vehicle);
    struct raw_trailer raw;
    if (!vehicle) {
        build->diags->out_of_memory = true;
        return NULL;
    }
    if (!stands_alone(build, machine))
        return NULL;
    if (node->kind != SPT_NODE_MAPPING) {
        spt_diagnostics_add(build->diags, node->mark,
                            "`trailer` should be a mapping with its `masses`, `axles` and `hub`");
        return NULL;
    }
    spt_section_read(&spt_section_trailer, node, &raw, build->diags);
    *vehicle = (struct spt_vehicle_case){0};
    question->vehicle = vehicle;
    read_trailer(build, &raw, &vehicle->vehicle);
    vehicle->wheel_count = 2 * vehicle->vehicle.axle_count;
    vehicle->wheel = find_wheel(build, &raw, &vehicle->vehicle);
    if (!spt_node_find(node, "hub"))
        spt_diagnostics_add(build->diags, node->mark,
                            "`trailer` lacks `hub`; add its two rows, as in a scenario with a "
                            "`hub`");
    if (!raw.hub)
        return NULL;
    /* without a radius, which was reported, the rest is still checked */
    return spt_build_hub(build, raw.hub, or_usual(vehicle->vehicle.rolling_radius_mm, 1e4),
                         question);
}
