/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

#define PHASES 4

struct duty {
    double shares[PHASES], speeds[PHASES], loads[PHASES], lives[PHASES];
};

static struct duty make_duty(unsigned long long *state, double c, double p)
{
    struct duty duty;
    double sum = 0.0;
    for (int i = 0; i < PHASES; i++)
        sum += duty.shares[i] = random_between(state, 0.1, 1.0);
    for (int i = 0; i < PHASES; i++) {
        duty.shares[i] /= sum;
        duty.speeds[i] = random_between(state, 50, 3000);
        duty.loads[i] = random_between(state, 100, 9000);
        duty.lives[i] = pow(c / duty.loads[i], p) * 1e6 / (60 * duty.speeds[i]);
    }
    return duty;
}

Test(damage_property, life_lies_between_the_shortest_and_the_longest)
{
    unsigned long long state = 5;
    for (int n = 0; n < 200; n++) {
        struct duty duty = make_duty(&state, 41000, 3.0);
        double life, least = (double)INFINITY, most = 0.0;
        cr_assert_eq(spt_damage_life(duty.shares, duty.lives, PHASES, &life), SPT_OK);
        for (int i = 0; i < PHASES; i++) {
            least = fmin(least, duty.lives[i]);
            most = fmax(most, duty.lives[i]);
        }
        cr_expect(least <= life && life <= most);
    }
}

Test(damage_property, life_of_the_mean_load_is_the_life_by_damage)
{
    unsigned long long state = 6;
    for (int n = 0; n < 200; n++) {
        double p = n % 2 ? 3.0 : 10.0 / 3.0, life, speed, load;
        struct duty duty = make_duty(&state, 41000, p);
        cr_assert_eq(spt_damage_life(duty.shares, duty.lives, PHASES, &life), SPT_OK);
        cr_assert_eq(
            spt_damage_mean(duty.shares, duty.speeds, duty.loads, PHASES, p, &speed, &load),
            SPT_OK);
        cr_expect(near(pow(41000 / load, p) * 1e6 / (60 * speed), life, 1e-12, 0));
    }
}

Test(damage_property, shares_sum_to_one_and_split_like_time_over_life)
{
    unsigned long long state = 7;
    for (int n = 0; n < 200; n++) {
        struct duty duty = make_duty(&state, 41000, 3.0);
        double damage[PHASES], sum = 0.0;
        cr_assert_eq(spt_damage_shares(duty.shares, duty.lives, PHASES, damage), SPT_OK);
        for (int i = 0; i < PHASES; i++)
            sum += damage[i];
        cr_expect(near(sum, 1.0, 1e-13, 0));
        cr_expect(near(damage[0] / damage[3],
                       duty.shares[0] * duty.lives[3] / (duty.shares[3] * duty.lives[0]), 1e-12,
                       0));
    }
}

Test(damage_property, equal_loads_have_that_load_as_their_mean)
{
    const double shares[] = {0.3, 0.7}, speeds[] = {120, 988}, loads[] = {2385, 2385};
    double speed, load;
    cr_assert_eq(spt_damage_mean(shares, speeds, loads, 2, 10.0 / 3.0, &speed, &load), SPT_OK);
    cr_expect(near(load, 2385, 1e-13, 0));
}
