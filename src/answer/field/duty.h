/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_DUTY_H
#define ANSWER_FIELD_DUTY_H

#include "format/page/page.h"
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

/* The phases and what binning costs as a page; the CSV is the phases. */
void spt_duty_page(struct spt_page *page, const struct spt_duty_report *report);

/* The same as members of an object that the caller has opened, with the rows of the page. */
void spt_duty_json(struct spt_json *json, const struct spt_page *page,
                   const struct spt_duty_report *report);

#endif
