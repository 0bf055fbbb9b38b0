/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_VISCOSITY_H
#define SPT_VISCOSITY_H

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* The Walther line of one oil: log10 log10 (nu + 0.7) = a - b log10 (T / K), nu in mm2/s. */
struct spt_walther {
    double a;
    double b;
};

/* The line through two points of an oil.
 * In:     two temperatures in degC (above -273.15, different), two viscosities in mm2/s
 *         (0.31 to 2e7, the cooler one thicker).
 * Status: SPT_BAD_ARGUMENT otherwise, both members NaN.
 * Source: ASTM D341, engineering form with the constant 0.7 (valid for nu >= 2 mm2/s). */
enum spt_status spt_viscosity_line(double t1_c, double nu1_mm2_s, double t2_c, double nu2_mm2_s,
                                   struct spt_walther *line);

/* Kinematic viscosity in mm2/s at a temperature in degC (-273.15 exclusive to 1000).
 * Below 2 mm2/s the caller flags SPT_FLAG_VISCOSITY_RANGE: the plain form is outside its range.
 * Status: SPT_BAD_ARGUMENT (also for a line that does not fall, b <= 0); SPT_NOT_APPLICABLE above
 *         2e7 mm2/s, where D341 ends. NaN.
 * Source: ASTM D341, inverse of the engineering form. */
enum spt_status spt_viscosity_at(const struct spt_walther *line, double temperature_c,
                                 double *nu_mm2_s);

/* Viscosity index from the viscosities at 40 and 100 degC, in mm2/s (nu100 2 to 500, below nu40,
 * nu40 up to 2e7).
 * Status: SPT_BAD_ARGUMENT otherwise, NaN.
 * Source: ASTM D2270 / ISO 2909; L and H by the quadratics of appendix X2, which meet table 1
 *         within 0.11 %; index within 0.25 of the tabulated procedure. Not rounded. Rows 1, 2 and
 *         last of the quadratics were read, the others are from memory. */
enum spt_status spt_viscosity_index(double nu40_mm2_s, double nu100_mm2_s, double *index);

/* The inverse: viscosity at 100 degC in mm2/s of an oil of nu40 (2.5 to 5000 mm2/s) and a
 * viscosity index (-50 to 400). By bisection: the index rises with nu100 at a fixed nu40,
 * but for steps where two quadratics meet: there the index of the answer is off by up to 0.2.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where no nu100 in 2 to 400 mm2/s has the index. */
enum spt_status spt_viscosity_100_from_index(double nu40_mm2_s, double index, double *nu100_mm2_s);

/* The quadratics themselves, for tests and explanations: L and H of ASTM D2270 in mm2/s, for
 * nu100 2 to 500 mm2/s. Status: SPT_BAD_ARGUMENT otherwise, both NaN. */
enum spt_status spt_viscosity_index_basis(double nu100_mm2_s, double *l_mm2_s, double *h_mm2_s);

/* ISO 3448:1992 viscosity grades, mid-point viscosity at 40 degC in mm2/s.
 * spt_viscosity_grade(i) gives number i (0 to SPT_VISCOSITY_GRADE_COUNT - 1) in rising order, NULL
 * for any other i. */
#define SPT_VISCOSITY_GRADE_COUNT 20
struct spt_viscosity_grade {
    int number;        /* as in "VG 46" */
    double nu40_mm2_s; /* mid-point; limits are +-10 % */
};
const struct spt_viscosity_grade *spt_viscosity_grade(int i);

#ifdef __cplusplus
}
#endif

#endif
