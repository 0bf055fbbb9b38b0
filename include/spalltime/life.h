/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_LIFE_H
#define SPT_LIFE_H

#include <stdbool.h>

#include "spalltime/bearing.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

#define SPT_LIFE_FACTOR_MAX 50.0   /* cap of a_ISO, ISO 281:2007 (from memory) */
#define SPT_LIFE_FACTOR_EP_MAX 3.0 /* cap with the EP rule */
#define SPT_EP_CLEANLINESS_MIN 0.2 /* e_C needed for the EP rule */
#define SPT_BASIC_RELIABILITY 90.  /* reliability in % of a basic rating life */
#define SPT_WEIBULL_SLOPE 1.5      /* slope behind a1, ISO 281:2007 */
#define SPT_WEIBULL_FLOOR 0.05     /* C_gamma, least life over L10 */

#define SPT_DAYS_PER_YEAR 365.25 /* of the calendar, leap years included */

/* Load-life exponent p: 3 ball, 10/3 roller. Source: ISO 281:2007. */
double spt_life_exponent(enum spt_bearing_type type);

/* Basic rating life L10 = (C/P)^p in million revolutions.
 * In: C and P in N (> 0). */
enum spt_status spt_life_basic(enum spt_bearing_type type, double dynamic_load_rating_n,
                               double equivalent_load_n, double *l10_mrev);

/* Million revolutions (>= 0; INFINITY allowed) to hours at a speed in r/min (> 0, finite):
 * L * 1e6 / (60 n). */
enum spt_status spt_life_hours(double life_mrev, double speed_rpm, double *life_h);

/* Reliability factor a1 for 90 to 99.95 %.
 * Source: formula behind ISO 281:2007 table 12, (1-0.05)[ln(100/S)/ln(100/90)]^(1/1.5) + 0.05;
 *         it meets all 14 printed entries to half a unit of the last digit.
 * Status: SPT_BAD_ARGUMENT outside 90 to 99.95. */
enum spt_status spt_life_reliability_factor(double reliability_percent, double *a1);

/* Inputs of a_ISO, and below its result with intermediate values. */
struct spt_life_factor_inputs {
    enum spt_bearing_type type;
    double contamination_factor; /* e_C, 0 to 1 */
    double fatigue_load_limit_n; /* C_u > 0 */
    double equivalent_load_n;    /* P > 0 */
    double viscosity_ratio;      /* kappa as calculated, > 0; above 4 the value 4 is used */
    bool ep_additive;            /* proven effective */
};
struct spt_life_factor {
    double x;               /* e_C C_u/P, over 3 thrust ball, over 2.5 thrust roller */
    double viscosity_ratio; /* kappa used: limited to 4, or 1 by the EP rule */
    double film_term;       /* A(kappa) of balls, B(kappa) of rollers */
    double bracket;         /* 1 - (..) x^..; <= 0 means the cap */
    double a_iso;
    bool capped; /* at 50 (or 3 with EP) */
    bool ep_applied;
};

/* Life modification factor a_ISO.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where kappa < 0.1 (a_iso NaN).
 * Source: ISO 281:2007 9.3.3, constants confirmed by their continuity at kappa 0.1, 0.4 and 1;
 *         0.83, 0.071739, the divisors 3 and 2.5, the caps and the EP rule from memory. */
enum spt_status spt_life_factor(const struct spt_life_factor_inputs *in,
                                struct spt_life_factor *out);

/* a_ISO of one kappa and one x, without EP rule and flags; which other modules call. kappa 0.1 to
 * 4, x >= 0, both finite and checked by the caller.
 * Next to kappa 0.1 the rollers' 1.5859 - 1.3993/kappa^0.054381 is -0.00006 by the rounding of the
 * constants; 0 is used there, so that a_ISO is 0.1 and grows with x everywhere. */
double spt_life_factor_value(bool ball, double kappa, double x);

/* Life of a series system of `n` lives (all in one unit, >= 0; INFINITY allowed, NaN or a negative
 * life gives NaN, as do n < 1 and slope <= 0): (sum L_i^-e)^(-1/e). Source: product of survivals
 * with one slope e (Lundberg and Palmgren; e = 10/9 ball, 9/8 roller). No answer of this library
 * uses it; lives of bearings are put together by spt_survival_series. */
double spt_life_system(const double *lives, int n, double slope);

#ifdef __cplusplus
}
#endif

#endif
