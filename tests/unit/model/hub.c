/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/hub.h"

#include <criterion/criterion.h>
#include <gsl/gsl_multiroots.h>
#include <math.h>

#include "model/batch/lanes.h"
#include "spalltime/life.h"
#include "support/hub_example.h"
#include "support/near.h"

#define PI 3.14159265358979323846

/* One straight row with very many rollers, kept parallel: the integrals of the textbooks. */
static struct spt_hub make_ideal(int row_count)
{
    struct spt_hub hub = example_hub();
    hub.row_count = row_count;
    hub.tilt_locked = true;
    hub.profile_factor = 0;
    hub.rows[1] = hub.rows[0];
    hub.rows[1].position_mm = 60;
    for (int i = 0; i < 2; i++)
        hub.rows[i].geometry.elements = 360;
    return hub;
}

Test(hub_lanes, ninth_root_is_good_to_1e_14)
{
    double worst = 0;
    for (double a = 1e-29; a < 1e10; a *= 1.0137) {
        double got = lanes_sum(lanes_ninth_root(lanes_fill(a))) / SPT_LANES;
        worst = fmax(worst, fabs(got / pow(a, 1.0 / 9.0) - 1));
    }
    cr_expect_lt(worst, 1e-14, "worst relative error %g against pow()", worst);
    cr_expect_eq(lanes_sum(lanes_ninth_root(lanes_fill(0))), 0);
}

Test(hub, load_centres_lie_outside_back_to_back_and_inside_face_to_face)
{
    struct spt_hub hub = example_hub();
    double tangent = tan(15 * PI / 180);
    cr_expect(near(spt_hub_load_centre(&hub, 0), -33 - 52.5 * tangent, 1e-14, 0));
    cr_expect(near(spt_hub_load_centre(&hub, 1), 62 + 40 * tangent, 1e-14, 0));
    hub.mounting = SPT_HUB_FACE_TO_FACE;
    cr_expect(near(spt_hub_load_centre(&hub, 0), -33 + 52.5 * tangent, 1e-14, 0));
    cr_expect(near(spt_hub_load_centre(&hub, 1), 62 - 40 * tangent, 1e-14, 0));
}

/* A wheel load through the load centre of one row is carried by that row alone. */
Test(hub, wheel_load_at_a_load_centre_loads_one_row)
{
    struct spt_hub_handbook pair = {
        .rows = {{-47.1, 1.5, (double)NAN, (double)NAN}, {72.7, 1.5, (double)NAN, (double)NAN}},
        .turning = SPT_HUB_OUTER_TURNS,
        .induced_factor = 0.5};
    struct spt_hub_wheel wheel = {.radial_n = 23850, .offset_mm = 72.7, .rolling_radius_mm = 485};
    struct spt_hub_load load = spt_hub_wheel_load(&wheel);
    struct spt_hub_handbook_result r;
    cr_assert_eq(spt_hub_handbook_reactions(&pair, &load, &r), SPT_OK);
    cr_expect(near(r.radial_n[0], 0, 0, 1e-9) && near(r.radial_n[1], 23850, 1e-12, 0));
    /* a side force at the ground turns the hub: 485/119.8 of it on either row */
    wheel = (struct spt_hub_wheel){.side_n = 7300, .rolling_radius_mm = 485};
    load = spt_hub_wheel_load(&wheel);
    cr_assert_eq(spt_hub_handbook_reactions(&pair, &load, &r), SPT_OK);
    cr_expect(near(r.radial_n[0], 7300 * 485 / 119.8, 1e-12, 0));
    cr_expect(near(r.radial_n[1], 7300 * 485 / 119.8, 1e-12, 0));
    /* pulled outboard, back-to-back: the outboard row takes the thrust */
    cr_expect(near(r.axial_n[1], r.axial_n[0] + 7300, 1e-12, 0));
}

/* Logarithmic profiles of ISO 16281 (from memory): one for short rollers, for long ones a straight
 * middle. The tables hold 2 P(x). */
Test(hub, rollers_have_the_logarithmic_profile_of_their_length)
{
    struct spt_hub hub = example_hub();
    hub.rows[1].geometry.element_length_mm = 46.5; /* over 2.5 times 11.5: straight for 8.875 mm */
    struct spt_hub_model model = example_model(&hub);
    for (int k = 0; k < hub.laminae; k++) {
        double x = (k + 1 - 21) * 22.0 / 41, u = 2 * x / 22;
        cr_expect(near(model.tables[0].x_mm[k], x, 1e-12, 1e-12));
        cr_expect(near(model.tables[0].profile_mm[k], 2 * 0.00035 * 13 * log(1 / (1 - u * u)), 1e-9,
                       1e-15));
        x = (k + 1 - 21) * 46.5 / 41;
        u = fmax(0, (2 * fabs(x) - (46.5 - 28.75)) / 28.75);
        cr_expect(near(model.tables[1].profile_mm[k], 2 * 0.0005 * 11.5 * log(1 / (1 - u * u)),
                       1e-9, 1e-15));
    }
}

/* The hub is pushed up, so the spindle's rings are pressed below: phi near -pi/2. */
Test(hub, load_zone_of_a_wheel_load_lies_below_and_tilt_is_counted_both_ways)
{
    struct spt_hub hub = example_hub();
    hub.tilt_locked = true;
    hub.rows[1].misalignment_x_rad = 3e-4;
    hub.rows[1].misalignment_y_rad = -4e-4;
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = {.force_y_n = 23850};
    struct spt_hub_solution s;
    struct spt_hub_contact contact[2];
    cr_assert_eq(spt_hub_solve(&model, 0.0317, &load, NULL, &s), SPT_OK);
    cr_expect(near(s.direction_rad[0], -PI / 2, 0, 0.2), "%g", s.direction_rad[0]);
    cr_expect(near(s.direction_rad[1], -PI / 2, 0, 0.2), "%g", s.direction_rad[1]);
    spt_hub_contact(&model, &s, 0, &contact[0]);
    spt_hub_contact(&model, &s, 1, &contact[1]);
    cr_expect_eq(contact[0].tilt_rad, 0);
    cr_expect(near(contact[1].tilt_rad, 5e-4, 1e-12, 0));
}

/* By hand: back-to-back, O rings shrink towards each other's cones as the inside grows. */
Test(hub, warmer_inner_ring_takes_play_by_hand_calculation)
{
    struct spt_hub hub = example_hub();
    double cosine = cos(15 * PI / 180), cotangent = 1 / tan(15 * PI / 180);
    double radii = 52.5 + 6.5 * cosine + 40 + 5.75 * cosine, change;
    cr_assert_eq(spt_hub_thermal_setting(&hub, 12e-6, 7.3, &change), SPT_OK);
    cr_expect(near(change, 12e-6 * 7.3 * (95 - radii * cotangent), 1e-12, 0), "%g", change);
    hub.mounting = SPT_HUB_FACE_TO_FACE;
    cr_assert_eq(spt_hub_thermal_setting(&hub, 12e-6, 7.3, &change), SPT_OK);
    cr_expect(near(change, 12e-6 * 7.3 * (-95 - radii * cotangent), 1e-12, 0), "%g", change);
    cr_expect_eq(spt_hub_thermal_setting(&hub, -1e-6, 7.3, &change), SPT_BAD_ARGUMENT);
    cr_expect(isnan(change));
}

/* One row: F_r tan a/F_a = J_r/J_a (Sjoevall, n 10/9) singles out epsilon; Q_max follows from it.
 */
Test(hub, single_ideal_row_meets_the_sjoevall_integrals)
{
    struct spt_hub hub = make_ideal(1);
    struct spt_hub_model model = example_model(&hub);
    double a = hub.rows[0].geometry.contact_angle_rad;
    static const double zones[] = {0.2385, 0.5, 0.7, 0.9, 1.25, 2.5};
    for (size_t i = 0; i < sizeof zones / sizeof *zones; i++) {
        struct spt_sjoevall j;
        cr_assert_eq(spt_sjoevall(zones[i], 10.0 / 9, &j), SPT_OK);
        double radial = 23850, axial = radial * tan(a) * j.axial / j.radial;
        struct spt_hub_load load = {.force_y_n = radial, .force_z_n = -axial};
        struct spt_hub_solution s;
        cr_assert_eq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_OK);
        double along = s.position.z_mm * sin(a), across = hypot(s.position.x_mm, s.position.y_mm);
        double epsilon = 0.5 * (1 + along / (across * cos(a)));
        /* 3e-5: a sum over 360 rollers is no integral */
        cr_expect(near(epsilon, zones[i], 0, 3e-5 * fmax(1, zones[i])), "epsilon %g: %.7g",
                  zones[i], epsilon);
        struct spt_hub_contact contact;
        spt_hub_contact(&model, &s, 0, &contact);
        cr_expect(near(contact.max_roller_load_n, radial / (360 * cos(a) * j.radial), 2e-4, 0));
        double arc = zones[i] >= 1 ? 360 : 2 * acos(1 - 2 * zones[i]) * 180 / PI;
        cr_expect(near(contact.zone_deg, arc, 0.02, 0), "zone %g of %g", contact.zone_deg, arc);
    }
}

/* Two rows at zero end play, parallel, pure radial load: half of each row loaded, Q_max = 4.085
 * F_r/Z of each row (1/J_r at n 10/9; 4.08 in the textbooks, n 1.1). */
Test(hub, zero_clearance_pair_gives_the_known_load_factor)
{
    struct spt_hub hub = make_ideal(2);
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = {.force_y_n = 40000};
    struct spt_hub_solution s;
    struct spt_hub_contact contact;
    cr_assert_eq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_OK);
    spt_hub_contact(&model, &s, 1, &contact);
    double a = hub.rows[0].geometry.contact_angle_rad;
    double factor = contact.max_roller_load_n * 360 * cos(a) / 20000;
    cr_expect(near(factor, 4.08, 0.005, 0), "textbook factor 4.08: %g", factor);
    cr_expect(near(factor, 4.0850, 0, 5e-4), "integral with n 10/9: %g", factor);
    cr_expect(near(contact.zone_deg, 180, 0, 0.5), "%g", contact.zone_deg);
    cr_expect(near(s.axial_n[0], s.axial_n[1], 1e-9, 0));
    cr_expect(near(s.axial_n[0] / (20000 * tan(a)), 1.2580, 0, 2e-4));
}

/* P_d/d_0 = (1/epsilon - 2) [J_r(.5)/J_r(epsilon)]^(1/n) for clearance or interference P_d of a
 * row, d_0 the greatest approach without it (follows from the definition of epsilon). In a parallel
 * pair of equal rows under radial load P_d is E sin alpha along the contact normal. */
Test(hub, setting_moves_the_load_zone_as_the_integrals_say)
{
    struct spt_hub hub = make_ideal(2);
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = {.force_y_n = 40000};
    double a = hub.rows[0].geometry.contact_angle_rad, n = 10.0 / 9;
    struct spt_hub_solution s;
    struct spt_sjoevall half, other;
    cr_assert_eq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_OK);
    double d_0 = fabs(s.position.y_mm) * cos(a);
    cr_assert_eq(spt_sjoevall(0.5, n, &half), SPT_OK);
    for (double epsilon = 0.1385; epsilon < 3; epsilon *= 1.43) {
        cr_assert_eq(spt_sjoevall(epsilon, n, &other), SPT_OK);
        double play = d_0 * (1 / epsilon - 2) * pow(half.radial / other.radial, 1 / n);
        struct spt_hub_contact contact;
        cr_assert_eq(spt_hub_solve(&model, play / sin(a), &load, NULL, &s), SPT_OK);
        spt_hub_contact(&model, &s, 0, &contact);
        double factor = contact.max_roller_load_n * 360 * cos(a) / 20000;
        cr_expect(near(factor, 1 / other.radial, 5e-4, 0), "epsilon %g: %g, 1/J_r %g", epsilon,
                  factor, 1 / other.radial);
    }
}

/* Four rollers in each row under much play, one of each straight in the load: nothing holds the hub
 * sideways. The loads are unique all the same. */
Test(hub, position_that_is_not_unique_is_marked)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_load load = {.force_x_n = 2385};
    struct spt_hub_solution s;
    for (int i = 0; i < 2; i++)
        hub.rows[i].geometry.elements = 4;
    struct spt_hub_model model = example_model(&hub);
    cr_assert_eq(spt_hub_solve(&model, 0.9, &load, NULL, &s), SPT_OK);
    cr_expect(!s.located);
    cr_expect(near(s.radial_n[0] + s.radial_n[1], 2385, 1e-6, 0));
    hub = example_hub();
    model = example_model(&hub);
    load = example_load(0);
    cr_assert_eq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_OK);
    cr_expect(s.located);
}

/* Near zero play the handbook method, which puts each reaction at its load centre and takes Y = 0.4
 * cot alpha, has to come close to the model. */
Test(hub, handbook_method_comes_close_at_zero_play)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_handbook pair = {
        .mounting = hub.mounting, .turning = hub.turning, .induced_factor = 0.5};
    for (int i = 0; i < 2; i++)
        pair.rows[i] =
            (struct spt_hub_handbook_row){spt_hub_load_centre(&hub, i), 0.4 / tan(15 * PI / 180),
                                          (double)NAN, hub.rows[i].dynamic_load_rating_n};
    for (double side = -0.3; side < 0.31; side += 0.1) {
        struct spt_hub_load load = example_load(side);
        struct spt_hub_handbook_result book;
        struct spt_hub_solution s;
        cr_assert_eq(spt_hub_handbook_reactions(&pair, &load, &book), SPT_OK);
        cr_assert_eq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_OK);
        for (int i = 0; i < 2; i++) {
            double scale = book.radial_n[0] + book.radial_n[1];
            cr_expect(near(s.radial_n[i], book.radial_n[i], 0, 0.01 * scale), "side %g: %g %g",
                      side, s.radial_n[i], book.radial_n[i]);
            cr_expect(near(s.axial_n[i], book.axial_n[i], 0.25, 0), "side %g: %g %g", side,
                      s.axial_n[i], book.axial_n[i]);
            cr_expect(book.equivalent_n[i] >= book.radial_n[i] && book.l10_mrev[i] > 0);
        }
    }
}

Test(hub, hessian_meets_finite_differences)
{
    struct spt_hub hub = example_hub();
    hub.rows[0].misalignment_x_rad = 7.3e-4;
    hub.rows[1].misalignment_y_rad = -4.1e-4;
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0.2385);
    struct spt_hub_position at = {0.0113, -0.0231, 0.0171, 5.3e-4, -2.7e-4};
    struct spt_hub_energy here, up, down;
    spt_hub_energy(&model, -0.0317, &load, &at, &here);
    double h = 1e-7, l0 = model.length_mm;
    for (int i = 0; i < SPT_HUB_UNKNOWNS; i++) {
        double step[5] = {0, 0, 0, 0, 0};
        step[i] = h;
        struct spt_hub_position more = {at.x_mm + step[0], at.y_mm + step[1], at.z_mm + step[2],
                                        at.tilt_x_rad + step[3] / l0, at.tilt_y_rad + step[4] / l0};
        struct spt_hub_position less = {at.x_mm - step[0], at.y_mm - step[1], at.z_mm - step[2],
                                        at.tilt_x_rad - step[3] / l0, at.tilt_y_rad - step[4] / l0};
        spt_hub_energy(&model, -0.0317, &load, &more, &up);
        spt_hub_energy(&model, -0.0317, &load, &less, &down);
        double slope = (up.energy_nmm - down.energy_nmm) / (2 * h);
        cr_expect(near(slope, here.gradient_n[i], 1e-6, 0.05), "gradient %d", i);
        for (int j = 0; j < SPT_HUB_UNKNOWNS; j++) {
            double difference = (up.gradient_n[j] - down.gradient_n[j]) / (2 * h);
            double scale = sqrt(here.hessian_n_mm[i][i] * here.hessian_n_mm[j][j]);
            cr_expect(near(here.hessian_n_mm[i][j], difference, 0, 1e-7 * scale), "%d %d: %g", i, j,
                      (here.hessian_n_mm[i][j] - difference) / scale);
        }
    }
}

Test(hub, gradient_is_the_force_balance_in_space)
{
    struct spt_hub hub = example_hub();
    hub.turning = SPT_HUB_INNER_TURNS;
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = {1234, -45000, 7000, 2e6, -3e5};
    struct spt_hub_position at = {0.0113, -0.0231, 0.0171, 5.3e-4, -2.7e-4};
    struct spt_hub_energy energy;
    struct spt_hub_reaction reaction;
    spt_hub_energy(&model, 0.05, &load, &at, &energy);
    spt_hub_reaction(&model, 0.05, &at, &reaction);
    double sums[5] = {reaction.force_n[0] + load.force_x_n, reaction.force_n[1] + load.force_y_n,
                      reaction.force_n[2] + load.force_z_n,
                      (reaction.moment_nmm[0] + load.moment_x_nmm) / model.length_mm,
                      (reaction.moment_nmm[1] + load.moment_y_nmm) / model.length_mm};
    for (int i = 0; i < 5; i++)
        cr_expect(near(-energy.gradient_n[i], sums[i], 0, 1e-7), "%d: %g %g", i,
                  -energy.gradient_n[i], sums[i]);
    cr_expect(near(reaction.moment_nmm[2], 0, 0, 1e-6), "no friction, no torque");
    cr_expect(near(energy.contact_n, reaction.contact_n, 1e-12, 0));
}

Test(hub, free_pair_and_lone_thrust_say_so)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load none = {0, 0, 0, 0, 0};
    struct spt_hub_solution s;
    cr_expect_eq(spt_hub_solve(&model, 0.0317, &none, NULL, &s), SPT_FREE);
    cr_expect_eq(spt_hub_solve(&model, 0, &none, NULL, &s), SPT_FREE);
    cr_expect(isnan(s.position.y_mm) && isnan(s.radial_n[0]));
    cr_expect_eq(spt_hub_solve(&model, -0.0317, &none, NULL, &s), SPT_OK);
    cr_expect(near(s.axial_n[0], s.axial_n[1], 1e-9, 0) && s.axial_n[0] > 100);

    hub.row_count = 1;
    model = example_model(&hub);
    struct spt_hub_load away = {.force_y_n = 1000, .force_z_n = 5000};
    cr_expect_eq(spt_hub_solve(&model, 0, &away, NULL, &s), SPT_CANNOT_CARRY);
    cr_expect(isnan(s.position.z_mm));
    struct spt_hub_load radial = {.force_y_n = 1000};
    cr_expect_eq(spt_hub_solve(&model, 0, &radial, NULL, &s), SPT_CANNOT_CARRY);
}

/* A cage turned by a whole pitch is where it was; by half a pitch it is elsewhere. */
Test(hub, cage_turned_by_a_pitch_changes_nothing)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0.1);
    struct spt_hub_solution before, half, whole;
    cr_assert_eq(spt_hub_solve(&model, 0.31, &load, NULL, &before), SPT_OK);
    spt_hub_turn_cage(&model, 0.5);
    cr_assert_eq(spt_hub_solve(&model, 0.31, &load, NULL, &half), SPT_OK);
    spt_hub_turn_cage(&model, 0.5);
    cr_assert_eq(spt_hub_solve(&model, 0.31, &load, NULL, &whole), SPT_OK);
    cr_expect(near(whole.position.y_mm, before.position.y_mm, 1e-9, 0));
    cr_expect(!near(half.position.y_mm, before.position.y_mm, 1e-5, 0));
}

Test(hub, bad_input_is_refused)
{
    struct spt_hub good = example_hub(), hub = good;
    struct spt_hub_model model;
    static double workspace[EXAMPLE_LENGTH];
    size_t length = spt_hub_workspace_length(&good);
    cr_expect_gt(length, 0);
    cr_expect_eq(spt_hub_prepare(&good, workspace, length - 1, &model), SPT_TOO_SMALL);
    cr_expect_eq(spt_hub_prepare(&good, workspace, length, &model), SPT_OK);
    struct spt_hub_solution s;
    struct spt_hub_load load = example_load((double)NAN);
    cr_expect_eq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_BAD_ARGUMENT);
    load = example_load(0);
    cr_expect_eq(spt_hub_solve(&model, (double)NAN, &load, NULL, &s), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_hub_solve(&model, -10.1, &load, NULL, &s), SPT_BAD_ARGUMENT);
    hub.laminae = 29;
    cr_expect_eq(spt_hub_workspace_length(&hub), 0);
    hub = good;
    hub.rows[1].geometry.contact_angle_rad = (double)NAN;
    cr_expect_eq(spt_hub_prepare(&hub, workspace, length, &model), SPT_BAD_ARGUMENT);
    hub = good;
    hub.rows[1].position_mm = hub.rows[0].position_mm;
    cr_expect_eq(spt_hub_workspace_length(&hub), 0);
    hub = good;
    hub.rows[0].misalignment_y_rad = (double)NAN;
    cr_expect_eq(spt_hub_workspace_length(&hub), 0);
}

Test(hub, setting_for_a_preload_gives_that_preload)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    for (double wanted = 23.85; wanted < 2e5; wanted *= 7.7) {
        double setting, force;
        cr_assert_eq(spt_hub_preload_setting(&model, wanted, &setting), SPT_OK);
        cr_assert_eq(spt_hub_preload_force(&model, setting, &force), SPT_OK);
        cr_expect(setting < 0 && near(force, wanted, 1e-8, 0), "%g N: %g mm, %g N", wanted, setting,
                  force);
    }
    double setting;
    cr_expect_eq(spt_hub_preload_setting(&model, 0, &setting), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_hub_preload_setting(&model, 1e12, &setting), SPT_NOT_APPLICABLE);
    cr_expect(isnan(setting));
}

/* Aligned, half the rollers loaded, no profile, no edge function, inner ring turning: the lamina
 * law has p = 4 and takes 0.83 out of C: L10r = 0.984 (C/(0.83 P))^4 (derived identity; 0.984 comes
 * from the mean loads of J_1, J_2 behind 0.378 and 0.364). */
Test(hub_life, reference_case_has_power_4_and_its_constant)
{
    struct spt_hub hub = example_hub();
    hub.profile_factor = 0;
    hub.edge_function = false;
    hub.turning = SPT_HUB_INNER_TURNS;
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = {.force_y_n = 30000};
    struct spt_hub_solution s;
    struct spt_hub_life life;
    cr_assert_eq(spt_hub_solve(&model, 0.01, &load, NULL, &s), SPT_OK);
    for (int row = 0; row < 2; row++) {
        cr_assert_eq(spt_hub_life(&model, &s, row, NULL, &life), SPT_OK);
        double ratio = hub.rows[row].dynamic_load_rating_n / (0.83 * s.radial_n[row]);
        cr_expect(near(life.half_zone_mrev, 0.984 * pow(ratio, 4), 0.005, 0), "%g",
                  life.half_zone_mrev / pow(ratio, 4));
    }
}

/* A constant a_ISO comes out unchanged: e_C = 0 gives 0.1 for every lamina. */
Test(hub_life, modified_life_with_no_cleanliness_is_a_tenth)
{
    struct spt_hub hub = example_hub();
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = example_load(0.1);
    struct spt_hub_lubrication dirty = {0, 0.7}, thin = {0.5, 0.09}, rich = {0.5, 9},
                               four = {0.5, 4};
    struct spt_hub_solution s;
    struct spt_hub_life life, other;
    cr_assert_eq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_OK);
    cr_assert_eq(spt_hub_life(&model, &s, 0, &dirty, &life), SPT_OK);
    cr_expect(near(life.modified_mrev, 0.1 * life.l10r_mrev, 1e-9, 0));
    cr_assert_eq(spt_hub_life(&model, &s, 0, &thin, &life), SPT_OK);
    cr_expect(isnan(life.modified_mrev) && life.l10r_mrev > 0, "kappa below 0.1: no a_ISO");
    cr_assert_eq(spt_hub_life(&model, &s, 0, &rich, &life), SPT_OK);
    cr_assert_eq(spt_hub_life(&model, &s, 0, &four, &other), SPT_OK);
    cr_expect_eq(life.modified_mrev, other.modified_mrev, "4 used above 4");
    dirty.viscosity_ratio = -0.7;
    cr_expect_eq(spt_hub_life(&model, &s, 0, &dirty, &life), SPT_BAD_ARGUMENT);
    dirty = (struct spt_hub_lubrication){1.2, 0.7};
    cr_expect_eq(spt_hub_life(&model, &s, 0, &dirty, &life), SPT_BAD_ARGUMENT);
    cr_expect(isnan(life.l10r_mrev));
}

/* In the aligned half-zone case the lamina loads of a_ISO stand for P within 0.4 % (derived): so
 * the life factor is the one of ISO 281 at P = F_r. */
Test(hub_life, life_factor_of_the_reference_case_is_that_of_iso_281)
{
    struct spt_hub hub = make_ideal(2);
    hub.edge_function = false;
    hub.turning = SPT_HUB_INNER_TURNS;
    struct spt_hub_model model = example_model(&hub);
    struct spt_hub_load load = {.force_y_n = 2 * 0.1385 * hub.rows[0].dynamic_load_rating_n};
    struct spt_hub_lubrication clean = {0.6, 1.1};
    struct spt_hub_solution s;
    struct spt_hub_life life;
    cr_assert_eq(spt_hub_solve(&model, 0, &load, NULL, &s), SPT_OK);
    cr_assert_eq(spt_hub_life(&model, &s, 0, &clean, &life), SPT_OK);
    double x = 0.6 * hub.rows[0].fatigue_load_limit_n / s.radial_n[0];
    double low = spt_life_factor_value(false, 1.1, x / 1.006);
    double high = spt_life_factor_value(false, 1.1, x / 1.002);
    double got = life.modified_mrev / life.l10r_mrev;
    cr_expect(got > low && got < high, "%g in %g to %g", got, low, high);
    cr_expect(near(life.relative_factor, 1, 1e-3, 0), "K of the reference case: %g",
              life.relative_factor);
}

Test(hub_life, turning_ring_of_a_hub_costs_life_against_a_shaft)
{
    struct spt_hub hub = example_hub();
    double lives[2];
    for (int turning = 0; turning < 2; turning++) {
        hub.turning = turning ? SPT_HUB_INNER_TURNS : SPT_HUB_OUTER_TURNS;
        struct spt_hub_model model = example_model(&hub);
        struct spt_hub_load load = example_load(0);
        if (turning)
            load = (struct spt_hub_load){.force_y_n = -45000};
        struct spt_hub_result r;
        cr_assert_eq(spt_hub_assess(&model, 0, &load, NULL, &r), SPT_OK);
        lives[turning] = r.life[0].l10r_mrev;
    }
    /* 0.91 for gamma 0.12: derived */
    cr_expect(near(lives[0] / lives[1], 0.91, 0, 0.02), "%g", lives[0] / lives[1]);
}

/* ---- GSL's own root finder as a second opinion at the solution ---- */

struct problem {
    struct spt_hub_model model;
    struct spt_hub_load load;
};

static void evaluate(const gsl_vector *x, struct problem *p, struct spt_hub_energy *energy)
{
    double l0 = p->model.length_mm;
    struct spt_hub_position at = {gsl_vector_get(x, 0), gsl_vector_get(x, 1), gsl_vector_get(x, 2),
                                  gsl_vector_get(x, 3) / l0, gsl_vector_get(x, 4) / l0};
    spt_hub_energy(&p->model, 0.0317, &p->load, &at, energy);
}

static int find_force(const gsl_vector *x, void *problem, gsl_vector *f)
{
    struct spt_hub_energy energy;
    evaluate(x, problem, &energy);
    for (size_t i = 0; i < SPT_HUB_UNKNOWNS; i++)
        gsl_vector_set(f, i, energy.gradient_n[i]);
    return GSL_SUCCESS;
}

static int find_slope(const gsl_vector *x, void *problem, gsl_matrix *slope)
{
    struct spt_hub_energy energy;
    evaluate(x, problem, &energy);
    for (size_t i = 0; i < SPT_HUB_UNKNOWNS; i++)
        for (size_t j = 0; j < SPT_HUB_UNKNOWNS; j++)
            gsl_matrix_set(slope, i, j, energy.hessian_n_mm[i][j]);
    return GSL_SUCCESS;
}

static int find_both(const gsl_vector *x, void *problem, gsl_vector *f, gsl_matrix *slope)
{
    find_force(x, problem, f);
    return find_slope(x, problem, slope);
}

Test(hub, gsl_root_finder_agrees_when_started_close)
{
    struct spt_hub hub = example_hub();
    struct problem p = {.model = example_model(&hub), .load = example_load(0.2)};
    struct spt_hub_solution s;
    cr_assert_eq(spt_hub_solve(&p.model, 0.0317, &p.load, NULL, &s), SPT_OK);
    double l0 = p.model.length_mm;
    double found[5] = {s.position.x_mm, s.position.y_mm, s.position.z_mm,
                       s.position.tilt_x_rad * l0, s.position.tilt_y_rad * l0};
    gsl_vector *start = gsl_vector_alloc(SPT_HUB_UNKNOWNS);
    for (size_t i = 0; i < SPT_HUB_UNKNOWNS; i++)
        gsl_vector_set(start, i, found[i] + 1e-3);
    gsl_multiroot_function_fdf system = {find_force, find_slope, find_both, SPT_HUB_UNKNOWNS, &p};
    gsl_multiroot_fdfsolver *solver =
        gsl_multiroot_fdfsolver_alloc(gsl_multiroot_fdfsolver_hybridsj, SPT_HUB_UNKNOWNS);
    gsl_multiroot_fdfsolver_set(solver, &system, start);
    for (int i = 0; i < 100 && gsl_multiroot_test_residual(solver->f, 1e-4) != GSL_SUCCESS; i++)
        cr_assert_eq(gsl_multiroot_fdfsolver_iterate(solver), GSL_SUCCESS);
    for (size_t i = 0; i < SPT_HUB_UNKNOWNS; i++)
        cr_expect(near(gsl_vector_get(solver->x, i), found[i], 0, 1e-9), "unknown %zu", i);
    gsl_multiroot_fdfsolver_free(solver);
    gsl_vector_free(start);
}
