/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHART_REPORT_H
#define CHART_REPORT_H

#include "spalltime/ask.h"
#include "spalltime/assess.h"
#include "spalltime/setting.h"
#include "study/curve/chart_data.h"
#include "study/curve/load_zone.h"
#include "study/curve/survival_curve.h"

/* One case of a report: the scenario as written, or one of its variants. */
struct spt_report_case {
    const char *name; /* NULL: the scenario as written */
    const char *note; /* may be NULL */
    const struct spt_assessment *assessment;
    const struct spt_judgement *judgement;         /* NULL: not worked out */
    struct spt_film_curves film[SPT_BEARINGS_MAX]; /* curve_count 0: none */
    struct spt_contours contours[SPT_BEARINGS_MAX];
    const struct spt_schedule *plan;           /* NULL: not worked out */
    const struct spt_survival_curve *survival; /* NULL: no life to draw, or not worked out */
    const struct spt_load_zones *zones;        /* NULL: no hub, or not worked out */
};

/* Everything that a report and its charts show; case 0 is the scenario as written. */
struct spt_report {
    const char *title;
    int case_count;
    const struct spt_report_case *cases;
    /* of case 0; NULL: no service, or it could not be calculated */
    const struct spt_service_life *life;
    const struct spt_judged *judged; /* of the case that is shown, or of case 0; NULL: not judged */
    const struct spt_hub_curve *setting; /* of case 0; NULL: no hub, or no curve */
};

/* The life of a case under its plan, from new; where that is not worked out, as stated. */
double spt_report_life_h(const struct spt_report_case *part);

/* The name of a case in a report. */
const char *spt_report_case_name(const struct spt_report_case *part);

#endif
