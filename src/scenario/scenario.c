/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "scenario/scenario.h"

#include <gsl/gsl_math.h>
#include <math.h>
#include <string.h>

#include "scenario/build/build.h"
#include "scenario/build/symbols.h"
#include "scenario/vehicle/vehicle.h"

/* A section that may be given as the name of a catalog entry. */
struct named {
    const char *key;
    enum spt_catalog_kind kind;
};
static const struct named named_sections[] = {{"bearing", SPT_CATALOG_BEARINGS},
                                              {"lubricant", SPT_CATALOG_LUBRICANTS},
                                              {"condition", SPT_CATALOG_CONDITIONS}};
static const struct named named_rows[] = {{"inboard", SPT_CATALOG_BEARINGS},
                                          {"outboard", SPT_CATALOG_BEARINGS}};

/* True where the section is the name of an entry, or a mapping that starts from one. */
static bool names_an_entry(const struct spt_node *node)
{
    const struct spt_node *name = node;
    if (node && node->kind == SPT_NODE_MAPPING)
        name = spt_node_find(node, "catalog");
    return name && name->kind == SPT_NODE_SCALAR && name->length > 0;
}

static void replace_member(struct spt_build *build, struct spt_node *mapping, const char *key,
                           const struct spt_node *value)
{
    struct spt_node *copy = spt_arena_allocate(build->arena, sizeof *copy);
    if (!copy) {
        build->diags->out_of_memory = true;
        return;
    }
    *copy = *value;
    for (int i = 0; i < mapping->count; i++)
        if (!strcmp(mapping->keys[i]->text, key))
            mapping->items[i] = copy;
}

/* A condition named in a change is merged with the condition that it changes, as in a phase; a
 * named bearing or lubricant replaces the previous one. */
static const struct spt_node *lay_condition(struct spt_build *build, const struct spt_node *base,
                                            const struct spt_node *entry)
{
    const struct spt_node *before = base ? spt_node_find(base, "condition") : NULL;
    if (!before || before->kind != SPT_NODE_MAPPING || spt_node_find(before, "catalog"))
        return entry;
    const struct spt_node *merged = spt_node_merge(before, entry, NULL, NULL, build->arena);
    if (!merged)
        build->diags->out_of_memory = true;
    return merged ? merged : entry;
}

/* Replaces the name of a catalog entry in `stated`, if any, by the entry. `base` is the root that
 * `stated` changes, or NULL. */
static void resolve_name(struct spt_build *build, const struct named *named,
                         const struct spt_node *base, const struct spt_node *stated,
                         struct spt_node *into)
{
    const struct spt_node *node = spt_node_find(stated, named->key);
    if (!names_an_entry(node))
        return;
    /* an unknown name has been reported and is kept: there is no mapping to read */
    const struct spt_node *entry = spt_build_resolve(build, named->kind, node);
    const struct spt_node *name = spt_node_find(node, "catalog");
    if (entry && named->kind == SPT_CATALOG_CONDITIONS)
        entry = lay_condition(build, base, entry);
    if (entry || name)
        replace_member(build, into, named->key, entry ? entry : name);
}

/* The rows of a hub are one level deeper, in a mapping that is copied first. */
static void resolve_rows(struct spt_build *build, const struct spt_node *stated,
                         struct spt_node *root)
{
    const struct spt_node *hub = spt_node_find(root, "hub");
    if (!stated || !hub || hub->kind != SPT_NODE_MAPPING)
        return;
    struct spt_node empty = *hub;
    empty.count = 0;
    struct spt_node *copy = spt_node_merge(hub, &empty, NULL, NULL, build->arena);
    if (!copy) {
        build->diags->out_of_memory = true;
        return;
    }
    for (size_t i = 0; i < sizeof named_rows / sizeof *named_rows; i++)
        resolve_name(build, &named_rows[i], NULL, stated, copy);
    replace_member(build, root, "hub", copy);
}

/* Resolves all names in the sections of `stated`. */
static void resolve_names(struct spt_build *build, const struct spt_node *base,
                          const struct spt_node *stated, struct spt_node *root)
{
    for (size_t i = 0; i < sizeof named_sections / sizeof *named_sections; i++)
        resolve_name(build, &named_sections[i], base, stated, root);
    resolve_rows(build, spt_node_find(stated, "hub"), root);
    spt_build_resolve_machine(build, root);
}

static bool is_mapping(const struct spt_node *node)
{
    return node && node->kind == SPT_NODE_MAPPING;
}

/* Checks the loads of each phase, which the bearing may not be able to carry or which may need
 * factors that are not stated. */
static void check_loads(struct spt_build *build, const struct spt_node *duty,
                        const struct spt_bearing_case *part)
{
    for (int i = 0; duty && i < part->phase_count; i++) {
        const struct spt_phase *phase = &part->phases[i];
        struct spt_equivalent_load load;
        if (isnan(phase->equivalent_load_n) &&
            (spt_load_equivalent(&part->bearing, phase->radial_load_n, phase->axial_load_n, &load,
                                 NULL) ||
             spt_load_static(&part->bearing, phase->radial_load_n, phase->axial_load_n, &load,
                             NULL)))
            spt_diagnostics_add(build->diags, duty->items[i]->mark,
                                "no equivalent load can be made of these loads for a %s; state "
                                "its `contact_angle` and `axial_factors`, or give the phase an "
                                "`equivalent_load`",
                                spt_bearing_type_name(part->bearing.type));
    }
}

static void check_kind(struct spt_build *build, const struct raw_scenario *raw)
{
    if (raw->bearing && raw->hub)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "hub"),
                            "`hub` stands beside `bearing`; a scenario has one of the two");
    if (raw->machine && (raw->bearing || raw->hub))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "machine"),
                            "`machine` stands beside `%s`; a scenario has one of the two",
                            raw->bearing ? "bearing" : "hub");
    if (!spt_node_find(raw->at, "bearing") && !spt_node_find(raw->at, "hub") &&
        !spt_node_find(raw->at, "machine"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the scenario lacks `bearing`; add it, such as `bearing: roller "
                            "60-110`, or a `hub` with two rows, or a `machine` with its shaft");
}

/* Absent sections and unknown names have been reported; the other sections are still checked. */
static void build_parts(struct spt_build *build, const struct raw_scenario *raw,
                        struct spt_case *question)
{
    struct spt_bearing_case *part = &question->bearings[0];
    bool kind_known = false;
    struct spt_duty_terms terms = {.duty = raw->duty, .kind = SPT_LUBRICATION_GREASE};
    struct spt_hub_case *hub = NULL;
    struct spt_machine_case *machine = NULL;
    const struct spt_node *trailer = raw->machine ? spt_node_find(raw->machine, "trailer") : NULL;
    question->bearing_count = 1;
    check_kind(build, raw);
    if (is_mapping(raw->bearing) && !raw->hub && !raw->machine)
        spt_build_bearing(build, raw->bearing, spt_section_bearing.name, &part->bearing);
    if (raw->hub)
        terms.hub = hub = spt_build_hub(build, raw->hub, (double)NAN, question);
    else if (trailer)
        terms.hub = hub = spt_build_vehicle(build, raw->machine, question);
    else if (raw->machine)
        terms.machine = machine = spt_build_machine(build, raw->machine, question);
    if (is_mapping(raw->lubricant))
        kind_known = spt_build_lubricant(build, raw->lubricant, &question->lubricant);
    terms.condition = kind_known && is_mapping(raw->condition) ? raw->condition : NULL;
    terms.kind = question->lubricant.kind;
    /* without a hub that can be read, the loads of its phases cannot be judged */
    terms.vehicle = question->vehicle;
    if (raw->duty && (hub || (!spt_node_find(raw->at, "hub") && !trailer)))
        part->phases = spt_build_duty(build, &terms, &part->phase_count);
    if (spt_diagnostics_any(build->diags))
        return;
    if (terms.vehicle)
        spt_build_vehicle_loads(build, &terms, hub, question);
    else if (hub)
        spt_build_hub_loads(build, &terms, hub, question);
    if (machine)
        spt_build_machine_loads(build, &terms, machine, question);
    for (int i = 0; i < question->bearing_count && !spt_diagnostics_any(build->diags); i++)
        check_loads(build, raw->duty, &question->bearings[i]);
}

/* The season of the usage, which needs both its keys and the hours of a year. */
static struct spt_season read_season(struct spt_build *build, const struct raw_usage *usage)
{
    const struct raw_season *raw = &usage->season;
    const struct spt_season all_year = {0};
    if (!raw->at)
        return all_year;
    const char *lacking = raw->from < 0 && !spt_node_find(raw->at, "from")       ? "from: April"
                          : raw->months < 1 && !spt_node_find(raw->at, "months") ? "months: 7"
                                                                                 : NULL;
    if (lacking)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "a season has a first month and a length; add `%s`", lacking);
    if (isnan(usage->yearly_h) && !spt_node_find(usage->at, "yearly"))
        spt_diagnostics_add(build->diags, spt_node_mark(usage->at, "season"),
                            "`season` needs `yearly` hours beside it, all of which run in it");
    if (raw->from < 0 || raw->months < 1 || raw->months > 11)
        return all_year;
    if (usage->yearly_h > raw->months * SPT_YEAR_H / 12)
        spt_diagnostics_add(build->diags, spt_node_mark(usage->at, "yearly"),
                            "a season of %d months has %.0f h, and %.6g h are to run in it; state "
                            "fewer hours or more months",
                            raw->months, floor(raw->months * SPT_YEAR_H / 12), usage->yearly_h);
    return (struct spt_season){.month = raw->from, .months = raw->months};
}

/* Running hours of the target; a target in calendar years needs the yearly hours. */
static double target_of(struct spt_build *build, const struct raw_scenario *raw)
{
    if (raw->target_life.dimension != SPT_CALENDAR || isnan(raw->target_life.value))
        return raw->target_life.value;
    if (isnan(raw->usage.yearly_h)) {
        if (spt_node_find(raw->usage.at, "yearly"))
            return (double)NAN; /* stated but invalid, which was reported */
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "target_life"),
                            "a target in calendar time needs `usage: {yearly: 1200 h}` to become "
                            "running hours; add it, or state the target in h");
        return (double)NAN;
    }
    return raw->target_life.value / SPT_HOURS_PER_YEAR * raw->usage.yearly_h;
}

/* Road speed as stated, or from the mean speed of a wheel that turns with the bearing; a hub has
 * its own wheel. */
static void find_road_speed(struct spt_build *build, const struct raw_usage *usage,
                            struct spt_case *question)
{
    const struct spt_bearing_case *part = &question->bearings[0];
    double radius_mm = usage->rolling_radius_mm, mean_rpm = 0;
    const struct spt_hub_case *hub = question->hub ? question->hub : question->sheet_hub;
    if (!isnan(radius_mm) && hub)
        spt_diagnostics_add(build->diags, spt_node_mark(usage->at, "rolling_radius"),
                            "the `hub` states its `rolling_radius`; keep that one alone");
    else if (!isnan(radius_mm) && !isnan(usage->distance_per_hour_km_h))
        spt_diagnostics_add(build->diags, spt_node_mark(usage->at, "rolling_radius"),
                            "`distance_per_hour` says it already; keep one of the two");
    question->road_speed_km_h = usage->distance_per_hour_km_h;
    if (isnan(radius_mm) && hub)
        radius_mm = hub->rolling_radius_mm;
    if (isnan(radius_mm) || !isnan(usage->distance_per_hour_km_h))
        return;
    for (int i = 0; part->phases && i < part->phase_count; i++)
        mean_rpm += part->phases[i].time_share * part->phases[i].speed_rpm;
    question->road_speed_km_h = 2 * M_PI * radius_mm / 1e6 * mean_rpm * 60;
}

/* The history that a duty was binned from; NULL for a stated duty, also that of a variant. */
static const struct spt_history_summary *find_history(const struct spt_build *build,
                                                      const struct spt_node *duty)
{
    bool binned = build->binned && duty && duty->count > 0 &&
                  duty->items[0]->mark.source == build->binned->source;
    return binned ? build->binned->summary : NULL;
}

void spt_build_case(struct spt_build *build, const struct spt_node *root, struct spt_case *question)
{
    struct raw_scenario raw;
    int before = build->diags->raised;
    spt_section_read(&spt_section_scenario, root, &raw, build->diags);
    *question = (struct spt_case){
        .title = raw.title,
        .reliability_percent = isnan(raw.reliability_percent) ? 90 : raw.reliability_percent,
        .running = raw.running > 0 ? (enum spt_running)raw.running : SPT_RUNNING_NORMAL,
        .running_stated = raw.running >= 0,
        .reference_load_n = raw.reference_load_n,
        .grease_risk_limit = raw.grease_risk,
        .yearly_use_h = raw.usage.yearly_h,
        .age_limit_h = raw.usage.age_limit_h,
        .fleet = raw.usage.fleet,
        .units = raw.usage.units,
        .season = read_season(build, &raw.usage),
    };
    build_parts(build, &raw, question);
    build->costs = raw.costs;
    const struct spt_hub_case *hub = question->hub ? question->hub : question->sheet_hub;
    question->vehicle_hub =
        raw.vehicle_hub == 1 || (hub && hub->hub.turning == SPT_HUB_OUTER_TURNS);
    question->shares_sum = build->shares_sum;
    question->history = find_history(build, raw.duty);
    question->kept_conditions = build->kept_conditions;
    build->kept_conditions = 0;
    question->target_life_h = target_of(build, &raw);
    find_road_speed(build, &raw.usage, question);
    if (!isnan(question->age_limit_h) && isnan(question->yearly_use_h) &&
        build->diags->raised == before)
        spt_diagnostics_add(build->diags, spt_node_mark(raw.usage.at, "age_limit"),
                            "`age_limit` needs `yearly` hours beside it");
    if (!isnan(raw.grease_risk) && isnan(raw.usage.yearly_h) &&
        !spt_node_find(raw.usage.at, "yearly"))
        spt_diagnostics_add(build->diags, spt_node_mark(root, "grease_risk"),
                            "`grease_risk` is a limit for a year and needs `usage: {yearly: 1200 "
                            "h}`; add it, or leave the limit out");
    if (raw.past.at)
        spt_build_past(build, root, &raw.past, question);
}

/* Checks that a phase stated in part by a change is one of the phases it changes. */
static void check_phase_names(struct spt_build *build, const struct spt_node *root,
                              const struct spt_node *change)
{
    const struct spt_node *duty = spt_node_find(root, "duty");
    const struct spt_node *changed = spt_node_find(change, "duty");
    if (!duty || !changed || duty->kind != SPT_NODE_SEQUENCE || changed->kind != SPT_NODE_SEQUENCE)
        return;
    for (int i = 0; i < changed->count; i++) {
        const char *names[SPT_PHASES_MAX];
        const struct spt_node *name = spt_node_find(changed->items[i], "phase");
        int count = 0;
        bool known =
            !name || name->kind != SPT_NODE_SCALAR || spt_node_find(changed->items[i], "time");
        for (int j = 0; !known && j < duty->count && j < SPT_PHASES_MAX; j++) {
            const struct spt_node *other = spt_node_find(duty->items[j], "phase");
            if (!other || other->kind != SPT_NODE_SCALAR)
                continue;
            names[count++] = other->text;
            known = !strcmp(other->text, name->text);
        }
        if (known)
            continue;
        const char *near = spt_nearest(name->text, names, count);
        spt_diagnostics_add(build->diags, name->mark,
                            "no phase is called `%.60s`%s%s%s change a phase name one of the duty, "
                            "for a new duty state each phase in full",
                            name->text, near ? "; did you mean `" : "", near ? near : "",
                            near ? "`? To" : "; to");
    }
}

/* Number of phases with a condition of their own, where the change states a condition; else 0. */
static int count_kept_conditions(const struct spt_node *root, const struct spt_node *change)
{
    const struct spt_node *duty = spt_node_find(root, "duty");
    const struct spt_node *changed = spt_node_find(change, "condition");
    int count = 0;
    if (!changed || !duty || duty->kind != SPT_NODE_SEQUENCE)
        return 0;
    for (int i = 0; i < duty->count; i++)
        count += spt_node_find(duty->items[i], "condition") != NULL;
    return count;
}

struct spt_node *spt_build_changed(struct spt_build *build, const struct spt_node *root,
                                   const struct spt_node *change, const char *const *left_out)
{
    /* keys under which the members of a list have their names */
    static const char *const names[] = {"phase",    "support",    "shaft", "gear",  "bevel_gear",
                                        "worm",     "worm_wheel", "belt",  "chain", "drum",
                                        "coupling", "impeller",   "drive", "crank", "weight",
                                        "force",    "name",       "axle",  NULL};
    int before = build->diags->raised;
    check_phase_names(build, root, change);
    if (build->diags->raised > before)
        return NULL;
    struct spt_node *merged = spt_node_merge(root, change, names, left_out, build->arena);
    build->kept_conditions = count_kept_conditions(root, change);
    if (merged)
        resolve_names(build, root, change, merged);
    else
        build->diags->out_of_memory = true;
    return merged;
}

/* Reads the keys of a variant itself (name, note); `first` is the first variant of the list. */
static bool read_variant(struct spt_build *build, const struct spt_node *root,
                         const struct spt_node *node, const struct spt_variant *first,
                         struct spt_variant *variant)
{
    struct raw_variant raw;
    if (node->kind != SPT_NODE_MAPPING) {
        spt_diagnostics_add(build->diags, node->mark,
                            "each variant should be a mapping that starts with `- name: ...`");
        return false;
    }
    int before = build->diags->raised;
    spt_section_read(&spt_section_variant, node, &raw, build->diags);
    variant->name = raw.name;
    const struct spt_node *name = raw.name ? spt_node_find(node, "name") : NULL;
    for (const struct spt_variant *other = first; name && other < variant; other++)
        if (other->name && !strcmp(other->name, raw.name))
            spt_diagnostics_add(build->diags, name->mark,
                                "two variants are called `%.60s`; give each its own name",
                                raw.name);
    const struct spt_node *title = spt_node_find(root, "title");
    if (name && title && title->text && !strcmp(title->text, raw.name))
        spt_diagnostics_add(build->diags, name->mark,
                            "the variant is called as the scenario, `%.60s`; give it its own name",
                            raw.name);
    variant->note = raw.note;
    return build->diags->raised == before;
}

/* The costs of the case built last, that of the scenario or of a variant, which changes them. */
static void take_costs(struct spt_build *build, struct spt_variant *variant)
{
    const struct raw_costs *raw = &build->costs;
    variant->has_costs = raw->at != NULL;
    variant->costs = (struct spt_costs){.planned = raw->planned,
                                        .failure = raw->failure,
                                        .visit = raw->visit,
                                        .downtime = raw->downtime,
                                        .job_h = raw->job_h,
                                        .wage_per_h = raw->wage,
                                        .grease = raw->grease,
                                        .investment = raw->investment,
                                        .years = raw->investment_years,
                                        .interest = raw->interest};
    if (raw->failure < raw->planned)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "failure"),
                            "a failure (%.6g) costs less than a planned change (%.6g), though it "
                            "contains one; state what all of it costs, or swap the two",
                            raw->failure, raw->planned);
    if (raw->investment > 0 && isnan(raw->investment_years) &&
        !spt_node_find(raw->at, "investment_years"))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "investment"),
                            "an investment is paid off over some years; add "
                            "`investment_years: 5` beside it");
    if (raw->job_h > 0 && isnan(raw->wage) && !spt_node_find(raw->at, "wage"))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "job"),
                            "the hours of a job cost their `wage`; add it, such as `wage: 45`");
}

static void build_variant(struct spt_build *build, const struct spt_node *root,
                          const struct spt_node *node, const struct spt_variant *first,
                          struct spt_variant *variant)
{
    static const char *const left_out[] = {"name", "note", "variants", NULL};
    if (!read_variant(build, root, node, first, variant))
        return;
    struct spt_node *merged = spt_build_changed(build, root, node, left_out);
    if (!merged)
        return;
    spt_build_case(build, merged, &variant->question);
    take_costs(build, variant);
}

/* The service of a variant. Where its events or drifts do not suit what the variant states, such as
 * another way of lubricating, there is none; the scenario as written is right for all that. */
static void build_variant_service(struct spt_build *build, const struct spt_node *root,
                                  const struct spt_node *node, struct spt_variant *variant)
{
    static const char *const left_out[] = {"name", "note", "variants", NULL};
    struct spt_diagnostics *const diags = build->diags;
    struct spt_diagnostics *trial = spt_arena_allocate(build->arena, sizeof *trial);
    struct spt_service *service = spt_arena_allocate(build->arena, sizeof *service);
    struct spt_node *merged = spt_build_changed(build, root, node, left_out);
    struct raw_scenario raw;
    if (!trial || !service || !merged) {
        diags->out_of_memory = true;
        return;
    }
    build->diags = trial;
    spt_section_read(&spt_section_scenario, merged, &raw, trial);
    spt_build_service(build, merged, &raw.service, variant->question.lubricant.kind, service);
    build->diags = diags;
    diags->out_of_memory = diags->out_of_memory || trial->out_of_memory;
    if (!spt_diagnostics_any(trial))
        variant->service = service;
}

static void build_variants(struct spt_build *build, const struct spt_node *root,
                           struct spt_scenario *scenario)
{
    const struct spt_node *list = spt_node_find(root, "variants");
    if (!list || list->kind != SPT_NODE_SEQUENCE)
        return;
    scenario->variants =
        spt_arena_allocate(build->arena, (size_t)list->count * sizeof *scenario->variants);
    if (!scenario->variants) {
        build->diags->out_of_memory = true;
        return;
    }
    scenario->variant_count = list->count;
    for (int i = 0; i < list->count; i++)
        build_variant(build, root, list->items[i], scenario->variants, &scenario->variants[i]);
}

/* The dirtiest class allowed, as a number; -1 where none is stated. */
static int read_class_limit(struct spt_build *build, const struct raw_limits *limits,
                            enum spt_lubrication kind)
{
    enum spt_cleanliness class = SPT_CLEANLINESS_COUNT;
    bool read =
        limits->cleanliness && spt_build_cleanliness(build, limits->at, "cleanliness",
                                                     limits->cleanliness, kind, &class, NULL);
    return read ? (int)class : -1;
}

static void build_plans(struct spt_build *build, const struct spt_node *root,
                        struct spt_scenario *scenario)
{
    struct raw_scenario raw;
    spt_section_read(&spt_section_scenario, root, &raw, build->diags);
    scenario->has_service = raw.service.at != NULL;
    if (scenario->base.question.vehicle)
        build->pinned_wheel = scenario->base.question.vehicle->wheel + 1;
    build->greased_for_life = scenario->base.question.lubricant.greased_for_life;
    if (build->greased_for_life && raw.service.regrease_h > 0)
        spt_diagnostics_add(
            build->diags, spt_node_mark(raw.service.at, "regrease"),
            "`regrease` is stated, but the bearing is `greased_for_life`; keep one");
    if (scenario->has_service)
        spt_build_service(build, root, &raw.service, scenario->base.question.lubricant.kind,
                          &scenario->service);
    scenario->base.service = scenario->has_service ? &scenario->service : NULL;
    for (int i = 0; scenario->has_service && i < scenario->variant_count; i++)
        build_variant_service(build, root, spt_node_find(root, "variants")->items[i],
                              &scenario->variants[i]);
    build->pinned_wheel = 0;
    scenario->base.question.service_apart =
        scenario->service.event_count > 0 || scenario->service.drift_count > 0;
    scenario->limits.water_ppm = raw.service.limits.water_ppm;
    scenario->limits.cleanliness =
        read_class_limit(build, &raw.service.limits, scenario->base.question.lubricant.kind);
    build->costs = raw.costs;
    take_costs(build, &scenario->base);
    scenario->currency = raw.costs.currency;
    scenario->has_uncertainty = raw.uncertainty.at != NULL;
    if (scenario->has_uncertainty)
        spt_build_uncertainty(build, &raw.uncertainty, raw.condition, &scenario->base.question,
                              &scenario->uncertainty);
    scenario->has_sweep = raw.sweep.at != NULL;
    if (scenario->has_sweep)
        spt_build_sweep(build, &raw.sweep, &scenario->base.question, &scenario->sweep);
}

static bool copy_source(const struct spt_source *source, struct spt_scenario *scenario)
{
    scenario->source = (struct spt_source){
        spt_arena_text(&scenario->arena, source->name, strlen(source->name)),
        spt_arena_text(&scenario->arena, source->text, source->length), source->length};
    return scenario->source.name && scenario->source.text;
}

struct spt_node *spt_build_root(struct spt_build *build, const struct spt_source *source,
                                struct spt_scenario *scenario)
{
    *scenario = (struct spt_scenario){0};
    build->arena = &scenario->arena;
    if (!copy_source(source, scenario)) {
        build->diags->out_of_memory = true;
        return NULL;
    }
    struct spt_node *document =
        spt_document_read(&scenario->source, &scenario->arena, build->diags);
    if (!document)
        return NULL;
    spt_symbols_spell_out_all(document, &scenario->arena, build->diags);
    if (document->kind != SPT_NODE_MAPPING) {
        spt_diagnostics_add(build->diags, document->mark,
                            "a scenario is a mapping of keys and values that starts with `title:`");
        return NULL;
    }
    struct spt_node empty = *document;
    empty.count = 0;
    struct spt_node *root = spt_node_merge(document, &empty, NULL, NULL, &scenario->arena);
    if (root)
        resolve_names(build, NULL, document, root);
    else
        build->diags->out_of_memory = true;
    return root;
}

bool spt_scenario_load_duty(const struct spt_source *source, const struct spt_catalog *catalog,
                            const struct spt_binned_duty *binned, struct spt_scenario *scenario,
                            struct spt_diagnostics *diags)
{
    struct spt_build build = {.catalog = catalog, .diags = diags, .binned = binned};
    struct spt_node *root = spt_build_root(&build, source, scenario);
    if (!root || (binned && !spt_build_put_duty(&build, root)))
        return false;
    scenario->top = root->mark;
    scenario->condition = spt_node_mark(root, "condition");
    spt_build_case(&build, root, &scenario->base.question);
    const struct spt_node *note = spt_node_find(root, "note");
    scenario->base.note = note ? note->text : NULL;
    if (!spt_diagnostics_any(diags))
        build_variants(&build, root, scenario);
    if (!spt_diagnostics_any(diags))
        build_plans(&build, root, scenario);
    return !spt_diagnostics_any(diags);
}

bool spt_scenario_load(const struct spt_source *source, const struct spt_catalog *catalog,
                       struct spt_scenario *scenario, struct spt_diagnostics *diags)
{
    return spt_scenario_load_duty(source, catalog, NULL, scenario, diags);
}

struct spt_replacement_costs spt_variant_pair(const struct spt_variant *variant)
{
    const double none = (double)NAN;
    return variant->has_costs
               ? (struct spt_replacement_costs){variant->costs.planned, variant->costs.failure}
               : (struct spt_replacement_costs){none, none};
}

struct spt_plan_inputs spt_scenario_plan(const struct spt_scenario *scenario, double floor)
{
    return spt_variant_plan(scenario, &scenario->base, floor);
}

struct spt_plan_inputs spt_variant_plan(const struct spt_scenario *scenario,
                                        const struct spt_variant *variant, double floor)
{
    return (struct spt_plan_inputs){
        .question = &variant->question,
        .service = variant->service,
        .limits = scenario->limits,
        .costs = spt_variant_pair(variant),
        .floor = floor,
    };
}

void spt_scenario_free(struct spt_scenario *scenario)
{
    spt_arena_free(&scenario->arena);
    *scenario = (struct spt_scenario){0};
}
