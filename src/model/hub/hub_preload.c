/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "model/hub/hub_internal.h"
#include "model/numeric.h"

enum spt_status spt_hub_preload_force(const struct spt_hub_model *model, double setting_mm,
                                      double *preload_n)
{
    static const struct spt_hub_load none = {0, 0, 0, 0, 0};
    struct spt_hub_solution solution;
    *preload_n = (double)NAN;
    if (model->hub.row_count != 2)
        return SPT_NOT_APPLICABLE;
    enum spt_status status = spt_hub_solve(model, setting_mm, &none, NULL, &solution);
    if (status == SPT_OK)
        *preload_n = solution.axial_n[0];
    if (status == SPT_FREE)
        *preload_n = 0;
    return status == SPT_FREE ? SPT_OK : status;
}

/* Preload minus the wanted one; 0 after a failure, which ends the root search. */
struct search {
    const struct spt_hub_model *model;
    double wanted_n;
    enum spt_status status;
};

static double compare(double setting_mm, void *search)
{
    struct search *s = search;
    double force;
    if (s->status == SPT_OK)
        s->status = spt_hub_preload_force(s->model, setting_mm, &force);
    return s->status == SPT_OK ? force - s->wanted_n : 0.0;
}

/* Brackets the setting: from zero outwards in steps that double, until the preload exceeds the
 * wanted one. */
static enum spt_status find_bracket(struct search *search, double *near_mm, double *far_mm)
{
    bool tight = compare(0, search) >= 0;
    double way = tight ? 1 : -1;
    *near_mm = 0;
    for (double e = 0.01; e <= SPT_HUB_SETTING_MAX_MM && search->status == SPT_OK; e *= 2) {
        *far_mm = way * e;
        if ((compare(*far_mm, search) >= 0) != tight)
            return search->status;
        *near_mm = *far_mm;
    }
    return search->status == SPT_OK ? SPT_NOT_APPLICABLE : search->status;
}

enum spt_status spt_hub_preload_setting(const struct spt_hub_model *model, double preload_n,
                                        double *setting_mm)
{
    struct search search = {.model = model, .wanted_n = preload_n, .status = SPT_OK};
    gsl_function function = {compare, &search};
    double near_mm, far_mm, found;
    *setting_mm = (double)NAN;
    if (!(preload_n > 0) || isinf(preload_n))
        return SPT_BAD_ARGUMENT;
    enum spt_status status = find_bracket(&search, &near_mm, &far_mm);
    if (status == SPT_OK)
        status = spt_numeric_root(&function, fmin(near_mm, far_mm), fmax(near_mm, far_mm), &found);
    if (search.status != SPT_OK)
        return search.status;
    if (status == SPT_OK)
        *setting_mm = found;
    return status;
}
