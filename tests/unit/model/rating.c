/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/plain.h"

static const double none = (double)NAN;

static struct spt_rating rate(enum spt_bearing_type type, struct spt_geometry geometry)
{
    struct spt_rating rating;
    cr_assert_eq(spt_rating_from_geometry(type, &geometry, &rating), SPT_OK);
    return rating;
}

/* worked through the formulas by hand, no outside authority */
Test(rating, a_tapered_bearing_is_rated_as_by_hand)
{
    struct spt_geometry geometry = {17, 1, 10.0, 12.0, 15.0 * DEG, 60.0, none, none};
    struct spt_rating rating = rate(SPT_TAPERED_ROLLER, geometry);
    cr_expect(near(rating.gamma, 10 * 0.965925826 / 60, 1e-8, 0));
    cr_expect_eq(rating.b_m, 1.1);
    cr_expect(isnan(rating.f_0));
    cr_expect(near(rating.dynamic_load_rating_n, 65042, 1e-4, 0));
    cr_expect(near(rating.static_load_rating_n, 72744, 1e-4, 0));
    cr_expect(near(rating.fatigue_load_limit_n, 8871, 1e-4, 0));
}

/* C and C0 from their own parts, for each form of ISO 281 and ISO 76 */
Test(rating, ratings_follow_from_their_factors)
{
    static const struct {
        enum spt_bearing_type type;
        double gamma, angle_deg;
    } rows[] = {
        {SPT_DEEP_GROOVE_BALL, 0.21, 0},    {SPT_ANGULAR_CONTACT_BALL, 0.18, 40},
        {SPT_SELF_ALIGNING_BALL, 0.11, 12}, {SPT_CYLINDRICAL_ROLLER, 0.13, 0},
        {SPT_SPHERICAL_ROLLER, 0.17, 9},    {SPT_THRUST_BALL, 0.14, 90},
        {SPT_THRUST_BALL, 0.08, 60},        {SPT_THRUST_ROLLER, 0.09, 90},
        {SPT_THRUST_ROLLER, 0.06, 50},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct spt_geometry g = plain_geometry(rows[i].gamma, rows[i].angle_deg);
        struct spt_rating r = rate(rows[i].type, g);
        bool ball = spt_bearing_is_ball(rows[i].type), square = rows[i].angle_deg == 90.0;
        bool thrust = spt_bearing_is_thrust(rows[i].type);
        double d = g.element_diameter_mm, length = g.element_length_mm, z = 12;
        double two =
            rows[i].type == SPT_SPHERICAL_ROLLER || rows[i].type == SPT_SELF_ALIGNING_BALL ? 2 : 1;
        double c = square ? 1 : cos(g.contact_angle_rad), s = sin(g.contact_angle_rad);
        double tilt = thrust && !square ? s / c : 1.0;
        double dynamic = ball ? pow(two * c, 0.7) * pow(z, 2.0 / 3) *
                                    (d > 25.4 ? 3.647 * pow(d, 1.4) : pow(d, 1.8))
                              : pow(two * length * c, 7.0 / 9) * pow(z, 0.75) * pow(d, 29.0 / 27);
        double flat = square ? 0.0 : rows[i].gamma;
        double fixed =
            ball ? r.f_0 * d * d * z : (thrust ? 220.0 : 44.0) * (1 - flat) * z * length * d;
        const char *name = spt_bearing_type_name(rows[i].type);
        cr_expect(near(r.gamma, rows[i].gamma, 1e-12, 0), "%s", name);
        cr_expect(near(r.dynamic_load_rating_n, r.b_m * r.f_c * dynamic * tilt, 1e-12, 0), "%s",
                  name);
        cr_expect(near(r.static_load_rating_n, two * fixed * (thrust ? s : c), 1e-12, 0), "%s",
                  name);
        cr_expect(
            near(r.fatigue_load_limit_n, r.static_load_rating_n / (ball ? 22 : 8.2), 1e-12, 0),
            "%s", name);
    }
}

/* the second law holds from 25.4 mm on: from memory of ISO 281:2007, 5.1 */
Test(rating, balls_above_25_4_mm_follow_the_second_law)
{
    struct spt_geometry g = plain_geometry(0.255, 0);
    struct spt_rating r = rate(SPT_DEEP_GROOVE_BALL, g);
    cr_expect(near(r.dynamic_load_rating_n, 1.3 * r.f_c * pow(12, 2.0 / 3) * 3.647 * pow(25.5, 1.4),
                   1e-9, 0));
}

Test(rating, rows_count_with_0_7_for_balls_and_7_ninths_for_rollers)
{
    struct spt_geometry one = plain_geometry(0.15, 0), three = one;
    one.rows = 1;
    three.rows = 3;
    struct spt_rating a = rate(SPT_ANGULAR_CONTACT_BALL, one);
    struct spt_rating b = rate(SPT_ANGULAR_CONTACT_BALL, three);
    cr_expect(near(b.dynamic_load_rating_n / a.dynamic_load_rating_n, pow(3, 0.7), 1e-13, 0));
    cr_expect(near(b.static_load_rating_n / a.static_load_rating_n, 3, 1e-13, 0));
    a = rate(SPT_NEEDLE_ROLLER, one);
    b = rate(SPT_NEEDLE_ROLLER, three);
    cr_expect(near(b.dynamic_load_rating_n / a.dynamic_load_rating_n, pow(3, 7.0 / 9), 1e-13, 0));
    cr_expect(near(b.static_load_rating_n / a.static_load_rating_n, 3, 1e-13, 0));
}

/* our own values of contacts whose tables are not at hand */
Test(rating, f0_of_self_aligning_and_thrust_balls_stays_where_it_was)
{
    struct spt_geometry geometry = plain_geometry(0.2, 0);
    double f_0;
    cr_assert_eq(spt_rating_f0(SPT_SELF_ALIGNING_BALL, &geometry, &f_0), SPT_OK);
    cr_expect(near(f_0, 2.7997, 0, 0.001), "%.5f", f_0);
    geometry = plain_geometry(0.1, 45);
    cr_assert_eq(spt_rating_f0(SPT_THRUST_BALL, &geometry, &f_0), SPT_OK);
    cr_expect(near(f_0, 53.532, 0, 0.001), "%.5f", f_0);
    geometry = plain_geometry(0.1, 90);
    cr_assert_eq(spt_rating_f0(SPT_THRUST_BALL, &geometry, &f_0), SPT_OK);
    cr_expect(near(f_0, 61.570, 0, 0.001), "%.5f", f_0);
}

/* ISO/TR 8646 (from memory): the outer raceway is a sphere, r_e = D/2 (1/gamma + 1), and the inner
 * groove 0.53 D, which the raceway term of f_c shows; no reduction by 0.95. */
Test(rating, outer_raceway_of_self_aligning_balls_is_a_sphere)
{
    struct spt_geometry geometry = plain_geometry(0.2, 0);
    double inner = 1.06 / 0.06, outer = 6.0 / 5; /* 2 r/(2 r - D), r_e = 3 D */
    double raceways = 1.04 * pow(0.8 / 1.2, 1.72) * pow(inner / outer, 0.41);
    double want = 0.41 * 98.0665 * pow(inner, 0.41) * pow(0.2, 0.3) * pow(0.8, 1.39) / cbrt(1.2) *
                  pow(1 + pow(raceways, 10.0 / 3), -0.3);
    double got = rate(SPT_SELF_ALIGNING_BALL, geometry).f_c;
    cr_expect(near(got, want, 1e-12, 0), "%.10g for %.10g", got, want);
}

Test(rating, given_grooves_replace_the_usual_ones)
{
    struct spt_geometry usual = plain_geometry(0.2, 0), given = usual;
    double a, b;
    given.inner_groove_ratio = given.outer_groove_ratio = 0.52;
    cr_assert_eq(spt_rating_fc(SPT_DEEP_GROOVE_BALL, &usual, &a), SPT_OK);
    cr_assert_eq(spt_rating_fc(SPT_DEEP_GROOVE_BALL, &given, &b), SPT_OK);
    cr_expect_eq(a, b);
    given.outer_groove_ratio = 0.53;
    cr_assert_eq(spt_rating_fc(SPT_DEEP_GROOVE_BALL, &given, &b), SPT_OK);
    cr_expect_lt(b, a);
    cr_assert_eq(spt_rating_f0(SPT_DEEP_GROOVE_BALL, &usual, &a), SPT_OK);
    cr_assert_eq(spt_rating_f0(SPT_DEEP_GROOVE_BALL, &given, &b), SPT_OK);
    cr_expect_eq(a, b);
}

Test(rating, geometry_outside_its_ranges_is_refused)
{
    struct {
        enum spt_bearing_type type;
        struct spt_geometry geometry;
    } bad[17];
    for (int i = 0; i < 17; i++) {
        bad[i].type = i % 2 ? SPT_DEEP_GROOVE_BALL : SPT_TAPERED_ROLLER;
        bad[i].geometry = plain_geometry(0.2, 10);
    }
    bad[0].geometry.elements = 2;
    bad[1].geometry.elements = 1001;
    bad[2].geometry.rows = -1;
    bad[3].geometry.rows = 9;
    bad[4].geometry.element_diameter_mm = 0.0;
    bad[5].geometry.element_diameter_mm = none;
    bad[6].geometry.element_length_mm = none;
    bad[7].geometry.contact_angle_rad = none;
    bad[8].geometry.contact_angle_rad = 45.1 * DEG;
    bad[9].geometry.contact_angle_rad = -0.01;
    bad[10].geometry.pitch_diameter_mm = none;
    bad[11].geometry.inner_groove_ratio = 0.5149;
    bad[12].geometry = plain_geometry(0.4, 0);
    bad[13].geometry = plain_geometry(0.5, 0);
    bad[14].type = SPT_THRUST_ROLLER;
    bad[14].geometry.contact_angle_rad = 44.9 * DEG;
    bad[15].geometry.outer_groove_ratio = 0.601;
    bad[16].type = SPT_BEARING_TYPE_COUNT;
    for (int i = 0; i < 17; i++) {
        struct spt_rating rating = {0};
        double f_c = 1.0;
        cr_expect_eq(spt_rating_from_geometry(bad[i].type, &bad[i].geometry, &rating),
                     SPT_BAD_ARGUMENT, "case %d", i);
        cr_expect(isnan(rating.dynamic_load_rating_n) && isnan(rating.static_load_rating_n));
        cr_expect_eq(spt_rating_fc(bad[i].type, &bad[i].geometry, &f_c), SPT_BAD_ARGUMENT);
        cr_expect(isnan(f_c));
    }
    struct spt_geometry roller = plain_geometry(0.2, 10);
    double f_0 = 1.0;
    cr_expect_eq(spt_rating_f0(SPT_TAPERED_ROLLER, &roller, &f_0), SPT_BAD_ARGUMENT);
    cr_expect(isnan(f_0));
    cr_expect(isnan(spt_rating_bm(SPT_BEARING_TYPE_COUNT)));
}

/* C0/22 and C0/8.2 with (100/D_pw)^0.5 and ^0.3: ISO 281:2007 Annex B, from memory but for 22 */
Test(rating, fatigue_limit_falls_above_100_mm)
{
    static const struct {
        enum spt_bearing_type type;
        double c0, pitch, c_u;
    } rows[] = {
        {SPT_DEEP_GROOVE_BALL, 22000, 80, 1000.0}, {SPT_DEEP_GROOVE_BALL, 22000, 100, 1000.0},
        {SPT_THRUST_BALL, 22000, 160, 790.569},    {SPT_TAPERED_ROLLER, 82000, 99, 10000.0},
        {SPT_THRUST_ROLLER, 82000, 160, 8684.9},
    };
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        double c_u;
        cr_assert_eq(spt_rating_fatigue_limit(rows[i].type, rows[i].c0, rows[i].pitch, &c_u),
                     SPT_OK);
        cr_expect(near(c_u, rows[i].c_u, 1e-5, 0), "row %zu: %.4f", i, c_u);
    }
    const double bad[] = {0.0, -1.0, none, (double)INFINITY};
    for (int i = 0; i < 4; i++) {
        double c_u = 1.0;
        cr_expect_eq(spt_rating_fatigue_limit(SPT_TAPERED_ROLLER, bad[i], 80, &c_u),
                     SPT_BAD_ARGUMENT);
        cr_expect(isnan(c_u));
        cr_expect_eq(spt_rating_fatigue_limit(SPT_TAPERED_ROLLER, 80, bad[i], &c_u),
                     SPT_BAD_ARGUMENT);
    }
}

Test(rating, temperature_factor_is_linear_between_rows_and_ends_at_300)
{
    double factor;
    cr_assert_eq(spt_rating_temperature_factor(-40.0, &factor), SPT_OK);
    cr_expect_eq(factor, 1.0);
    cr_assert_eq(spt_rating_temperature_factor(162.5, &factor), SPT_OK);
    cr_expect(near(factor, 0.975, 1e-13, 0));
    cr_assert_eq(spt_rating_temperature_factor(230.0, &factor), SPT_OK);
    cr_expect(near(factor, 0.81, 1e-13, 0));
    cr_expect_eq(spt_rating_temperature_factor(300.1, &factor), SPT_NOT_APPLICABLE);
    cr_expect(isnan(factor));
    cr_expect_eq(spt_rating_temperature_factor(none, &factor), SPT_BAD_ARGUMENT);
    cr_expect(isnan(factor));
}

/* a spherical roller and a self-aligning ball bearing have two rows where none are stated, for the
 * ratings as for the factors of the loads; the others one */
Test(rating, rows_that_are_not_stated_are_those_of_the_type)
{
    const struct {
        enum spt_bearing_type type;
        int rows;
    } rows[] = {{SPT_SPHERICAL_ROLLER, 2},
                {SPT_SELF_ALIGNING_BALL, 2},
                {SPT_DEEP_GROOVE_BALL, 1},
                {SPT_ANGULAR_CONTACT_BALL, 1},
                {SPT_TAPERED_ROLLER, 1}};
    for (int i = 0; i < 5; i++) {
        struct spt_geometry open = plain_geometry(0.15, 12), stated = open;
        stated.rows = rows[i].rows;
        struct spt_rating a = rate(rows[i].type, open), b = rate(rows[i].type, stated);
        cr_expect_eq(a.dynamic_load_rating_n, b.dynamic_load_rating_n, "type %d", i);
        cr_expect_eq(a.static_load_rating_n, b.static_load_rating_n, "type %d", i);
    }
}

Test(rating, one_row_of_spherical_rollers_is_refused_and_of_self_aligning_balls_is_rated)
{
    struct spt_geometry one = plain_geometry(0.15, 12), two = one;
    struct spt_rating rating;
    one.rows = 1;
    two.rows = 2;
    cr_expect_eq(spt_rating_from_geometry(SPT_SPHERICAL_ROLLER, &one, &rating), SPT_BAD_ARGUMENT);
    cr_expect(near(rate(SPT_SELF_ALIGNING_BALL, two).dynamic_load_rating_n,
                   rate(SPT_SELF_ALIGNING_BALL, one).dynamic_load_rating_n * pow(2, 0.7), 1e-13,
                   0));
}
