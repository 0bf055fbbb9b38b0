/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_DIAGNOSIS_DIAGNOSIS_H
#define ANSWER_DIAGNOSIS_DIAGNOSIS_H

#include "format/page/page.h"
#include "scenario/case_file.h"
#include "spalltime/diagnosis.h"

/* One damaged bearing with what was found out about it. */
struct spt_diagnosis_report {
    int index; /* among the cases of the page */
    const struct spt_causes *causes;
    const struct spt_damage_case *stated;
    struct spt_diagnosis_case asked;
    struct spt_diagnosis result;
    const char *scenario; /* its path; NULL: none */
    const char *bearing;  /* its name there */
    double past_total;    /* confirmed cases of the shop */
    const char *past;     /* their file; NULL: none */
    int fleet;            /* machines of the scenario; 0 or less: not stated */
    enum spt_ring standing;
    bool turning_taken; /* which ring turns is not stated, but taken by the machine */
    double zone_deg;    /* load zone of the row in the costliest phase; NaN: not known */
    double zone_least_deg, zone_most_deg; /* over the phases in which the row carries load */
    bool doubt_stated; /* asked.doubt is from `uncertainty` of the scenario, without what is a cause
                          of its own here: cleanliness and water */
    double path_setting_mm; /* mounted setting at which the zone is the measured path, end play
                               above 0; NaN: not known */
};

/* Whether the bearing may go back: the strictest of what findings and shown modes say; not known
 * where a group that can keep it out was not looked at and nothing says no. */
enum spt_goes_back {
    SPT_GOES_BACK_NO,
    SPT_GOES_BACK_INSPECTED,
    SPT_GOES_BACK_UNKNOWN,
    SPT_GOES_BACK_COUNT
};
#define SPT_GOING_BACK_LENGTH 600
struct spt_going_back {
    enum spt_goes_back answer;
    char because[SPT_GOING_BACK_LENGTH]; /* the finding or mode that decides; "": none */
    char unseen[SPT_GOING_BACK_LENGTH];  /* groups that were not looked at: "spall, mark" */
};
struct spt_going_back spt_diagnosis_goes_back(const struct spt_diagnosis_report *report);

/* True where the finding `at` of the case puts a wheel bearing out of service at once. */
bool spt_diagnosis_stops(const struct spt_diagnosis_report *report, int at);

/* A page of one case, or of several with a table of all of them first; CSV has a row for each. */
void spt_diagnosis_page(struct spt_page *page, const struct spt_diagnosis_report *reports,
                        int count);

/* Members of the object that the caller has opened: of one case, or `cases`. Keys are a contract.
 */
void spt_diagnosis_json(struct spt_json *json, const struct spt_diagnosis_report *reports,
                        int count);

#endif
