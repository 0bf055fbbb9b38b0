/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_CURVE_SURVIVAL_CURVE_H
#define STUDY_CURVE_SURVIVAL_CURVE_H

#include "spalltime/service.h"
#include "spalltime/uncertainty.h"

#define SPT_SURVIVAL_POINTS 121

/* Shares of many such machines that still run without a spall, against running hours. */
struct spt_survival_curve {
    bool fatigue, grease;                /* causes that are counted */
    bool followed;                       /* fatigue follows the drifts and events of the service */
    bool banded;                         /* low and high are filled */
    double times_h[SPT_SURVIVAL_POINTS]; /* in equal ratios */
    double by_fatigue[SPT_SURVIVAL_POINTS];
    double by_grease[SPT_SURVIVAL_POINTS];
    double by_both[SPT_SURVIVAL_POINTS];
    double as_stated[SPT_SURVIVAL_POINTS]; /* fatigue without drifts and events */
    /* 5 and 95 % of the samples of uncertain inputs: fatigue of the condition as stated */
    double low[SPT_SURVIVAL_POINTS], high[SPT_SURVIVAL_POINTS];
    struct spt_survival_lives fatigue_lives, grease_lives;
    struct spt_survival_lives lives;                 /* of all causes counted */
    struct spt_survival_lives low_lives, high_lives; /* where low and high fall to each share; NaN:
                                                        so many samples have no life */
};

/* The curve of a plan, from half of the life that 99 % reach (in the band too) to where few are
 * left.
 * In:     a finished plan; the samples of its case's uncertain inputs, or NULL.
 * Status: SPT_NOT_APPLICABLE where no life can be stated or nothing is worn; SPT_NOT_CONVERGED.
 * Source: spt_schedule_survival; each sample by the law behind a1, its rows in series, as
 *         spt_uncertainty takes them. */
enum spt_status spt_survival_curve(const struct spt_schedule *schedule,
                                   const struct spt_uncertainty_result *spread,
                                   struct spt_survival_curve *curve);

#endif
