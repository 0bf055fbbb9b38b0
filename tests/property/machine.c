/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <stdlib.h>
#include <string.h>

#include "support/machine_example.h"
#include "support/near.h"

#define MACHINES 10000
#define PARTS 4
#define PI 3.14159265358979323846
#define TINY 1e-9 /* relative to the largest force */

static unsigned long long state = 20261130;

static double draw(double low, double high)
{
    state = state * 6364136223846793005ULL + 1442695040888963407ULL;
    return low + (high - low) * ((double)(state >> 11) / 9007199254740992.0);
}

/* A random shaft on two supports with a gear, a belt, a bevel gear and a weight. */
struct example {
    struct spt_part parts[PARTS];
    struct spt_part_load loads[PARTS];
    double torques_nm[PARTS];
    struct spt_support supports[2];
    struct spt_machine_shaft shaft;
    struct spt_support_load out[2];
    struct spt_shaft_balance balance;
    double most_n;
};

static struct spt_part random_gear(void)
{
    struct spt_part gear = bare_part(SPT_PART_GEAR, draw(-200, 700));
    gear.diameter_mm = draw(40, 600);
    gear.pressure_rad = draw(14, 25) * DEG;
    gear.helix_rad = draw(0, 35) * DEG;
    gear.hand = draw(0, 1) < 0.5 ? 1 : -1;
    gear.towards_rad = draw(-PI, PI);
    gear.inside_teeth = draw(0, 1) < 0.2;
    return gear;
}

static struct spt_part random_bevel(void)
{
    struct spt_part bevel = random_gear();
    bevel.kind = SPT_PART_BEVEL_GEAR;
    bevel.inside_teeth = false;
    bevel.cone_rad = draw(10, 80) * DEG;
    bevel.back = draw(0, 1) < 0.5 ? 1 : -1;
    return bevel;
}

static struct spt_part random_belt(void)
{
    struct spt_part belt = bare_part(SPT_PART_BELT, draw(-200, 700));
    double line = draw(-PI, PI), half = draw(-0.4, 0.4);
    belt.diameter_mm = draw(60, 600);
    belt.friction = draw(0.2, 0.8);
    belt.wrap_rad = PI - 2 * fabs(half);
    belt.plus_rad = line + half;
    belt.minus_rad = line - half;
    return belt;
}

static void solve(struct example *e)
{
    for (int i = 0; i < PARTS; i++) {
        struct spt_part_state at = with_torque(e->torques_nm[i], 1);
        cr_assert_eq(spt_part_load(&e->parts[i], &at, &e->loads[i]), SPT_OK);
    }
    e->shaft.supports = e->supports;
    e->shaft.parts = e->parts;
    e->shaft.support_count = 2;
    e->shaft.part_count = PARTS;
    cr_assert_eq(spt_shaft_reactions(&e->shaft, e->loads, e->out, &e->balance), SPT_OK);
    e->most_n = e->balance.most_force_n;
}

static void make(struct example *e)
{
    memset(e, 0, sizeof *e);
    e->parts[0] = random_gear();
    e->parts[1] = random_belt();
    e->parts[2] = random_bevel();
    e->parts[3] = bare_part(SPT_PART_WEIGHT, draw(-200, 700));
    e->parts[3].mass_kg = draw(1, 300);
    e->torques_nm[0] = draw(-800, 800);
    e->torques_nm[1] = draw(-800, 800);
    e->torques_nm[2] = -e->torques_nm[0] - e->torques_nm[1];
    for (int i = 0; i < 2; i++) {
        e->supports[i] = (struct spt_support){.name = "s", .stiffness_n_mm = (double)INFINITY};
        e->supports[i].at_mm = e->supports[i].centre_mm = i ? draw(60, 600) : draw(-50, 50);
    }
    solve(e);
}

static bool alike(double a, double b, double scale)
{
    return fabs(a - b) <= TINY * scale;
}

Test(machine_property, forces_and_moments_close)
{
    struct example e;
    for (int i = 0; i < MACHINES; i++) {
        make(&e);
        cr_assert_lt(e.balance.force_error, 1e-12);
        cr_assert_lt(e.balance.moment_error, 1e-12);
        cr_assert(fabs(e.balance.moment_nmm[2]) <= 1e-9 * 1e6, "torques sum to zero");
    }
}

Test(machine_property, loads_of_parts_add_up)
{
    struct example e;
    for (int i = 0; i < MACHINES; i++) {
        double x[2] = {0}, y[2] = {0};
        make(&e);
        for (int part = 0; part < PARTS; part++) {
            struct spt_part_load alone[PARTS] = {{0}};
            struct spt_support_load out[2];
            struct spt_shaft_balance balance;
            for (int k = 0; k < PARTS; k++)
                alone[k].at_mm = e.loads[k].at_mm;
            alone[part] = e.loads[part];
            cr_assert_eq(spt_shaft_reactions(&e.shaft, alone, out, &balance), SPT_OK);
            for (int k = 0; k < 2; k++) {
                x[k] += out[k].x_n;
                y[k] += out[k].y_n;
            }
        }
        for (int k = 0; k < 2; k++)
            cr_assert(alike(x[k], e.out[k].x_n, e.most_n) && alike(y[k], e.out[k].y_n, e.most_n));
    }
}

/* Left and right exchanged: the same torques about z, hands and cones the other way round. */
Test(machine_property, mirrored_shaft_has_exchanged_bearings)
{
    struct example e, m;
    for (int i = 0; i < MACHINES; i++) {
        make(&e);
        m = e;
        for (int k = 0; k < PARTS; k++) {
            m.parts[k].at_mm *= -1;
            m.parts[k].hand *= -1;
            m.parts[k].back *= -1;
        }
        for (int k = 0; k < 2; k++)
            m.supports[k].at_mm = m.supports[k].centre_mm = -e.supports[1 - k].centre_mm;
        solve(&m);
        for (int k = 0; k < 2; k++)
            cr_assert(alike(m.out[k].x_n, e.out[1 - k].x_n, e.most_n) &&
                      alike(m.out[k].y_n, e.out[1 - k].y_n, e.most_n));
        cr_assert(alike(m.balance.force_n[2], -e.balance.force_n[2], e.most_n));
    }
}

Test(machine_property, turned_frame_turns_the_loads)
{
    struct example e, t;
    for (int i = 0; i < MACHINES; i++) {
        double by = draw(-PI, PI);
        make(&e);
        e.parts[3].mass_kg = 0; /* the weight points down whatever turns */
        solve(&e);
        t = e;
        for (int k = 0; k < PARTS; k++) {
            t.parts[k].towards_rad += by;
            t.parts[k].plus_rad += by;
            t.parts[k].minus_rad += by;
        }
        solve(&t);
        for (int k = 0; k < 2; k++) {
            double x = e.out[k].x_n * cos(by) - e.out[k].y_n * sin(by);
            double y = e.out[k].x_n * sin(by) + e.out[k].y_n * cos(by);
            cr_assert(alike(t.out[k].x_n, x, e.most_n) && alike(t.out[k].y_n, y, e.most_n));
        }
    }
}

Test(machine_property, moved_weight_moves_its_share)
{
    struct example e, m;
    for (int i = 0; i < MACHINES; i++) {
        double by = draw(-50, 50);
        make(&e);
        m = e;
        m.parts[3].at_mm += by;
        solve(&m);
        double span = e.supports[1].centre_mm - e.supports[0].centre_mm;
        double moved = -e.loads[3].weight_n * by / span;
        cr_assert(alike(m.out[1].y_n - e.out[1].y_n, moved, e.most_n));
    }
}

/* The mating gear in its own frame, on the other side of the mesh: minus the force. */
Test(machine_property, gears_that_mesh_press_with_opposite_forces)
{
    for (int i = 0; i < MACHINES; i++) {
        struct spt_part a = random_gear(), b = a;
        struct spt_part_load first, second;
        double torque = draw(-500, 500);
        b.diameter_mm = draw(40, 600);
        b.inside_teeth = false;
        b.hand = a.inside_teeth ? a.hand : -a.hand;
        b.towards_rad = a.inside_teeth ? a.towards_rad : a.towards_rad + PI;
        double mate = torque * b.diameter_mm / a.diameter_mm * (a.inside_teeth ? -1 : 1);
        struct spt_part_state one = with_torque(torque, 1), two = with_torque(mate, 1);
        cr_assert_eq(spt_part_load(&a, &one, &first), SPT_OK);
        cr_assert_eq(spt_part_load(&b, &two, &second), SPT_OK);
        for (int k = 0; k < 3; k++)
            cr_assert(alike(first.force_n[k], -second.force_n[k], first.tangential_n));
    }
}

/* A wheel above the worm, its own axis along +x of the worm: its x, y, z are -z, y, x there. */
Test(machine_property, worm_and_wheel_press_with_opposite_forces)
{
    for (int i = 0; i < MACHINES; i++) {
        struct spt_part worm = bare_part(SPT_PART_WORM, 0), wheel;
        struct spt_part_load first, second;
        worm.diameter_mm = draw(20, 100);
        worm.pressure_rad = draw(15, 25) * DEG;
        worm.lead_rad = draw(5, 30) * DEG;
        worm.friction = draw(0, 0.06);
        worm.hand = draw(0, 1) < 0.5 ? 1 : -1;
        worm.towards_rad = PI / 2;
        wheel = worm;
        wheel.kind = SPT_PART_WORM_WHEEL;
        wheel.diameter_mm = draw(80, 500);
        wheel.towards_rad = -PI / 2;
        double spin = draw(0, 1) < 0.5 ? 1 : -1, drives = draw(0, 1) < 0.5 ? 1 : -1;
        struct spt_part_state one = with_torque(-spin * drives * draw(1, 50), spin);
        cr_assert_eq(spt_part_load(&worm, &one, &first), SPT_OK);
        double spin_2 = spin * worm.hand;
        struct spt_part_state two =
            with_torque(spin_2 * drives * first.axial_n * wheel.diameter_mm / 2e3, spin_2);
        cr_assert_eq(spt_part_load(&wheel, &two, &second), SPT_OK);
        double scale = first.axial_n + first.tangential_n;
        cr_assert(alike(first.force_n[0], -second.force_n[2], scale));
        cr_assert(alike(first.force_n[1], -second.force_n[1], scale));
        cr_assert(alike(first.force_n[2], second.force_n[0], scale));
    }
}

/* Driver and driven exchanged and the shaft turned round: every force stays. */
Test(machine_property, exchanged_roles_and_direction_leave_the_forces)
{
    for (int i = 0; i < MACHINES / 10; i++) {
        struct example e;
        struct spt_machine machine = {.shaft_count = 1}, turned;
        struct spt_part parts[2], exchanged[2];
        const struct spt_bearing row = tapered_example();
        const struct spt_bearing *const bearings[] = {&row, &row};
        make(&e);
        e.supports[0].locating = SPT_LOCATES_BOTH;
        e.supports[1].locating = SPT_LOCATES_NONE;
        parts[0] = e.parts[0];
        parts[1] = e.parts[1];
        parts[0].role = SPT_PART_ROLE_DRIVEN;
        parts[1].role = SPT_PART_ROLE_DRIVER;
        memcpy(exchanged, parts, sizeof parts);
        exchanged[0].role = SPT_PART_ROLE_DRIVER;
        exchanged[1].role = SPT_PART_ROLE_DRIVEN;
        machine.shafts[0] = e.shaft;
        machine.shafts[0].supports = e.supports;
        machine.shafts[0].bearings = bearings;
        machine.shafts[0].part_count = 2;
        machine.shafts[0].turns = 1;
        turned = machine;
        machine.shafts[0].parts = parts;
        turned.shafts[0].parts = exchanged;
        turned.shafts[0].turns = -1;
        struct spt_part_load loads[2][2];
        struct spt_support_load supports[2][2];
        for (int k = 0; k < 2; k++) {
            struct spt_shaft_balance balance;
            double torques[2], speed, spin;
            struct spt_machine_loads out = {loads[k], supports[k], &balance,
                                            torques,  &speed,      &spin};
            struct spt_machine_problem problem;
            struct spt_machine_drive drive = {.speed_rpm = 310, .torque_nmm = 3e5};
            cr_assert_eq(spt_machine_phase(k ? &turned : &machine, &drive, 3e5, &out, &problem),
                         SPT_OK);
        }
        for (int k = 0; k < 2; k++) {
            cr_assert(alike(supports[0][k].radial_n, supports[1][k].radial_n, 1e5));
            cr_assert(alike(supports[0][k].axial_n, supports[1][k].axial_n, 1e5));
        }
    }
}

/* A third support that gives way changes nothing: beam and statics agree. */
Test(machine_property, beam_on_two_supports_is_statics)
{
    struct example e;
    for (int i = 0; i < MACHINES / 10; i++) {
        struct spt_support three[3];
        const struct spt_piece piece = {2000, draw(30, 90), 0};
        double reactions[3], slopes[3], statics[2];
        make(&e);
        const struct spt_beam_load load = {draw(-150, 650), draw(-5000, 5000), draw(-1e5, 1e5)};
        cr_assert_eq(spt_beam(&e.shaft, &load, 1, 0, statics, slopes), SPT_OK);
        three[0] = e.supports[0];
        three[2] = e.supports[1];
        three[1] = three[0];
        three[1].centre_mm = (three[0].centre_mm + three[2].centre_mm) / 2;
        three[1].stiffness_n_mm = 1e-12;
        e.shaft.supports = three;
        e.shaft.support_count = 3;
        e.shaft.pieces = &piece;
        e.shaft.piece_count = 1;
        e.shaft.start_mm = -500;
        cr_assert_eq(spt_beam(&e.shaft, &load, 1, 0, reactions, slopes), SPT_OK);
        double scale = 5000 + 1e5 / (three[2].centre_mm - three[0].centre_mm);
        cr_assert(fabs(reactions[0] - statics[0]) < 1e-6 * scale, "%g %g", reactions[0],
                  statics[0]);
        cr_assert(fabs(reactions[2] - statics[1]) < 1e-6 * scale);
        cr_assert(isfinite(slopes[0]));
    }
}

/* K to round-off: the thrust of an adjusted pair differs by just that of the shaft. */
Test(machine_property, adjusted_pair_carries_the_thrust)
{
    const struct spt_bearing row = tapered_example();
    const struct spt_bearing *const bearings[] = {&row, &row};
    for (int i = 0; i < MACHINES; i++) {
        bool face = draw(0, 1) < 0.5;
        struct spt_support supports[2] = {
            {.locating = face ? SPT_LOCATES_LEFT : SPT_LOCATES_RIGHT},
            {.locating = face ? SPT_LOCATES_RIGHT : SPT_LOCATES_LEFT}};
        const struct spt_machine_shaft shaft = {
            .support_count = 2, .supports = supports, .bearings = bearings};
        struct spt_support_load out[2] = {{.radial_n = draw(0, 9000)}, {.radial_n = draw(0, 9000)}};
        double thrust = draw(-5000, 5000);
        cr_assert_eq(spt_shaft_thrust(&shaft, thrust, out), SPT_OK);
        double difference = (face ? -1 : 1) * (out[0].axial_n - out[1].axial_n);
        cr_assert(alike(difference, thrust, 5000));
        for (int k = 0; k < 2; k++)
            cr_assert(out[k].axial_n >= out[k].induced_n - 1e-9);
    }
}
