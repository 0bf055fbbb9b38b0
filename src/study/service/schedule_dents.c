/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/schedule_dents.h"

#include <math.h>

#include "study/course/damage_path.h"
#include "study/service/schedule_survival.h"

#define SAME 1e-3 /* relative difference of lives from two damage paths that are one */

static double life_of(const struct spt_schedule *out, enum spt_status *status)
{
    double life_h = (double)NAN;
    if (!out->life_known)
        return life_h;
    if (!spt_schedule_wears(out))
        return (double)INFINITY;
    *status = spt_schedule_life(out, SPT_SCHEDULE_ALL, false,
                                out->question->reliability_percent / 100, &life_h);
    return life_h;
}

/* The life of the plan with other dents. */
static double life_with(const struct spt_service *service,
                        const struct spt_timeline_workspace *workspace, double scale_h,
                        enum spt_run_dents dents, const struct spt_schedule *out,
                        enum spt_status *status)
{
    struct spt_schedule other = *out;
    if (!*status)
        *status = spt_damage_path(out->question, service, workspace, dents, scale_h, &other.path);
    other.life_known = other.path.stopped_h > 0;
    return *status ? (double)NAN : life_of(&other, status);
}

static bool are_one(double one_h, double other_h)
{
    return (isnan(one_h) && isnan(other_h)) || one_h == other_h ||
           fabs(one_h - other_h) <= SAME * one_h;
}

/* The dirt until the end of the life. */
static void name_dirt(const struct spt_service *service,
                      const struct spt_timeline_workspace *workspace, struct spt_schedule *out)
{
    int pieces_left = SPT_RUN_PIECES_MAX;
    struct spt_run run = spt_run_start(out->question, service, workspace, &pieces_left);
    if (!isfinite(out->fatigue_life_h))
        return;
    spt_run_advance(&run, out->fatigue_life_h);
    if (!run.status)
        spt_run_name_dirt(&run, &out->dents);
}

enum spt_status spt_schedule_dents(const struct spt_service *service,
                                   const struct spt_timeline_workspace *workspace, double scale_h,
                                   struct spt_schedule *out)
{
    struct spt_dent_bounds *dents = &out->dents;
    enum spt_status status = SPT_OK;
    out->fatigue_life_h = life_of(out, &status);
    dents->if_cured_h = dents->half_credit_h = out->fatigue_life_h;
    if (status || !out->followed || !spt_run_may_clean_up(out->question, service))
        return status;
    const double cured_h =
        life_with(service, workspace, scale_h, SPT_RUN_DENTS_CURED, out, &status);
    if (status || are_one(out->fatigue_life_h, cured_h))
        return status;
    dents->differ = true;
    dents->if_cured_h = cured_h;
    dents->half_credit_h = life_with(service, workspace, scale_h, SPT_RUN_DENTS_HALF, out, &status);
    name_dirt(service, workspace, out);
    return status;
}
