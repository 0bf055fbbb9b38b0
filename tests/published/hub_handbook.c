/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/hub.h"
#include "support/published.h"

static struct spt_hub_handbook make_pair(double y0, double y1, double induced_factor)
{
    return (struct spt_hub_handbook){
        .rows = {{0, y0, (double)NAN, (double)NAN}, {100, y1, (double)NAN, (double)NAN}},
        .mounting = SPT_HUB_BACK_TO_BACK,
        .turning = SPT_HUB_INNER_TURNS,
        .induced_factor = induced_factor,
    };
}

Test(hub_handbook, published_hub_of_two_tapered_bearings)
{
    static const char source[] =
        "Shigley 10e problem 11-43, hub of two tapered bearings: upper 12 kN, lower 25 kN, the "
        "hub pushes 5 kN down on the lower one, K 1.5. Inputs read in the book's problem; "
        "published ratings 35.4 and 17.0 kN from memory: application factor 1.2, x_D = 1.733 "
        "of 90 Mrev, theta 4.48, b 1.5, R 0.9 each.";
    struct spt_hub_handbook pair = make_pair(1.5, 1.5, 0.47);
    struct spt_hub_handbook_result r;
    double radial[2] = {25000, 12000};
    cr_assert_eq(spt_hub_handbook_share(&pair, radial, 5000, &r), SPT_OK);
    cr_expect(agrees(source, "F_iA", 7833, r.induced_n[0], 0.5));
    cr_expect(agrees(source, "F_iB", 3760, r.induced_n[1], 0.5));
    cr_expect(agrees(source, "axial_n 0", 5000 + 3760, r.axial_n[0], 0.5));
    cr_expect(r.equivalent_n[0] == 25000, "23.14 kN by formula, never below F_r");
    cr_expect(r.equivalent_n[1] == 12000, "%g", r.equivalent_n[1]);
    double x_d = 250.0 * 60 * 8 * 5 * 52 * 5 / 90e6;
    double factor = 1.2 * pow(x_d / (4.48 * pow(log(1 / 0.9), 1 / 1.5)), 0.3);
    cr_expect(agrees(source, named("factor * r.equivalent_n[0], C_A %g", factor * 25000), 35400,
                     factor * r.equivalent_n[0], 50));
    cr_expect(agrees(source, named("factor * r.equivalent_n[1], C_B %g", factor * 12000), 17000,
                     factor * r.equivalent_n[1], 50));
}

Test(hub_handbook, published_shaft_with_a_helical_gear)
{
    static const char source[] =
        "Shigley example 11-8 (from memory): shaft with a helical gear, F_t 3980, radial 1770, "
        "thrust 1690 N at r 100 mm, gear 100 mm from A and 50 mm from B, K 1.5. Tolerances: "
        "the printed numbers carry the book's rounding of intermediate values.";
    struct spt_hub_handbook pair = make_pair(1.5, 1.5, 0.47);
    pair.rows[1].load_centre_mm = 150;
    pair.mounting = SPT_HUB_FACE_TO_FACE;
    /* thrust along -z at y = 100 squeezes A at z = 0 in a face-to-face pair */
    struct spt_hub_load load = {.force_x_n = -3980, .force_y_n = -1770, .force_z_n = -1690};
    load.moment_x_nmm = 100 * load.force_z_n - 100 * load.force_y_n;
    load.moment_y_nmm = 100 * load.force_x_n;
    struct spt_hub_handbook_result r;
    cr_assert_eq(spt_hub_handbook_reactions(&pair, &load, &r), SPT_OK);
    cr_expect(agrees(source, "F_rA", 2170, r.radial_n[0], 1));
    cr_expect(agrees(source, "F_rB", 2654, r.radial_n[1], 1));
    cr_expect(agrees(source, "F_iA", 680, r.induced_n[0], 1));
    cr_expect(agrees(source, "F_iB", 832, r.induced_n[1], 1));
    cr_expect(agrees(source, "F_eA", 4651, r.equivalent_n[0], 1));
    cr_expect(agrees_within(source, "F_eB", r.radial_n[1], r.equivalent_n[1], 1e-12));
    /* R = sqrt(0.99) each, the book's 1 - R in place of ln(1/R) */
    double x_b = 4.48 * pow(1 - sqrt(0.99), 1 / 1.5);
    double c_a = r.equivalent_n[0] * pow(2.67 / x_b, 0.3); /* x_D as the book rounds it */
    cr_expect(agrees(source, "C_A", 11486, c_a, 5));
}

Test(hub_handbook, iso_rule_for_either_direction_of_thrust)
{
    static const char source[] =
        "S = F_r/(2 Y), the rule used with ISO 281; inputs of a university tutorial (e 0.46, Y "
        "1.3, F_r 800 and 1000, K_a 650 N), which leaves the direction of K_a open; answers "
        "worked out by hand here.";
    struct spt_hub_handbook pair = make_pair(1.3, 1.3, 0.5);
    struct spt_hub_handbook_result r;
    double radial[2] = {800, 1000};
    pair.rows[0].limit_ratio = pair.rows[1].limit_ratio = 0.46;
    cr_assert_eq(spt_hub_handbook_share(&pair, radial, 650, &r), SPT_OK);
    cr_expect(agrees(source, "induced_n 0", 307.69, r.induced_n[0], 0.005));
    cr_expect(agrees(source, "induced_n 1", 384.62, r.induced_n[1], 0.005));
    cr_expect(agrees(source, "axial_n 0", 1034.62, r.axial_n[0], 0.005));
    cr_expect(agrees(source, "axial_n 1", 384.62, r.axial_n[1], 0.005));
    cr_expect(agrees(source, "equivalent_n 0", 1665.0, r.equivalent_n[0], 0.05));
    cr_expect(agrees(source, "equivalent_n 1", 1000, r.equivalent_n[1], 0.005));
    cr_assert_eq(spt_hub_handbook_share(&pair, radial, -650, &r), SPT_OK);
    cr_expect(agrees(source, "axial_n 0", 307.69, r.axial_n[0], 0.005));
    cr_expect(agrees(source, "axial_n 1", 957.69, r.axial_n[1], 0.005));
    cr_expect(agrees(source, "equivalent_n 0", 800, r.equivalent_n[0], 0.005));
    cr_expect(agrees(source, "equivalent_n 1", 1645.0, r.equivalent_n[1], 0.05));
}
