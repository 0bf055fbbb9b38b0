/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/schedule_dents.h"

#include <math.h>

#include "study/course/run.h"
#include "study/service/plan_life.h"

#define SAME 1e-3 /* relative difference of lives that are one */

static bool are_one(double one_h, double other_h)
{
    return (isnan(one_h) && isnan(other_h)) || one_h == other_h ||
           fabs(one_h - other_h) <= SAME * one_h;
}

/* The dirt until the end of the life. */
static void name_dirt(const struct spt_service *service,
                      const struct spt_timeline_workspace *workspace, struct spt_schedule *out)
{
    struct spt_run_budget budget = spt_run_budget();
    struct spt_run run = spt_run_start(out->question, service, workspace, &budget);
    if (!isfinite(out->life_h))
        return;
    spt_run_advance(&run, out->life_h);
    if (!run.status)
        spt_run_name_dirt(&run, &out->dents);
}

enum spt_status spt_schedule_dents(const struct spt_service *service,
                                   const struct spt_timeline_workspace *workspace,
                                   struct spt_schedule *out)
{
    struct spt_dent_bounds *dents = &out->dents;
    dents->if_cured_h = dents->half_credit_h = out->life_h;
    if (!out->followed || are_one(out->life_h, out->cured_h))
        return SPT_OK;
    dents->differ = true;
    dents->if_cured_h = out->cured_h;
    name_dirt(service, workspace, out);
    return spt_plan_life_with(out->question, service, workspace, SPT_RUN_DENTS_HALF,
                              &dents->half_credit_h);
}
