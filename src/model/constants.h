/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_CONSTANTS_H
#define MODEL_CONSTANTS_H

/* The numbers of the published equations that the scalar model and the batch kernel share, each
 * written once. Their sources are cited at the functions that use them; those of limits and of the
 * water model in the public headers. */

#define SPT_ZERO_C_IN_K 273.15
#define SPT_TEMPERATURE_MAX_C 1000.0

/* ASTM D341, engineering form */
#define SPT_WALTHER_CONSTANT 0.7
#define SPT_VISCOSITY_SMALLEST_MM2_S 0.31
#define SPT_VISCOSITY_LARGEST_MM2_S 2e7 /* upper end of ASTM D341 */
#define SPT_VISCOSITY_PLAIN_MIN_MM2_S 2.0

/* nu_1 = slow n^-exponent/sqrt(D_pw) below the step, fast/(sqrt(n) sqrt(D_pw)) from it on */
#define SPT_NU1_STEP_RPM 1000.0
#define SPT_NU1_SLOW_COEFFICIENT 45000.0
#define SPT_NU1_SLOW_EXPONENT 0.83
#define SPT_NU1_FAST_COEFFICIENT 4500.0

/* kappa of a film thinned to a ratio of its height: kappa ratio^1.3 */
#define SPT_FILM_RATIO_EXPONENT 1.3

/* e_C = a (1 - b/D_pw^(1/3)), a = min(1, c kappa^0.68 D_pw^0.55) */
#define SPT_EC_KAPPA_EXPONENT 0.68
#define SPT_EC_PITCH_EXPONENT 0.55

/* a_ISO = 0.1 [1 - (limit - A(kappa))^outer x^inner]^power, A = coefficient/kappa^exponent on three
 * ranges of kappa */
#define SPT_AISO_SCALE 0.1
#define SPT_AISO_KAPPA_THIN 0.4
#define SPT_AISO_KAPPA_FULL 1.0
#define SPT_AISO_EXPONENT_THIN 0.054381
#define SPT_AISO_EXPONENT_MIXED 0.19087
#define SPT_AISO_EXPONENT_FULL 0.071739
#define SPT_AISO_THRUST_BALL_DIVISOR 3.0
#define SPT_AISO_THRUST_ROLLER_DIVISOR 2.5
struct spt_aiso_family {
    double limit;
    double coefficient_thin; /* 0.1 <= kappa < 0.4 */
    double coefficient;      /* 0.4 <= kappa <= 4 */
    double outer;
    double inner;
    double power;
};
#define SPT_AISO_BALL                                                                              \
    {                                                                                              \
        2.5671, 2.2649, 1.9987, 0.83, 1.0 / 3.0, -9.3                                              \
    }
#define SPT_AISO_ROLLER                                                                            \
    {                                                                                              \
        1.5859, 1.3993, 1.2348, 1.0, 0.4, -9.185                                                   \
    }

/* P above this share of C: ISO 281 life is no longer reliable */
#define SPT_OVERLOAD_RATIO 0.5

#define SPT_MREV 1e6
#define SPT_MINUTES_PER_HOUR 60.0

#endif
