/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_REACH_H
#define ANSWER_SERVICE_REACH_H

#include "format/json.h"
#include "format/text.h"
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
};

/* Writes the required value of each lever alone. */
void spt_reach_text(const struct spt_text *text, const struct spt_reached *answer);
void spt_reach_json(struct spt_json *json, const struct spt_reached *answer);
void spt_reach_csv(FILE *out, const struct spt_reach *reach, int only);

/* Writes the flags that only the required values raise. */
void spt_reach_flags_text(const struct spt_text *text, const struct spt_reach *reach, int only);

/* Writes the calculation: ends, value and check of each lever. */
void spt_reach_explain_text(const struct spt_text *text, const struct spt_reach *reach, int only);
void spt_reach_explain_json(struct spt_json *json, const struct spt_reach *reach, int only);

#endif
