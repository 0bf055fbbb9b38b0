/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "base/table.h"
#include "model/bearing/bearing_type.h"

#define ROWS_MAX 8

/* clang-format off */
/* ball, radial contact, induces thrust, rows, load rule, b_m, grease factors, friction factors */
static const struct spt_bearing_type_data types[] = {
    [SPT_DEEP_GROOVE_BALL] = {true, true, false, {1, 1, ROWS_MAX}, SPT_LOAD_DEEP_GROOVE,
        1.3, {10.0, 500e3}, {1.35, 2.0, 4.0, 0.0005, 0.55}},
    [SPT_ANGULAR_CONTACT_BALL] = {true, false, true, {1, 1, ROWS_MAX}, SPT_LOAD_ANGULAR_CONTACT,
        1.3, {10.0, 500e3}, {2.0, 3.3, 6.6, 0.001, 0.33}},
    [SPT_SELF_ALIGNING_BALL] = {true, false, false, {2, 1, 2}, SPT_LOAD_COTANGENT,
        1.3, {10.0, 500e3}, {1.75, 1.75, 3.5, 0.0003, 0.40}},
    [SPT_CYLINDRICAL_ROLLER] = {false, true, false, {1, 1, ROWS_MAX}, SPT_LOAD_RADIAL_ONLY,
        1.1, {5.0, 500e3}, {0.8, 3.1, 3.1, 0.0003, 0.0}},
    [SPT_TAPERED_ROLLER] = {false, false, true, {1, 1, ROWS_MAX}, SPT_LOAD_COTANGENT,
        1.1, {1.0, 350e3}, {6.0, 6.0, 8.0, 0.0004, 0.0}},
    [SPT_SPHERICAL_ROLLER] = {false, false, false, {2, 2, 2}, SPT_LOAD_COTANGENT,
        1.15, {1.0, 350e3}, {5.25, 5.25, 10.5, 0.00045, 0.0}},
    [SPT_NEEDLE_ROLLER] = {false, true, false, {1, 1, ROWS_MAX}, SPT_LOAD_RADIAL_ONLY,
        1.1, {5.0, 350e3}, {12.0, 12.0, 24.0, 0.0005, 0.0}},
    [SPT_THRUST_BALL] = {true, false, false, {1, 1, ROWS_MAX}, SPT_LOAD_THRUST,
        1.3, {1.0, 500e3}, {5.5, 1.5, 3.0, 0.0008, 0.33}},
    [SPT_THRUST_ROLLER] = {false, false, false, {1, 1, ROWS_MAX}, SPT_LOAD_THRUST,
        1.0, {1.0, 350e3}, {9.0, 3.5, 8.0, 0.0015, 0.0}},
};
/* clang-format on */
SPT_ONE_EACH(types, SPT_BEARING_TYPE_COUNT);

bool spt_bearing_is_type(enum spt_bearing_type type)
{
    return (int)type >= 0 && type < SPT_BEARING_TYPE_COUNT;
}

const struct spt_bearing_type_data *spt_bearing_type_data(enum spt_bearing_type type)
{
    return &types[type];
}

bool spt_bearing_is_ball(enum spt_bearing_type type)
{
    return spt_bearing_is_type(type) && types[type].ball;
}

bool spt_bearing_is_thrust(enum spt_bearing_type type)
{
    return spt_bearing_is_type(type) && types[type].load_rule == SPT_LOAD_THRUST;
}

bool spt_bearing_is_radial_contact(enum spt_bearing_type type)
{
    return spt_bearing_is_type(type) && types[type].radial_contact;
}

int spt_bearing_rows(enum spt_bearing_type type, int stated)
{
    if (!spt_bearing_is_type(type))
        return 0;
    if (stated == 0)
        return types[type].rows.usual;
    return stated >= types[type].rows.min && stated <= types[type].rows.max ? stated : 0;
}
