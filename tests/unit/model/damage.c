/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

static const double none = (double)NAN;
static const double endless = (double)INFINITY;

Test(damage, a_phase_without_time_counts_for_nothing)
{
    const double shares[] = {0.0, 1.0}, lives[] = {none, 2385.0};
    double life, damage[2];
    cr_assert_eq(spt_damage_life(shares, lives, 2, &life), SPT_OK);
    cr_expect(near(life, 2385.0, 1e-14, 0));
    cr_assert_eq(spt_damage_shares(shares, lives, 2, damage), SPT_OK);
    cr_expect_eq(damage[0], 0.0);
    cr_expect(near(damage[1], 1.0, 1e-14, 0));
}

Test(damage, a_phase_that_does_no_damage_stretches_the_life)
{
    const double shares[] = {0.4, 0.6}, lives[] = {2385.0, endless};
    double life, damage[2];
    cr_assert_eq(spt_damage_life(shares, lives, 2, &life), SPT_OK);
    cr_expect(near(life, 2385.0 / 0.4, 1e-14, 0));
    cr_assert_eq(spt_damage_shares(shares, lives, 2, damage), SPT_OK);
    cr_expect_eq(damage[1], 0.0);
}

Test(damage, no_damage_at_all_is_an_endless_life_without_shares)
{
    const double shares[] = {0.4, 0.6}, lives[] = {endless, endless};
    double life, damage[2] = {1.0, 1.0};
    cr_assert_eq(spt_damage_life(shares, lives, 2, &life), SPT_OK);
    cr_expect(isinf(life));
    cr_expect_eq(spt_damage_shares(shares, lives, 2, damage), SPT_NOT_APPLICABLE);
    cr_expect(isnan(damage[0]) && isnan(damage[1]));
}

Test(damage, a_phase_without_a_life_leaves_none_for_the_whole)
{
    const double shares[] = {0.4, 0.6}, lives[] = {2385.0, none};
    double life = 1.0, damage[2] = {1.0, 1.0};
    cr_expect_eq(spt_damage_life(shares, lives, 2, &life), SPT_NOT_APPLICABLE);
    cr_expect(isnan(life));
    cr_expect_eq(spt_damage_shares(shares, lives, 2, damage), SPT_NOT_APPLICABLE);
    cr_expect(isnan(damage[0]) && isnan(damage[1]));
}

Test(damage, shares_must_sum_to_one_and_lives_be_positive)
{
    static const struct {
        double shares[2], lives[2];
    } rows[] = {
        {{0.4, 0.599}, {100, 200}}, {{-0.4, 1.4}, {100, 200}}, {{0.4, (double)NAN}, {100, 200}},
        {{0.4, 0.6}, {0.0, 200}},   {{0.4, 0.6}, {100, -3}},   {{0.4, 0.60001}, {100, 200}},
    };
    for (int i = 0; i < 6; i++) {
        double life = 1.0, damage[2] = {1.0, 1.0};
        cr_expect_eq(spt_damage_life(rows[i].shares, rows[i].lives, 2, &life), SPT_BAD_ARGUMENT,
                     "case %d", i);
        cr_expect(isnan(life));
        cr_expect_eq(spt_damage_shares(rows[i].shares, rows[i].lives, 2, damage), SPT_BAD_ARGUMENT);
        cr_expect(isnan(damage[0]) && isnan(damage[1]));
    }
    double life = 1.0;
    cr_expect_eq(spt_damage_life(rows[0].shares, rows[0].lives, 0, &life), SPT_BAD_ARGUMENT);
    const double almost[] = {0.4, 0.6 + 9e-7};
    cr_expect_eq(spt_damage_life(almost, rows[0].lives, 2, &life), SPT_OK);
}

Test(damage, mean_load_is_0_where_nothing_turns_or_nothing_is_loaded)
{
    const double shares[] = {0.4, 0.6}, still[] = {0, 0}, turning[] = {300, 500},
                 loads[] = {2385, 911}, unloaded[] = {0, 0};
    double speed, load;
    cr_assert_eq(spt_damage_mean(shares, still, loads, 2, 3.0, &speed, &load), SPT_OK);
    cr_expect(speed == 0.0 && load == 0.0);
    cr_assert_eq(spt_damage_mean(shares, turning, unloaded, 2, 3.0, &speed, &load), SPT_OK);
    cr_expect(near(speed, 420, 1e-14, 0) && load == 0.0);
}

Test(damage, mean_refuses_bad_input)
{
    const double shares[] = {0.4, 0.6}, short_shares[] = {0.4, 0.5}, speeds[] = {300, 500},
                 loads[] = {2385, 911}, bad[] = {2385, -1.0}, missing[] = {none, 3.0};
    double speed = 1.0, load = 1.0;
    cr_expect_eq(spt_damage_mean(short_shares, speeds, loads, 2, 3, &speed, &load),
                 SPT_BAD_ARGUMENT);
    cr_expect(isnan(speed) && isnan(load));
    cr_expect_eq(spt_damage_mean(shares, bad, loads, 2, 3, &speed, &load), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_damage_mean(shares, speeds, bad, 2, 3, &speed, &load), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_damage_mean(shares, speeds, missing, 2, 3, &speed, &load), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_damage_mean(shares, speeds, loads, 2, 0, &speed, &load), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_damage_mean(shares, speeds, loads, 2, none, &speed, &load), SPT_BAD_ARGUMENT);
    cr_expect(isnan(speed) && isnan(load));
}

/* Answers worked out by us; the inputs of two textbook problems (20 Mrev at .95 with slope 1.17;
 * four phases with service factors) as an independent arithmetic check. */
Test(damage, mean_of_two_textbook_duties_stays_where_it_was)
{
    const double shares[] = {0.1, 0.2, 0.3, 0.4}, speeds[] = {50, 50, 50, 50},
                 loads[] = {3, 2, 1, 0};
    const double times[] = {0.1, 0.1, 0.2, 0.6}, rpm[] = {400, 500, 600, 800},
                 p[] = {11400, 4500, 6500, 4200};
    double speed, load;
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 4, 3.0, &speed, &load), SPT_OK);
    cr_expect(near(load, 1.66310, 0, 5e-6));
    cr_assert_eq(spt_damage_mean(times, rpm, p, 4, 3.0, &speed, &load), SPT_OK);
    cr_expect(near(speed, 690, 1e-13, 0));
    cr_expect(near(load, 5766.90, 0, 0.005));
}
