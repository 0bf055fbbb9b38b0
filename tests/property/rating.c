/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/bearing.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/plain.h"

static struct spt_rating rate(enum spt_bearing_type type, struct spt_geometry geometry)
{
    struct spt_rating rating;
    cr_assert_eq(spt_rating_from_geometry(type, &geometry, &rating), SPT_OK);
    return rating;
}

/* 3.647 = 25.4^0.4 to its digits */
Test(rating_property, the_two_ball_size_laws_meet_at_25_4_mm)
{
    struct spt_geometry below = plain_geometry(0.254, 0), above = below;
    below.element_diameter_mm = 25.4;
    above.element_diameter_mm = 25.4 * (1 + 1e-9);
    double a = rate(SPT_DEEP_GROOVE_BALL, below).dynamic_load_rating_n;
    double b = rate(SPT_DEEP_GROOVE_BALL, above).dynamic_load_rating_n;
    cr_expect(near(a, b, 1e-5, 0), "%.9g %.9g", a, b);
}

/* (cos a)^0.7 tan a gamma^0.3 -> (D/D_pw)^0.3 sin a as a -> 90 degrees */
Test(rating_property, thrust_ratings_are_continuous_at_90_degrees)
{
    const enum spt_bearing_type types[] = {SPT_THRUST_BALL, SPT_THRUST_ROLLER};
    for (int i = 0; i < 2; i++) {
        struct spt_geometry square = plain_geometry(0.13, 90), close = square;
        close.contact_angle_rad = (90 - 1e-5) * DEG;
        struct spt_rating a = rate(types[i], square), b = rate(types[i], close);
        cr_expect(near(a.dynamic_load_rating_n, b.dynamic_load_rating_n, 1e-6, 0));
        cr_expect(near(a.static_load_rating_n, b.static_load_rating_n, 1e-6, 0));
    }
}

/* C ~ size^1.8 for small balls, size^(7/9 + 29/27) for rollers; C0 ~ size^2 */
Test(rating_property, ratings_scale_with_size)
{
    const double k = 1.37;
    struct spt_geometry small = plain_geometry(0.11, 0), large = small;
    large.element_diameter_mm *= k;
    large.element_length_mm *= k;
    large.pitch_diameter_mm *= k;
    struct spt_rating a = rate(SPT_DEEP_GROOVE_BALL, small), b = rate(SPT_DEEP_GROOVE_BALL, large);
    cr_expect(near(b.dynamic_load_rating_n / a.dynamic_load_rating_n, pow(k, 1.8), 1e-12, 0));
    cr_expect(near(b.static_load_rating_n / a.static_load_rating_n, k * k, 1e-12, 0));
    a = rate(SPT_CYLINDRICAL_ROLLER, small);
    b = rate(SPT_CYLINDRICAL_ROLLER, large);
    cr_expect(
        near(b.dynamic_load_rating_n / a.dynamic_load_rating_n, pow(k, 50.0 / 27.0), 1e-12, 0));
    cr_expect(near(b.static_load_rating_n / a.static_load_rating_n, k * k, 1e-12, 0));
}

Test(rating_property, ratings_grow_with_elements_and_length)
{
    for (int type = 0; type < SPT_BEARING_TYPE_COUNT; type++) {
        enum spt_bearing_type t = (enum spt_bearing_type)type;
        struct spt_geometry some = plain_geometry(0.14, spt_bearing_is_thrust(t) ? 70 : 0);
        struct spt_geometry more = some, longer = some;
        more.elements = 13;
        longer.element_length_mm = 11.0;
        struct spt_rating a = rate(t, some), b = rate(t, more), c = rate(t, longer);
        double exponent = spt_bearing_is_ball(t) ? 2.0 / 3.0 : 0.75;
        cr_expect(near(b.dynamic_load_rating_n / a.dynamic_load_rating_n, pow(13 / 12.0, exponent),
                       1e-12, 0));
        cr_expect(near(b.static_load_rating_n / a.static_load_rating_n, 13 / 12.0, 1e-12, 0));
        if (!spt_bearing_is_ball(t))
            cr_expect_gt(c.dynamic_load_rating_n, a.dynamic_load_rating_n);
        else
            cr_expect_eq(c.dynamic_load_rating_n, a.dynamic_load_rating_n);
    }
}

/* Hertz: the closer the groove, the more load at one stress */
Test(rating_property, closer_grooves_carry_more)
{
    double last_fc = (double)INFINITY, last_f0 = (double)INFINITY, f_c, f_0;
    for (double r = 0.515; r <= 0.6; r += 0.005) {
        struct spt_geometry geometry = plain_geometry(0.2, 0);
        geometry.inner_groove_ratio = geometry.outer_groove_ratio = r;
        cr_assert_eq(spt_rating_fc(SPT_DEEP_GROOVE_BALL, &geometry, &f_c), SPT_OK);
        cr_assert_eq(spt_rating_f0(SPT_DEEP_GROOVE_BALL, &geometry, &f_0), SPT_OK);
        cr_expect(f_c < last_fc && f_0 < last_f0, "r %g", r);
        last_fc = f_c;
        last_f0 = f_0;
    }
}

Test(rating_property, temperature_factor_never_rises)
{
    double last = 1.0, factor;
    for (double t = 0.0; t <= 300.0; t += 1.7) {
        cr_assert_eq(spt_rating_temperature_factor(t, &factor), SPT_OK);
        cr_expect_leq(factor, last);
        last = factor;
    }
}
