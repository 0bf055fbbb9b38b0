/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_FIT_H
#define ANSWER_FIELD_FIT_H

#include "format/page/page.h"
#include "spalltime/fit.h"

/* A candidate: a scenario or variant whose life the data are compared with. */
struct spt_hypothesis {
    const char *name;
    double l10; /* in the unit of the data; NaN or INFINITY: no life, left out */
    struct spt_fit_candidate candidate; /* NaN where it is the same as another */
    const char *same_as;                /* name of an earlier one of the same L10; NULL: none */
    bool within;                        /* its L10 is within the bounds of the field L10 */
};

/* Result for one of several modes of failure; failures by other modes count as censored. */
struct spt_fit_mode {
    const char *name;
    struct spt_fit fit; /* without points and candidates */
};

/* The results of `fit`, in the order in which they are reported. */
struct spt_fit_report {
    const char *file;
    const char *unit; /* "h" or "km" */
    int rows;
    struct spt_fit_inputs inputs;
    struct spt_fit fit;
    const struct spt_rank_point *points;
    int running_count;
    const struct spt_fit_running *running; /* the oldest first */
    const char *mode;                      /* the selected mode; NULL: all of them */
    int other_modes;                       /* bearings failed by other modes, counted as censored */
    int mode_count; /* number of modes in the file; `modes` is set only where `mode` is NULL and
                       there are several */
    const struct spt_fit_mode *modes;
    const char *against; /* title of the scenario; NULL: none */
    bool used;           /* the scenario states hours run, which the rating does not count */
    bool serviced;    /* the scenario has a section `service`, which the rating does not include */
    bool hubs;        /* the scenario is of a hub: one row of the data is two bearings */
    int band_samples; /* samples of the band of the rating; 0: inputs are assumed to be exact */
    struct spt_interval band; /* band of the rated L10, 5 and 95 %, in the unit of the data */
    enum spt_fit_overlap overlap;
    int hypothesis_count;
    const struct spt_hypothesis *hypotheses; /* the likeliest first, those without a life last */
};

/* The first line of the answer, into SPT_FIT_TITLE_LENGTH bytes. Result: `title`. */
#define SPT_FIT_TITLE_LENGTH 1200
const char *spt_fit_title(const struct spt_fit_report *report, char *title);

/* The answer as a page below its title: law, modes, comparison, scenarios weighed, flags. The CSV
 * is the points of a probability plot: one row for each failure. */
void spt_fit_page(struct spt_page *page, const struct spt_fit_report *report);

/* The same as members of an object that the caller has opened, with the rows of the page. */
void spt_fit_json(struct spt_json *json, const struct spt_page *page,
                  const struct spt_fit_report *report);

#endif
