/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "scenario/build/build.h"

static bool is_mapping(struct spt_build *build, const struct spt_node *node, const char *example)
{
    if (node->kind != SPT_NODE_MAPPING)
        spt_diagnostics_add(build->diags, node->mark,
                            "this should be a mapping that starts with `%s`", example);
    return node->kind == SPT_NODE_MAPPING;
}

static bool fits(struct spt_build *build, const struct spt_node *list, const char *what, int most)
{
    if (list->count > most)
        spt_diagnostics_add(build->diags, list->mark, "%d %s are too many; the limit is %d",
                            list->count, what, most);
    return list->count <= most;
}

static void read_events(struct spt_build *build, const struct spt_node *list,
                        struct spt_service *service)
{
    if (!fits(build, list, "events", SPT_EVENTS_MAX))
        return;
    for (int i = 0; i < list->count; i++) {
        struct raw_event raw;
        if (!is_mapping(build, list->items[i], "- event: name"))
            return;
        spt_section_read(&spt_section_event, list->items[i], &raw, build->diags);
        service->events[service->event_count++] =
            (struct spt_event){raw.event, raw.at_h, (double)NAN, raw.new_bearing == 1};
        if (i && raw.at_h < service->events[i - 1].at_h)
            spt_diagnostics_add(build->diags, spt_node_mark(raw.at, "at"),
                                "the events should be in the order of their times");
    }
}

/* True where the condition of a change, or the catalog entry that it names, states a grease age. */
static bool states_grease_age(struct spt_build *build, const struct spt_node *change)
{
    const struct spt_node *condition = spt_node_find(change, "condition");
    const struct spt_node *duty = spt_node_find(change, "duty");
    if (condition && (condition->kind == SPT_NODE_SCALAR || spt_node_find(condition, "catalog")))
        condition = spt_build_resolve(build, SPT_CATALOG_CONDITIONS, condition);
    if (condition && spt_node_find(condition, "grease_age"))
        return true;
    for (int i = 0; duty && i < duty->count; i++)
        if (states_grease_age(build, duty->items[i]))
            return true;
    return false;
}

/* Age of the oldest grease among the phases of a case, as used by spt_timeline. */
static double oldest_grease_h(const struct spt_case *question)
{
    double age_h = 0;
    for (int i = 0; i < question->bearings[0].phase_count; i++)
        age_h = fmax(age_h, question->bearings[0].phases[i].condition.grease_age_h);
    return age_h;
}

static bool has_hub(const struct spt_case *question)
{
    return question->hub || question->sheet_hub;
}

/* A hub by itself, or those of a trailer. */
static bool states_hub(const struct spt_node *root)
{
    const struct spt_node *machine = spt_node_find(root, "machine");
    return spt_node_find(root, "hub") || (machine && spt_node_find(machine, "trailer"));
}

/* Builds the cases after each event, with each event left out in turn and with all of them (see
 * struct spt_service). */
static void build_cases(struct spt_build *build, const struct spt_node *root,
                        const struct spt_node *list, enum spt_lubrication kind,
                        struct spt_service *service)
{
    static const char *const left_out[] = {"event",    "at",      "note", "new_bearing",
                                           "variants", "service", NULL};
    size_t count = (size_t)list->count;
    struct spt_case *cases = spt_arena_allocate(build->arena, count * (count + 1) * sizeof *cases);
    if (!cases) {
        build->diags->out_of_memory = true;
        return;
    }
    service->cases = cases;
    for (int skipped = 0; skipped <= list->count; skipped++) {
        const struct spt_node *current = root;
        for (int i = 0; i < list->count && current; i++) {
            if (i != skipped)
                current = spt_build_changed(build, current, list->items[i], left_out);
            struct spt_case *after = &cases[list->count * skipped + i];
            if (current)
                spt_build_case(build, current, after);
            if (current && skipped == list->count && has_hub(after) != states_hub(root))
                spt_diagnostics_add(build->diags, list->items[i]->mark,
                                    "an event cannot turn a `hub` into a `bearing` or back; write "
                                    "a scenario of its own");
            if (current && skipped == list->count && after->lubricant.kind != kind)
                spt_diagnostics_add(build->diags, list->items[i]->mark,
                                    "an event cannot change the way of lubricating; write a "
                                    "scenario of its own");
        }
    }
    for (int i = 0; i < list->count && !spt_diagnostics_any(build->diags); i++)
        if (states_grease_age(build, list->items[i]))
            service->events[i].grease_age_h =
                oldest_grease_h(&cases[list->count * list->count + i]);
}

static double start_of(const struct raw_span *span)
{
    return span->at ? span->start : (double)NAN;
}

static double end_of(const struct raw_span *span)
{
    return span->at ? span->end : (double)NAN;
}

static void read_classes(struct spt_build *build, const struct raw_class_span *span,
                         enum spt_lubrication kind, struct spt_drift *drift)
{
    enum spt_cleanliness start = SPT_CLEANLINESS_COUNT, end = SPT_CLEANLINESS_COUNT;
    drift->class_from = drift->class_to = -1;
    if (!span->start || !span->end)
        return;
    if (spt_build_cleanliness(build, span->at, "start", span->start, kind, &start, NULL) &&
        spt_build_cleanliness(build, span->at, "end", span->end, kind, &end, NULL)) {
        drift->class_from = (int)start;
        drift->class_to = (int)end;
    }
}

static void read_drift(struct spt_build *build, const struct spt_node *node,
                       enum spt_lubrication kind, struct spt_drift *drift)
{
    struct raw_drift raw;
    int before = build->diags->raised;
    spt_section_read(&spt_section_drift, node, &raw, build->diags);
    *drift = (struct spt_drift){
        .name = raw.drift,
        .from_h = isnan(raw.from_h) ? 0 : raw.from_h,
        .to_h = raw.to_h,
        .water_from_ppm = start_of(&raw.water),
        .water_to_ppm = end_of(&raw.water),
        .load_from = start_of(&raw.load_factor),
        .load_to = end_of(&raw.load_factor),
        .rise_from_k = start_of(&raw.temperature_rise),
        .rise_to_k = end_of(&raw.temperature_rise),
    };
    read_classes(build, &raw.cleanliness, kind, drift);
    if (drift->to_h < drift->from_h)
        spt_diagnostics_add(build->diags, spt_node_mark(node, "to"),
                            "the drift ends (%.6g h) before it starts (%.6g h)", drift->to_h,
                            drift->from_h);
    bool well_read = build->diags->raised == before;
    if (well_read && !raw.water.at && !raw.cleanliness.at && !raw.load_factor.at &&
        !raw.temperature_rise.at)
        spt_diagnostics_add(build->diags, node->mark,
                            "the drift changes nothing; add `water`, `cleanliness`, `load_factor` "
                            "or `temperature_rise`, each as {start: ..., end: ...}");
}

/* Drifts of water and cleanliness depend on the age of the oil: reports drifts that begin later
 * than the oil change interval. */
static void check_oil_changes(struct spt_build *build, const struct spt_node *list,
                              const struct spt_service *service)
{
    for (int i = 0; i < service->drift_count; i++) {
        const struct spt_drift *drift = &service->drifts[i];
        bool dirties = !isnan(drift->water_from_ppm) || drift->class_from >= 0;
        if (dirties && drift->from_h >= service->oil_change_every_h)
            spt_diagnostics_add(build->diags, spt_node_mark(list->items[i], "from"),
                                "water and dirt start again with each oil change, and the oil is "
                                "changed every %.6g h, so a drift from %.6g h on never begins",
                                service->oil_change_every_h, drift->from_h);
    }
}

static void read_drifts(struct spt_build *build, const struct spt_node *list,
                        enum spt_lubrication kind, struct spt_service *service)
{
    if (!fits(build, list, "drifts", SPT_DRIFTS_MAX))
        return;
    for (int i = 0; i < list->count; i++) {
        if (!is_mapping(build, list->items[i], "- drift: name"))
            return;
        read_drift(build, list->items[i], kind, &service->drifts[service->drift_count++]);
    }
}

void spt_build_service(struct spt_build *build, const struct spt_node *root,
                       const struct raw_service *raw, enum spt_lubrication kind,
                       struct spt_service *service)
{
    *service = (struct spt_service){
        .regrease_every_h = raw->regrease_h,
        .oil_change_every_h = raw->oil_change_h,
        .until_h = raw->until_h,
        .new_gearbox = raw->new_gearbox == 1,
    };
    int before = build->diags->count;
    if (raw->events)
        read_events(build, raw->events, service);
    if (raw->drifts) {
        read_drifts(build, raw->drifts, kind, service);
        check_oil_changes(build, raw->drifts, service);
    }
    if (raw->events && build->diags->count == before)
        build_cases(build, root, raw->events, kind, service);
    if (!isnan(raw->regrease_h) && kind != SPT_LUBRICATION_GREASE)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "regrease"),
                            "`regrease` is stated, but the lubricant is oil; use `oil_change`");
    if (!isnan(raw->oil_change_h) && kind == SPT_LUBRICATION_GREASE)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "oil_change"),
                            "`oil_change` is stated, but the lubricant is grease; use `regrease`");
    if (raw->new_gearbox == 1 && kind == SPT_LUBRICATION_GREASE)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "new_gearbox"),
                            "`new_gearbox` is stated, but the lubricant is grease; leave it out");
}
