/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_SERVICE_REACH_H
#define ANSWER_SERVICE_REACH_H

#include "format/json.h"
#include "format/text.h"
#include "spalltime/reach.h"
#include "spalltime/uncertainty.h"

/* What is told. */
struct spt_reached {
    const struct spt_case *question;
    const struct spt_assessment *assessment; /* as it stands */
    const struct spt_reach *reach;
    int only;                                    /* one lever, or -1 for all */
    const struct spt_uncertainty_result *spread; /* of the life now; NULL: not stated */
};

/* What each lever alone must come to. */
void spt_reach_text(const struct spt_text *text, const struct spt_reached *answer);
void spt_reach_json(struct spt_json *json, const struct spt_reached *answer);
void spt_reach_csv(FILE *out, const struct spt_reach *reach, int only);

/* The flags that the values newly raise. */
void spt_reach_flags_text(const struct spt_text *text, const struct spt_reach *reach, int only);

/* The working: ends, value and check of each lever. */
void spt_reach_explain_text(const struct spt_text *text, const struct spt_reach *reach, int only);
void spt_reach_explain_json(struct spt_json *json, const struct spt_reach *reach, int only);

#endif
