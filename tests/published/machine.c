/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "support/machine_example.h"
#include "support/published.h"

static void solve(const struct spt_machine_shaft *shaft, const struct spt_part_load *loads,
                  struct spt_support_load *out)
{
    struct spt_shaft_balance balance;
    cr_assert_eq(spt_shaft_reactions(shaft, loads, out, &balance), SPT_OK);
    cr_expect_lt(balance.force_error, 1e-12);
    cr_expect_lt(balance.moment_error, 1e-12);
}

static struct spt_support support_at(double at)
{
    return (struct spt_support){
        .name = "s", .at_mm = at, .centre_mm = at, .stiffness_n_mm = (double)INFINITY};
}

Test(machine_published, shaft_with_loads_in_two_planes)
{
    static const char source[] = "Shigley, Mechanical Engineering Design, 8e to 10e, example 3-9 "
                                 "(from memory): 1200 lbf at 10 in of 30 in, 600 at 20 in across";
    const struct spt_support supports[] = {support_at(0), support_at(30)};
    const struct spt_part_load loads[] = {{.at_mm = 10, .force_n = {0, -1200, 0}},
                                          {.at_mm = 20, .force_n = {-600, 0, 0}}};
    const struct spt_machine_shaft shaft = {
        .support_count = 2, .supports = supports, .part_count = 2};
    struct spt_support_load out[2];
    solve(&shaft, loads, out);
    cr_expect(agrees(source, "A, first plane", 800, -out[0].y_n, 0.5));
    cr_expect(agrees(source, "A, second plane", 200, -out[0].x_n, 0.5));
    cr_expect(agrees(source, "D, first plane", 400, -out[1].y_n, 0.5));
    cr_expect(agrees(source, "D, second plane", 400, -out[1].x_n, 0.5));
}

Test(machine_published, helical_gear_between_two_bearings)
{
    static const char source[] = "Shigley, Mechanical Engineering Design, example 11-7 (reactions "
                                 "from memory, radial force and span found from them)";
    const struct spt_support supports[] = {support_at(0), support_at(6)};
    const struct spt_part_load loads[] = {
        {.at_mm = 3, .force_n = {-595, -250, 344}, .moment_nmm = {4.04 * 344, 0, 4.04 * 595}}};
    const struct spt_machine_shaft shaft = {
        .support_count = 2, .supports = supports, .part_count = 1};
    struct spt_support_load out[2];
    solve(&shaft, loads, out);
    cr_expect(agrees(source, "lightly loaded end", 316.0,
                     fmin(hypot(out[0].x_n, out[0].y_n), hypot(out[1].x_n, out[1].y_n)), 0.05));
    cr_expect(agrees(source, "heavily loaded end", 464.4,
                     fmax(hypot(out[0].x_n, out[0].y_n), hypot(out[1].x_n, out[1].y_n)), 0.05));
}

Test(machine_published, spur_pinion)
{
    static const char source[] = "Budynas, solutions to Shigley, Mechanical Engineering Design, "
                                 "chapter 13, 13-31: 32 hp at 1800 rpm, 3.600 in, 20 deg";
    struct spt_part gear = bare_part(SPT_PART_GEAR, 0);
    struct spt_part_load load;
    gear.diameter_mm = 3.6;
    gear.pressure_rad = 20 * DEG;
    gear.towards_rad = 0;
    double torque = 63025.0 * 32 / 1800;
    const struct spt_part_state state = {-torque, torque, 1, 1800, 0};
    cr_assert_eq(spt_part_load(&gear, &state, &load), SPT_OK);
    cr_expect(agrees(source, "T, lbf in", 1120, torque, 0.5));
    cr_expect(agrees(source, "Ft, lbf", 622, load.tangential_n, 0.5));
    /* the book works it out from the rounded 622 */
    cr_expect(agrees(source, "Fr, lbf", 226, load.radial_n, 0.6));
    cr_expect(agrees(source, "F, lbf", 662, hypot(load.force_n[0], load.force_n[1]), 0.5));
}

Test(machine_published, spur_gear_of_five_inches)
{
    static const char source[] = "Budynas, solutions to Shigley, chapter 13, 13-32: 4202 lbf in, "
                                 "5 in, 20 deg";
    struct spt_part gear = bare_part(SPT_PART_GEAR, 0);
    struct spt_part_load load;
    gear.diameter_mm = 5;
    gear.pressure_rad = 20 * DEG;
    gear.towards_rad = 0;
    cr_assert_eq(spt_part_load(&gear, &(struct spt_part_state){4202, 4202, 1, 100, 0}, &load),
                 SPT_OK);
    cr_expect(agrees(source, "Ft, lbf", 1681, load.tangential_n, 0.5));
    cr_expect(agrees(source, "Fr, lbf", 612, load.radial_n, 0.5));
}

Test(machine_published, helical_gear)
{
    static const char source[] = "Budynas, solutions to Shigley, chapter 13, 13-35: Ft 800 lbf, "
                                 "normal pressure angle 20 deg, helix 30 deg, 9.238 in";
    struct spt_part gear = bare_part(SPT_PART_GEAR, 0);
    struct spt_part_load load;
    gear.diameter_mm = 9.238;
    gear.pressure_rad = 20 * DEG;
    gear.helix_rad = 30 * DEG;
    gear.hand = 1;
    gear.towards_rad = 0;
    double torque = 800 * 9.238 / 2;
    cr_assert_eq(spt_part_load(&gear, &(struct spt_part_state){torque, torque, 1, 100, 0}, &load),
                 SPT_OK);
    cr_expect(agrees(source, "Fr, lbf", 336, load.radial_n, 0.5));
    cr_expect(agrees(source, "Fa, lbf", 462, load.axial_n, 0.5));
    cr_expect(agrees(source, "F, lbf", 983,
                     sqrt(load.force_n[0] * load.force_n[0] + load.force_n[1] * load.force_n[1] +
                          load.force_n[2] * load.force_n[2]),
                     0.5));
    cr_expect(is_misprinted(source, "torque, lbf in (the diameter is taken for the radius)", 7390,
                            torque, 5));
}

Test(machine_published, worm_wheel)
{
    static const char source[] = "Mott, Machine Elements in Mechanical Design, 4e, chapter 10, "
                                 "example: Ft 962 lb, 19.45 deg, lead 14.04 deg, friction 0.022";
    struct spt_worm_forces mesh;
    cr_assert_eq(spt_worm_forces(19.45 * DEG, 14.04 * DEG, 0.022, false, 962, &mesh), SPT_OK);
    cr_expect(agrees(source, "Fa of the wheel, lb", 265, mesh.worm_tangential_n, 0.5));
    cr_expect(agrees(source, "Fr, lb", 352, mesh.radial_n, 0.5));
}

Test(machine_published, pull_of_belts_over_the_net_force)
{
    static const char source[] = "Mott, Machine Elements in Mechanical Design (from memory): "
                                 "strands in a ratio of 5 (V) and of 3 (flat)";
    const double ratios[] = {5, 3}, printed[] = {1.5, 2.0};
    for (int i = 0; i < 2; i++) {
        struct spt_part belt = bare_part(SPT_PART_BELT, 0);
        struct spt_part_load load;
        belt.diameter_mm = 200;
        belt.friction = log(ratios[i]) / (180 * DEG);
        belt.wrap_rad = 180 * DEG;
        belt.plus_rad = belt.minus_rad = 0;
        const struct spt_part_state state = {1e5, 1e5, 1, 100, 0};
        cr_assert_eq(spt_part_load(&belt, &state, &load), SPT_OK);
        cr_expect(agrees(source, named("pull/net at F1/F2 %g", ratios[i]), printed[i],
                         load.force_n[0] / 1e3, 1e-9));
    }
}
