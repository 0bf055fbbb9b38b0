/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_REACH_H
#define ANSWER_SERVICE_REACH_H

#include "format/page/page.h"
#include "spalltime/reach.h"
#include "spalltime/uncertainty.h"

/* Input of the reports. */
struct spt_reached {
    const struct spt_case *question;
    const struct spt_assessment *assessment; /* of the case as stated */
    const struct spt_reach *reach;
    int only; /* one lever, or -1 for all */
    /* band of the present life; NULL: no section `uncertainty` */
    const struct spt_uncertainty_result *spread;
    double plan_life_h; /* of the verdict, from new; NaN: none */
};

/* What each lever alone must come to as a page: the target, the levers, where `explain` the
 * calculation, the flags that only the required values raise. The CSV is the levers. */
void spt_reach_page(struct spt_page *page, const struct spt_reached *answer, bool explain);

/* The same as members of an object that the caller has opened. */
void spt_reach_json(struct spt_json *json, const struct spt_reached *answer, bool explain);

#endif
