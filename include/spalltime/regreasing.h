/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_REGREASING_H
#define SPT_REGREASING_H

#include <stdbool.h>

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* S_g = exp(-ln(1/0.99) tau^slope), tau = age over interval: the interval is the 1 % grease life;
 * slope from L10 = 2.7 t_f: ln(ln(0.9)/ln(0.99))/ln 2.7. */
#define SPT_GREASE_HAZARD 0.01005
#define SPT_GREASE_SLOPE 2.366

/* How the grease of one bearing is renewed. */
struct spt_grease_plan {
    double interval_h; /* t_f > 0, the relubrication interval, see grease.h */
    double period_h;   /* regreased every so often, > 0; INFINITY: never */
};

/* Share of the greases that survives t_h (>= 0) hours, each regreasing making them as new:
 * product of S_g over the whole periods and the rest.
 * Source: a model of our own on t_f = L01 and L10 = 2.7 t_f (common catalogue practice; Lugt,
 *         Grease Lubrication in Rolling Bearings, 2013, from memory), not a standard. */
enum spt_status spt_regreasing_survival(const struct spt_grease_plan *plan, double t_h,
                                        double *survival);

/* When a grease that is `age_h` (>= 0) old is due for the first time where it is renewed every
 * `interval_h` (> 0): the interval counts from the last greasing, so interval less age, at once (0)
 * where that is past. The next is due an interval later. Source: common practice, no source. */
double spt_regreasing_first(double interval_h, double age_h);

/* The period that a target allows. */
struct spt_regreasing_period {
    double needed_h;      /* from the target alone */
    double recommended_h; /* needed_h, but no more than t_f */
    bool capped;          /* recommended_h is t_f */
};

/* How often to regrease so that a share `survival` (0 < R < 1) of the greases lasts `horizon_h`
 * (> 0) hours: T_r = t_f [-ln R t_f/(0.01005 H)]^(1/(slope - 1)). H/T_r is taken as it comes; a
 * whole number of periods changes R little.
 * In:     interval_h = t_f > 0.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where it over- or underflows. */
enum spt_status spt_regreasing_period(double interval_h, double horizon_h, double survival,
                                      struct spt_regreasing_period *period);

#ifdef __cplusplus
}
#endif

#endif
