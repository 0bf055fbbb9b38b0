/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <criterion/criterion.h>

static const struct {
    enum spt_bearing_type type;
    const char *name;
    bool ball, thrust, radial_contact;
    int rows, fewest, most;
} rows[] = {
    {SPT_DEEP_GROOVE_BALL, "deep groove ball", true, false, true, 1, 1, 8},
    {SPT_ANGULAR_CONTACT_BALL, "angular contact ball", true, false, false, 1, 1, 8},
    {SPT_SELF_ALIGNING_BALL, "self-aligning ball", true, false, false, 2, 1, 2},
    {SPT_CYLINDRICAL_ROLLER, "cylindrical roller", false, false, true, 1, 1, 8},
    {SPT_TAPERED_ROLLER, "tapered roller", false, false, false, 1, 1, 8},
    {SPT_SPHERICAL_ROLLER, "spherical roller", false, false, false, 2, 2, 2},
    {SPT_NEEDLE_ROLLER, "needle roller", false, false, true, 1, 1, 8},
    {SPT_THRUST_BALL, "thrust ball", true, true, false, 1, 1, 8},
    {SPT_THRUST_ROLLER, "thrust roller", false, true, false, 1, 1, 8},
};

Test(bearing, every_type_has_its_name_and_kind)
{
    cr_assert_eq(sizeof rows / sizeof rows[0], (size_t)SPT_BEARING_TYPE_COUNT);
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        cr_expect_str_eq(spt_bearing_type_name(rows[i].type), rows[i].name);
        cr_expect_eq(spt_bearing_is_ball(rows[i].type), rows[i].ball, "%s", rows[i].name);
        cr_expect_eq(spt_bearing_is_thrust(rows[i].type), rows[i].thrust, "%s", rows[i].name);
        cr_expect_eq(spt_bearing_is_radial_contact(rows[i].type), rows[i].radial_contact);
    }
}

Test(bearing, rows_are_those_stated_or_the_types_own)
{
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        cr_expect_eq(spt_bearing_rows(rows[i].type, 0), rows[i].rows, "%s", rows[i].name);
        cr_expect_eq(spt_bearing_rows(rows[i].type, -1), 0);
        cr_expect_eq(spt_bearing_rows(rows[i].type, 9), 0);
        for (int stated = 1; stated <= 8; stated++)
            cr_expect_eq(spt_bearing_rows(rows[i].type, stated),
                         stated >= rows[i].fewest && stated <= rows[i].most ? stated : 0, "%s",
                         rows[i].name);
    }
    cr_expect_eq(spt_bearing_rows(SPT_BEARING_TYPE_COUNT, 1), 0);
}

Test(bearing, a_type_outside_the_enumeration_is_neither_ball_nor_thrust)
{
    const enum spt_bearing_type types[] = {SPT_BEARING_TYPE_COUNT, (enum spt_bearing_type) - 1};
    for (int i = 0; i < 2; i++) {
        cr_expect_not(spt_bearing_is_ball(types[i]));
        cr_expect_not(spt_bearing_is_thrust(types[i]));
        cr_expect_str_eq(spt_bearing_type_name(types[i]), "unknown");
    }
}
