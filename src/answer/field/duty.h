/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_DUTY_H
#define ANSWER_FIELD_DUTY_H

#include "format/json.h"
#include "format/text.h"
#include "spalltime/history.h"

/* A binned duty, to be seen and kept. */
struct spt_duty_report {
    const struct spt_history *history;
    const struct spt_history_summary *summary;
    const struct spt_history_bin *bins;
    int count;
    const char *title;                           /* of the scenario; NULL: none */
    const char *load_key, *side_key, *speed_key; /* of a phase; NULL: the history has none */
    const char *shared;  /* what else each phase says, from ", " on; "" for nothing */
    const char *missing; /* keys that each phase still needs, in words; NULL: none */
};

/* The section `duty` of a scenario; numbers read back as the same doubles. */
void spt_duty_yaml(FILE *out, const struct spt_duty_report *report);
void spt_duty_text(const struct spt_text *text, const struct spt_duty_report *report);
void spt_duty_json(struct spt_json *json, const struct spt_duty_report *report);
void spt_duty_csv(FILE *out, const struct spt_duty_report *report);

#endif
