/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

static const struct {
    const char *name;
    bool ball;
    bool thrust;
} types[SPT_BEARING_TYPE_COUNT] = {
    [SPT_DEEP_GROOVE_BALL] = {"deep groove ball", true, false},
    [SPT_ANGULAR_CONTACT_BALL] = {"angular contact ball", true, false},
    [SPT_SELF_ALIGNING_BALL] = {"self-aligning ball", true, false},
    [SPT_CYLINDRICAL_ROLLER] = {"cylindrical roller", false, false},
    [SPT_TAPERED_ROLLER] = {"tapered roller", false, false},
    [SPT_SPHERICAL_ROLLER] = {"spherical roller", false, false},
    [SPT_NEEDLE_ROLLER] = {"needle roller", false, false},
    [SPT_THRUST_BALL] = {"thrust ball", true, true},
    [SPT_THRUST_ROLLER] = {"thrust roller", false, true},
};

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

const char *spt_bearing_type_name(enum spt_bearing_type type)
{
    return is_known(type) ? types[type].name : "unknown type";
}
