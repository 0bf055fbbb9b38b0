/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/damage.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/life.h"
#include "support/near.h"

static double basic(enum spt_bearing_type type, double c, double p)
{
    double l10;
    cr_assert_eq(spt_life_basic(type, c, p, &l10), SPT_OK);
    return l10;
}

/* Jindal, Machine Design, 18-9 p. 512 */
Test(damage, jindal_18_9_mean_speed_load_and_rating)
{
    const double shares[] = {0.25, 0.5, 0.25}, speeds[] = {1440, 1080, 720},
                 loads[] = {3000, 4000, 5000};
    double speed, load;
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 3, 3.0, &speed, &load), SPT_OK);
    cr_expect(near(speed, 1080, 0, 1e-9));
    cr_expect(near(load, 3954.342, 0, 0.0005), "P_m %.4f", load);
    double c = load * cbrt(speed * 60 * 10000 / 1e6);
    cr_expect(near(c, 34219, 0, 0.6), "C %.2f", c);
}

/* Jindal 18-10 p. 513 */
Test(damage, jindal_18_10_two_phases)
{
    const double shares[] = {2.0 / 3.0, 1.0 / 3.0}, speeds[] = {1440, 720},
                 loads[] = {600, 0.56 * 300 + 1.13 * 120};
    double speed, load, hours, lives[2];
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 2, 3.0, &speed, &load), SPT_OK);
    cr_expect(near(speed, 1200, 0, 1e-9));
    cr_expect(near(load, 562.940, 0, 0.0006), "P_m %.4f", load);
    cr_assert_eq(spt_life_hours(basic(SPT_DEEP_GROOVE_BALL, 1430, load), speed, &hours), SPT_OK);
    cr_expect(near(hours, 227.66, 0, 0.006), "L10h %.4f", hours);
    for (int i = 0; i < 2; i++)
        cr_assert_eq(
            spt_life_hours(basic(SPT_DEEP_GROOVE_BALL, 1430, loads[i]), speeds[i], &lives[i]),
            SPT_OK);
    cr_assert_eq(spt_damage_life(shares, lives, 2, &hours), SPT_OK);
    cr_expect(near(hours, 227.66, 0, 0.006), "by damage %.4f", hours);
}

/* tutorial TS5-8, after Shigley: revolution fractions .3/.5/.2 */
Test(damage, tutorial_ts5_8_three_loads_on_a_roller_bearing)
{
    const double shares[] = {0.3, 0.5, 0.2}, speeds[] = {417, 417, 417}, loads[] = {20, 25, 30};
    static const struct {
        double c, rev;
    } rows[] = {{28.6, 1550597.03}, {36.9, 3625490.12}, {44.6, 6819120.54}};
    double speed, load, life, lives[3];
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 3, 10.0 / 3.0, &speed, &load), SPT_OK);
    cr_expect(near(load, 25.07358, 0, 0.000005), "F_eq %.6f", load);
    for (int i = 0; i < 3; i++) {
        for (int j = 0; j < 3; j++)
            lives[j] = basic(SPT_CYLINDRICAL_ROLLER, rows[i].c, loads[j]);
        cr_assert_eq(spt_damage_life(shares, lives, 3, &life), SPT_OK);
        cr_expect(near(1e6 * life, rows[i].rev, 0, 0.01), "C %g: %.3f", rows[i].c, 1e6 * life);
    }
}

/* tutorial TS5-9, after Shigley: 200 000 rev at 18 kN, then 266 630.6296 rev at 30 kN to failure,
 * C 20.3 kN. Counted in revolutions. */
Test(damage, tutorial_ts5_9_remaining_life)
{
    const double total = 200000 + 266630.6296;
    const double shares[] = {200000 / total, 266630.6296 / total};
    const double lives[] = {1e6 * basic(SPT_DEEP_GROOVE_BALL, 20.3, 18),
                            1e6 * basic(SPT_DEEP_GROOVE_BALL, 20.3, 30)};
    double life;
    cr_assert_eq(spt_damage_life(shares, lives, 2, &life), SPT_OK);
    cr_expect(near(life, total, 0, 2e-3), "%.5f", life);
}

/* Juvinall and Marshek, sample problem 14.3 (from memory): exponent 10/3 also for balls, rating for
 * 90 Mrev. 8.5 kN is the 90 Mrev rating. */
Test(damage, juvinall_and_marshek_14_3)
{
    const double shares[] = {0.5, 0.3, 0.2}, loads[] = {3, 5, 7};
    double lives[3], life;
    for (int i = 0; i < 3; i++)
        cr_assert_eq(
            spt_life_hours(90 * basic(SPT_CYLINDRICAL_ROLLER, 8.5, loads[i]), 1000, &lives[i]),
            SPT_OK);
    cr_assert_eq(spt_damage_life(shares, lives, 3, &life), SPT_OK);
    cr_expect(near(life, 8749, 0, 5), "%.3f", life);
}

/* Shigley ex. 11-5 (from memory) */
Test(damage, shigley_11_5_equivalent_load)
{
    const double shares[] = {200 / 2600.0, 300 / 2600.0, 900 / 2600.0, 1200 / 2600.0},
                 speeds[] = {1725, 1725, 1725, 1725}, loads[] = {873, 795, 966, 835};
    double speed, load;
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 4, 3.0, &speed, &load), SPT_OK);
    cr_expect(near(load, 884, 0, 0.6), "F_eq %.3f", load);
}
