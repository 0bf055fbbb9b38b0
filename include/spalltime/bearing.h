/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_BEARING_H
#define SPT_BEARING_H

#include <stdbool.h>

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

/* ---- bearing ------------------------------------------------------------------------------- */

enum spt_bearing_type {
    SPT_DEEP_GROOVE_BALL,
    SPT_ANGULAR_CONTACT_BALL,
    SPT_SELF_ALIGNING_BALL,
    SPT_CYLINDRICAL_ROLLER,
    SPT_TAPERED_ROLLER,
    SPT_SPHERICAL_ROLLER,
    SPT_NEEDLE_ROLLER,
    SPT_THRUST_BALL,
    SPT_THRUST_ROLLER,
    SPT_BEARING_TYPE_COUNT
};

/* Internal geometry, as ISO 281 and ISO 76 use it. Lengths in mm, > 0. */
struct spt_geometry {
    int elements;               /* Z, rollers or balls per row, 3 to 1000 */
    int rows;                   /* i, 1 to 8; 0: as many as the type has, spt_bearing_rows */
    double element_diameter_mm; /* D_we or D_w */
    double element_length_mm;   /* L_we, rollers only */
    double contact_angle_rad;   /* alpha, 0 to pi/2 */
    double pitch_diameter_mm;   /* D_pw */
    double inner_groove_ratio;  /* r_i/D_w, balls only: 0.515 to 0.6; NaN: that of the standards */
    double outer_groove_ratio;  /* r_e/D_w, balls only: as above, see rating.h */
};

/* Classes of radial clearance (ISO 5753-1) and fits (ISO 286-2) that have a table here. */
enum spt_clearance_class {
    SPT_CLEARANCE_2,
    SPT_CLEARANCE_NORMAL,
    SPT_CLEARANCE_3,
    SPT_CLEARANCE_4,
    SPT_CLEARANCE_CLASS_COUNT
};
enum spt_shaft_fit {
    SPT_SHAFT_G6,
    SPT_SHAFT_H6,
    SPT_SHAFT_J6,
    SPT_SHAFT_K5,
    SPT_SHAFT_K6,
    SPT_SHAFT_M5,
    SPT_SHAFT_M6,
    SPT_SHAFT_N6,
    SPT_SHAFT_P6,
    SPT_SHAFT_FIT_COUNT
};
enum spt_housing_fit {
    SPT_HOUSING_H7,
    SPT_HOUSING_J7,
    SPT_HOUSING_K7,
    SPT_HOUSING_M7,
    SPT_HOUSING_N7,
    SPT_HOUSING_P7,
    SPT_HOUSING_FIT_COUNT
};

/* How a radial bearing is seated, see spt_clearance_at_work. */
struct spt_seat {
    int clearance;             /* enum spt_clearance_class; below 0: not stated */
    int shaft_fit;             /* enum spt_shaft_fit; below 0: not stated */
    int housing_fit;           /* enum spt_housing_fit; below 0: not stated */
    double inner_warmer_k;     /* inner ring warmer than the outer one when running */
    double shaft_bore_mm;      /* of a hollow shaft; not above 0: solid */
    double housing_outside_mm; /* not above D: heavy */
    double stiffness;          /* spt_clearance_stiffness; not above 0: worked out at each call */
};

/* One bearing as the models need it. A member with no value is NaN. */
struct spt_bearing {
    const char *name; /* owned by the code that filled the struct */
    enum spt_bearing_type type;
    double bore_mm;
    double outside_diameter_mm;
    double width_mm;
    double pitch_diameter_mm;     /* D_pw */
    bool pitch_assumed;           /* D_pw is (d + D)/2 */
    double dynamic_load_rating_n; /* C_r or C_a */
    double static_load_rating_n;  /* C_0r or C_0a */
    double fatigue_load_limit_n;  /* C_u */
    bool fatigue_limit_assumed;   /* C_u from C0 */
    bool ratings_from_geometry;
    int rows;                   /* as in the geometry; 0: as many as the type has */
    double contact_angle_rad;   /* NaN where not known */
    double limit_ratio;         /* e, given */
    double radial_factor;       /* X, given for Fa/Fr > e */
    double axial_factor;        /* Y, given */
    double static_axial_factor; /* Y0, given */
    double f0;                  /* NaN: not known */
    double rib_diameter_mm;     /* tapered: large rib of the inner ring; NaN: estimated from D_pw */
    struct spt_geometry geometry;
    bool has_geometry;
    struct spt_seat seat; /* where `has_seat` */
    bool has_seat;
    double low_axial_factor; /* Y1 of two rows, given; not above 0: not given */
    double load_centre_mm;   /* a, from the back face of the outer ring; not above 0: not given */
    double speed_limit_rpm;  /* of the sheet; not above 0: not given */
    double mass_kg;          /* not above 0: not known */
    double price;            /* NaN or below 0: not known; 0 in a struct that leaves it out */
    int stock;               /* pieces at hand; below 0: not known */
    bool outer_turns; /* the outer ring turns under a load that stands still, as in a wheel */
};

/* Adds a note for each pair of values of a sheet that do not belong to one bearing. Values that are
 * not given, or that were computed from the insides, are left alone.
 * Flags:  SPT_FLAG_SHEET_RATING (stated C over C of the insides, NaN; outside 0.9 to 1.25),
 *         SPT_FLAG_SHEET_RATINGS (C0/C of a radial bearing, NaN; outside 0.4 to 2.5),
 * SPT_FLAG_SHEET_FACTORS (e Y, or X
 *         + e Y of a single row of angular contact balls, and what it should be; 4 %, or 0.01),
 *         SPT_FLAG_SHEET_STATIC_FACTOR (Y0/Y and what it should be; 10 %),
 *         SPT_FLAG_SHEET_FATIGUE_LIMIT (C_u over that from C0, 1; 40 %),
 *         SPT_FLAG_SHEET_LOAD_CENTRE (a and where the contact angle puts it, mm; 20 %).
 * Source: products and ratios of the factors follow from ISO 281 and ISO 76 (from memory, confirmed
 *         by derivation): tapered e Y = 0.6, two rows of rollers e Y1 = 0.675 and e Y2 = 1.005, of
 *         self-aligning balls 0.63 and 0.975; widths of the bands: common practice, no source, that
 *         of Y0 our choice. */
void spt_bearing_doubts(const struct spt_bearing *bearing, struct spt_notes *notes);

/* Contact angle in rad of a bearing whose factors follow it: as stated, else from e = 1.5 tan
 * alpha, else from Y; 0 for radial contact. NaN where nothing tells it. Source: ISO 281:2007 table
 * 8 (from memory). */
double spt_bearing_angle(const struct spt_bearing *bearing);

/* Distance in mm of the load centre from the back face of the outer ring: as stated, else a = W/2 +
 * (D_pw/2) tan alpha (`estimated` set, may be NULL); W/2 without an angle.
 * Source: geometry of the load line through the middle of the element, taken in the middle of the
 *         width (derived here). */
double spt_bearing_load_centre(const struct spt_bearing *bearing, bool *estimated);

/* Inside geometry of a bearing that states none, estimated from bore, outside diameter, width, C0
 * and contact angle; where it is stated, that. For settings, clearance and stiffness alone, never
 * for C, and always to be told as estimated. In:     deep groove ball, cylindrical, tapered or
 * spherical roller. Status: SPT_NOT_APPLICABLE, `elements` 0 but angle, rows and pitch diameter
 * filled: another type, no angle, or rollers that would be longer than 0.85 or shorter than 0.25 of
 * the width of a row, or longer than 2.6 D_we. Source: D_we as a share of (D - d)/2: 0.63, 0.50,
 * 0.45, 0.55, rollers filling 0.80, 0.90, 0.84 of the pitch circle, their length (balls: number)
 * from C0 by ISO 76: our choice, tried on bearings of textbooks (from memory), whose C it meets
 * within 5 % (balls: 3 to 16 %). */
enum spt_status spt_bearing_insides(const struct spt_bearing *bearing,
                                    struct spt_geometry *geometry);

bool spt_bearing_is_ball(enum spt_bearing_type type);
bool spt_bearing_is_thrust(enum spt_bearing_type type);

/* True for deep groove balls, cylindrical and needle rollers: their nominal contact angle is 0
 * (radial contact). */
bool spt_bearing_is_radial_contact(enum spt_bearing_type type);

/* Number of rows of rolling elements used in every formula, i of ISO 281 and ISO 76.
 * In:     `stated` 1 to 8, or 0 for as many as the type has: two for spherical rollers and
 *         self-aligning balls, else one.
 * Result: 0 where there is no such bearing: a negative or larger number, an unknown type, another
 *         number than two for spherical rollers (one is a barrel roller bearing, which is not among
 *         the types), or more than two for self-aligning balls, whose rows run on one sphere. One
 *         row of self-aligning balls is valid (ISO 281:2007 table 3, from memory).
 * Source: the usual designs (common practice). */
int spt_bearing_rows(enum spt_bearing_type type, int stated);

/* The usual name of the type, as written in scenario files: "tapered roller". Never NULL; "unknown"
 * outside the enumeration. */
const char *spt_bearing_type_name(enum spt_bearing_type type);

/* ---- rating -------------------------------------------------------------------------------- */

#define SPT_GROOVE_RATIO_MIN 0.515 /* groove radius over ball diameter */
#define SPT_GROOVE_RATIO_MAX 0.6

/* Ratings computed from internal geometry, with the intermediate values that an explanation
 * shows. */
struct spt_rating {
    double gamma;              /* D_we cos alpha / D_pw; D_we / D_pw where alpha = 90 deg */
    double curvature_gamma;    /* the same, but 0 where alpha = 90 deg: flat raceways */
    double reduction;          /* lambda in f_c; for rollers lambda nu */
    double inner_groove_ratio; /* r_i/D_w used in f_c; NaN for rollers */
    double outer_groove_ratio;
    double b_m;                   /* rating factor of the type, ISO 281 tables */
    double f_c;                   /* ISO 281, closed form */
    double f_0;                   /* ISO 76, balls only; else NaN */
    double dynamic_load_rating_n; /* C */
    double static_load_rating_n;  /* C0 */
    double fatigue_load_limit_n;  /* C_u */
};

/* All ratings of one bearing.
 * In:     type and internal geometry (above); gamma below 0.5 for balls, 0.4 for rollers; contact
 *         angle 0 to 45 deg for radial, 45 to 90 deg for thrust bearings; `rows` counts the rows
 *         that carry in one direction (0: as many as the type has, spt_bearing_rows). A groove
 *         ratio that is NaN stands for the one behind the standard's table (inner/outer): ISO 281
 *         0.52/0.52, ISO 76 0.52/0.53; thrust 0.535 and 0.54; self-aligning 0.53 and always a
 *         spherical outer raceway. A given ratio is used for both, so that 0.53 outside gives a
 *         smaller f_c than the table, which grants the tabulated one up to 0.53.
 * Status: SPT_BAD_ARGUMENT for geometry outside those ranges; SPT_NOT_CONVERGED where the contact
 *         of f_0 has no solution.
 * Source: ISO 281:2007 clauses 5 to 8 (C; closed forms of f_c, from which the tables were computed,
 *         as explained in ISO/TR 1281-1), ISO 76:2006 (C0), ISO 281:2007 Annex B simplified C_u.
 *         Constants from memory; the closed forms agree with the tables, as remembered, to their
 *         printed digits. */
enum spt_status spt_rating_from_geometry(enum spt_bearing_type type,
                                         const struct spt_geometry *geometry,
                                         struct spt_rating *rating);

/* f_c alone. For radial bearings a function of gamma (and groove ratios), for thrust also of alpha;
 * deep groove balls in two rows or more have their own column in the table (reduction factor 0.90;
 * one row 0.95). */
enum spt_status spt_rating_fc(enum spt_bearing_type type, const struct spt_geometry *geometry,
                              double *f_c);

/* f_0 of ISO 76 for ball bearings, from Hertz contact at the reference stress (4600 MPa
 * self-aligning, 4200 MPa other balls; E = 207 GPa, nu = 0.3), the smaller of both raceways. */
enum spt_status spt_rating_f0(enum spt_bearing_type type, const struct spt_geometry *geometry,
                              double *f_0);

/* True where a contact angle in rad is valid for the type: 0 to 45 degrees for radial bearings, 45
 * to 90 for thrust bearings.
 * Source: ISO 281:2007, clauses 5 and 6 (division at 45 degrees; from memory). */
bool spt_rating_angle_suits(enum spt_bearing_type type, double contact_angle_rad);

/* b_m of ISO 281 by type; NaN for an unknown type. Designs within a type are not distinguished:
 * needle rollers count as machined (1.1; drawn cup 1.0), thrust rollers as cylindrical (1.0;
 * tapered 1.1, spherical 1.15), balls as bearings without filling slots.
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

/* ---- load ---------------------------------------------------------------------------------- */

/* An equivalent load and the factors it was computed with. Unused factors are NaN. */
struct spt_equivalent_load {
    double relative_axial_load; /* f0 Fa/C0 or Fa/C0 where a table was looked up, times the number
                                   of rows for angular contact balls; else NaN */
    double ratio;               /* Fa/Fr; infinity where Fr = 0 < Fa; NaN where both are 0 */
    double limit_ratio;         /* e */
    double radial_factor;       /* X */
    double axial_factor;        /* Y */
    double load_n;              /* P or P0 */
};

/* Dynamic equivalent load P.
 * In:     bearing; radial and axial load in N (>= 0, finite). A given factor takes precedence over
 *         the tables: e and Y > 0, X from 0 to 1 (radial bearings). Where only one of e and Y is
 *         given the other follows from the continuity of P at Fa/Fr = e (single row: X + Y e = 1;
 *         tapered, spherical and self-aligning: e = 1.5 tan alpha, Y = 0.4 cot alpha). Two rows:
 *         where spt_bearing_rows counts two or more; a given Y is that for Fa/Fr > e.
 * Flags:  into `notes` (may be NULL), loads in N: SPT_FLAG_AXIAL_NOT_RATED (Fa, 0),
 *         SPT_FLAG_RADIAL_NOT_RATED (Fr, largest Fr that is rated with this Fa),
 *         SPT_FLAG_AXIAL_RANGE (relative axial load, end of the table; below the table only where
 *         Fa/Fr > e), SPT_FLAG_F0_ASSUMED (Fa/C0).
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where neither factors nor what the tables need are
 *         known: the contact angle, or C0 for deep groove and for 15 degrees angular contact; also
 *         for angular contact balls of another angle below 20 or above 45 degrees. A pure radial
 *         load on a radial bearing and a pure axial load on a thrust bearing need nothing.
 * Source: ISO 281:2007 tables 3, 5, 8, 10 (X, Y; table numbers and most values from memory), or the
 *         bearing's own factors where given. P is never below Fr for radial bearings. */
enum spt_status spt_load_equivalent(const struct spt_bearing *bearing, double radial_n,
                                    double axial_n, struct spt_equivalent_load *result,
                                    struct spt_notes *notes);

/* P of spt_load_equivalent for many loads on one radial bearing; load_n[i], in N, is NaN where that
 * does not return SPT_OK, and for thrust bearings, which need its flags. */
void spt_load_equivalent_many(const struct spt_bearing *bearing, const double *radial_n,
                              const double *axial_n, int count, double *load_n);

/* Static equivalent load P0; never below Fr for radial bearings. In, flags and status as above;
 * SPT_FLAG_RADIAL_NOT_RATED where a thrust bearing has Fr > 0.67 Fa cot alpha.
 * Source: ISO 76:2006 (X0, Y0 from memory but for deep groove), or the bearing's own Y0. */
enum spt_status spt_load_static(const struct spt_bearing *bearing, double radial_n, double axial_n,
                                struct spt_equivalent_load *result, struct spt_notes *notes);

/* Axial force in N that a radial load in N induces in one row of tapered rollers or of angular
 * contact balls, and that the opposed bearing of the pair has to support: Fr/(2 Y). Where Y depends
 * on the axial load (15 degrees), with the Y of this thrust itself.
 * Status: SPT_NOT_APPLICABLE for other types, two rows and unknown Y; SPT_BAD_ARGUMENT.
 * Source: Fr/(2 Y) as read on a technical page for tapered rollers; for angular contact balls
 *         common practice, no source. */
enum spt_status spt_load_induced_thrust(const struct spt_bearing *bearing, double radial_n,
                                        double *thrust_n);

/* How a machine runs, as far as the guide values of the static safety factor distinguish it. */
enum spt_running {
    SPT_RUNNING_NORMAL,
    SPT_RUNNING_QUIET, /* smooth and free of vibration, or of high accuracy */
    SPT_RUNNING_SHOCK, /* pronounced shocks */
    SPT_RUNNING_COUNT
};

/* Its name in scenario files; never NULL, "unknown" outside the enumeration. */
const char *spt_running_name(enum spt_running running);

/* Guide value of the static safety factor: quiet, normal, shock: 2, 1, 1.5 for balls and 3, 1.5, 3
 * for rollers; the value 4 for spherical thrust rollers is not distinguished. NaN for an unknown
 * type or kind.
 * Source: ISO 76:2006 guide values (from memory; catalogues print similar values). */
double spt_load_static_guide(enum spt_bearing_type type, enum spt_running running);

/* Usual minimum load against skidding, as a share of C: 0.01 ball, 0.02 roller
 * (common practice, no source). */
double spt_load_least_share(enum spt_bearing_type type);

/* ---- clearance at work ---------------------------------------------------------------------- */

/* A value with the range that its tolerances leave, in mm. */
struct spt_scatter {
    double low_mm, middle_mm, high_mm;
};

/* Radial internal clearance of a seated bearing, diametral, from the shelf to work. A fit that is
 * not stated counts as a ring that is free on its seat. */
struct spt_clearance {
    struct spt_scatter shelf;          /* of the class */
    struct spt_scatter shaft, housing; /* interference after the surfaces are pressed smooth; below
                                          0: loose */
    double inner_growth_mm;            /* of the inner raceway, by the middle interference */
    double outer_shrinkage_mm;
    double heat_mm;      /* lost to the warmer inner ring */
    double pressure_mpa; /* in the joint of shaft and ring, middle */
    struct spt_scatter work;
};

/* In:     a deep groove ball, cylindrical or spherical roller bearing whose seat states a clearance
 *         class; bore over 24 to 120 mm, outside diameter over 50 to 250 mm where a housing fit is
 *         stated; steel rings and solid or hollow steel shaft, heavy steel housing unless its
 * outside diameter is stated. Result: G = G_0 - dF - dE - 11.5e-6 D_pw dT; half-ranges of class,
 * shaft, bore and housing are added as the root of their squares. Interference u d/(d + 2) of
 * ground seats (housing D/(D
 *         + 2)); raceways F = 0.8 d + 0.2 D, E = 0.2 d + 0.8 D (balls) or 0.75 and 0.25 (rollers).
 * Status: SPT_NOT_APPLICABLE for other types and sizes, or no class.
 * Source: ISO 286-2 fits, ISO 492 normal class, ISO 5753-1 clearances (all from memory: check
 * against a copy); growth of rings by Lame (derived, closed form); smoothing and raceway diameters
 *         common practice (from memory). */
enum spt_status spt_clearance_at_work(const struct spt_bearing *bearing,
                                      struct spt_clearance *clearance);

/* Stiffness c of one ball or roller between its raceways, Q = c d^n, in N/mm^n, n = 3/2 or 10/9.
 * In:     a radial bearing with known or estimated insides (spt_bearing_insides).
 * Result: NaN without them.
 * Source: rollers ISO 16281 (from memory), balls spt_ball_contact with the groove ratios of the f_c
 *         tables of ISO 281 where none are stated. */
double spt_clearance_stiffness(const struct spt_bearing *bearing);

/* Load zone of a bearing under a radial load. */
struct spt_clearance_zone {
    double extent;   /* epsilon: share of the diameter that is loaded; 0.5: half the elements, above
                        1: all of them are pressed */
    double half_deg; /* angle from the load line to the end of the zone, up to 180 */
    double most_n;   /* load of the element that carries most, over the positions of the cage */
    double factor;   /* on the life: L(G)/L(0), at most 1 */
};

/* In:     a radial bearing with known or estimated insides; clearance at work in mm, diametral,
 *         below 0: preloaded; radial load in N (> 0, finite).
 * Result: the zone of rigid rings by the balance of single elements, mean over four positions of
 * the cage; two rows share the load alike. The rating life counts half the elements as loaded,
 *         which is that of no clearance, so the factor is relative to that; the tenth that a slight
 *         preload would add is not credited.
 * Status: SPT_BAD_ARGUMENT; SPT_NOT_APPLICABLE where no insides can be estimated; NaN then.
 * Source: load distribution of the textbooks (Harris, Rolling Bearing Analysis, from memory); lives
 *         from single loads ISO/TS 16281:2008 without laminae (from memory); to hold it against no
 *         clearance, and the limit of 1: our choice. */
enum spt_status spt_clearance_zone(const struct spt_bearing *bearing, double clearance_mm,
                                   double radial_n, struct spt_clearance_zone *zone);

#ifdef __cplusplus
}
#endif

#endif
