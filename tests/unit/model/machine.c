/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/statistics.h"
#include "support/machine_example.h"
#include "support/near.h"

/* Values with six digits or more in this file were computed by an independent program from the
 * formulas as they are cited in machine.h, unless a closed form is named. */

#define EXPECT(got, want, part)                                                                    \
    cr_expect(near(got, want, part, 0), #got " is %.10g, not %.10g", (double)(got), (double)(want))

/* 11 kW at 310 rpm */
static double example_torque_nm(void)
{
    return 11e3 / (310 * 3.14159265358979323846 / 30);
}

static struct spt_part example_gear(void)
{
    struct spt_part gear = bare_part(SPT_PART_GEAR, 90);
    gear.diameter_mm = 240;
    gear.pressure_rad = 20 * DEG;
    gear.helix_rad = 12 * DEG;
    gear.hand = 1;
    gear.towards_rad = clock_rad(110);
    return gear;
}

static struct spt_part example_belt(void)
{
    struct spt_part belt = bare_part(SPT_PART_BELT, 260);
    belt.diameter_mm = 180;
    belt.friction = 0.5;
    belt.wrap_rad = 160 * DEG;
    belt.plus_rad = clock_rad(-30); /* the pulley takes torque: the tight strand turns it back */
    belt.minus_rad = clock_rad(-10);
    return belt;
}

static struct spt_part example_weight(void)
{
    struct spt_part weight = bare_part(SPT_PART_WEIGHT, 90);
    weight.mass_kg = 28;
    return weight;
}

Test(machine_model, gear_and_belt_of_a_gearbox_shaft)
{
    struct spt_part_load load;
    struct spt_part gear = example_gear(), belt = example_belt();
    struct spt_part_state driven = with_torque(example_torque_nm(), 1);
    struct spt_part_state drives = with_torque(-example_torque_nm(), 1);
    cr_assert_eq(spt_part_load(&gear, &driven, &load), SPT_OK);
    EXPECT(load.force_n[0], 1953.112, 1e-6);
    EXPECT(load.force_n[1], -2294.062, 1e-6);
    EXPECT(load.force_n[2], -600.200, 1e-6);
    cr_assert_eq(spt_part_load(&belt, &drives, &load), SPT_OK);
    EXPECT(load.tight_n, 5003.40, 1e-6);
    EXPECT(load.slack_n, 1238.44, 1e-5);
    EXPECT(load.force_n[0], 1488.052, 1e-6);
    EXPECT(load.force_n[1], 5999.906, 1e-6);
    EXPECT(load.wrap_rad / DEG, 160, 1e-12);
    /* at half the torque the sum of the strands stays */
    drives.torque_nmm /= 2;
    cr_assert_eq(spt_part_load(&belt, &drives, &load), SPT_OK);
    EXPECT(load.tight_n, 4062.16, 1e-6);
    EXPECT(load.slack_n, 2179.68, 1e-6);
    EXPECT(hypot(load.force_n[0], load.force_n[1]), 6155.70, 1e-6);
}

struct pair_row {
    bool face;
    double centres[2], radial[2], axial[2];
};

Test(machine_model, adjusted_pair_back_to_back_and_face_to_face)
{
    static const struct pair_row rows[] = {
        {false, {-6.5, 186.5}, {3524.66, 7377.15}, {1705.16, 2305.36}},
        {true, {6.5, 173.5}, {4288.31, 8180.92}, {3156.74, 2556.54}}};
    struct spt_bearing row = tapered_example();
    const struct spt_bearing *const bearings[] = {&row, &row};
    struct spt_part parts[] = {example_gear(), example_belt(), example_weight()};
    struct spt_part_load loads[3];
    const double torques[] = {example_torque_nm(), -example_torque_nm(), 0};
    for (int i = 0; i < 3; i++) {
        struct spt_part_state state = with_torque(torques[i], 1);
        cr_assert_eq(spt_part_load(&parts[i], &state, &loads[i]), SPT_OK);
    }
    for (int i = 0; i < 2; i++) {
        struct spt_support supports[2];
        struct spt_support_load out[2];
        struct spt_shaft_balance balance;
        for (int k = 0; k < 2; k++) {
            double stops = (k == 0) == !rows[i].face ? 1 : -1;
            bool estimated;
            supports[k] = (struct spt_support){
                .name = "s", .at_mm = 180 * k, .stiffness_n_mm = (double)INFINITY};
            supports[k].locating = stops > 0 ? SPT_LOCATES_RIGHT : SPT_LOCATES_LEFT;
            supports[k].centre_mm = spt_load_centre(&row, 180 * k, stops, 20, &estimated);
            EXPECT(supports[k].centre_mm, rows[i].centres[k], 1e-12);
            cr_expect(!estimated);
        }
        const struct spt_machine_shaft shaft = {.support_count = 2,
                                                .supports = supports,
                                                .bearings = bearings,
                                                .part_count = 3,
                                                .parts = parts};
        cr_assert_eq(spt_shaft_reactions(&shaft, loads, out, &balance), SPT_OK);
        for (int k = 0; k < 2; k++)
            out[k].radial_n = hypot(out[k].x_n, out[k].y_n);
        cr_assert_eq(spt_shaft_thrust(&shaft, balance.force_n[2], out), SPT_OK);
        for (int k = 0; k < 2; k++) {
            EXPECT(out[k].radial_n, rows[i].radial[k], 2e-6);
            EXPECT(out[k].axial_n, rows[i].axial[k], 4e-6);
        }
        EXPECT(fabs(out[0].axial_n - out[1].axial_n), 600.200, 1e-6);
        cr_expect_lt(balance.force_error, 1e-12);
        cr_expect_lt(balance.moment_error, 1e-12);
    }
}

Test(machine_model, pair_of_angular_contact_balls)
{
    struct spt_bearing row = tapered_example();
    row.type = SPT_ANGULAR_CONTACT_BALL;
    row.limit_ratio = row.axial_factor = (double)NAN;
    row.contact_angle_rad = 40 * DEG;
    const struct spt_bearing *const bearings[] = {&row, &row};
    const double axial[2][2] = {{5850, 2850}, {4560, 7560}};
    for (int face = 0; face < 2; face++) {
        struct spt_support supports[2] = {
            {.locating = face ? SPT_LOCATES_LEFT : SPT_LOCATES_RIGHT},
            {.locating = face ? SPT_LOCATES_RIGHT : SPT_LOCATES_LEFT}};
        const struct spt_machine_shaft shaft = {
            .support_count = 2, .supports = supports, .bearings = bearings};
        struct spt_support_load out[2] = {{.radial_n = 4000}, {.radial_n = 2500}};
        cr_assert_eq(spt_shaft_thrust(&shaft, 3000, out), SPT_OK);
        for (int k = 0; k < 2; k++)
            EXPECT(out[k].axial_n, axial[face][k], 1e-12);
    }
}

struct mean_row {
    double part, balls, rollers;
};

Test(machine_model, mean_of_a_standing_and_a_turning_load)
{
    static const struct mean_row rows[] = {{0, 1, 1},
                                           {0.1, .908264, .909163},
                                           {0.2, .836002, .839617},
                                           {0.3, .786430, .793791},
                                           {0.4, .759482, .769904},
                                           {0.5, .751501, .762979},
                                           {0.7, .786430, .793791}};
    double mean;
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        cr_assert_eq(spt_radial_mean(1 - rows[i].part, rows[i].part, 3, &mean), SPT_OK);
        EXPECT(mean, rows[i].balls, 1e-6);
        cr_assert_eq(spt_radial_mean(1 - rows[i].part, rows[i].part, 10.0 / 3, &mean), SPT_OK);
        EXPECT(mean, rows[i].rollers, 1e-6);
    }
    cr_assert_eq(spt_radial_mean(1, 1, 3, &mean), SPT_OK);
    EXPECT(mean, cbrt(32 / (3 * 3.14159265358979323846)), 1e-12); /* closed form */
    cr_expect_eq(spt_radial_mean(-1, 1, 3, &mean), SPT_BAD_ARGUMENT);
}

static struct spt_support rigid_at(double at)
{
    return (struct spt_support){
        .name = "s", .at_mm = at, .centre_mm = at, .stiffness_n_mm = (double)INFINITY};
}

Test(machine_model, beams_with_closed_forms)
{
    const double ei = 206e3 * 3.14159265358979323846 / 64 * pow(60, 4);
    const struct spt_piece piece = {2000, 60, 0};
    struct spt_support supports[3] = {rigid_at(0), rigid_at(600), rigid_at(1200)};
    struct spt_machine_shaft shaft = {.support_count = 2,
                                      .supports = supports,
                                      .piece_count = 1,
                                      .pieces = &piece,
                                      .start_mm = -500};
    double reactions[3], slopes[3];
    const struct spt_beam_load middle = {300, -1000, 0};
    cr_assert_eq(spt_beam(&shaft, &middle, 1, 0, reactions, slopes), SPT_OK);
    EXPECT(reactions[0], 500, 1e-12);
    EXPECT(slopes[0], -1000 * 600.0 * 600 / (16 * ei), 1e-10);
    EXPECT(slopes[1], 1000 * 600.0 * 600 / (16 * ei), 1e-10);
    const struct spt_beam_load end = {850, -1000, 0}; /* overhang of 250 mm */
    cr_assert_eq(spt_beam(&shaft, &end, 1, 1, reactions, slopes), SPT_OK);
    EXPECT(slopes[0], 1000 * 250.0 * 600 / (6 * ei), 1e-10);
    EXPECT(slopes[1], -1000 * 250.0 * 600 / (3 * ei), 1e-10);
    shaft.support_count = 3; /* two equal spans, load in the middle of the first */
    cr_assert_eq(spt_beam(&shaft, &middle, 1, 0, reactions, slopes), SPT_OK);
    EXPECT(reactions[0], 1000 * 13.0 / 32, 1e-10);
    EXPECT(reactions[1], 1000 * 22.0 / 32, 1e-10);
    EXPECT(reactions[2], -1000 * 3.0 / 32, 1e-10);
}

Test(machine_model, shaft_on_three_supports_and_a_seat_out_of_line)
{
    const struct spt_piece piece = {900, 60, 0};
    struct spt_support supports[3] = {rigid_at(0), rigid_at(400), rigid_at(700)};
    struct spt_machine_shaft shaft = {.support_count = 3,
                                      .supports = supports,
                                      .piece_count = 1,
                                      .pieces = &piece,
                                      .start_mm = 0};
    const struct spt_beam_load loads[] = {{150, -4000, 0}, {850, -2500, 0}};
    double reactions[3], slopes[3];
    cr_assert_eq(spt_beam(&shaft, loads, 2, 1, reactions, slopes), SPT_OK);
    const double want[] = {2332.589, 640.625, 3526.786}, tilts[] = {-.275927, .194171, -.311696};
    for (int i = 0; i < 3; i++) {
        EXPECT(reactions[i], want[i], 1e-6);
        EXPECT(slopes[i] * 1e3, tilts[i], 1e-5);
    }
    supports[1].offset_mm[1] = 0.01;
    cr_assert_eq(spt_beam(&shaft, loads, 2, 1, reactions, slopes), SPT_OK);
    const double moved[] = {-81.907, 191.117, -109.210};
    for (int i = 0; i < 3; i++)
        EXPECT(reactions[i] - want[i], moved[i], 2e-5);
    shaft.piece_count = 0;
    cr_expect_eq(spt_beam(&shaft, loads, 2, 1, reactions, slopes), SPT_NOT_APPLICABLE);
}

Test(machine_model, drum_of_a_conveyor)
{
    struct spt_part drum = bare_part(SPT_PART_DRUM, 650);
    struct spt_part_load load;
    drum.diameter_mm = 500;
    drum.friction = 0.3;
    drum.wrap_rad = 200 * DEG;
    drum.tensioner = SPT_TENSIONER_WEIGHT;
    drum.mass_kg = 420;
    /* counterclockwise, it takes torque from the shaft: about +z */
    drum.plus_rad = clock_rad(90);
    drum.minus_rad = clock_rad(70);
    const struct spt_part_state state = {11250 * 250, 11250 * 250, -1, 61.1155, 0};
    cr_assert_eq(spt_part_load(&drum, &state, &load), SPT_OK);
    EXPECT(load.tight_n, 17332.2, 1e-5);
    EXPECT(load.slack_n, 6082.22, 1e-5);
    EXPECT(load.wrap_rad / DEG, 200, 1e-12);
    EXPECT(hypot(load.force_n[0], load.force_n[1] + 420 * 9.80665), 23141.3 * 1, 0.2);
}

Test(machine_model, fan_with_unbalance)
{
    struct spt_part wheel = bare_part(SPT_PART_IMPELLER, -180);
    struct spt_part shaft_weight = bare_part(SPT_PART_WEIGHT, 210);
    struct spt_part belt = bare_part(SPT_PART_BELT, 530);
    double torque = 15e3 / (1450 * 3.14159265358979323846 / 30);
    wheel.mass_kg = 85;
    wheel.balance_m_s = 6.3e-3;
    shaft_weight.mass_kg = 22;
    belt.diameter_mm = 250;
    belt.pull_factor = 2;
    belt.towards_rad = clock_rad(-90);
    const struct spt_part *const parts[] = {&wheel, &shaft_weight, &belt};
    const double torques[] = {torque, 0, -torque};
    struct spt_part_load loads[3];
    for (int i = 0; i < 3; i++) {
        struct spt_part_state state = with_torque(torques[i], 1);
        state.speed_rpm = 1450;
        cr_assert_eq(spt_part_load(parts[i], &state, &loads[i]), SPT_OK);
    }
    EXPECT(loads[0].turning_n, 81.3123, 1e-6);
    struct spt_support supports[2] = {rigid_at(0), rigid_at(420)};
    const struct spt_machine_shaft shaft = {
        .support_count = 2, .supports = supports, .part_count = 3};
    struct spt_support_load out[2];
    struct spt_shaft_balance balance;
    cr_assert_eq(spt_shaft_reactions(&shaft, loads, out, &balance), SPT_OK);
    EXPECT(hypot(out[0].x_n, out[0].y_n), 1363.06, 1e-5);
    EXPECT(hypot(out[1].x_n, out[1].y_n), 2010.06, 1e-5);
    EXPECT(out[0].turning_n, 116.160, 1e-5);
    EXPECT(out[1].turning_n, 34.8481, 1e-5);
    double mean;
    cr_assert_eq(spt_radial_mean(1363.06, 116.160, 10.0 / 3, &mean), SPT_OK);
    EXPECT(mean, 1371.26, 1e-5);
}

Test(machine_model, worm_that_is_driven_by_its_wheel)
{
    struct spt_worm_forces mesh;
    const double pull = 1777.778;
    cr_assert_eq(spt_worm_forces(20 * DEG, 6 * DEG, 0.05, false, pull, &mesh), SPT_OK);
    EXPECT(mesh.worm_tangential_n, 283.028, 1e-5);
    EXPECT(mesh.radial_n, 654.281, 1e-5);
    cr_assert_eq(spt_worm_forces(20 * DEG, 6 * DEG, 0.05, true, pull, &mesh), SPT_OK);
    EXPECT(mesh.worm_tangential_n, 91.7453, 1e-5);
    EXPECT(mesh.radial_n, 647.004, 1e-5);
    cr_assert_eq(spt_worm_forces(20 * DEG, 6 * DEG, 0.15, true, pull, &mesh), SPT_OK);
    EXPECT(mesh.worm_tangential_n, -95.3294, 1e-5);
    cr_expect_lt(mesh.efficiency, 0, "self-locking");
    cr_assert_eq(
        spt_worm_forces(20 * DEG, 6 * DEG, cos(20 * DEG) * tan(6 * DEG), true, pull, &mesh),
        SPT_OK);
    cr_expect_lt(fabs(mesh.worm_tangential_n), 1e-9, "locks at mu = cos(alpha_n) tan(lead)");
}

Test(machine_model, drive_that_hangs_on_the_shaft)
{
    struct spt_part drive = bare_part(SPT_PART_DRIVE, 0);
    struct spt_part_load load;
    drive.lever_mm = 600;
    drive.towards_rad = clock_rad(90);
    struct spt_part_state state = with_torque(900, 1);
    cr_assert_eq(spt_part_load(&drive, &state, &load), SPT_OK);
    EXPECT(load.force_n[1], -1500, 1e-12);
    cr_expect_lt(fabs(load.force_n[0]), 1e-9);
}

Test(machine_model, shares_of_the_risk)
{
    const double lives[] = {18000, 26000, 30000, 90000};
    double shares[4];
    spt_survival_shares(lives, 4, 90, shares);
    const double want[] = {.49538, .26951, .21115, .02396};
    EXPECT(spt_survival_series(lives, 4, 90), 11605.84, 1e-6);
    for (int i = 0; i < 4; i++)
        EXPECT(shares[i], want[i], 3e-4);
    const double with_endless[] = {18000, (double)INFINITY};
    spt_survival_shares(with_endless, 2, 90, shares);
    EXPECT(shares[0], 1, 1e-12);
    cr_expect_eq(shares[1], 0);
    const double same[] = {1000, 1000};
    spt_survival_shares(same, 2, 99, shares);
    EXPECT(shares[0], 0.5, 1e-12);
}

Test(machine_model, supports_that_do_not_locate)
{
    int support;
    struct spt_support supports[2] = {{.locating = SPT_LOCATES_BOTH},
                                      {.locating = SPT_LOCATES_BOTH}};
    const struct spt_bearing row = tapered_example();
    const struct spt_bearing *const bearings[] = {&row, &row};
    struct spt_machine_shaft shaft = {
        .support_count = 2, .supports = supports, .bearings = bearings};
    cr_expect_eq(spt_shaft_located(&shaft, &support), SPT_THRUST_OVER_LOCATED);
    cr_expect_eq(support, 1);
    supports[1].locating = SPT_LOCATES_NONE;
    cr_expect_eq(spt_shaft_located(&shaft, &support), SPT_THRUST_FINE);
    supports[0].locating = SPT_LOCATES_RIGHT;
    struct spt_support_load out[2] = {{.radial_n = 1000}, {.radial_n = 1000}};
    cr_expect_eq(spt_shaft_thrust(&shaft, -500, out), SPT_CANNOT_CARRY);
    cr_expect_eq(spt_shaft_thrust(&shaft, 500, out), SPT_OK);
    EXPECT(out[0].axial_n, 500, 1e-12);
}
