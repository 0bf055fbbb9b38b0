/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>

#include "support/near.h"
#include "support/vehicle_example.h"

/* The values of these tests were computed by an independent program (six equations of a rigid
 * body); none is printed in a published source. */

#define CLOSE(got, want, half) cr_expect(near(got, want, 0, half), "%.8g, not %.8g", got, want)

static struct spt_vehicle_loads solve(const struct spt_vehicle *vehicle,
                                      const struct spt_vehicle_run *run)
{
    struct spt_vehicle_loads loads;
    enum spt_vehicle_problem problem;
    cr_assert_eq(spt_vehicle_load(vehicle, run, &loads, &problem), SPT_OK);
    cr_assert_eq(problem, SPT_VEHICLE_FINE);
    return loads;
}

Test(vehicle, two_axle_trailer_on_its_road)
{
    const struct spt_vehicle trailer = example_vehicle();
    struct spt_vehicle_run run = straight_run(40);
    struct spt_vehicle_loads at = solve(&trailer, &run);
    CLOSE(at.eye_n, 5883.99, 0.005);
    CLOSE(at.group_n, 90221.2, 0.05);
    CLOSE(at.wheels[0].load_n, 22555.29, 0.005);
    cr_expect_eq(at.wheels[3].side_n, 0);
    CLOSE(at.wheels[0].speed_rpm, 2.6526 * 40 / 0.52, 0.01);
    run = bend_run(30, 1, 60);
    at = solve(&trailer, &run);
    CLOSE(at.lateral_g, 0.118023, 5e-7);
    CLOSE(at.tip_g, 0.633, 5e-4);
    CLOSE(at.wheels[0].load_n, 18350.05, 0.005);
    CLOSE(at.wheels[0].side_n, 2165.72, 0.005);
    CLOSE(at.wheels[3].load_n, 26760.54, 0.005);
    CLOSE(at.wheels[3].side_n, -3158.35, 0.005);
    run = bend_run(18, 1, 14);
    at = solve(&trailer, &run);
    CLOSE(at.lateral_g, 0.182092, 5e-7);
    CLOSE(at.wheels[2].load_n, 16067.20, 0.005);
    CLOSE(at.wheels[2].side_n, 2925.71, 0.005);
    CLOSE(at.wheels[1].load_n, 29043.39, 0.005);
    CLOSE(at.wheels[1].side_n, -5288.57, 0.005);
    run = straight_run(40);
    run.without = 2;
    at = solve(&trailer, &run);
    CLOSE(at.wheels[1].load_n, 4310.36, 0.005);
    run.without = 0;
    run.payload_kg = 0; /* the same by another word */
    CLOSE(solve(&trailer, &run).wheels[1].load_n, 4310.36, 0.005);
}

Test(vehicle, braking_by_itself_or_by_the_drawing_vehicle)
{
    const struct spt_vehicle trailer = example_vehicle();
    struct spt_vehicle_run run = straight_run(40);
    run.braking_g = 0.3;
    struct spt_vehicle_loads own = solve(&trailer, &run);
    CLOSE(own.eye_n, 15017.9, 0.05);
    CLOSE(own.group_n, 81087.3, 0.05);
    CLOSE(own.eye_pull_n, 0, 1e-9);
    CLOSE(4 * own.wheels[0].rearward_n, 0.3 * own.weight_n, 1e-6);
    run.own_brakes = 0;
    struct spt_vehicle_loads tow = solve(&trailer, &run);
    CLOSE(tow.eye_n, 12000.6, 0.05);
    CLOSE(tow.group_n, 84104.6, 0.05);
    CLOSE(tow.eye_pull_n, -0.3 * tow.weight_n, 1e-6);
    cr_expect_eq(tow.wheels[0].rearward_n, 0);
}

Test(vehicle, braking_in_a_bend)
{
    const struct spt_vehicle trailer = example_vehicle();
    struct spt_vehicle_run run = bend_run(30, 1, 60);
    run.braking_g = 0.3;
    struct spt_vehicle_loads at = solve(&trailer, &run);
    CLOSE(at.wheels[0].load_n, 16066.58, 0.005);
    CLOSE(at.wheels[1].load_n, 24477.07, 0.005);
    double side_n = 0;
    for (int i = 0; i < 4; i++)
        side_n += at.wheels[i].left ? at.wheels[i].side_n : -at.wheels[i].side_n;
    CLOSE(side_n, 10648.15, 0.005);
    CLOSE(at.eye_side_n, 694.444, 0.0005);
}

Test(vehicle, coupling_plate_holds_against_roll)
{
    struct spt_vehicle semi = {
        .kind = SPT_VEHICLE_SEMI_TRAILER,
        .mass_count = 2,
        .masses = {{"empty", 6500, 6.4, 0, 1.2}, {"load", 20000, 5.8, 0, 2.1}},
        .axle_count = 1,
        .axles = {{NULL, 7.8}},
        .eye_height_m = 1.25,
        .track_m = 2.04,
        .rolling_radius_mm = 500,
        .loaded_radius_mm = 480,
    };
    const struct spt_vehicle_run run = bend_run(60, 1, 120);
    struct spt_vehicle_loads at = solve(&semi, &run);
    CLOSE(at.group_n, 198144.62, 0.005);
    CLOSE(at.eye_n, 61731.60, 0.005);
    CLOSE(at.wheels[0].load_n, 55986.8, 0.05);
    CLOSE(at.wheels[1].load_n, 142157.8, 0.05);
    CLOSE(at.tip_g, 0.542771, 5e-7);
    semi.kind = SPT_VEHICLE_CENTRE_AXLE; /* as if the plate were a ball */
    at = solve(&semi, &run);
    CLOSE(at.wheels[0].load_n, 51492.2, 0.05);
    CLOSE(at.tip_g, 0.491499, 5e-7);
}

Test(vehicle, scrub_of_a_tandem_in_a_roundabout)
{
    struct spt_vehicle trailer = example_vehicle();
    const struct spt_vehicle_run run = bend_run(18, 1, 14);
    trailer.scrub_stiffness = 6;
    struct spt_vehicle_loads at = solve(&trailer, &run);
    /* 6 x 0.68 m / 14 m; the rear axle is drawn towards the middle of the bend */
    for (int i = 0; i < 4; i++) {
        double towards = at.wheels[i].left ? at.wheels[i].scrub_n : -at.wheels[i].scrub_n;
        CLOSE(towards / at.wheels[i].load_n, i < 2 ? -0.2914 : 0.2914, 5e-5);
    }
    cr_expect_gt(fabs(at.wheels[3].side_n), fabs(at.wheels[1].side_n), "rear outer wheel");
    cr_expect_gt(fabs(at.wheels[3].side_n), fabs(at.wheels[2].side_n));
    CLOSE(spt_vehicle_scrub(&trailer, 14), 0.2914, 5e-5);
    trailer.grip = 0.2;
    at = solve(&trailer, &run);
    CLOSE(at.wheels[2].scrub_n, 0.2 * at.wheels[2].load_n, 1e-9);
}

Test(vehicle, steered_front_axle_carries_what_the_eye_would)
{
    struct spt_vehicle wagon = example_vehicle();
    wagon.kind = SPT_VEHICLE_DRAWBAR;
    wagon.axles[0].behind_m = 2;
    wagon.axles[1].behind_m = 6;
    struct spt_vehicle_run run = bend_run(30, -1, 60);
    struct spt_vehicle_loads at = solve(&wagon, &run);
    cr_expect_eq(at.eye_n, 0);
    CLOSE(at.group_n, at.weight_n * (at.centre_m - 2) / 4, 1e-9);
    CLOSE(at.front_n + at.group_n, at.weight_n, 1e-9);
    CLOSE(at.wheels[0].side_n, at.lateral_g * at.wheels[0].load_n, 1e-9);
    run = straight_run(30);
    run.braking_g = 0.3;
    CLOSE(solve(&wagon, &run).front_n, at.front_n + 0.3 * at.lift_nm / 4, 1e-6);
    run.own_brakes = 0; /* pushed at the pivot: part of the pitch goes */
    CLOSE(solve(&wagon, &run).front_n, at.front_n + 0.3 * (at.lift_nm - at.weight_n * 0.45) / 4,
          1e-6);
}

Test(vehicle, drag_goes_from_the_group_to_the_eye)
{
    const struct spt_vehicle trailer = example_vehicle();
    struct spt_vehicle_run run = straight_run(10);
    run.drag_n = 8000;
    struct spt_vehicle_loads at = solve(&trailer, &run);
    CLOSE(at.still_group_n - at.group_n, 8000 * 0.45 / 4.3, 1e-9);
    CLOSE(at.eye_pull_n, 8000, 1e-9);
}

Test(vehicle, camber_surface_and_bank)
{
    struct spt_vehicle trailer = example_vehicle();
    struct spt_vehicle_run run = bend_run(30, 1, 60);
    struct spt_vehicle_loads flat = solve(&trailer, &run);
    run.surface_factor = 1.15;
    trailer.camber_rad = 0.03;
    struct spt_vehicle_loads at = solve(&trailer, &run);
    double n = flat.wheels[1].load_n, s = flat.wheels[1].side_n;
    CLOSE(at.wheels[1].hub.radial_n, 1.15 * (n * cos(0.03) + s * sin(0.03)), 1e-8);
    CLOSE(at.wheels[1].hub.side_n, 1.15 * (s * cos(0.03) - n * sin(0.03)), 1e-8);
    run.bank = 0.118023; /* a bank that takes the whole bend */
    CLOSE(solve(&trailer, &run).lateral_g, 0, 1e-6);
}

Test(vehicle, caliper_pushes_against_the_spin_at_its_place)
{
    struct spt_vehicle trailer = example_vehicle();
    struct spt_vehicle_run run = straight_run(40);
    run.braking_g = 0.3;
    double fx = solve(&trailer, &run).wheels[0].rearward_n;
    trailer.disc_radius_mm = 200;
    trailer.disc_offset_mm = -60;
    trailer.caliper_rad = 0; /* on top, where the disc moves forwards: pushed backwards */
    struct spt_hub_wheel top = solve(&trailer, &run).wheels[0].hub;
    CLOSE(top.pad_rearward_n, fx * 520 / 200, 1e-9);
    CLOSE(top.pad_up_n, 0, 1e-9);
    trailer.caliper_rad = -acos(0); /* behind, where the disc moves up: pushed down */
    struct spt_hub_wheel behind = solve(&trailer, &run).wheels[0].hub;
    CLOSE(behind.pad_up_n, -fx * 520 / 200, 1e-9);
    struct spt_hub_load load = spt_hub_wheel_load(&behind);
    CLOSE(load.force_y_n, behind.radial_n + behind.pad_up_n, 1e-9);
    CLOSE(load.force_x_n, fx, 1e-6);
    CLOSE(load.moment_x_nmm, 60 * behind.pad_up_n, 1e-6);
    run.own_brakes = 0; /* its own brakes are off */
    CLOSE(solve(&trailer, &run).wheels[0].hub.pad_up_n, 0, 0);
}

Test(vehicle, tips_and_lifts_with_their_numbers)
{
    struct spt_vehicle trailer = example_vehicle();
    struct spt_vehicle_run run = bend_run(70, 1, 60);
    struct spt_vehicle_loads at;
    enum spt_vehicle_problem problem;
    cr_expect_eq(spt_vehicle_load(&trailer, &run, &at, &problem), SPT_CANNOT_CARRY);
    cr_expect_eq(problem, SPT_VEHICLE_TIPS);
    cr_expect_gt(at.lateral_g, at.tip_g);
    double limit_km_h = 3.6 * sqrt(at.tip_g * SPT_GRAVITY_M_S2 * 60);
    run.speed_km_h = limit_km_h * 1.0001;
    cr_expect_eq(spt_vehicle_load(&trailer, &run, &at, &problem), SPT_CANNOT_CARRY);
    run.speed_km_h = limit_km_h * 0.9999;
    cr_expect_eq(spt_vehicle_load(&trailer, &run, &at, &problem), SPT_OK);
    run = straight_run(10);
    trailer.masses[0].behind_m = trailer.masses[1].behind_m = -1;
    cr_expect_eq(spt_vehicle_load(&trailer, &run, &at, &problem), SPT_CANNOT_CARRY);
    cr_expect_eq(problem, SPT_VEHICLE_LIFTS);
}

Test(vehicle, bad_numbers_are_refused)
{
    struct spt_vehicle_run run = bend_run(30, 1, 0);
    struct spt_vehicle trailer = example_vehicle();
    struct spt_vehicle_loads at;
    enum spt_vehicle_problem problem;
    cr_expect_eq(spt_vehicle_load(&trailer, &run, &at, &problem), SPT_BAD_ARGUMENT);
    run = straight_run((double)NAN);
    cr_expect_eq(spt_vehicle_load(&trailer, &run, &at, &problem), SPT_BAD_ARGUMENT);
    run = straight_run(30);
    run.without = 3; /* nothing is left */
    cr_expect_eq(spt_vehicle_load(&trailer, &run, &at, &problem), SPT_BAD_ARGUMENT);
    run.without = 0;
    trailer.axles[1].behind_m = 3;
    cr_expect_eq(spt_vehicle_load(&trailer, &run, &at, &problem), SPT_BAD_ARGUMENT);
    cr_expect_eq(problem, SPT_VEHICLE_BAD);
}
