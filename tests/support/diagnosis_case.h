/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef TESTS_DIAGNOSIS_CASE_H
#define TESTS_DIAGNOSIS_CASE_H

#include "scenario/catalog/causes.h"

/* A case of the table that comes with the program, made from short texts. */
struct diagnosis_case {
    struct spt_diagnosis_case one;
    struct spt_diagnosis_answer answers[SPT_DIAGNOSIS_FINDINGS_MAX];
    double life_h[SPT_DIAGNOSIS_CAUSES_MAX];
    bool ruled_out[SPT_DIAGNOSIS_CAUSES_MAX];
};

/* Findings divided by ";", `!` before one that was looked for and not there; lives such as
 * "load and time alone 232000; dirt from outside 13100", or NULL. */
void diagnosis_case_make(struct diagnosis_case *made, const struct spt_causes *causes,
                         enum spt_machine_group machine, const char *findings, double hours,
                         const char *lives);

/* Index of a cause; fails the test where there is none. */
int diagnosis_cause(const struct spt_causes *causes, const char *name);

#endif
