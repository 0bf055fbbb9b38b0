/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"
#include "base/table.h"

#define ROWS_MAX 8

static const struct {
    bool ball;
    bool thrust;
    bool radial_contact;
    int rows, rows_min, rows_max;
} types[] = {
    [SPT_DEEP_GROOVE_BALL] = {true, false, true, 1, 1, ROWS_MAX},
    [SPT_ANGULAR_CONTACT_BALL] = {true, false, false, 1, 1, ROWS_MAX},
    [SPT_SELF_ALIGNING_BALL] = {true, false, false, 2, 1, 2},
    [SPT_CYLINDRICAL_ROLLER] = {false, false, true, 1, 1, ROWS_MAX},
    [SPT_TAPERED_ROLLER] = {false, false, false, 1, 1, ROWS_MAX},
    [SPT_SPHERICAL_ROLLER] = {false, false, false, 2, 2, 2},
    [SPT_NEEDLE_ROLLER] = {false, false, true, 1, 1, ROWS_MAX},
    [SPT_THRUST_BALL] = {true, true, false, 1, 1, ROWS_MAX},
    [SPT_THRUST_ROLLER] = {false, true, false, 1, 1, ROWS_MAX},
};
SPT_ONE_EACH(types, SPT_BEARING_TYPE_COUNT);

static bool is_known(enum spt_bearing_type type)
{
    return (int)type >= 0 && type < SPT_BEARING_TYPE_COUNT;
}

bool spt_bearing_is_ball(enum spt_bearing_type type)
{
    return is_known(type) && types[type].ball;
}

bool spt_bearing_is_thrust(enum spt_bearing_type type)
{
    return is_known(type) && types[type].thrust;
}

bool spt_bearing_is_radial_contact(enum spt_bearing_type type)
{
    return is_known(type) && types[type].radial_contact;
}

int spt_bearing_rows(enum spt_bearing_type type, int stated)
{
    if (!is_known(type))
        return 0;
    if (stated == 0)
        return types[type].rows;
    return stated >= types[type].rows_min && stated <= types[type].rows_max ? stated : 0;
}
