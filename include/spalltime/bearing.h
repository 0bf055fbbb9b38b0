/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef SPT_BEARING_H
#define SPT_BEARING_H

#include <stdbool.h>

#include "spalltime/status.h"

#ifdef __cplusplus
extern "C" {
#endif

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

/* Inside geometry, as ISO 281 and ISO 76 use it. Lengths in mm, > 0. */
struct spt_geometry {
    int elements;               /* Z, rollers or balls per row, 3 to 1000 */
    int rows;                   /* i, 1 to 8; 0: as many as the type has, spt_bearing_rows */
    double element_diameter_mm; /* D_we or D_w */
    double element_length_mm;   /* L_we, rollers only */
    double contact_angle_rad;   /* alpha, 0 to pi/2 */
    double pitch_diameter_mm;   /* D_pw */
    double inner_groove_ratio;  /* r_i/D_w, balls only: 0.515 to 0.6; NaN: the standards' */
    double outer_groove_ratio;  /* r_e/D_w, balls only: as above, see rating.h */
};

/* One bearing as the models need it. A member with no value is NaN. */
struct spt_bearing {
    const char *name; /* borrowed from whoever filled the struct */
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
};

bool spt_bearing_is_ball(enum spt_bearing_type type);
bool spt_bearing_is_thrust(enum spt_bearing_type type);

/* True for deep groove balls, cylindrical and needle rollers: their nominal contact angle is 0
 * (radial contact). */
bool spt_bearing_is_radial_contact(enum spt_bearing_type type);

/* The rows of rolling elements that every formula counts, i of ISO 281 and ISO 76: `stated`, from 1
 * to 8, or where that is 0 as many as the type has: two for spherical rollers and self-aligning
 * balls, else one. 0 where there is no such bearing: a negative or larger number, an unknown type,
 * or one row of spherical rollers (a barrel roller bearing, which is not among the types). One row
 * of self-aligning balls is in ISO 281:2007 table 3 (from memory) and stands as stated.
 * Source: the usual designs (common practice). */
int spt_bearing_rows(enum spt_bearing_type type, int stated);

/* The trade's name of the type as it stands in scenario files: "tapered roller". Never NULL;
 * "unknown type" outside the enumeration. */
const char *spt_bearing_type_name(enum spt_bearing_type type);

#ifdef __cplusplus
}
#endif

#endif
