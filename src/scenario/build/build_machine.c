/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_math.h>
#include <stdio.h>
#include <string.h>

#include "scenario/build/build_machine.h"

#define STEEL_KG_MM3 7.85e-6 /* density of steel (common practice, no source) */
#define LEAST_SPREAD_MM 1.0  /* least distance between two load centres; ours */

/* A shaft while it is built. */
struct frame {
    struct spt_build *build;
    struct spt_machine_case *machine;
    struct spt_case *question;
    struct spt_machine_shaft *shaft;
    struct raw_shaft raw;
    struct spt_support *supports;
    const struct spt_bearing **bearings;
    struct spt_part *parts;
    struct spt_part_source *sources;
    struct spt_piece *pieces;
};

static void *take(struct spt_build *build, size_t count, size_t size)
{
    void *memory = spt_arena_allocate(build->arena, count * size);
    if (!memory)
        build->diags->out_of_memory = true;
    return memory;
}

static double or_usual(double value, double usual)
{
    return isnan(value) ? usual : value;
}

/* True for one row of tapered rollers or of angular contact balls. */
static bool is_angled(const struct spt_bearing *bearing)
{
    return (bearing->type == SPT_TAPERED_ROLLER || bearing->type == SPT_ANGULAR_CONTACT_BALL) &&
           bearing->rows == 1;
}

/* Which way the bearing stops the shaft where the scenario does not say so: see the README. */
static enum spt_locating usual_locating(const struct spt_bearing *bearing)
{
    bool sliding = bearing->type == SPT_CYLINDRICAL_ROLLER || bearing->type == SPT_NEEDLE_ROLLER;
    return sliding ? SPT_LOCATES_NONE : SPT_LOCATES_BOTH;
}

/* In a mounting the left one of the pair stops the shaft to the right where the load lines meet the
 * axis outside. */
static void find_locating(struct frame *f, const struct raw_support *raw,
                          const struct spt_bearing *bearing, bool first_angled,
                          enum spt_locating *locating)
{
    bool angled = is_angled(bearing), mounted = f->raw.mounting >= 0 && angled;
    if (raw->takes_thrust >= 0) {
        *locating = (enum spt_locating)raw->takes_thrust;
        if (angled && *locating == SPT_LOCATES_BOTH)
            spt_diagnostics_add(f->build->diags, spt_node_mark(raw->at, "takes_thrust"),
                                "one row of a %s stops the shaft one way; write `to the left` or "
                                "`to the right`, or `rows: 2` in its bearing",
                                spt_bearing_type_name(bearing->type));
        return;
    }
    *locating = usual_locating(bearing);
    if (mounted) {
        bool out = f->raw.mounting == SPT_HUB_BACK_TO_BACK;
        *locating = first_angled == out ? SPT_LOCATES_RIGHT : SPT_LOCATES_LEFT;
    } else if (angled) {
        spt_diagnostics_add(f->build->diags, raw->at->mark,
                            "the support `%.60s` has one row of a %s, which stops the shaft one "
                            "way; add `mounting: back-to-back` or `face-to-face` to the shaft, or "
                            "`takes_thrust: to the right` here",
                            raw->support, spt_bearing_type_name(bearing->type));
    }
}

static void name_bearing(struct spt_build *build, const char *support, struct spt_bearing *bearing)
{
    char name[300];
    int length = snprintf(name, sizeof name, "%.80s, %.200s", support, bearing->name);
    bearing->name = spt_arena_text(build->arena, name, (size_t)length);
    if (!bearing->name)
        build->diags->out_of_memory = true;
}

/* Reads a support; false where its bearing is not known. */
static bool build_support(struct frame *f, int i, bool *angled_before)
{
    struct raw_support raw;
    struct spt_support *support = &f->supports[i];
    struct spt_bearing *bearing = &f->question->bearings[f->machine->support_count + i].bearing;
    int before = f->build->diags->raised;
    spt_section_read(&spt_section_support, f->raw.supports->items[i], &raw, f->build->diags);
    f->bearings[i] = bearing;
    f->build->support_conditions[f->machine->support_count + i] = raw.condition;
    f->build->support_warmer_k[f->machine->support_count + i] = or_usual(raw.warmer_k, 0);
    *support = (struct spt_support){
        .name = raw.support,
        .at_mm = raw.at_mm,
        .stiffness_n_mm = or_usual(raw.stiffness_n_mm, (double)INFINITY),
        .offset_mm = {or_usual(raw.seat_across_mm, 0), or_usual(raw.seat_up_mm, 0)},
    };
    if (raw.bearing && raw.bearing->kind == SPT_NODE_MAPPING)
        spt_build_bearing(f->build, raw.bearing, "`bearing`", bearing);
    else
        return false;
    if (f->build->diags->raised > before)
        return false;
    if (spt_bearing_is_thrust(bearing->type)) {
        spt_diagnostics_add(f->build->diags, raw.bearing->mark,
                            "the support `%.60s` has a %s, which carries no radial load; use a "
                            "radial bearing here",
                            raw.support, spt_bearing_type_name(bearing->type));
        return false;
    }
    find_locating(f, &raw, bearing, !*angled_before, &support->locating);
    *angled_before |= is_angled(bearing);
    double stops = support->locating == SPT_LOCATES_RIGHT  ? 1
                   : support->locating == SPT_LOCATES_LEFT ? -1
                                                           : 0;
    support->centre_mm = spt_load_centre(bearing, support->at_mm, stops, raw.load_centre_mm,
                                         &support->centre_estimated);
    name_bearing(f->build, support->name, bearing);
    return f->build->diags->raised == before;
}

/* Names may not stand twice in the machine, since changes and phases find things by them. */
static void check_support_name(struct frame *f, int i)
{
    const char *name = f->supports[i].name;
    for (int k = 0; name && k < f->machine->support_count + i; k++) {
        const char *other = NULL;
        int first = 0;
        for (int s = 0; s < f->machine->machine.shaft_count && !other; s++) {
            const struct spt_machine_shaft *shaft = &f->machine->machine.shafts[s];
            if (k - first < shaft->support_count)
                other = shaft->supports[k - first].name;
            first += shaft->support_count;
        }
        if (k >= f->machine->support_count)
            other = f->supports[k - f->machine->support_count].name;
        if (other && !strcmp(other, name)) {
            spt_diagnostics_add(f->build->diags,
                                spt_node_mark(f->raw.supports->items[i], "support"),
                                "two supports are called `%.60s`; give each its own name", name);
            return;
        }
    }
}

static void check_order(struct frame *f)
{
    for (int i = 0; i + 1 < f->shaft->support_count; i++) {
        const struct spt_support *a = &f->supports[i], *b = &f->supports[i + 1];
        const struct spt_mark mark = spt_node_mark(f->raw.supports->items[i + 1], "at");
        if (a->at_mm >= b->at_mm)
            spt_diagnostics_add(f->build->diags, mark,
                                "the support `%.60s` (%.6g mm) does not lie to the right of "
                                "`%.60s` (%.6g mm); list the supports from left to right",
                                b->name, b->at_mm, a->name, a->at_mm);
        else if (b->centre_mm - a->centre_mm < LEAST_SPREAD_MM)
            spt_diagnostics_add(f->build->diags, mark,
                                "the load lines of `%.60s` and `%.60s` meet the axis at %.6g mm "
                                "and %.6g mm, so the pair carries no tilting moment; set them "
                                "farther apart or mount them back-to-back",
                                a->name, b->name, a->centre_mm, b->centre_mm);
    }
}

static void check_located(struct frame *f)
{
    int support;
    if (spt_shaft_located(f->shaft, &support) != SPT_THRUST_OVER_LOCATED)
        return;
    int first = 0;
    while (f->supports[first].locating != f->supports[support].locating)
        first++;
    spt_diagnostics_add(
        f->build->diags, f->raw.supports->items[support]->mark,
        "`%.60s` (%.6g mm) and `%.60s` (%.6g mm) both stop the shaft %s, so statics "
        "cannot tell which takes the thrust, and heat presses them together; write "
        "`takes_thrust: none` for one of them (its ring is free to slide)",
        f->supports[first].name, f->supports[first].at_mm, f->supports[support].name,
        f->supports[support].at_mm,
        spt_word(&spt_locating_words, (int)f->supports[support].locating));
}

static void build_supports(struct frame *f)
{
    int count = f->raw.supports->count, total = f->machine->support_count + count;
    bool angled = false, known = true;
    if (count < 2 || total > SPT_SUPPORTS_MAX) {
        spt_diagnostics_add(f->build->diags, f->raw.supports->mark,
                            count < 2 ? "the shaft has %d support; it needs two"
                                      : "%d supports are too many; a machine has at most %d",
                            count < 2 ? count : total, SPT_SUPPORTS_MAX);
        return;
    }
    f->supports = take(f->build, (size_t)count, sizeof *f->supports);
    f->bearings = take(f->build, (size_t)count, sizeof *f->bearings);
    if (!f->supports || !f->bearings)
        return;
    for (int i = 0; i < count; i++) {
        if (f->raw.supports->items[i]->kind != SPT_NODE_MAPPING) {
            spt_diagnostics_add(f->build->diags, f->raw.supports->items[i]->mark,
                                "each support should be a mapping that starts with `- support: "
                                "name`");
            return;
        }
        known &= build_support(f, i, &angled);
        check_support_name(f, i);
    }
    f->shaft->supports = f->supports;
    f->shaft->bearings = f->bearings;
    f->shaft->support_count = count;
    if (known)
        check_order(f);
    if (known)
        check_located(f);
}

static void check_part_name(struct frame *f, int i)
{
    const char *name = f->parts[i].name;
    for (int s = 0; name && s <= f->machine->machine.shaft_count; s++) {
        bool own = s == f->machine->machine.shaft_count;
        const struct spt_part *parts = own ? f->parts : f->machine->machine.shafts[s].parts;
        int count = own ? i : f->machine->machine.shafts[s].part_count;
        for (int k = 0; k < count; k++)
            if (parts[k].name && !strcmp(parts[k].name, name)) {
                spt_diagnostics_add(f->build->diags, f->raw.carries->items[i]->mark,
                                    "two parts are called `%.60s`; give each its own name", name);
                return;
            }
    }
}

static void build_parts(struct frame *f, double turns)
{
    int count = f->raw.carries->count;
    int room = count + (f->raw.own_weight == 1 && f->raw.sections ? f->raw.sections->count : 0);
    if (room > SPT_PARTS_MAX) {
        spt_diagnostics_add(f->build->diags, f->raw.carries->mark,
                            "%d parts are too many; a shaft carries at most %d", room,
                            SPT_PARTS_MAX);
        return;
    }
    f->parts = take(f->build, (size_t)room, sizeof *f->parts);
    f->sources = take(f->build, (size_t)room, sizeof *f->sources);
    if (!f->parts || !f->sources)
        return;
    for (int i = 0; i < count; i++) {
        if (f->raw.carries->items[i]->kind != SPT_NODE_MAPPING) {
            spt_diagnostics_add(f->build->diags, f->raw.carries->items[i]->mark,
                                "each part should be a mapping that starts with its kind and name, "
                                "such as `- gear: wheel`");
            return;
        }
        spt_build_part(f->build, f->raw.carries->items[i], turns, &f->parts[i], &f->sources[i]);
        check_part_name(f, i);
    }
    f->shaft->parts = f->parts;
    f->shaft->part_count = count;
}

/* Ends of everything on the shaft. */
static void find_reach(const struct spt_machine_shaft *shaft, double *first, double *last)
{
    *first = (double)INFINITY;
    *last = -*first;
    for (int i = 0; i < shaft->part_count; i++) {
        *first = fmin(*first, shaft->parts[i].at_mm);
        *last = fmax(*last, shaft->parts[i].at_mm);
    }
    for (int i = 0; i < shaft->support_count; i++) {
        *first = fmin(*first, fmin(shaft->supports[i].at_mm, shaft->supports[i].centre_mm));
        *last = fmax(*last, fmax(shaft->supports[i].at_mm, shaft->supports[i].centre_mm));
    }
}

static void weigh_pieces(struct frame *f)
{
    double from = f->shaft->start_mm;
    for (int i = 0; i < f->shaft->piece_count; i++) {
        const struct spt_piece *piece = &f->pieces[i];
        double area =
            M_PI_4 * (piece->diameter_mm * piece->diameter_mm - piece->bore_mm * piece->bore_mm);
        struct spt_part *weight = &f->parts[f->shaft->part_count++];
        f->sources[f->shaft->part_count - 1] = (struct spt_part_source){0};
        char name[60];
        int length = snprintf(name, sizeof name, "shaft to %.6g mm", piece->to_mm);
        *weight = (struct spt_part){.name = spt_arena_text(f->build->arena, name, (size_t)length),
                                    .kind = SPT_PART_WEIGHT,
                                    .role = SPT_PART_ROLE_IDLE,
                                    .power_share = (double)NAN,
                                    .at_mm = (from + piece->to_mm) / 2,
                                    .towards_rad = (double)NAN,
                                    .balance_m_s = (double)NAN,
                                    .mass_kg = STEEL_KG_MM3 * area * (piece->to_mm - from)};
        from = piece->to_mm;
    }
}

static void check_pieces(struct frame *f, double first_mm, double last_mm)
{
    double from = f->shaft->start_mm;
    for (int i = 0; i < f->shaft->piece_count; i++) {
        const struct spt_node *at = f->raw.sections->items[i];
        if (f->pieces[i].to_mm <= from)
            spt_diagnostics_add(f->build->diags, spt_node_mark(at, "to"),
                                "this section ends at %.6g mm, where it begins or before (%.6g "
                                "mm); list the sections from left to right",
                                f->pieces[i].to_mm, from);
        if (f->pieces[i].bore_mm >= f->pieces[i].diameter_mm)
            spt_diagnostics_add(f->build->diags, spt_node_mark(at, "bore"),
                                "the bore (%.6g mm) is not smaller than the shaft (%.6g mm)",
                                f->pieces[i].bore_mm, f->pieces[i].diameter_mm);
        from = f->pieces[i].to_mm;
    }
    if (f->shaft->start_mm > first_mm || from < last_mm)
        spt_diagnostics_add(f->build->diags, f->raw.sections->mark,
                            "the sections reach from %.6g mm to %.6g mm, but parts, bearings and "
                            "their load centres from %.6g mm to %.6g mm; add what is missing",
                            f->shaft->start_mm, from, first_mm, last_mm);
}

static void build_pieces(struct frame *f)
{
    double first, last;
    int count = f->raw.sections ? f->raw.sections->count : 0;
    if (f->shaft->support_count > 2 && !count)
        spt_diagnostics_add(f->build->diags, f->raw.supports->mark,
                            "with %d supports the bending of the shaft decides; add `sections`, "
                            "such as `sections: [{to: 300 mm, diameter: 50 mm}]`",
                            f->shaft->support_count);
    if (!count || !f->shaft->part_count || !f->shaft->support_count)
        return;
    if (count > SPT_PIECES_MAX) {
        spt_diagnostics_add(f->build->diags, f->raw.sections->mark,
                            "%d sections are too many; the limit is %d", count, SPT_PIECES_MAX);
        return;
    }
    f->pieces = take(f->build, (size_t)count, sizeof *f->pieces);
    if (!f->pieces)
        return;
    int before = f->build->diags->raised;
    for (int i = 0; i < count; i++) {
        struct raw_piece raw;
        if (f->raw.sections->items[i]->kind != SPT_NODE_MAPPING) {
            spt_diagnostics_add(f->build->diags, f->raw.sections->items[i]->mark,
                                "each section should be a mapping such as `{to: 120 mm, diameter: "
                                "55 mm}`");
            return;
        }
        spt_section_read(&spt_section_piece, f->raw.sections->items[i], &raw, f->build->diags);
        f->pieces[i] = (struct spt_piece){raw.to_mm, raw.diameter_mm, or_usual(raw.bore_mm, 0)};
    }
    find_reach(f->shaft, &first, &last);
    f->shaft->start_mm = or_usual(f->raw.starts_at_mm, first);
    f->shaft->pieces = f->pieces;
    f->shaft->piece_count = count;
    if (f->build->diags->raised == before)
        check_pieces(f, first, last);
    if (f->build->diags->raised == before && f->raw.own_weight == 1)
        weigh_pieces(f);
}

static void build_shaft(struct spt_build *build, const struct spt_node *node,
                        struct spt_machine_case *machine, struct spt_case *question,
                        struct spt_part_source **sources)
{
    struct frame f = {.build = build, .machine = machine, .question = question};
    int s = machine->machine.shaft_count;
    f.shaft = &machine->machine.shafts[s];
    spt_section_read(&spt_section_shaft, node, &f.raw, build->diags);
    if (f.raw.turns < 0 && !spt_node_find(node, "turns"))
        spt_diagnostics_add(build->diags, node->mark,
                            "the shaft lacks `turns`; add `turns: clockwise` or `turns: "
                            "counterclockwise`, as seen from its left end");
    f.shaft->name = f.raw.shaft;
    f.shaft->turns = f.raw.turns == 1 ? -1 : 1;
    f.shaft->upright = f.raw.position == 1 ? 1 : f.raw.position == 2 ? -1 : 0;
    if (f.raw.supports)
        build_supports(&f);
    if (f.raw.carries)
        build_parts(&f, f.shaft->turns);
    build_pieces(&f);
    *sources = f.sources;
    machine->support_count += f.shaft->support_count;
    machine->part_count += f.shaft->part_count;
    machine->machine.shaft_count = s + 1;
}

struct spt_machine_case *spt_build_machine(struct spt_build *build, const struct spt_node *mapping,
                                           struct spt_case *question)
{
    struct raw_machine raw;
    struct spt_part_source *sources[SPT_SHAFTS_MAX] = {NULL};
    struct spt_machine_case *machine = take(build, 1, sizeof *machine);
    if (!machine)
        return NULL;
    spt_section_read(&spt_section_machine, mapping, &raw, build->diags);
    *machine = (struct spt_machine_case){0};
    question->machine = machine;
    if (!raw.shaft == !raw.shafts) {
        spt_diagnostics_add(build->diags, mapping->mark,
                            raw.shaft ? "`shaft` stands beside `shafts`; a machine has one of the "
                                        "two"
                                      : "`machine` lacks `shaft`; add it with its `supports` and "
                                        "what it `carries`, or a list of `shafts`");
        return machine;
    }
    if (raw.shaft)
        build_shaft(build, raw.shaft, machine, question, &sources[0]);
    for (int i = 0; raw.shafts && i < raw.shafts->count && i < SPT_SHAFTS_MAX; i++) {
        if (raw.shafts->items[i]->kind == SPT_NODE_MAPPING)
            build_shaft(build, raw.shafts->items[i], machine, question, &sources[i]);
        else
            spt_diagnostics_add(build->diags, raw.shafts->items[i]->mark,
                                "each shaft should be a mapping that starts with `- shaft: name`");
    }
    if (raw.shafts && raw.shafts->count > SPT_SHAFTS_MAX)
        spt_diagnostics_add(build->diags, raw.shafts->mark,
                            "%d shafts are too many; the limit is %d", raw.shafts->count,
                            SPT_SHAFTS_MAX);
    question->bearing_count = machine->support_count > 0 ? machine->support_count : 1;
    spt_build_meshes(build, &raw, sources, machine);
    return machine;
}
