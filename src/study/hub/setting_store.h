/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_HUB_SETTING_STORE_H
#define STUDY_HUB_SETTING_STORE_H

#include "spalltime/setting.h"

/* Of which lives are wanted. */
struct spt_setting_terms {
    const struct spt_hub_model *model;
    const struct spt_setting_duty *duty;
    /* the same loads with other factors and modified lives, which the same balances give; NULL:
     * none */
    const struct spt_setting_duty *reference;
};

/* Damage of each row per million revolutions at a setting. */
struct spt_setting_solved {
    double setting_mm;
    double damage[2];
    double reference_damage[2]; /* NaN where there is no reference */
};

/* Solves one setting; status and failed_case as spt_setting_life (setting_life.c). */
enum spt_status spt_setting_solve(const struct spt_setting_terms *terms, double setting_mm,
                                  struct spt_setting_trail *trail,
                                  struct spt_setting_solved *solved, int *failed_case);

/* Lives of a duty from the damage of its rows. */
struct spt_setting_point spt_setting_point_of(const struct spt_hub_model *model,
                                              const struct spt_setting_duty *duty,
                                              double setting_mm, const double damage[2]);

/* The settings that were solved: a curve, a scan, a search and a mean over the scatter ask for many
 * of them again, and for their modified lives. About 50 kB, on the stack of a study. */
#define SPT_SETTING_STORE_MAX 640 /* settings; after that the oldest is forgotten */
struct spt_setting_store {
    struct spt_setting_terms terms;
    int failed_case; /* of the last setting that failed; -1: no case in particular */
    long count;      /* settings solved */
    struct spt_setting_trail trail;
    struct spt_setting_solved solved[SPT_SETTING_STORE_MAX];
};

/* An empty store, which borrows what the terms point to. */
void spt_setting_store_begin(struct spt_setting_store *store,
                             const struct spt_setting_terms *terms);

/* Lives of the duty at a setting, and of its reference; status as spt_setting_life. */
enum spt_status spt_setting_store_find(struct spt_setting_store *store, double setting_mm,
                                       struct spt_setting_point *point);
enum spt_status spt_setting_store_find_reference(struct spt_setting_store *store, double setting_mm,
                                                 struct spt_setting_point *point);

/* Load distributions solved so far, and passes over the rollers in them. */
long spt_setting_store_solves(const struct spt_setting_store *store);
long spt_setting_store_passes(const struct spt_setting_store *store);

/* What the study of setting.h finds, from a store; and of it the best setting alone. */
enum spt_status spt_setting_study_of(struct spt_setting_store *store,
                                     const struct spt_setting_inputs *question,
                                     struct spt_setting_study *study);
enum spt_status spt_setting_best_of(struct spt_setting_store *store,
                                    const struct spt_setting_inputs *question,
                                    struct spt_setting_study *study);

#endif
