/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/plain.h"

/* One bearing of each type and row count that has factors. `gap`: how far the rounded table
 * constants leave P apart at Fa/Fr = e. */
static const struct {
    enum spt_bearing_type type;
    int rows;
    double angle_deg, gap;
} cases[] = {
    {SPT_DEEP_GROOVE_BALL, 1, 0, 0.007},      {SPT_ANGULAR_CONTACT_BALL, 1, 15, 0.01},
    {SPT_ANGULAR_CONTACT_BALL, 2, 15, 0.01},  {SPT_ANGULAR_CONTACT_BALL, 1, 25, 0.005},
    {SPT_ANGULAR_CONTACT_BALL, 2, 40, 0.005}, {SPT_SELF_ALIGNING_BALL, 1, 11, 1e-9},
    {SPT_SELF_ALIGNING_BALL, 2, 11, 0.004},   {SPT_CYLINDRICAL_ROLLER, 1, 0, 1e-9},
    {SPT_TAPERED_ROLLER, 1, 15, 1e-9},        {SPT_TAPERED_ROLLER, 2, 15, 1e-9},
    {SPT_SPHERICAL_ROLLER, 2, 9, 1e-9},       {SPT_NEEDLE_ROLLER, 1, 0, 1e-9},
    {SPT_THRUST_BALL, 1, 60, 1e-9},           {SPT_THRUST_BALL, 1, 90, 1e-9},
    {SPT_THRUST_ROLLER, 1, 50, 0.003},        {SPT_THRUST_ROLLER, 1, 90, 1e-9},
    {SPT_DEEP_GROOVE_BALL, 2, 0, 0.007},
};
#define CASES (int)(sizeof cases / sizeof cases[0])

static struct spt_bearing make_bearing(int i)
{
    struct spt_bearing bearing = plain_bearing(cases[i].type);
    bearing.rows = cases[i].rows;
    bearing.contact_angle_rad = cases[i].angle_deg * DEG;
    bearing.static_load_rating_n = 2e4;
    bearing.f0 = 13.7;
    return bearing;
}

static double dynamic(const struct spt_bearing *bearing, double radial_n, double axial_n)
{
    struct spt_equivalent_load load;
    cr_assert_eq(spt_load_equivalent(bearing, radial_n, axial_n, &load, NULL), SPT_OK);
    return load.load_n;
}

static double fixed(const struct spt_bearing *bearing, double radial_n, double axial_n)
{
    struct spt_equivalent_load load;
    cr_assert_eq(spt_load_static(bearing, radial_n, axial_n, &load, NULL), SPT_OK);
    return load.load_n;
}

Test(load_property, a_pure_radial_load_is_its_own_equivalent)
{
    for (int i = 0; i < CASES; i++) {
        struct spt_bearing bearing = make_bearing(i);
        if (spt_bearing_is_thrust(bearing.type))
            continue;
        cr_expect_eq(dynamic(&bearing, 2385.0, 0), 2385.0, "case %d", i);
        cr_expect_eq(fixed(&bearing, 2385.0, 0), 2385.0, "case %d", i);
    }
}

Test(load_property, a_pure_axial_load_is_its_own_equivalent_on_a_thrust_bearing)
{
    for (int i = 0; i < CASES; i++) {
        struct spt_bearing bearing = make_bearing(i);
        if (!spt_bearing_is_thrust(bearing.type))
            continue;
        cr_expect_eq(dynamic(&bearing, 0, 2385.0), 2385.0, "case %d", i);
        cr_expect_eq(fixed(&bearing, 0, 2385.0), 2385.0, "case %d", i);
    }
}

Test(load_property, equivalent_loads_of_radial_bearings_are_never_below_the_radial_load)
{
    unsigned long long state = 11;
    for (int n = 0; n < 3000; n++) {
        struct spt_bearing bearing = make_bearing(n % CASES);
        if (spt_bearing_is_thrust(bearing.type))
            continue;
        double fr = random_between(&state, 0, 9000), fa = random_between(&state, 0, 9000);
        cr_expect_geq(dynamic(&bearing, fr, fa), fr);
        cr_expect_geq(fixed(&bearing, fr, fa), fr);
    }
}

/* up to the gap at Fa/Fr = e */
Test(load_property, equivalent_loads_grow_with_each_load)
{
    unsigned long long state = 12;
    for (int n = 0; n < 6000; n++) {
        int i = n % CASES;
        struct spt_bearing bearing = make_bearing(i);
        double fr = random_between(&state, 1, 9000), fa = random_between(&state, 1, 9000);
        double more = random_between(&state, 1, 1.5), gap = 1 + cases[i].gap;
        double p = dynamic(&bearing, fr, fa), p0 = fixed(&bearing, fr, fa);
        cr_expect_leq(p, dynamic(&bearing, more * fr, fa) * gap, "case %d: %g %g", i, fr, fa);
        cr_expect_leq(p, dynamic(&bearing, fr, more * fa) * gap, "case %d: %g %g", i, fr, fa);
        cr_expect_leq(p0, fixed(&bearing, more * fr, fa));
        cr_expect_leq(p0, fixed(&bearing, fr, more * fa));
    }
}

Test(load_property, the_two_branches_meet_at_the_limit_ratio)
{
    for (int i = 0; i < CASES; i++) {
        struct spt_bearing bearing = make_bearing(i);
        for (double fa = 300; fa < 9000; fa *= 1.3) {
            struct spt_equivalent_load load;
            cr_assert_eq(spt_load_equivalent(&bearing, 1, fa, &load, NULL), SPT_OK);
            if (isnan(load.limit_ratio))
                continue;
            double fr = fa / load.limit_ratio;
            double above = dynamic(&bearing, fr * (1 - 1e-11), fa);
            double below = dynamic(&bearing, fr * (1 + 1e-11), fa);
            cr_expect(near(above, below, cases[i].gap, 0), "case %d, Fa %g: %.9g %.9g", i, fa,
                      above, below);
        }
    }
}

/* X + Y e = 1 at every row of the deep groove table, within its rounding */
Test(load_property, deep_groove_rows_fit_together)
{
    static const double rows[] = {0.172, 0.345, 0.689, 1.03, 1.38, 2.07, 3.45, 5.17, 6.89};
    struct spt_bearing bearing = make_bearing(0);
    for (int i = 0; i < 9; i++) {
        struct spt_equivalent_load load;
        cr_assert_eq(spt_load_equivalent(&bearing, 1, rows[i] * 2e4 / 13.7, &load, NULL), SPT_OK);
        cr_expect(near(load.radial_factor + load.axial_factor * load.limit_ratio, 1, 0, 0.0065));
    }
}

/* types without a table of the relative axial load are homogeneous; the others are when C0 grows
 * with the loads */
Test(load_property, equivalent_loads_scale_with_the_loads)
{
    unsigned long long state = 13;
    for (int n = 0; n < 2000; n++) {
        struct spt_bearing bearing = make_bearing(n % CASES), larger = bearing;
        double k = random_between(&state, 0.2, 5.0);
        double fr = random_between(&state, 1, 9000), fa = random_between(&state, 1, 9000);
        larger.static_load_rating_n *= k;
        cr_expect(near(dynamic(&larger, k * fr, k * fa), k * dynamic(&bearing, fr, fa), 1e-12, 0));
        cr_expect(near(fixed(&bearing, k * fr, k * fa), k * fixed(&bearing, fr, fa), 1e-12, 0));
        if (cases[n % CASES].angle_deg == 0.0 || cases[n % CASES].angle_deg == 15.0)
            continue;
        cr_expect(near(dynamic(&bearing, k * fr, k * fa), k * dynamic(&bearing, fr, fa), 1e-12, 0));
    }
}

Test(load_property, two_rows_of_the_same_angle_need_more_axial_factor_than_one)
{
    struct spt_bearing one = make_bearing(8), two = make_bearing(9);
    for (double fa = 100; fa < 5000; fa *= 1.5)
        cr_expect_gt(dynamic(&two, 1000, fa), dynamic(&one, 1000, fa));
}

/* the loop over many loads is written for the sweeps */
Test(load_property, many_loads_at_once_are_those_of_one_by_one)
{
    unsigned long long state = 14;
    for (int i = 0; i < CASES; i++) {
        struct spt_bearing bearing = make_bearing(i);
        double fr[50], fa[50], p[50];
        for (int n = 0; n < 50; n++) {
            fr[n] = random_between(&state, 1, 9000);
            fa[n] = random_between(&state, 1, 9000);
        }
        spt_load_equivalent_many(&bearing, fr, fa, 50, p);
        for (int n = 0; n < 50; n++)
            cr_expect(spt_bearing_is_thrust(bearing.type)
                          ? isnan(p[n])
                          : near(p[n], dynamic(&bearing, fr[n], fa[n]), 1e-14, 0),
                      "case %d: %g %g", i, fr[n], fa[n]);
    }
}
