/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <gsl/gsl_math.h>
#include <string.h>

#include "scenario/build/build_machine.h"

#define ANGLE_TOLERANCE_RAD (1 * M_PI / 180) /* of two stated directions of one mesh; ours */

/* A side of a mesh. */
struct side {
    int shaft, part;
    struct spt_part *of;
    const struct spt_part_source *source;
};

static bool find_part(struct spt_machine_case *machine, struct spt_part_source *const *sources,
                      const char *name, int not_on, struct side *side)
{
    for (int s = 0; s < machine->machine.shaft_count; s++)
        for (int i = 0; s != not_on && i < machine->machine.shafts[s].part_count; i++) {
            struct spt_part *part = sources[s][i].part;
            if (!part || !part->name || strcmp(part->name, name) != 0)
                continue;
            *side = (struct side){s, i, part, &sources[s][i]};
            return true;
        }
    return false;
}

static bool meshes_already(const struct spt_machine *machine, const struct side *side)
{
    for (int i = 0; i < machine->mesh_count; i++)
        for (int k = 0; k < 2; k++)
            if (machine->meshes[i].shaft[k] == side->shaft &&
                machine->meshes[i].part[k] == side->part)
                return true;
    return false;
}

static bool kinds_match(const struct spt_part *a, const struct spt_part *b)
{
    bool worms = a->kind == SPT_PART_WORM && b->kind == SPT_PART_WORM_WHEEL;
    worms |= b->kind == SPT_PART_WORM && a->kind == SPT_PART_WORM_WHEEL;
    return worms ||
           (a->kind == b->kind && (a->kind == SPT_PART_GEAR || a->kind == SPT_PART_BEVEL_GEAR));
}

/* What the first side states and the second leaves out follows: the same teeth, the opposite
 * direction on parallel shafts, the opposite hand (the same inside a ring and of worms). */
static void follow(struct spt_build *build, const struct side *a, const struct side *b)
{
    struct spt_part *mate = b->of;
    bool parallel = a->of->kind == SPT_PART_GEAR;
    bool ring = a->of->inside_teeth || mate->inside_teeth;
    bool same = ring || !parallel;
    if (parallel && a->source->towards_stated) {
        double towards = a->of->towards_rad + (ring ? 0 : M_PI);
        if (b->source->towards_stated &&
            fabs(remainder(mate->towards_rad - towards, 2 * M_PI)) > ANGLE_TOLERANCE_RAD)
            spt_diagnostics_add(build->diags, spt_node_mark(b->source->at, "mate_towards"),
                                "`%.60s` sees its mate %.4g deg from straight up, so from here it "
                                "lies at %.4g deg, not at %.4g deg; leave one of the two out",
                                a->of->name, (a->of->towards_rad - M_PI_2) * 180 / M_PI,
                                (towards - M_PI_2) * 180 / M_PI,
                                (mate->towards_rad - M_PI_2) * 180 / M_PI);
        mate->towards_rad = towards;
    }
    if (!spt_node_find(b->source->at, "pressure_angle"))
        mate->pressure_rad = a->of->pressure_rad;
    if (parallel && !spt_node_find(b->source->at, "helix_angle"))
        mate->helix_rad = a->of->helix_rad;
    if (a->of->double_helical)
        mate->double_helical = true;
    if (mate->hand == 0)
        mate->hand = same && a->of->kind != SPT_PART_BEVEL_GEAR ? a->of->hand : -a->of->hand;
    if (isnan(mate->lead_rad))
        mate->lead_rad = a->of->lead_rad;
    if (isnan(mate->friction))
        mate->friction = a->of->friction;
    mate->load_factor = fmax(mate->load_factor, a->of->load_factor);
}

/* Teeth of one mesh that do not belong together. */
static void check_teeth(struct spt_build *build, const struct side *a, const struct side *b)
{
    bool parallel = a->of->kind == SPT_PART_GEAR;
    bool ring = a->of->inside_teeth || b->of->inside_teeth;
    if (parallel && fabs(a->of->helix_rad - b->of->helix_rad) > 1e-6)
        spt_diagnostics_add(build->diags, spt_node_mark(b->source->at, "helix_angle"),
                            "`%.60s` has a helix of %.4g deg and its mate one of %.4g deg; teeth "
                            "that mesh have the same",
                            a->of->name, a->of->helix_rad * 180 / M_PI,
                            b->of->helix_rad * 180 / M_PI);
    else if (parallel && a->of->helix_rad > 0 && !a->of->double_helical &&
             a->of->hand * b->of->hand != (ring ? 1 : -1))
        spt_diagnostics_add(build->diags, spt_node_mark(b->source->at, "hand"),
                            "`%.60s` and `%.60s` have %s hand; %s", a->of->name, b->of->name,
                            ring ? "another" : "the same",
                            ring ? "a ring with inside teeth has the hand of its mate"
                                 : "one of two helical gears that mesh is right, the other left");
}

/* Speed of the second over that of the first. */
static double find_ratio(const struct side *a, const struct side *b)
{
    if (a->of->kind == SPT_PART_WORM)
        return a->of->diameter_mm * tan(a->of->lead_rad) / b->of->diameter_mm;
    if (b->of->kind == SPT_PART_WORM)
        return a->of->diameter_mm / (b->of->diameter_mm * tan(b->of->lead_rad));
    return a->of->diameter_mm / b->of->diameter_mm;
}

static void need_direction(struct spt_build *build, const struct side *side)
{
    if (isnan(side->of->towards_rad))
        spt_diagnostics_add(build->diags, side->source->at->mark,
                            "nothing tells where the mate of `%.60s` lies; add `mate_towards: 110 "
                            "deg`, clockwise from straight up",
                            side->of->name);
}

/* Parallel shafts turn against each other, inside a ring with each other. */
static void check_turns(struct spt_build *build, const struct spt_machine *machine,
                        const struct side *a, const struct side *b, bool ring)
{
    const struct spt_machine_shaft *first = &machine->shafts[a->shaft];
    const struct spt_machine_shaft *second = &machine->shafts[b->shaft];
    if (a->of->kind == SPT_PART_GEAR && first->turns * second->turns != (ring ? 1 : -1))
        spt_diagnostics_add(build->diags, b->source->at->mark,
                            "`%.40s` and `%.40s` make the shafts `%.40s` and `%.40s` turn %s; "
                            "write so in their `turns`, seen from the same side",
                            a->of->name, b->of->name, first->name ? first->name : "",
                            second->name ? second->name : "",
                            ring ? "the same way" : "against each other");
}

static void join(struct spt_build *build, struct spt_machine_case *machine, const struct side *a,
                 const struct side *b)
{
    struct spt_machine *of = &machine->machine;
    bool ring = a->of->inside_teeth || b->of->inside_teeth;
    if (!kinds_match(a->of, b->of)) {
        spt_diagnostics_add(build->diags, spt_node_mark(a->source->at, "mate"),
                            "a %s does not mesh with the %s `%.60s`",
                            spt_word(&spt_part_kind_words, (int)a->of->kind),
                            spt_word(&spt_part_kind_words, (int)b->of->kind), b->of->name);
        return;
    }
    if (of->mesh_count == SPT_PARTS_MAX)
        return; /* far more meshes than shafts: reported as a loop */
    if (meshes_already(of, b)) {
        spt_diagnostics_add(build->diags, spt_node_mark(a->source->at, "mate"),
                            "`%.60s` has a mate already; a gear with two mates is written twice, "
                            "once in each role",
                            b->of->name);
        return;
    }
    follow(build, a, b);
    follow(build, b, a);
    need_direction(build, a);
    need_direction(build, b);
    check_teeth(build, a, b);
    check_turns(build, of, a, b, ring);
    if (a->of->role == SPT_PART_ROLE_IDLE)
        a->of->role = SPT_PART_ROLE_DRIVER;
    if (b->of->role == SPT_PART_ROLE_IDLE)
        b->of->role =
            a->of->role == SPT_PART_ROLE_DRIVER ? SPT_PART_ROLE_DRIVEN : SPT_PART_ROLE_DRIVER;
    of->meshes[of->mesh_count++] = (struct spt_mesh){
        {a->shaft, b->shaft},
        {a->part, b->part},
        find_ratio(a, b),
        !ring,
        !isnan(a->source->efficiency)   ? a->source->efficiency
        : !isnan(b->source->efficiency) ? b->source->efficiency
                                        : 1,
    };
}

/* Teeth without a stated mate need their role and direction too. */
static void check_alone(struct spt_build *build, const struct spt_machine_shaft *shaft,
                        struct spt_part_source *const sources)
{
    for (int i = 0; i < shaft->part_count; i++) {
        char name[SPT_PART_NAME_LENGTH];
        const struct spt_part *part = sources[i].part;
        if (!part || part->kind > SPT_PART_WORM_WHEEL)
            continue;
        need_direction(build, &(struct side){0, i, sources[i].part, &sources[i]});
        if (part->role == SPT_PART_ROLE_IDLE && !sources[i].role_stated && !part->takes_rest)
            spt_diagnostics_add(build->diags, sources[i].at->mark,
                                "the %s lacks `role`; add it, such as `role: driven`, or the "
                                "`mate` on another shaft",
                                spt_build_part_name(part, name));
    }
}

static void join_all(struct spt_build *build, struct spt_machine_case *machine,
                     struct spt_part_source *const *sources)
{
    for (int s = 0; s < machine->machine.shaft_count; s++)
        for (int i = 0; i < machine->machine.shafts[s].part_count; i++) {
            struct side a = {s, i, sources[s][i].part, &sources[s][i]}, b;
            if (!a.of || !a.source->mate || meshes_already(&machine->machine, &a))
                continue;
            if (find_part(machine, sources, a.source->mate, s, &b))
                join(build, machine, &a, &b);
            else
                spt_diagnostics_add(build->diags, spt_node_mark(a.source->at, "mate"),
                                    "no other shaft carries a part called `%.60s`; leave `mate` "
                                    "out, or add the shaft to `shafts`",
                                    a.source->mate);
        }
    for (int s = 0; s < machine->machine.shaft_count; s++)
        check_alone(build, &machine->machine.shafts[s], sources[s]);
}

static void find_driven(struct spt_build *build, const struct raw_machine *raw,
                        struct spt_machine *machine)
{
    if (!raw->driven_at)
        return;
    for (int i = 0; i < machine->shaft_count; i++)
        if (machine->shafts[i].name && !strcmp(machine->shafts[i].name, raw->driven_at)) {
            machine->driven_at = i;
            return;
        }
    spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "driven_at"),
                        "no shaft is called `%.60s`; write the name of one of the `shafts`",
                        raw->driven_at);
}

/* Every shaft has to be reached from the one that the duty is about. */
static void check_reached(struct spt_build *build, const struct raw_machine *raw,
                          const struct spt_machine *machine)
{
    bool reached[SPT_SHAFTS_MAX] = {false};
    reached[machine->driven_at] = true;
    for (int round = 0; round < machine->shaft_count; round++)
        for (int i = 0; i < machine->mesh_count; i++)
            if (reached[machine->meshes[i].shaft[0]] || reached[machine->meshes[i].shaft[1]])
                reached[machine->meshes[i].shaft[0]] = reached[machine->meshes[i].shaft[1]] = true;
    for (int i = 0; i < machine->shaft_count; i++) {
        if (machine->shaft_count > 1 && !machine->shafts[i].name)
            spt_diagnostics_add(build->diags, raw->shafts->items[i]->mark,
                                "one of several shafts lacks its name; begin it with `- shaft: "
                                "input`");
        else if (!reached[i])
            spt_diagnostics_add(build->diags, raw->shafts->items[i]->mark,
                                "the shaft `%.60s` meshes with none that the duty drives; state "
                                "the `mate` of one of its gears",
                                machine->shafts[i].name);
    }
    if (machine->mesh_count > machine->shaft_count - 1)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "%d meshes of %d shafts make a loop, in which statics cannot tell how "
                            "the power divides; leave one `mate` out and state its share",
                            machine->mesh_count, machine->shaft_count);
}

void spt_build_meshes(struct spt_build *build, const struct raw_machine *raw,
                      struct spt_part_source *const *sources, struct spt_machine_case *machine)
{
    int before = build->diags->raised;
    find_driven(build, raw, &machine->machine);
    if (spt_diagnostics_any(build->diags))
        return;
    join_all(build, machine, sources);
    if (build->diags->raised == before)
        check_reached(build, raw, &machine->machine);
}
