/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/life.h"
#include "support/published.h"

static double basic(enum spt_bearing_type type, double c, double p)
{
    double l10;
    cr_assert_eq(spt_life_basic(type, c, p, &l10), SPT_OK);
    return l10;
}

Test(damage, jindal_18_9_mean_speed_load_and_rating)
{
    static const char source[] = "Jindal, Machine Design, 18-9 p. 512";
    const double shares[] = {0.25, 0.5, 0.25}, speeds[] = {1440, 1080, 720},
                 loads[] = {3000, 4000, 5000};
    double speed, load;
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 3, 3.0, &speed, &load), SPT_OK);
    cr_expect(agrees(source, "speed", 1080, speed, 1e-9));
    cr_expect(agrees(source, "P_m", 3954.342, load, 0.0005));
    double c = load * cbrt(speed * 60 * 10000 / 1e6);
    cr_expect(agrees(source, "C", 34219, c, 0.6));
}

Test(damage, jindal_18_10_two_phases)
{
    static const char source[] = "Jindal 18-10 p. 513";
    const double shares[] = {2.0 / 3.0, 1.0 / 3.0}, speeds[] = {1440, 720},
                 loads[] = {600, 0.56 * 300 + 1.13 * 120};
    double speed, load, hours, lives[2];
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 2, 3.0, &speed, &load), SPT_OK);
    cr_expect(agrees(source, "speed", 1200, speed, 1e-9));
    cr_expect(agrees(source, "P_m", 562.940, load, 0.0006));
    cr_assert_eq(spt_life_hours(basic(SPT_DEEP_GROOVE_BALL, 1430, load), speed, &hours), SPT_OK);
    cr_expect(agrees(source, "L10h", 227.66, hours, 0.006));
    for (int i = 0; i < 2; i++)
        cr_assert_eq(
            spt_life_hours(basic(SPT_DEEP_GROOVE_BALL, 1430, loads[i]), speeds[i], &lives[i]),
            SPT_OK);
    cr_assert_eq(spt_damage_life(shares, lives, 2, &hours), SPT_OK);
    cr_expect(agrees(source, "by damage", 227.66, hours, 0.006));
}

Test(damage, tutorial_ts5_8_three_loads_on_a_roller_bearing)
{
    static const char source[] = "tutorial TS5-8, after Shigley: revolution fractions .3/.5/.2";
    const double shares[] = {0.3, 0.5, 0.2}, speeds[] = {417, 417, 417}, loads[] = {20, 25, 30};
    static const struct {
        double c, rev;
    } rows[] = {{28.6, 1550597.03}, {36.9, 3625490.12}, {44.6, 6819120.54}};
    double speed, load, life, lives[3];
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 3, 10.0 / 3.0, &speed, &load), SPT_OK);
    cr_expect(agrees(source, "F_eq", 25.07358, load, 0.000005));
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++)
            lives[j] = basic(SPT_CYLINDRICAL_ROLLER, rows[i].c, loads[j]);
        cr_assert_eq(spt_damage_life(shares, lives, 3, &life), SPT_OK);
        cr_expect(
            agrees(source, named("1e6 * life, C %g", rows[i].c), rows[i].rev, 1e6 * life, 0.01));
    }
}

Test(damage, tutorial_ts5_9_remaining_life)
{
    static const char source[] =
        "tutorial TS5-9, after Shigley: 200 000 rev at 18 kN, then 266 630.6296 rev at 30 kN "
        "to failure, C 20.3 kN. Counted in revolutions.";
    const double total = 200000 + 266630.6296;
    const double shares[] = {200000 / total, 266630.6296 / total};
    const double lives[] = {1e6 * basic(SPT_DEEP_GROOVE_BALL, 20.3, 18),
                            1e6 * basic(SPT_DEEP_GROOVE_BALL, 20.3, 30)};
    double life;
    cr_assert_eq(spt_damage_life(shares, lives, 2, &life), SPT_OK);
    cr_expect(agrees(source, "life", total, life, 2e-3));
}

Test(damage, juvinall_and_marshek_14_3)
{
    static const char source[] =
        "Juvinall and Marshek, sample problem 14.3 (from memory): exponent 10/3 also for "
        "balls, rating for 90 Mrev. 8.5 kN is the 90 Mrev rating.";
    const double shares[] = {0.5, 0.3, 0.2}, loads[] = {3, 5, 7};
    double lives[3], life;
    for (int i = 0; i < 3; i++)
        cr_assert_eq(
            spt_life_hours(90 * basic(SPT_CYLINDRICAL_ROLLER, 8.5, loads[i]), 1000, &lives[i]),
            SPT_OK);
    cr_assert_eq(spt_damage_life(shares, lives, 3, &life), SPT_OK);
    cr_expect(agrees(source, "life", 8749, life, 5));
}

Test(damage, shigley_11_5_equivalent_load)
{
    static const char source[] = "Shigley ex. 11-5 (from memory)";
    const double shares[] = {200 / 2600.0, 300 / 2600.0, 900 / 2600.0, 1200 / 2600.0},
                 speeds[] = {1725, 1725, 1725, 1725}, loads[] = {873, 795, 966, 835};
    double speed, load;
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 4, 3.0, &speed, &load), SPT_OK);
    cr_expect(agrees(source, "F_eq", 884, load, 0.6));
}
