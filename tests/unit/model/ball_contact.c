/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/hub.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/bearing.h"
#include "spalltime/life.h"
#include "support/near.h"

#define PI 3.14159265358979323846
#define BALLS 720

static struct spt_geometry make_geometry(int balls)
{
    return (struct spt_geometry){.elements = balls,
                                 .rows = 1,
                                 .element_diameter_mm = 9.525,
                                 .pitch_diameter_mm = 46,
                                 .inner_groove_ratio = 0.52,
                                 .outer_groove_ratio = 0.52};
}

/* Ours: worked out once by another program from the same equations. */
Test(ball_contact, stiffness_stays_what_it_was)
{
    struct spt_geometry g = make_geometry(9);
    struct spt_ball_contact c;
    cr_assert_eq(spt_ball_contact(&g, &c), SPT_OK);
    cr_expect(near(c.inner_ratio, 9.36747, 0, 1e-5), "%.7g", c.inner_ratio);
    cr_expect(near(c.outer_ratio, 7.25172, 0, 1e-5), "%.7g", c.outer_ratio);
    cr_expect(near(c.stiffness_n_mm_1_5, 320668.5, 1e-6, 0), "%.8g", c.stiffness_n_mm_1_5);
}

/* Ours: NumPy with the same equations, uneven loads and grooves that differ, so that every constant
 * of the two ring ratings counts. */
Test(ball_contact, life_of_uneven_loads_stays_what_it_was)
{
    static const double loads_n[9] = {0, 120, 560, 1310, 1720, 1280, 530, 95, 0};
    struct spt_geometry g = make_geometry(9);
    double l10r;
    g.element_diameter_mm = 7.938;
    g.contact_angle_rad = 12 * PI / 180;
    g.inner_groove_ratio = 0.515;
    g.outer_groove_ratio = 0.53;
    cr_assert_eq(spt_ball_life(&g, 13500, loads_n, &l10r), SPT_OK);
    cr_expect(near(l10r, 49.71844809, 1e-9, 0), "%.10g", l10r);
}

/* Half the balls loaded, d = d_max cos phi: Q_max = 4.37 F_r/Z (textbook), and the reference life
 * is the L10 of ISO 281 within 1.5 %, since the lamina method was made from it (derived). */
Test(ball_contact, half_zone_gives_the_load_factor_and_the_life_of_iso_281)
{
    static double loads[BALLS];
    struct spt_geometry g = make_geometry(BALLS);
    struct spt_ball_contact c;
    struct spt_rating rating;
    cr_assert_eq(spt_ball_contact(&g, &c), SPT_OK);
    cr_assert_eq(spt_rating_from_geometry(SPT_DEEP_GROOVE_BALL, &g, &rating), SPT_OK);
    double radial = 0, highest = 0;
    for (int j = 0; j < BALLS; j++) {
        double cosine = cos(2 * PI * j / BALLS);
        loads[j] = cosine > 0 ? c.stiffness_n_mm_1_5 * pow(0.002385 * cosine, 1.5) : 0;
        radial += loads[j] * cosine;
        highest = fmax(highest, loads[j]);
    }
    cr_expect(near(highest * BALLS / radial, 4.37, 0, 0.005), "%g", highest * BALLS / radial);
    double l10r, l10;
    cr_assert_eq(spt_ball_life(&g, rating.dynamic_load_rating_n, loads, &l10r), SPT_OK);
    cr_assert_eq(spt_life_basic(SPT_DEEP_GROOVE_BALL, rating.dynamic_load_rating_n, radial, &l10),
                 SPT_OK);
    cr_expect(near(l10r / l10, 1, 0, 0.015), "L10r/L10 %g", l10r / l10);
}

Test(ball_contact, bad_input_is_refused)
{
    struct spt_geometry g = make_geometry(9);
    struct spt_ball_contact c;
    double life, loads[9] = {100, 0, 0, 0, -1, 0, 0, 0, 0};
    cr_expect_eq(spt_ball_life(&g, 20000, loads, &life), SPT_BAD_ARGUMENT);
    cr_expect(isnan(life));
    loads[0] = loads[4] = 0;
    cr_expect_eq(spt_ball_life(&g, 20000, loads, &life), SPT_OK);
    cr_expect(isinf(life), "nothing loaded");
    g.inner_groove_ratio = 0.5;
    cr_expect_eq(spt_ball_contact(&g, &c), SPT_BAD_ARGUMENT);
    cr_expect(isnan(c.stiffness_n_mm_1_5));
}
