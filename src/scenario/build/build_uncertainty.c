/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "scenario/build/build.h"
#include "spalltime/hub.h"

/* tolerance on a sum of 1, for shares written with one or two digits */
#define WEIGHT_TOLERANCE 1e-3
#define USUAL_SEED 1

static int count_forms(const struct raw_spread *raw)
{
    bool range = !isnan(raw->low) || !isnan(raw->high) || !isnan(raw->peak);
    return !isnan(raw->plus_minus) + range + !isnan(raw->normal) + !isnan(raw->lognormal);
}

static void read_range(struct spt_build *build, const struct raw_spread *raw,
                       struct spt_random_input *input)
{
    if (isnan(raw->low) || isnan(raw->high))
        spt_diagnostics_add(build->diags, raw->at->mark, "a range needs both `low` and `high`");
    else if (!(raw->low < raw->high))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "high"),
                            "`high` should be more than `low`");
    else if (raw->peak < raw->low || raw->peak > raw->high)
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "peak"),
                            "`peak` should lie between `low` and `high`");
    input->spread = isnan(raw->peak) ? SPT_RANDOM_UNIFORM : SPT_RANDOM_TRIANGULAR;
    input->low = raw->low;
    input->high = raw->high;
    if (!isnan(raw->peak))
        input->centre = raw->peak;
}

/* `centre` is the neutral value: 1 for a factor, 0 for a temperature rise; the median of a
 * lognormal distribution where the input may have one. */
static void read_spread(struct spt_build *build, const struct raw_spread *raw, double centre,
                        bool lognormal, struct spt_random_input *input)
{
    *input = (struct spt_random_input){.spread = SPT_RANDOM_FIXED, .centre = centre};
    if (!raw->at)
        return;
    if (count_forms(raw) != 1) {
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "state the spread in one way: `plus_minus`; `low` and `high` with or "
                            "without `peak`; or `normal`%s",
                            lognormal ? "; or `lognormal`" : "");
    } else if (!isnan(raw->plus_minus)) {
        input->spread = SPT_RANDOM_UNIFORM;
        input->low = centre - raw->plus_minus;
        input->high = centre + raw->plus_minus;
    } else if (!isnan(raw->normal)) {
        input->spread = SPT_RANDOM_NORMAL;
        input->deviation = raw->normal;
    } else if (!isnan(raw->lognormal)) {
        input->spread = SPT_RANDOM_LOGNORMAL;
        input->deviation = raw->lognormal;
    } else {
        read_range(build, raw, input);
    }
}

/* A change of the mounted setting; a lognormal one is the end play itself. */
static void read_end_play(struct spt_build *build, const struct raw_spread *raw,
                          const struct spt_case *question, struct spt_random_input *input)
{
    const struct spt_hub_case *hub = question->hub;
    read_spread(build, raw, 0, true, input);
    if (raw->at && !hub)
        spt_diagnostics_add(build->diags, raw->at->mark,
                            "`end_play` is spread, but the scenario has no `hub` to be set");
    if (input->spread != SPT_RANDOM_LOGNORMAL || !hub)
        return;
    input->centre = hub->setting_value;
    if (hub->setting_kind != SPT_HUB_SET_END_PLAY || !(hub->setting_value > 0))
        spt_diagnostics_add(build->diags, spt_node_mark(raw->at, "lognormal"),
                            "a lognormal spread is of an end play above 0; the hub states none. "
                            "Use `normal`, or `low` and `high`");
}

/* Adds one class of the list; weights are by class number from `first`. */
static void read_weight(struct spt_build *build, const struct spt_node *node,
                        enum spt_lubrication kind, double *weights)
{
    struct raw_class_weight raw;
    enum spt_cleanliness class = SPT_CLEANLINESS_COUNT;
    int before = build->diags->raised;
    if (node->kind != SPT_NODE_MAPPING) {
        spt_diagnostics_add(build->diags, node->mark,
                            "each class should be a mapping, such as {class: slight, weight: 30 "
                            "%%}");
        return;
    }
    spt_section_read(&spt_section_class_weight, node, &raw, build->diags);
    if (build->diags->raised > before || !raw.class ||
        !spt_build_cleanliness(build, node, "class", raw.class, kind, &class, NULL))
        return;
    double *weight = &weights[(int)class - (int)spt_cleanliness_first(kind)];
    if (*weight > 0)
        spt_diagnostics_add(build->diags, spt_node_mark(node, "class"),
                            "this class has a weight already");
    *weight += raw.weight;
}

static bool any_phase_has(const struct spt_case *question, enum spt_cleanliness class)
{
    for (int i = 0; i < question->bearing_count; i++)
        for (int j = 0; j < question->bearings[i].phase_count; j++) {
            const struct spt_condition *state = &question->bearings[i].phases[j].condition;
            if (state->cleanliness == class && isnan(state->contamination_factor))
                return true;
        }
    return false;
}

static void read_classes(struct spt_build *build, const struct spt_node *list,
                         const struct spt_node *condition, const struct spt_case *question,
                         struct spt_uncertainty *uncertainty)
{
    enum spt_lubrication kind = question->lubricant.kind;
    struct spt_condition stated;
    int count = spt_cleanliness_count(kind);
    double *weights = spt_arena_allocate(build->arena, (size_t)count * sizeof *weights);
    double sum = 0;
    if (!weights) {
        build->diags->out_of_memory = true;
        return;
    }
    for (int i = 0; i < list->count; i++)
        read_weight(build, list->items[i], kind, weights);
    for (int i = 0; i < count; i++)
        sum += weights[i];
    if (!(fabs(sum - 1) <= WEIGHT_TOLERANCE))
        spt_diagnostics_add(build->diags, list->mark,
                            "the weights sum to %.6g %%; they should sum to 100 %%", 100 * sum);
    spt_build_condition(build, condition, kind, &stated);
    uncertainty->class_first = spt_cleanliness_first(kind);
    uncertainty->class_stated = stated.cleanliness;
    if (!isnan(stated.contamination_factor) || !any_phase_has(question, stated.cleanliness))
        spt_diagnostics_add(build->diags, list->mark,
                            "no phase has the class of the scenario's `condition`, so there is "
                            "nothing to spread");
    uncertainty->inputs[SPT_UNCERTAIN_CLEANLINESS] = (struct spt_random_input){
        .spread = SPT_RANDOM_CLASSES, .class_count = count, .class_weights = weights};
}

/* Rejects a section without any uncertain input, which would look like an exactly known life. */
static void require_spread(struct spt_build *build, const struct raw_uncertainty *raw,
                           const struct spt_random_input *inputs)
{
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++)
        if (inputs[i].spread != SPT_RANDOM_FIXED)
            return;
    spt_diagnostics_add(build->diags, raw->at->mark,
                        "`uncertainty` spreads nothing; add an input, such as `load: {normal: "
                        "10 %%}`, or leave the section out");
}

void spt_build_uncertainty(struct spt_build *build, const struct raw_uncertainty *raw,
                           const struct spt_node *condition, const struct spt_case *question,
                           struct spt_uncertainty *uncertainty)
{
    struct spt_random_input *inputs = uncertainty->inputs;
    int before = build->diags->raised;
    *uncertainty = (struct spt_uncertainty){
        .seed = raw->seed < 0 ? USUAL_SEED : (uint64_t)raw->seed,
        .samples = SPT_UNCERTAIN_SAMPLES_USUAL,
    };
    read_spread(build, &raw->load, 1, true, &inputs[SPT_UNCERTAIN_LOAD]);
    read_spread(build, &raw->speed, 1, true, &inputs[SPT_UNCERTAIN_SPEED]);
    struct raw_spread rise = raw->temperature;
    rise.lognormal = (double)NAN; /* the section of a temperature rise has no such key */
    read_spread(build, &rise, 0, false, &inputs[SPT_UNCERTAIN_TEMPERATURE]);
    read_spread(build, &raw->water, 1, true, &inputs[SPT_UNCERTAIN_WATER]);
    read_spread(build, &raw->rating, 1, true, &inputs[SPT_UNCERTAIN_RATING]);
    read_end_play(build, &raw->end_play, question, &inputs[SPT_UNCERTAIN_END_PLAY]);
    inputs[SPT_UNCERTAIN_CLEANLINESS] = (struct spt_random_input){.spread = SPT_RANDOM_FIXED};
    if (raw->cleanliness && condition)
        read_classes(build, raw->cleanliness, condition, question, uncertainty);
    if (!raw->cleanliness && build->diags->raised == before)
        require_spread(build, raw, inputs);
}
