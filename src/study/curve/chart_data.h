/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef STUDY_CURVE_CHART_DATA_H
#define STUDY_CURVE_CHART_DATA_H

#include "spalltime/assess.h"

/* Numbers that charts show beside an assessment, out of the model's own functions. */

#define SPT_FILM_POINTS 25
#define SPT_FILM_NEIGHBOURS 2 /* grades above the oil, and as many below */
#define SPT_FILM_CURVES_MAX (1 + 2 * SPT_FILM_NEIGHBOURS)

/* Viscosity of one oil against temperature. */
struct spt_film_curve {
    int grade;                               /* ISO VG number; 0 for the oil of the case itself */
    double nu40_mm2_s;                       /* viscosity at 40 degC */
    double viscosity_mm2_s[SPT_FILM_POINTS]; /* NaN where the oil has no value */
};

struct spt_film_curves {
    double temperature_c[SPT_FILM_POINTS];
    int curve_count; /* thinnest oil first */
    struct spt_film_curve curves[SPT_FILM_CURVES_MAX];
};

/* Curves of the case's oil and of the next ISO 3448 grades of the same viscosity index.
 * In:     the oil, the ends in degC (-273.15 to 1000, low below high).
 * Result: the curves; a grade for which the viscosity index gives no oil is left out.
 * Status: SPT_BAD_ARGUMENT, no curve.
 * Source: ISO 3448:1992 grades, ASTM D341 and D2270, as viscosity.h cites them. */
enum spt_status spt_film_curves(const struct spt_lubricant *oil, double low_c, double high_c,
                                struct spt_film_curves *result);

/* The same for a worked-out bearing: from 20 K below its coolest phase that turns to 30 K above its
 * hottest, in whole tens.
 * Status: SPT_NOT_APPLICABLE, no curve, where no phase turns at a known temperature. */
enum spt_status spt_film_curves_of(const struct spt_case *question,
                                   const struct spt_bearing_result *bearing,
                                   struct spt_film_curves *result);

#define SPT_CONTOUR_POINTS 25
#define SPT_CONTOUR_COUNT 9

/* Where a_ISO has one value: x = e_C C_u/P (over 3 or 2.5 in thrust bearings) for each kappa. */
struct spt_contour {
    double a_iso;
    double x[SPT_CONTOUR_POINTS];
};

struct spt_contours {
    double viscosity_ratio[SPT_CONTOUR_POINTS];     /* 0.1 to 4, in equal ratios */
    struct spt_contour contours[SPT_CONTOUR_COUNT]; /* rising a_ISO, 0.2 to 50 */
};

/* Contours of the life modification factor of one bearing type; x is NaN where even x = 1e6 does
 * not reach the value. Source: the inverse of spt_life_factor_value by bisection. */
void spt_contours(enum spt_bearing_type type, struct spt_contours *result);

#endif
