/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/life.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

static const double none = (double)NAN;
static const double endless = (double)INFINITY;

static struct spt_life_factor_inputs make_inputs(enum spt_bearing_type type, double x, double kappa)
{
    /* x = e_C C_u/P with e_C = 0.4 */
    return (struct spt_life_factor_inputs){type, 0.4, 1234.5 * x / 0.4, 1234.5, kappa, false};
}

static double factor(enum spt_bearing_type type, double kappa, double x)
{
    struct spt_life_factor_inputs in = make_inputs(type, x, kappa);
    struct spt_life_factor out;
    cr_assert_eq(spt_life_factor(&in, &out), SPT_OK);
    return out.a_iso;
}

Test(life, exponent_is_3_for_balls_and_ten_thirds_for_rollers)
{
    for (int type = 0; type < SPT_BEARING_TYPE_COUNT; type++)
        cr_expect_eq(spt_life_exponent((enum spt_bearing_type)type),
                     spt_bearing_is_ball((enum spt_bearing_type)type) ? 3.0 : 10.0 / 3.0);
    cr_expect(isnan(spt_life_exponent(SPT_BEARING_TYPE_COUNT)));
}

Test(life, basic_life_refuses_what_is_not_a_load)
{
    const double bad[] = {0.0, -1.0, none, endless};
    for (int i = 0; i < 4; i++) {
        double life = 1.0;
        cr_expect_eq(spt_life_basic(SPT_TAPERED_ROLLER, bad[i], 10.0, &life), SPT_BAD_ARGUMENT);
        cr_expect(isnan(life));
        life = 1.0;
        cr_expect_eq(spt_life_basic(SPT_TAPERED_ROLLER, 10.0, bad[i], &life), SPT_BAD_ARGUMENT);
        cr_expect(isnan(life));
    }
    double life = 1.0;
    cr_expect_eq(spt_life_basic(SPT_BEARING_TYPE_COUNT, 10.0, 1.0, &life), SPT_BAD_ARGUMENT);
    cr_expect(isnan(life));
}

Test(life, hours_take_an_endless_life_and_refuse_bad_input)
{
    double life;
    cr_expect_eq(spt_life_hours(endless, 385.2, &life), SPT_OK);
    cr_expect(isinf(life));
    cr_expect_eq(spt_life_hours(0.0, 385.2, &life), SPT_OK);
    cr_expect_eq(life, 0.0);
    const double bad_speeds[] = {0.0, -2.0, none, endless};
    for (int i = 0; i < 4; i++) {
        cr_expect_eq(spt_life_hours(2.385, bad_speeds[i], &life), SPT_BAD_ARGUMENT);
        cr_expect(isnan(life));
    }
    cr_expect_eq(spt_life_hours(none, 385.2, &life), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_life_hours(-1.0, 385.2, &life), SPT_BAD_ARGUMENT);
}

Test(life, a1_is_refused_outside_90_to_99_95)
{
    const double bad[] = {89.999, 99.9501, 100.0, 0.95, none, endless};
    for (int i = 0; i < 6; i++) {
        double a1 = 1.0;
        cr_expect_eq(spt_life_reliability_factor(bad[i], &a1), SPT_BAD_ARGUMENT, "%g", bad[i]);
        cr_expect(isnan(a1));
    }
}

/* Our own evaluations of the equations, no outside authority: they hold the code to itself. */
Test(life, a_iso_stays_where_it_was)
{
    static const struct {
        double kappa, x, ball, thrust_ball, roller, thrust_roller;
    } rows[] = {
        {0.2, 0.1, 0.18835, 0.15440, 0.12422, 0.11616},
        {0.2, 1, 0.41455, 0.26180, 0.17415, 0.14637},
        {0.4, 0.3, 0.54116, 0.31188, 0.19691, 0.15909},
        {0.5, 0.2, 0.86169, 0.42155, 0.24433, 0.18402},
        {0.8, 0.3, 6.8198, 1.5076, 0.64527, 0.34942},
        {1, 0.1, 2.4305, 0.80942, 0.39865, 0.25498},
        {1, 0.5, 50, 5.0681, 1.7141, 0.65051},
        {1, 1, 50, 19.843, 5.3106, 1.2954},
        {2, 0.1, 4.2016, 1.1297, 0.51610, 0.30212},
        {2, 1, 50, 50, 12.927, 2.1754},
        {4, 0.05, 2.5008, 0.82374, 0.40475, 0.25755},
        {4, 0.2, 33.285, 3.7136, 1.3350, 0.55616},
        {4, 2, 50, 50, 50, 16.925},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double k = rows[i].kappa, x = rows[i].x;
        cr_expect(near(factor(SPT_ANGULAR_CONTACT_BALL, k, x), rows[i].ball, 1e-4, 0), "row %zu",
                  i);
        cr_expect(near(factor(SPT_THRUST_BALL, k, x), rows[i].thrust_ball, 1e-4, 0), "row %zu", i);
        cr_expect(near(factor(SPT_TAPERED_ROLLER, k, x), rows[i].roller, 1e-4, 0), "row %zu", i);
        cr_expect(near(factor(SPT_THRUST_ROLLER, k, x), rows[i].thrust_roller, 1e-4, 0), "row %zu",
                  i);
    }
}

Test(life, a_iso_reports_x_kappa_and_bracket)
{
    struct spt_life_factor out;
    struct spt_life_factor_inputs in = {SPT_TAPERED_ROLLER, 0.35, 8871.0, 6543.0, 0.62, false};
    cr_assert_eq(spt_life_factor(&in, &out), SPT_OK);
    cr_expect(near(out.x, 0.35 * 8871.0 / 6543.0, 1e-14, 0));
    cr_expect_eq(out.viscosity_ratio, 0.62);
    cr_expect(near(0.1 * pow(out.bracket, -9.185), out.a_iso, 1e-13, 0));
    cr_expect_not(out.capped);
    cr_expect_not(out.ep_applied);
    in.type = SPT_THRUST_ROLLER;
    cr_assert_eq(spt_life_factor(&in, &out), SPT_OK);
    cr_expect(near(out.x, 0.35 * 8871.0 / 6543.0 / 2.5, 1e-14, 0));
    in.type = SPT_THRUST_BALL;
    cr_assert_eq(spt_life_factor(&in, &out), SPT_OK);
    cr_expect(near(out.x, 0.35 * 8871.0 / 6543.0 / 3.0, 1e-14, 0));
}

Test(life, a_iso_is_capped_at_50_on_both_sides_of_the_pole)
{
    struct spt_life_factor out;
    struct spt_life_factor_inputs in = make_inputs(SPT_TAPERED_ROLLER, 2.0, 4.0);
    cr_assert_eq(spt_life_factor(&in, &out), SPT_OK);
    cr_expect_eq(out.a_iso, SPT_LIFE_FACTOR_MAX);
    cr_expect(out.capped);
    cr_expect_gt(out.bracket, 0.0);
    in = make_inputs(SPT_TAPERED_ROLLER, 20.0, 4.0);
    cr_assert_eq(spt_life_factor(&in, &out), SPT_OK);
    cr_expect_eq(out.a_iso, 50.0);
    cr_expect(out.capped);
    cr_expect_lt(out.bracket, 0.0);
}

Test(life, kappa_above_4_counts_as_4)
{
    struct spt_life_factor at, above;
    struct spt_life_factor_inputs in = make_inputs(SPT_TAPERED_ROLLER, 0.2, 4.0);
    cr_assert_eq(spt_life_factor(&in, &at), SPT_OK);
    in.viscosity_ratio = 17.3;
    cr_assert_eq(spt_life_factor(&in, &above), SPT_OK);
    cr_expect_eq(above.a_iso, at.a_iso);
    cr_expect_eq(above.viscosity_ratio, 4.0);
}

Test(life, a_iso_has_no_value_below_kappa_0_1)
{
    struct spt_life_factor out;
    struct spt_life_factor_inputs in = make_inputs(SPT_TAPERED_ROLLER, 0.2, 0.0999);
    cr_expect_eq(spt_life_factor(&in, &out), SPT_NOT_APPLICABLE);
    cr_expect(isnan(out.a_iso));
    in.viscosity_ratio = 0.1;
    cr_expect_eq(spt_life_factor(&in, &out), SPT_OK);
    cr_expect_eq(out.a_iso, 0.1);
}

Test(life, dirt_that_leaves_nothing_gives_a_tenth)
{
    struct spt_life_factor out;
    struct spt_life_factor_inputs in = make_inputs(SPT_TAPERED_ROLLER, 0.2, 2.3);
    in.contamination_factor = 0.0;
    cr_assert_eq(spt_life_factor(&in, &out), SPT_OK);
    cr_expect_eq(out.a_iso, 0.1);
}

Test(life, a_iso_refuses_bad_input)
{
    const struct spt_life_factor_inputs good = make_inputs(SPT_TAPERED_ROLLER, 0.2, 2.3);
    struct spt_life_factor_inputs bad[12];
    for (int i = 0; i < 12; i++)
        bad[i] = good;
    bad[0].type = SPT_BEARING_TYPE_COUNT;
    bad[1].contamination_factor = -0.01;
    bad[2].contamination_factor = 1.01;
    bad[3].contamination_factor = none;
    bad[4].fatigue_load_limit_n = 0.0;
    bad[5].fatigue_load_limit_n = none;
    bad[6].equivalent_load_n = 0.0;
    bad[7].equivalent_load_n = endless;
    bad[8].viscosity_ratio = 0.0;
    bad[9].viscosity_ratio = none;
    bad[10].viscosity_ratio = endless;
    bad[11].equivalent_load_n = -5.0;
    for (int i = 0; i < 12; i++) {
        struct spt_life_factor out = {0};
        cr_expect_eq(spt_life_factor(&bad[i], &out), SPT_BAD_ARGUMENT, "case %d", i);
        cr_expect(isnan(out.a_iso) && isnan(out.x) && isnan(out.bracket), "case %d", i);
    }
}

static struct spt_life_factor ep_factor(double x, double kappa, double cleanliness, bool ep)
{
    struct spt_life_factor out;
    struct spt_life_factor_inputs in = make_inputs(SPT_TAPERED_ROLLER, 0.2, kappa);
    in.ep_additive = ep;
    in.contamination_factor = cleanliness;
    in.fatigue_load_limit_n = x * in.equivalent_load_n / cleanliness;
    cr_assert_eq(spt_life_factor(&in, &out), SPT_OK);
    return out;
}

Test(life, ep_rule_puts_kappa_1_for_a_thinner_film)
{
    struct spt_life_factor out = ep_factor(0.3, 0.5, 0.2, true);
    cr_expect(near(out.a_iso, spt_life_factor_value(false, 1.0, 0.3), 1e-13, 0));
    cr_expect_eq(out.viscosity_ratio, 1.0);
    cr_expect(out.ep_applied);
    cr_expect_not(out.capped);
}

Test(life, ep_rule_needs_additive_cleanliness_and_a_thin_film)
{
    const struct spt_life_factor cases[] = {ep_factor(0.3, 0.5, 0.2, false),
                                            ep_factor(0.3, 0.5, 0.1999, true)};
    for (int i = 0; i < 2; i++) {
        cr_expect(near(cases[i].a_iso, spt_life_factor_value(false, 0.5, 0.3), 1e-13, 0));
        cr_expect_not(cases[i].ep_applied);
    }
    struct spt_life_factor thick = ep_factor(0.3, 1.003, 0.5, true);
    cr_expect(near(thick.a_iso, spt_life_factor_value(false, 1.003, 0.3), 1e-13, 0));
    cr_expect_not(thick.ep_applied);
}

Test(life, ep_rule_gives_at_most_3)
{
    struct spt_life_factor out = ep_factor(1.0, 0.5, 0.5, true);
    cr_expect_eq(out.a_iso, 3.0);
    cr_expect(out.capped);
    cr_expect(out.ep_applied);
    cr_expect_gt(spt_life_factor_value(false, 1.0, 1.0), 3.0);
}

Test(life, ep_rule_never_lowers_a_iso)
{
    struct spt_life_factor out = ep_factor(1.0, 0.95, 0.5, true);
    cr_expect_gt(out.a_iso, 3.0);
    cr_expect(near(out.a_iso, spt_life_factor_value(false, 0.95, 1.0), 1e-13, 0));
    cr_expect_eq(out.viscosity_ratio, 0.95);
    cr_expect_not(out.ep_applied);
}

Test(life, system_handles_ends_and_refuses_bad_input)
{
    const double some[] = {endless, 1234.5, endless};
    cr_expect(near(spt_life_system(some, 3, 1.125), 1234.5, 1e-14, 0));
    const double all[] = {endless, endless};
    cr_expect(isinf(spt_life_system(all, 2, 1.5)));
    const double dead[] = {0.0, 1234.5};
    cr_expect_eq(spt_life_system(dead, 2, 1.5), 0.0);
    const double bad[] = {1234.5, none}, negative[] = {1234.5, -1.0};
    cr_expect(isnan(spt_life_system(bad, 2, 1.5)));
    cr_expect(isnan(spt_life_system(negative, 2, 1.5)));
    cr_expect(isnan(spt_life_system(some, 0, 1.5)));
    cr_expect(isnan(spt_life_system(some, 3, 0.0)));
    cr_expect(isnan(spt_life_system(some, 3, none)));
    const double large[] = {1e300, 1e300};
    cr_expect(near(spt_life_system(large, 2, 1.5), 1e300 * pow(2.0, -1.0 / 1.5), 1e-13, 0));
}

/* our own evaluations */
Test(life, system_life_stays_where_it_was)
{
    const double lives[] = {10000, 15000, 20000};
    cr_expect(near(spt_life_system(lives, 3, 10.0 / 9.0), 5128.126, 0, 0.0005));
    cr_expect(near(spt_life_system(lives, 3, 9.0 / 8.0), 5188.184, 0, 0.0005));
    cr_expect(near(spt_life_system(lives, 3, 1.5), 6523.592, 0, 0.0005));
    cr_expect(near(spt_life_system(lives, 3, 1.0), 4615.385, 0, 0.0005));
}
