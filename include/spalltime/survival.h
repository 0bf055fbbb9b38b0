/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_SURVIVAL_H
#define SPT_SURVIVAL_H

#include "spalltime/life.h"
#include "spalltime/regreasing.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* How rolling fatigue lives scatter about L10 (any one unit of time), three-parameter Weibull:
 * R(t) = exp(-ln(1/0.9) [(t/L10 - floor)/(1 - floor)]^slope), 1 below floor L10. */
struct spt_life_law {
    double l10;   /* > 0; L_nm10 where the modified life is meant */
    double slope; /* > 0; SPT_WEIBULL_SLOPE behind a1 */
    double floor; /* least life over L10, 0 <= floor < 1; SPT_WEIBULL_FLOOR behind a1, 0 for the
                     two-parameter form */
};

/* The law behind the reliability factors a1 of ISO 281:2007 table 12: slope 1.5, floor 0.05.
 * Below 90 % reliability it is used beyond the table. Source: as spt_life_reliability_factor. */
struct spt_life_law spt_survival_iso_law(double l10);

/* Share that survives t (>= 0), and its natural logarithm, which does not underflow. */
enum spt_status spt_survival_fatigue(const struct spt_life_law *law, double t, double *survival);
enum spt_status spt_survival_log_fatigue(const struct spt_life_law *law, double t,
                                         double *log_survival);

/* Life that a share `survival` (1e-300 < R < 1) reaches; L10 a1 for R of 0.90 to 0.9995. */
enum spt_status spt_survival_quantile(const struct spt_life_law *law, double survival, double *t);

/* Logarithm of the density of failures at t (> 0), -INFINITY below the least life; with
 * ln R it makes the likelihood of field data. */
enum spt_status spt_survival_log_density(const struct spt_life_law *law, double t,
                                         double *log_density);

/* Bearings in series, and their greases: everything has to survive. Times in hours. */
struct spt_survival_system {
    int fatigue_count; /* >= 0 */
    const struct spt_life_law *fatigue;
    int grease_count; /* >= 0; one of the two counts at least 1 */
    const struct spt_grease_plan *grease;
};

/* Product of the survivals at t_h (>= 0).
 * Source: product rule for independent causes (Lundberg and Palmgren 1947, from memory). */
enum spt_status spt_survival_of_system(const struct spt_survival_system *system, double t_h,
                                       double *survival);

/* Life in hours that a share `survival` (1e-300 < R < 1) of the systems reaches, by root finding.
 * Status: SPT_NOT_CONVERGED where that lies beyond SPT_SURVIVAL_LIFE_MAX_H. */
#define SPT_SURVIVAL_LIFE_MAX_H 1e100
enum spt_status spt_survival_life(const struct spt_survival_system *system, double survival,
                                  double *life_h);

/* Life of bearings in series out of theirs, all lives at one reliability: the time at which the
 * product of their survivals by the law behind a1 is that reliability. Every command puts the rows
 * of a hub together so; lives of the system need not follow the law of its parts.
 * In:     count >= 1 lives in one unit, >= 0, INFINITY allowed; one is given back as it is;
 *         reliability 90 to 99.95 %, 90 for basic rating lives.
 * Result: NaN for NaN, a negative life, or a reliability out of range.
 * Source: product rule for independent causes (Lundberg and Palmgren 1947, from memory), with the
 *         law of spt_survival_iso_law. */
double spt_survival_series(const double *lives, int count, double reliability_percent);

/* Lives that 50, 90, 95 and 99 % reach. */
struct spt_survival_lives {
    double l50_h;
    double l10_h;
    double l5_h;
    double l1_h;
};
enum spt_status spt_survival_lives(const struct spt_survival_system *system,
                                   struct spt_survival_lives *lives);

/* The same of any function that gives the life a share reaches.
 * Status: the first that `find` gives; all lives are then NaN. */
enum spt_status spt_survival_usual_lives(enum spt_status (*find)(const void *context,
                                                                 double survival, double *life_h),
                                         const void *context, struct spt_survival_lives *lives);

#ifdef __cplusplus
}
#endif

#endif
