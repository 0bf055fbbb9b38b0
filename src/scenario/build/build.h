/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_BUILD_BUILD_H
#define SCENARIO_BUILD_BUILD_H

#include "scenario/scenario.h"
#include "spalltime/hub.h"

/* What the builders of one scenario share. */
struct spt_build {
    struct spt_arena *arena;
    const struct spt_catalog *catalog;
    struct spt_diagnostics *diags;
    const char *part;                     /* the bearing under way, as messages name it */
    double shares_sum;                    /* of the duty built last, see struct spt_case */
    int kept_conditions;                  /* of the change laid last */
    const struct spt_binned_duty *binned; /* takes the place of the duty; NULL: nothing does */
};

/* The root of a scenario that is read anew, catalog names resolved, with room for one more member;
 * NULL with diagnostics. Sets the arena of the build. */
struct spt_node *spt_build_root(struct spt_build *build, const struct spt_source *source,
                                struct spt_scenario *scenario);

/* Puts the binned duty in the place of the root's; false with diagnostics. */
bool spt_build_put_duty(struct spt_build *build, struct spt_node *root);

/* The mapping of a section that may be written out, name a catalog entry, or start from one with
 * `catalog:` and change it. NULL with a diagnostic where the name is not known. */
const struct spt_node *spt_build_resolve(struct spt_build *build, enum spt_catalog_kind kind,
                                         const struct spt_node *node);

/* Each turns checked text into the model's struct and reports contradictions and gaps; `name`: of
 * the section, as messages have it. */
void spt_build_bearing(struct spt_build *build, const struct spt_node *mapping, const char *name,
                       struct spt_bearing *bearing);
/* Result: true where the way of lubricating is known. */
bool spt_build_lubricant(struct spt_build *build, const struct spt_node *mapping,
                         struct spt_lubricant *lubricant);
void spt_build_condition(struct spt_build *build, const struct spt_node *mapping,
                         enum spt_lubrication kind, struct spt_condition *condition);

/* What a duty is read against. */
struct spt_duty_terms {
    const struct spt_node *duty;
    const struct spt_node *condition; /* the scenario's resolved mapping, which a phase's own is
                                         laid upon; NULL where it or the way of lubricating is not
                                         known: the rest of each phase is still checked */
    enum spt_lubrication kind;
    const struct spt_hub_case *hub; /* NULL: one bearing */
    struct spt_hub_wheel *wheels;   /* out: one for each phase of a hub */
};

/* The phases of a duty list, time shares normalised; NULL with diagnostics. The phases of a hub
 * state loads of the wheel, which go to `terms`. */
const struct spt_phase *spt_build_duty(struct spt_build *build, struct spt_duty_terms *terms,
                                       int *count);

/* The hub of a mapping whose catalog names are resolved, and its rows as the two bearings of the
 * case; NULL when memory is out. spt_build_hub_loads then gives each row its phases: the loads of
 * the wheels shared by statics and the induced thrust. */
struct spt_hub_case *spt_build_hub(struct spt_build *build, const struct spt_node *mapping,
                                   struct spt_case *question);
void spt_build_hub_loads(struct spt_build *build, const struct spt_duty_terms *terms,
                         struct spt_hub_case *hub, struct spt_case *question);

/* A class or code of cleanliness read as the scenario format writes it; false with a diagnostic at
 * the key `key` of `at`. `rounded` may be NULL. */
bool spt_build_cleanliness(struct spt_build *build, const struct spt_node *at, const char *key,
                           const char *text, enum spt_lubrication kind,
                           enum spt_cleanliness *cleanliness, bool *rounded);

/* The case that a root (catalog names resolved) states. */
void spt_build_case(struct spt_build *build, const struct spt_node *root,
                    struct spt_case *question);

/* `root` with a change laid on top (a variant, an event), its catalog names resolved. `left_out`
 * names the keys of the change that are no part of a scenario. NULL when memory is out. */
struct spt_node *spt_build_changed(struct spt_build *build, const struct spt_node *root,
                                   const struct spt_node *change, const char *const *left_out);

/* The section `service` of a root: renewals, events with the cases that follow them, drifts. */
void spt_build_service(struct spt_build *build, const struct spt_node *root,
                       const struct raw_service *raw, enum spt_lubrication kind,
                       struct spt_service *service);

/* The section `uncertainty` of a root, whose condition (resolved) says what class is uncertain. */
void spt_build_uncertainty(struct spt_build *build, const struct raw_uncertainty *raw,
                           const struct spt_node *condition, const struct spt_case *question,
                           struct spt_uncertainty *uncertainty);
/* The section `sweep`: axes in the order they are written, with the values of each. */
void spt_build_sweep(struct spt_build *build, const struct raw_sweep *raw,
                     const struct spt_case *question, struct spt_sweep *sweep);

/* A value of a field as it stands in an axis or in a cell without its unit in the head; NaN with
 * what is wrong in `problem` (room for SPT_SWEEP_PROBLEM). */
#define SPT_SWEEP_PROBLEM 200
double spt_sweep_word(enum spt_sweep_field field, enum spt_lubrication kind, const char *text,
                      char *problem);

/* What is wrong with these fields for this case, NULL where nothing is. */
const char *spt_sweep_conflict(const struct spt_case *question, const bool *swept);

#endif
