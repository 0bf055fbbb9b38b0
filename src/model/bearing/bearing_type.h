/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef MODEL_BEARING_BEARING_TYPE_H
#define MODEL_BEARING_BEARING_TYPE_H

#include "spalltime/bearing.h"

/* Which rule gives the load factors of a type. Source: ISO 281:2007 table 3 and ISO 76:2006 tables
 * 2 and 4, see load.c. */
enum spt_load_rule {
    SPT_LOAD_DEEP_GROOVE,     /* table over the relative axial load */
    SPT_LOAD_ANGULAR_CONTACT, /* table over the contact angle */
    SPT_LOAD_COTANGENT,       /* from the cotangent of the contact angle */
    SPT_LOAD_RADIAL_ONLY,     /* no axial load */
    SPT_LOAD_THRUST           /* thrust bearing */
};

/* Everything that the models decide by the type of a bearing alone. */
struct spt_bearing_type_data {
    bool ball;
    bool radial_contact; /* see spt_bearing_is_radial_contact */
    bool induces_thrust; /* a radial load makes a thrust, see spt_load_induced_thrust */
    struct {
        int usual, min, max;
    } rows; /* see spt_bearing_rows */
    enum spt_load_rule load_rule;
    double bm; /* see spt_rating_bm */
    struct {
        double interval_factor; /* see spt_grease_interval */
        double speed_limit;     /* see spt_grease_speed_limit */
    } grease;
    struct {
        double f0_grease, f0_bath, f0_circulating;
        double f1, f1_exponent; /* the exponent of P/C0; 0 where f1 is constant */
    } friction;                 /* see spt_heat_friction */
};

bool spt_bearing_is_type(enum spt_bearing_type type);

/* In: a type of the enumeration. */
const struct spt_bearing_type_data *spt_bearing_type_data(enum spt_bearing_type type);

#endif
