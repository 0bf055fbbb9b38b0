/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_DUTY_H
#define ANSWER_FIELD_DUTY_H

#include "format/json.h"
#include "format/text.h"
#include "spalltime/history.h"

/* A binned duty, to be reported and written as a section of a scenario. */
struct spt_duty_report {
    const struct spt_history *history;
    const struct spt_history_summary *summary;
    const struct spt_history_bin *bins;
    int count;
    const char *title; /* title of the scenario; NULL: none */
    const char *load_key, *side_key,
        *speed_key;      /* keys of a phase; NULL: the history does not have it */
    const char *shared;  /* other keys of each phase, beginning with ", "; "" for none */
    const char *missing; /* keys that each phase still needs, in words; NULL: none */
};

/* Writes the section `duty` of a scenario; numbers parse to the same doubles. */
void spt_duty_yaml(FILE *out, const struct spt_duty_report *report);
void spt_duty_text(const struct spt_text *text, const struct spt_duty_report *report);
void spt_duty_json(struct spt_json *json, const struct spt_duty_report *report);
void spt_duty_csv(FILE *out, const struct spt_duty_report *report);

#endif
