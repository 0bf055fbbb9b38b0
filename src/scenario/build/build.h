/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SCENARIO_BUILD_BUILD_H
#define SCENARIO_BUILD_BUILD_H

#include "scenario/scenario.h"
#include "spalltime/hub.h"
#include "spalltime/machine.h"
#include "spalltime/vehicle.h"

/* State shared by the builders of one scenario. */
struct spt_build {
    struct spt_arena *arena;
    const struct spt_catalog *catalog;
    struct spt_diagnostics *diags;
    const char *part;                     /* the bearing being built, as named in messages */
    double shares_sum;                    /* sum for the duty built last, see struct spt_case */
    bool greased_for_life;                /* the lubricant built last, see struct spt_sealing */
    int kept_conditions;                  /* for the change applied last, see struct spt_case */
    struct raw_costs costs;               /* of the case built last */
    const struct spt_binned_duty *binned; /* replaces the duty; NULL: not replaced */
    /* of the supports of the machine built last: a condition of their own (NULL: none), and how
     * much warmer they are */
    const struct spt_node *support_conditions[SPT_BEARINGS_MAX];
    double support_warmer_k[SPT_BEARINGS_MAX];
    int pinned_wheel; /* of a vehicle, that a case after an event or of the past is about: its
                         number from 1 on; 0: the worst one */
};

/* Parses a scenario. Result: its root with catalog names resolved and space for one more member;
 * NULL with diagnostics. Sets the arena of the build. */
struct spt_node *spt_build_root(struct spt_build *build, const struct spt_source *source,
                                struct spt_scenario *scenario);

/* Replaces the duty of the root by the binned one; false with diagnostics. */
bool spt_build_put_duty(struct spt_build *build, struct spt_node *root);

/* The mapping of a section, which may be written out, be the name of a catalog entry, or start from
 * an entry with `catalog:` and change it. NULL with a diagnostic where the name is not known. */
const struct spt_node *spt_build_resolve(struct spt_build *build, enum spt_catalog_kind kind,
                                         const struct spt_node *node);

/* Each of these converts checked text to a struct of the models and reports contradictions and
 * missing inputs; `name`: name of the section in messages. */
void spt_build_bearing(struct spt_build *build, const struct spt_node *mapping, const char *name,
                       struct spt_bearing *bearing);
/* Result: true where the way of lubricating is known. */
bool spt_build_lubricant(struct spt_build *build, const struct spt_node *mapping,
                         struct spt_lubricant *lubricant);
void spt_build_condition(struct spt_build *build, const struct spt_node *mapping,
                         enum spt_lubrication kind, struct spt_condition *condition);

/* What the builder of a duty needs. */
struct spt_duty_terms {
    const struct spt_node *duty;
    const struct spt_node *condition; /* resolved mapping of the scenario, with which that of a
                                         phase is merged; NULL where it or the way of lubricating is
                                         not known: the rest of each phase is still checked */
    enum spt_lubrication kind;
    const struct spt_hub_case *hub;         /* NULL: one bearing */
    struct spt_hub_wheel *wheels;           /* output: one for each phase of a hub */
    const struct spt_machine_case *machine; /* NULL: none */
    struct spt_machine_drive *drives;       /* output: one for each phase of a machine */
    const struct spt_vehicle_case *vehicle; /* NULL: none; else `hub` is one of its wheels */
    struct spt_vehicle_run *runs;           /* output: one for each phase of a vehicle */
};

/* The phases of a duty list, time shares normalised; NULL with diagnostics. The phases of a hub
 * state loads of the wheel, which are written to `terms`. */
const struct spt_phase *spt_build_duty(struct spt_build *build, struct spt_duty_terms *terms,
                                       int *count);

/* The hub of a mapping whose catalog names are resolved, and its rows as the two bearings of the
 * case; NULL when memory is exhausted. The radius of the wheel is stated there, or given (not NaN).
 * spt_build_hub_loads then gives each row its phases: the
 * wheel loads are distributed by statics and the induced-thrust rule. */
struct spt_hub_case *spt_build_hub(struct spt_build *build, const struct spt_node *mapping,
                                   double rolling_radius_mm, struct spt_case *question);
void spt_build_hub_loads(struct spt_build *build, const struct spt_duty_terms *terms,
                         struct spt_hub_case *hub, struct spt_case *question);

/* Replaces the names of catalog entries in the section `machine` of a root. */
void spt_build_resolve_machine(struct spt_build *build, struct spt_node *root);

/* The machine of a mapping whose catalog names are resolved, with one bearing of the case for each
 * support; NULL when memory is exhausted. spt_build_machine_loads then gives each bearing its
 * phases: the forces of the parts are shared by statics. */
struct spt_machine_case *spt_build_machine(struct spt_build *build, const struct spt_node *mapping,
                                           struct spt_case *question);
void spt_build_machine_loads(struct spt_build *build, const struct spt_duty_terms *terms,
                             struct spt_machine_case *machine, struct spt_case *question);

/* Reads a class or code of cleanliness as written in a scenario; false with a diagnostic at the key
 * `key` of `at`. `rounded` may be NULL. */
bool spt_build_cleanliness(struct spt_build *build, const struct spt_node *at, const char *key,
                           const char *text, enum spt_lubrication kind,
                           enum spt_cleanliness *cleanliness, bool *rounded);

/* Builds the case of a root (catalog names resolved). */
void spt_build_case(struct spt_build *build, const struct spt_node *root,
                    struct spt_case *question);

/* The section `past` of a root whose case is built. */
void spt_build_past(struct spt_build *build, const struct spt_node *root,
                    const struct raw_past *raw, struct spt_case *question);

/* `root` merged with a change (a variant, an event), its catalog names resolved. `left_out`: keys
 * of the change that are not part of a scenario. NULL when memory is exhausted. */
struct spt_node *spt_build_changed(struct spt_build *build, const struct spt_node *root,
                                   const struct spt_node *change, const char *const *left_out);

/* The section `service` of a root: renewals, events with the cases after them, drifts. */
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

/* Reads a value of a field from an axis, or from a cell of a column without a unit in its head; NaN
 * with a message in `problem` (SPT_SWEEP_PROBLEM bytes). */
#define SPT_SWEEP_PROBLEM 200
double spt_sweep_word(enum spt_sweep_field field, enum spt_lubrication kind, const char *text,
                      char *problem);

/* Message why these fields cannot be swept for this case; NULL where they can. */
const char *spt_sweep_conflict(const struct spt_case *question, const bool *swept);

#endif
