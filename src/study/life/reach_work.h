/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_LIFE_REACH_WORK_H
#define STUDY_LIFE_REACH_WORK_H

#include "spalltime/reach.h"

#define SPT_REACH_GRADE_LIMIT 0.9 /* lower limit of an ISO 3448 grade over its middle */

/* State of the search with one lever on one case. */
struct spt_reach_work {
    const struct spt_case *question;
    const struct spt_reach_workspace *workspace;
    enum spt_lever lever;
    double target_h;
    double present_life_h;
    bool relaxing;   /* the target is reached already: how far the value may worsen */
    double best_mm;  /* best setting of a hub that is allowed; NaN: no such lever */
    double least_mm; /* no setting below it is advised; -INFINITY: preload is allowed */
};

/* Range of a continuous lever, from its best end to its worst. */
struct spt_lever_range {
    double best;
    double worst;
};

/* Lives and ranges of a lever (reach_range.c). */

/* ln(life/target), within bounds that stand for no life and an endless one. */
double spt_reach_margin_of(double life_h, double target_h);

/* The same at a value of the lever; `context` is a struct spt_reach_work. */
double spt_reach_margin(double value, void *context);

/* Life in h at a value of the lever; NaN where none can be stated. */
double spt_reach_life_at(struct spt_reach_work *work, double value);

/* False where the case has no such lever. */
bool spt_reach_has(const struct spt_reach_work *work, enum spt_lever lever);

/* The value now, in the unit of the lever. */
double spt_reach_present(const struct spt_reach_work *work);

/* How far a continuous lever goes; both ends the present value where it has no range. */
struct spt_lever_range spt_reach_range(struct spt_reach_work *work, double present);

/* The end on the side of `reaches` of the last bracket between a value whose margin is `least` or
 * more and one whose margin is less. */
double spt_reach_last(struct spt_reach_work *work, double least, double reaches, double fails);

/* Grades of the oil, as indices of spt_viscosity_grade (reach_grade.c). */

/* The nearest by the ratio of viscosities. */
int spt_reach_grade(const struct spt_case *question);

/* The thinnest whose lower limit is above the oil (10 % below its middle, ISO 3448);
 * SPT_VISCOSITY_GRADE_COUNT where there is none. The thickest whose upper limit is below it; -1
 * where there is none. */
int spt_reach_thicker(const struct spt_case *question);
int spt_reach_thinner(const struct spt_case *question);

/* The thinnest whose middle is no thinner than the oil; -1 where there is none. */
int spt_reach_not_thinner(const struct spt_case *question);

#endif
