/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef REPORT_COMPARE_H
#define REPORT_COMPARE_H

#include "report/json.h"
#include "report/text.h"
#include "spalltime/assess.h"

/* One scenario or variant among those that are compared; the first of all is the base. */
struct spt_compared {
    const char *name; /* title of a scenario, name of a variant */
    const char *note; /* may be NULL */
    struct spt_assessment assessment;
};

/* Side by side: life, ratio to the base, the film and contamination of the phase that costs most
 * (of the bearing that lasts least), a bar on a log scale, the split of the loss. */
void spt_compare_text(const struct spt_text *text, const struct spt_compared *cases, int count);
void spt_compare_json(struct spt_json *json, const struct spt_compared *cases, int count);
void spt_compare_csv(FILE *out, const struct spt_compared *cases, int count);

#endif
