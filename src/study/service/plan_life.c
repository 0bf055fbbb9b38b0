/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/service/plan_life.h"

#include <math.h>

#include "spalltime/statistics.h"
#include "study/course/run.h"
#include "study/life/check.h"

/* Beyond this no machine runs, and the periods of a service are no longer told apart. Ours. */
#define NO_LIMIT_H 1e12

/* Life of a run; where the film goes before fatigue ends it, the time at which it does. */
static double find_life(struct spt_run *run, bool *stops)
{
    const double life_h = spt_run_life(run, NO_LIMIT_H);
    *stops = run->stopped && isnan(life_h) && run->time_h > 0;
    return *stops ? run->time_h : life_h;
}

enum spt_status spt_plan_life(const struct spt_case *question, const struct spt_service *service,
                              const struct spt_timeline_workspace *workspace,
                              struct spt_plan_life *life)
{
    struct spt_run_budget budget = spt_run_budget();
    bool steady_stops, cured_stops;
    *life = (struct spt_plan_life){(double)NAN, false, (double)NAN, (double)NAN};
    enum spt_status status = spt_check_service(question, service);
    if (status)
        return status;
    struct spt_run run = spt_run_start(question, service, workspace, &budget);
    struct spt_run steady = run, cured = run;
    life->life_h = life->steady_h = life->cured_h = find_life(&run, &life->stops);
    cured.dents = SPT_RUN_DENTS_CURED;
    if (!run.status && spt_run_may_clean_up(question, service))
        life->cured_h = find_life(&cured, &cured_stops);
    if (!run.status)
        run.status = cured.status;
    if (run.status || !(service->event_count + service->drift_count))
        return run.status;
    steady.skipped = SPT_RUN_QUIET;
    life->steady_h = find_life(&steady, &steady_stops);
    return steady.status;
}

enum spt_status spt_plan_life_with(const struct spt_case *question,
                                   const struct spt_service *service,
                                   const struct spt_timeline_workspace *workspace,
                                   enum spt_run_dents dents, double *life_h)
{
    struct spt_run_budget budget = spt_run_budget();
    bool stops;
    *life_h = (double)NAN;
    enum spt_status status = spt_check_service(question, service);
    if (status)
        return status;
    struct spt_run run = spt_run_start(question, service, workspace, &budget);
    run.dents = dents;
    *life_h = find_life(&run, &stops);
    return run.status;
}
