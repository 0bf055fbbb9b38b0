/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_SERVICE_PLAN_LIFE_H
#define STUDY_SERVICE_PLAN_LIFE_H

#include "spalltime/service.h"
#include "study/course/run.h"

/* The life of a machine under a service. */
struct spt_plan_life {
    double life_h;   /* INFINITY: no limit; NaN: none can be stated */
    bool stops;      /* no life can be stated from life_h on */
    double cured_h;  /* the same if cleaning cured all dents */
    double steady_h; /* the same without drifts and events */
};

/* Finds it, as spt_timeline does but without a horizon.
 * Status: as spt_timeline. */
enum spt_status spt_plan_life(const struct spt_case *question, const struct spt_service *service,
                              const struct spt_timeline_workspace *workspace,
                              struct spt_plan_life *life);

/* The life alone, with other dents. Status: as above. */
enum spt_status spt_plan_life_with(const struct spt_case *question,
                                   const struct spt_service *service,
                                   const struct spt_timeline_workspace *workspace,
                                   enum spt_run_dents dents, double *life_h);

#endif
