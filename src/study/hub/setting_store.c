/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/hub/setting_store.h"

#include <math.h>
#include <string.h>

#define SAME_MM 1e-12 /* settings this close are the same but for round-off */

void spt_setting_store_begin(struct spt_setting_store *store, const struct spt_setting_terms *terms)
{
    store->terms = *terms;
    store->failed_case = -1;
    store->count = 0;
    memset(&store->trail, 0, sizeof store->trail);
}

static const struct spt_setting_solved *look_up(const struct spt_setting_store *store,
                                                double setting_mm)
{
    long known = store->count < SPT_SETTING_STORE_MAX ? store->count : SPT_SETTING_STORE_MAX;
    for (long i = 0; i < known; i++)
        if (fabs(store->solved[i].setting_mm - setting_mm) <= SAME_MM)
            return &store->solved[i];
    return NULL;
}

/* The setting as known, or solved now. NULL: no answer, with the status. */
static const struct spt_setting_solved *solve(struct spt_setting_store *store, double setting_mm,
                                              enum spt_status *status)
{
    const struct spt_setting_solved *known = look_up(store, setting_mm);
    struct spt_setting_solved *next = &store->solved[store->count % SPT_SETTING_STORE_MAX];
    *status = SPT_OK;
    if (known)
        return known;
    *status =
        spt_setting_solve(&store->terms, setting_mm, &store->trail, next, &store->failed_case);
    if (*status != SPT_OK) {
        next->setting_mm = (double)NAN; /* what was here is lost */
        return NULL;
    }
    store->count++;
    return next;
}

enum spt_status spt_setting_store_find(struct spt_setting_store *store, double setting_mm,
                                       struct spt_setting_point *point)
{
    static const double none[2] = {(double)NAN, (double)NAN};
    enum spt_status status;
    const struct spt_setting_solved *at = solve(store, setting_mm, &status);
    *point = spt_setting_point_of(store->terms.model, store->terms.duty, setting_mm,
                                  at ? at->damage : none);
    return status;
}

enum spt_status spt_setting_store_find_reference(struct spt_setting_store *store, double setting_mm,
                                                 struct spt_setting_point *point)
{
    static const double none[2] = {(double)NAN, (double)NAN};
    enum spt_status status;
    const struct spt_setting_solved *at = solve(store, setting_mm, &status);
    *point = spt_setting_point_of(store->terms.model, store->terms.reference, setting_mm,
                                  at ? at->reference_damage : none);
    return status;
}

long spt_setting_store_solves(const struct spt_setting_store *store)
{
    long sum = 0;
    for (int i = 0; i < SPT_SETTING_CASES_MAX; i++)
        sum += store->trail.cases[i].solves;
    return sum;
}

long spt_setting_store_passes(const struct spt_setting_store *store)
{
    long sum = 0;
    for (int i = 0; i < SPT_SETTING_CASES_MAX; i++)
        sum += store->trail.cases[i].passes;
    return sum;
}
