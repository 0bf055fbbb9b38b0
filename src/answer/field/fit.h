/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef ANSWER_FIELD_FIT_H
#define ANSWER_FIELD_FIT_H

#include "format/json.h"
#include "format/text.h"
#include "spalltime/fit.h"

/* A scenario or variant that the returns are weighed under. */
struct spt_hypothesis {
    const char *name;
    double l10; /* in the unit of the data; NaN or INFINITY: states no life, left out */
    struct spt_fit_candidate candidate; /* NaN where it is the same as another */
    const char *same_as;                /* name of an earlier one of the same L10; NULL: none */
    bool within;                        /* its L10 lies within the field's bounds */
};

/* One of several modes of failure, those of the others taken as running until then. */
struct spt_fit_mode {
    const char *name;
    struct spt_fit fit; /* without points and candidates */
};

/* Everything that `fit` answers, in the order it is told. */
struct spt_fit_report {
    const char *file;
    const char *unit; /* "h" or "km" */
    int rows;
    struct spt_fit_inputs inputs;
    struct spt_fit fit;
    const struct spt_rank_point *points;
    const char *mode; /* the one that counts; NULL: all of them */
    int other_modes;  /* bearings that another mode ended, taken as running until then */
    int mode_count;   /* of the file; `modes` only where `mode` is NULL and there are several */
    const struct spt_fit_mode *modes;
    const char *against;      /* title of the scenario; NULL: none */
    bool serviced;            /* it has a section `service`, which the rating leaves out */
    bool hubs;                /* what is rated is a hub: one row of the data is two bearings */
    int band_samples;         /* behind the band of the rating; 0: its inputs are taken as known */
    struct spt_interval band; /* of the rated L10, 5 and 95 %, in the unit of the data */
    enum spt_fit_overlap overlap;
    int hypothesis_count;
    const struct spt_hypothesis *hypotheses; /* the likeliest first, those without a life last */
};

/* Without the flags where `quiet`. */
void spt_fit_text(const struct spt_text *text, const struct spt_fit_report *report, bool quiet);
void spt_fit_json(struct spt_json *json, const struct spt_fit_report *report);
/* The points of a probability plot: one row for each failure. */
void spt_fit_csv(FILE *out, const struct spt_fit_report *report);

#endif
