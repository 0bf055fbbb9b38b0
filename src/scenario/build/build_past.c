/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "scenario/build/build.h"

/* The case in the condition of the past; NULL with diagnostics. */
static const struct spt_case *build_as_run(struct spt_build *build, const struct spt_node *root,
                                           const struct spt_node *past)
{
    static const char *const left_out[] = {"past",     "hours_run", "worst_cleanliness",
                                           "variants", "service",   NULL};
    struct spt_case *as_run = spt_arena_allocate(build->arena, sizeof *as_run);
    struct spt_node *merged = spt_build_changed(build, root, past, left_out);
    if (!as_run)
        build->diags->out_of_memory = true;
    if (!as_run || !merged)
        return NULL;
    spt_build_case(build, merged, as_run);
    return as_run;
}

/* Hours of running in the past in which a phase turned that was at least as dirty. */
static double hours_as_dirty(const struct spt_bearing_case *then, double hours_run,
                             const struct spt_condition *state)
{
    double share = 0;
    for (int i = 0; i < then->phase_count; i++) {
        const struct spt_phase *phase = &then->phases[i];
        const bool number = !isnan(state->contamination_factor);
        const bool dirty =
            number ? phase->condition.contamination_factor <= state->contamination_factor
                   : isnan(phase->condition.contamination_factor) &&
                         phase->condition.cleanliness >= state->cleanliness;
        if (phase->speed_rpm > 0 && dirty)
            share += phase->time_share;
    }
    return share * hours_run;
}

/* Dents of the past in each phase of one bearing, whose phases are copied. */
static void lay_dents(struct spt_build *build, const struct spt_bearing_case *then,
                      double hours_run, struct spt_bearing_case *now)
{
    const size_t count = (size_t)now->phase_count;
    struct spt_phase *phases = spt_arena_allocate(build->arena, count * sizeof *phases);
    if (!phases) {
        build->diags->out_of_memory = true;
        return;
    }
    for (int i = 0; i < now->phase_count; i++) {
        const struct spt_condition *state = &then->phases[i].condition;
        phases[i] = now->phases[i];
        if (hours_as_dirty(then, hours_run, state) < SPT_DENTS_AFTER_H)
            continue;
        phases[i].condition.dents = (struct spt_dents){
            isnan(state->contamination_factor), !isnan(state->contamination_factor),
            state->cleanliness, state->contamination_factor};
    }
    now->phases = phases;
}

void spt_build_past(struct spt_build *build, const struct spt_node *root,
                    const struct raw_past *raw, struct spt_case *question)
{
    struct spt_past *past = &question->past;
    past->stated = true;
    past->hours_run = isnan(raw->hours_run_h) ? 0 : raw->hours_run_h;
    if (raw->worst_cleanliness)
        past->dents.of_class =
            spt_build_cleanliness(build, raw->at, "worst_cleanliness", raw->worst_cleanliness,
                                  question->lubricant.kind, &past->dents.cleanliness, NULL);
    if (raw->condition && isnan(raw->hours_run_h)) {
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "condition"),
                            "a `condition` of the past needs `hours_run` beside it: how long the "
                            "bearing ran in it");
        return;
    }
    if (!raw->condition || spt_diagnostics_any(build->diags))
        return;
    if (question->vehicle)
        build->pinned_wheel = question->vehicle->wheel + 1;
    past->as_run = build_as_run(build, root, raw->at);
    build->pinned_wheel = 0;
    if (!past->as_run || spt_diagnostics_any(build->diags))
        return;
    for (int i = 0; i < question->bearing_count; i++)
        lay_dents(build, &past->as_run->bearings[i], past->hours_run, &question->bearings[i]);
}
