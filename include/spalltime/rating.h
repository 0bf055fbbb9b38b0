/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_RATING_H
#define SPT_RATING_H

#include "spalltime/bearing.h"
#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

#define SPT_GROOVE_RATIO_MIN 0.515 /* groove radius over ball diameter */
#define SPT_GROOVE_RATIO_MAX 0.6

/* Ratings computed from inside geometry, with the steps that an explanation shows. */
struct spt_rating {
    double gamma;              /* D_we cos alpha / D_pw; D_we / D_pw where alpha = 90 deg */
    double curvature_gamma;    /* the same, but 0 where alpha = 90 deg: flat raceways */
    double reduction;          /* lambda in f_c, of rollers with their nu */
    double inner_groove_ratio; /* r_i/D_w that f_c counts; NaN of rollers */
    double outer_groove_ratio;
    double b_m;                   /* rating factor of the type, ISO 281 tables */
    double f_c;                   /* ISO 281, closed form */
    double f_0;                   /* ISO 76, balls only; else NaN */
    double dynamic_load_rating_n; /* C */
    double static_load_rating_n;  /* C0 */
    double fatigue_load_limit_n;  /* C_u */
};

/* All ratings of one bearing.
 * In:     type and inside geometry (bearing.h); gamma below 0.5 for balls, 0.4 for rollers; contact
 *         angle 0 to 45 deg for radial, 45 to 90 deg for thrust bearings; `rows` counts the rows
 *         that carry in one direction (0: as many as the type has, spt_bearing_rows). A groove
 * ratio that is NaN stands for the one behind the standard's table (inner/outer): ISO 281
 * 0.52/0.52, ISO 76 0.52/0.53; thrust 0.535 and 0.54; self-aligning 0.53 and always a spherical
 * outer raceway. A given ratio is used for both, so that 0.53 outside gives a smaller f_c than the
 * table, which grants the tabulated one up to 0.53. Status: SPT_BAD_ARGUMENT for geometry outside
 * those ranges; SPT_NOT_CONVERGED where the contact of f_0 has no solution. Source: ISO 281:2007
 * clauses 5 to 8 (C, closed forms of f_c behind the tables, as explained in ISO/TR 1281-1), ISO
 * 76:2006 (C0), ISO 281:2007 Annex B simplified C_u. Constants from memory; closed forms meet the
 * remembered tables to their printed digits. */
enum spt_status spt_rating_from_geometry(enum spt_bearing_type type,
                                         const struct spt_geometry *geometry,
                                         struct spt_rating *rating);

/* f_c alone. For radial bearings a function of gamma (and groove ratios), for thrust also of alpha;
 * deep groove balls in two rows or more have a column of their own (reduction 0.90, one row 0.95).
 */
enum spt_status spt_rating_fc(enum spt_bearing_type type, const struct spt_geometry *geometry,
                              double *f_c);

/* f_0 of ISO 76 for ball bearings, from Hertz contact at the reference stress (4600 MPa
 * self-aligning, 4200 MPa other balls; E = 207 GPa, nu = 0.3), the smaller of both raceways. */
enum spt_status spt_rating_f0(enum spt_bearing_type type, const struct spt_geometry *geometry,
                              double *f_0);

/* Whether a contact angle in rad is one of the type: 0 to 45 degrees for radial bearings, 45 to 90
 * for thrust bearings.
 * Source: ISO 281:2007, clauses 5 and 6 (division at 45 degrees; from memory). */
bool spt_rating_angle_suits(enum spt_bearing_type type, double contact_angle_rad);

/* b_m of ISO 281 by type; NaN for an unknown type. Designs within a type are not told apart: needle
 * rollers count as machined (1.1; drawn cup 1.0), thrust rollers as cylindrical (1.0; tapered 1.1,
 * spherical 1.15), balls as bearings without filling slots.
 * Source: ISO 281:1990 as quoted in GB/T 6391-1995; thrust bearings from memory. */
double spt_rating_bm(enum spt_bearing_type type);

/* C_u in N from C0 in N: C0/22 balls, C0/8.2 rollers, with (100/D_pw)^0.5 and ^0.3 above 100 mm.
 * Source: ISO 281:2007 Annex B simplified estimate (22 confirmed by (4200/1500)^3; rest from
 * memory). */
enum spt_status spt_rating_fatigue_limit(enum spt_bearing_type type, double static_load_rating_n,
                                         double pitch_diameter_mm, double *c_u_n);

/* Temperature factor on the dynamic rating: 1 to 150 degC, .95 at 175, .90 at 200, .75 at 250,
 * .60 at 300, linear between. No part of ISO 281.
 * Source: catalogue practice (to 250 degC as read, 300 degC from memory); another convention starts
 *         at 120 degC.
 * Status: SPT_NOT_APPLICABLE above 300 degC. */
enum spt_status spt_rating_temperature_factor(double temperature_c, double *f_t);

#ifdef __cplusplus
}
#endif

#endif
