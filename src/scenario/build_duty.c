/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <string.h>

#include "scenario/build.h"

#define SHARE_TOLERANCE 5e-3 /* of the sum of shares, for thirds written as 33.3 % */
#define USUAL_AMBIENT_C 20.0

static void check_loads(struct spt_build *build, const struct raw_phase *raw)
{
    bool parts = spt_node_find(raw->at, "radial_load") || spt_node_find(raw->at, "axial_load");
    bool whole = spt_node_find(raw->at, "equivalent_load") != NULL;
    if (parts && whole)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "equivalent_load"),
                            "`equivalent_load` stands beside `radial_load` or `axial_load`; keep "
                            "one of the two ways");
    if (!parts && !whole)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks a load; add `radial_load: 15 kN` (0 kN for none), or "
                            "`equivalent_load`");
    if (!spt_node_find(raw->at, "speed"))
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "the phase lacks `speed`; add it, such as `speed: 420 rpm`");
}

static void check_temperature(struct spt_build *build, const struct raw_phase *raw)
{
    if (raw->temperature.word)
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

static void fill_phase(struct spt_build *build, const struct raw_phase *raw,
                       const struct spt_node *condition, enum spt_lubrication kind,
                       struct spt_phase *phase)
{
    *phase = (struct spt_phase){
        .name = raw->phase,
        .time_share = raw->time.value,
        .speed_rpm = raw->speed_rpm,
        .radial_load_n = or_usual(raw->radial_load_n, 0),
        .axial_load_n = or_usual(raw->axial_load_n, 0),
        .equivalent_load_n = raw->equivalent_load_n,
        .temperature_c = raw->temperature.value,
        .ambient_assumed = isnan(raw->ambient_c),
        .ambient_c = or_usual(raw->ambient_c, USUAL_AMBIENT_C),
        .extra_heat_w = or_usual(raw->extra_heat_w, 0),
        .cooling_factor = or_usual(raw->cooling_factor, 1),
        .setting_factor = 1,
        .cured_setting_factor = 1,
    };
    const struct spt_node *state = condition;
    if (condition && raw->condition) {
        const struct spt_node *own =
            spt_build_resolve(build, SPT_CATALOG_CONDITIONS, raw->condition);
        state = own ? spt_node_merge(condition, own, NULL, NULL, build->arena) : NULL;
        if (own && !state)
            build->diags->out_of_memory = true;
    }
    if (state)
        spt_build_condition(build, state, kind, &phase->condition);
}

static bool times_are_alike(struct spt_build *build, const struct raw_phase *raws, int count)
{
    for (int i = 1; i < count; i++)
        if (raws[i].time.dimension != raws[0].time.dimension) {
            spt_diagnostics_add(build->diags, spt_node_mark(raws[i].at, "time"),
                                "some phases state their time in %%, others in hours; use one of "
                                "the two for all");
            return false;
        }
    return true;
}

/* Shares that sum to 1: stated hours are divided by their sum, stated percentages must come to 100
 * within half a percent and are scaled to it. */
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
    if (raws[0].time.dimension == SPT_SHARE && fabs(sum - 1) > SHARE_TOLERANCE)
        spt_diagnostics_add(build->diags, duty->mark,
                            "the time shares of the phases sum to %.6g %%, not to 100 %%",
                            sum * 100);
    else if (!(sum > 0))
        spt_diagnostics_add(build->diags, duty->mark, "no phase of the duty takes any time");
    build->shares_sum = raws[0].time.dimension == SPT_SHARE ? sum : 0;
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

const struct spt_phase *spt_build_duty(struct spt_build *build, const struct spt_node *duty,
                                       const struct spt_node *condition, enum spt_lubrication kind,
                                       int *count)
{
    *count = duty->count;
    if (duty->count > SPT_PHASES_MAX) {
        spt_diagnostics_add(build->diags, duty->mark, "%d phases are too many; the limit is %d",
                            duty->count, SPT_PHASES_MAX);
        return NULL;
    }
    struct spt_phase *phases = spt_arena_take(build->arena, (size_t)duty->count * sizeof *phases);
    struct raw_phase *raws = spt_arena_take(build->arena, (size_t)duty->count * sizeof *raws);
    if (!phases || !raws) {
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
        spt_section_read(&spt_section_phase, duty->items[i], &raws[i], build->diags);
        check_loads(build, &raws[i]);
        check_temperature(build, &raws[i]);
        fill_phase(build, &raws[i], condition, kind, &phases[i]);
    }
    if (build->diags->raised > before)
        return NULL;
    check_names(build, raws, duty->count);
    normalise(build, duty, raws, phases, duty->count);
    return phases;
}
