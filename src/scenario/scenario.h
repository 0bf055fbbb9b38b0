/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_SCENARIO_H
#define SCENARIO_SCENARIO_H

#include "scenario/build/sections.h"
#include "scenario/catalog/catalog.h"
#include "spalltime/ask.h"
#include "spalltime/cost.h"
#include "spalltime/history.h"
#include "spalltime/sweep.h"

struct spt_variant {
    const char *name; /* NULL for the scenario itself */
    const char *note; /* may be NULL */
    struct spt_case question;
    /* of the scenario, with the cases that its events make of this one; NULL: none is stated, or it
     * does not hold for this case */
    const struct spt_service *service;
    bool has_costs;
    struct spt_costs costs;
};

/* A checked scenario: the base, then each variant as a complete case. Owns everything it points to
 * except the catalog, which must outlive it. */
struct spt_scenario {
    struct spt_arena arena;
    struct spt_source source;
    struct spt_mark top; /* position of the first key */
    struct spt_mark condition;
    struct spt_variant base;
    int variant_count;
    struct spt_variant *variants;
    bool has_service;
    struct spt_service service;       /* its cases are in the arena */
    struct spt_service_limits limits; /* of the service */
    const char *currency;             /* NULL: not stated */
    bool has_uncertainty;
    /* uncertainty of the base; `samples` is the default number */
    struct spt_uncertainty uncertainty;
    bool has_sweep;
    struct spt_sweep sweep; /* its values are in the arena */
};

/* Reads a scenario and checks it.
 * In:     the source (copied into the scenario); the catalog (may be NULL).
 * Result: true, or false with diagnostics; spt_scenario_free in both cases. The diagnostics borrow
 *         from the scenario and the catalog, so print them first. */
bool spt_scenario_load(const struct spt_source *source, const struct spt_catalog *catalog,
                       struct spt_scenario *scenario, struct spt_diagnostics *diags);

/* A duty that replaces that of the scenario: a YAML text `duty:`, and the history it was binned
 * from. Both must outlive the scenario. */
struct spt_binned_duty {
    const struct spt_source *source;
    const struct spt_history_summary *summary;
};

/* The same with a binned duty (NULL: none). */
bool spt_scenario_load_duty(const struct spt_source *source, const struct spt_catalog *catalog,
                            const struct spt_binned_duty *binned, struct spt_scenario *scenario,
                            struct spt_diagnostics *diags);

/* A key of a phase that a history provides, with the position of its column. */
struct spt_given_key {
    const char *key;
    struct spt_mark mark;
};

/* What the scenario states in addition to a history. */
struct spt_duty_frame {
    const struct spt_phase *phase;     /* holds the inputs that the history does not provide */
    const struct spt_hub_wheel *wheel; /* wheel of a hub; NULL: one bearing */
    double side_share; /* side force stated as a share of the wheel load; NaN: stated otherwise */
    /* ", key: value" for everything that each phase has to keep, in flow style */
    const char *shared;
};

/* Reads the base of a scenario for a history: one phase with the values that all phases of its duty
 * (which may be absent) have in common, and placeholders for the keys provided by the history.
 * Result: true, or false with diagnostics, also for a key that the history does not provide and in
 *         which the phases differ; spt_scenario_free in both cases. */
bool spt_scenario_frame(const struct spt_source *source, const struct spt_catalog *catalog,
                        const struct spt_given_key *given, int count, struct spt_scenario *scenario,
                        struct spt_duty_frame *frame, struct spt_diagnostics *diags);

/* What a change and a failure cost; NaN where that is not stated. */
struct spt_replacement_costs spt_variant_pair(const struct spt_variant *variant);

/* Inputs of `schedule` for the scenario as written, with a life distribution of this least life. */
struct spt_plan_inputs spt_scenario_plan(const struct spt_scenario *scenario, double floor);

/* The same for one of its cases, the base or a variant. */
struct spt_plan_inputs spt_variant_plan(const struct spt_scenario *scenario,
                                        const struct spt_variant *variant, double floor);

void spt_scenario_free(struct spt_scenario *scenario);

#endif
