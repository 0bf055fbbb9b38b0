/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>

#include "support/near.h"
#include "support/vehicle_example.h"

#define VEHICLES 10000
#define TINY 1e-12 /* of weight, or of weight times length */

static unsigned long long state = 20261201;

static double draw(double low, double high)
{
    return random_between(&state, low, high);
}

static struct spt_vehicle random_vehicle(void)
{
    struct spt_vehicle v = example_vehicle();
    v.kind = (enum spt_vehicle_kind)(int)draw(0, 2.999);
    v.mass_count = 1 + (int)draw(0, 4.999);
    for (int i = 0; i < v.mass_count; i++)
        v.masses[i] = (struct spt_vehicle_mass){"m", draw(100, 9000), draw(3.5, 5), draw(-0.2, 0.2),
                                                draw(0.3, 2.5)};
    v.axle_count = (v.kind == SPT_VEHICLE_DRAWBAR ? 2 : 1) + (int)draw(0, 2.999);
    for (int i = 0; i < v.axle_count; i++)
        v.axles[i] = (struct spt_vehicle_axle){
            NULL, v.kind == SPT_VEHICLE_DRAWBAR && i == 0 ? draw(1, 3) : 5.5 + i * draw(1, 1.4)};
    v.eye_height_m = draw(0.3, 1.3);
    v.track_m = draw(1.4, 2.4);
    return v;
}

static struct spt_vehicle_run random_run(void)
{
    double sides[] = {-1, 0, 1};
    struct spt_vehicle_run run = bend_run(draw(0, 60), sides[(int)draw(0, 2.999)], draw(12, 300));
    run.bank = run.bend == 0 ? 0 : draw(-0.05, 0.05);
    return run;
}

/* A vehicle and a run on which it does not tip. */
static struct spt_vehicle_loads random_loads(struct spt_vehicle *v, struct spt_vehicle_run *run,
                                             void (*change)(struct spt_vehicle *v,
                                                            struct spt_vehicle_run *run))
{
    struct spt_vehicle_loads loads;
    enum spt_vehicle_problem problem;
    do {
        *v = random_vehicle();
        *run = random_run();
        if (change)
            change(v, run);
    } while (spt_vehicle_load(v, run, &loads, &problem));
    return loads;
}

/* A force x forwards, y to the left, z up, at a place. */
struct pull {
    double at[3], force[3];
};

static void add(const struct pull *pull, double force[3], double moment[3])
{
    const double *r = pull->at, *f = pull->force;
    for (int i = 0; i < 3; i++) {
        force[i] += f[i];
        moment[i] += r[(i + 1) % 3] * f[(i + 2) % 3] - r[(i + 2) % 3] * f[(i + 1) % 3];
    }
}

/* Sum of everything on the vehicle, with the forces of inertia of each mass. */
static void sum_up(const struct spt_vehicle *v, const struct spt_vehicle_run *run,
                   const struct spt_vehicle_loads *l, double force[3], double moment[3])
{
    for (int i = 0; i < v->mass_count; i++) {
        const struct spt_vehicle_mass *m = &v->masses[i];
        double w = m->mass_kg * SPT_GRAVITY_M_S2;
        add(&(struct pull){{-m->behind_m, m->left_m, m->height_m},
                           {run->braking_g * w, -l->lateral_g * w, -w}},
            force, moment);
    }
    for (int i = 0; i < l->wheel_count; i++) {
        const struct spt_vehicle_wheel *w = &l->wheels[i];
        double side = w->left ? 1 : -1;
        add(&(struct pull){{-v->axles[w->axle].behind_m, side * v->track_m / 2, 0},
                           {-w->rearward_n, side * w->side_n, w->load_n}},
            force, moment);
    }
    add(&(struct pull){{0, 0, v->eye_height_m}, {l->eye_pull_n, l->eye_side_n, l->eye_n}}, force,
        moment);
}

static void check_sums(const struct spt_vehicle *v, const struct spt_vehicle_run *run,
                       const struct spt_vehicle_loads *l, bool yaw)
{
    double force[3] = {0}, moment[3] = {0}, most = l->weight_n * (1 + run->braking_g);
    sum_up(v, run, l, force, moment);
    for (int i = 0; i < 3; i++)
        cr_assert_lt(fabs(force[i]), TINY * most, "force %d: %g", i, force[i]);
    /* a coupling plate holds part of the roll by a moment of its own */
    if (v->kind != SPT_VEHICLE_SEMI_TRAILER)
        cr_assert_lt(fabs(moment[0]), 10 * TINY * most, "roll %g", moment[0]);
    cr_assert_lt(fabs(moment[1]), 10 * TINY * most, "pitch %g", moment[1]);
    if (yaw)
        cr_assert_lt(fabs(moment[2]), 10 * TINY * most, "yaw %g", moment[2]);
}

Test(vehicle_property, six_equations_of_a_rigid_body_close)
{
    for (int i = 0; i < VEHICLES; i++) {
        struct spt_vehicle v;
        struct spt_vehicle_run run;
        struct spt_vehicle_loads loads = random_loads(&v, &run, NULL);
        check_sums(&v, &run, &loads, true);
    }
}

static void brake(struct spt_vehicle *v, struct spt_vehicle_run *run)
{
    (void)v;
    run->braking_g = draw(0, 0.5);
    run->own_brakes = draw(0, 1);
    run->drag_n = draw(0, 5000);
}

/* Yaw while braking is left out. */
Test(vehicle_property, five_of_them_close_while_braking)
{
    for (int i = 0; i < VEHICLES; i++) {
        struct spt_vehicle v;
        struct spt_vehicle_run run;
        struct spt_vehicle_loads loads = random_loads(&v, &run, brake);
        check_sums(&v, &run, &loads, false);
    }
}

static void scrub(struct spt_vehicle *v, struct spt_vehicle_run *run)
{
    brake(v, run);
    v->scrub_stiffness = draw(0, 8);
    v->grip = 10;
}

Test(vehicle_property, sums_of_loads_and_side_forces)
{
    for (int i = 0; i < VEHICLES; i++) {
        struct spt_vehicle v;
        struct spt_vehicle_run run;
        struct spt_vehicle_loads l = random_loads(&v, &run, scrub);
        double load_n = 0, side_n = 0, scrub_n = 0;
        for (int w = 0; w < l.wheel_count; w++) {
            load_n += l.wheels[w].load_n;
            side_n += l.wheels[w].left ? l.wheels[w].side_n : -l.wheels[w].side_n;
            scrub_n += l.wheels[w].left ? l.wheels[w].scrub_n : -l.wheels[w].scrub_n;
        }
        double still_n = v.kind == SPT_VEHICLE_DRAWBAR ? l.weight_n : l.still_group_n;
        cr_assert(near(load_n, l.group_n + l.front_n, 1e-12, 0));
        cr_assert(near(side_n, l.lateral_g * still_n, 0, TINY * l.weight_n * 10));
        cr_assert(near(scrub_n, 0, 0, TINY * l.weight_n * 10));
    }
}

Test(vehicle_property, mirror_swaps_left_and_right)
{
    for (int i = 0; i < VEHICLES; i++) {
        struct spt_vehicle v, other;
        struct spt_vehicle_run run;
        struct spt_vehicle_loads l = random_loads(&v, &run, scrub), m;
        enum spt_vehicle_problem problem;
        other = v;
        for (int k = 0; k < v.mass_count; k++)
            other.masses[k].left_m *= -1;
        run.bend *= -1;
        cr_assert_eq(spt_vehicle_load(&other, &run, &m, &problem), SPT_OK);
        cr_assert(near(m.tip_g, l.tip_g, 1e-12, 0) || run.bend == 0);
        for (int w = 0; w < l.wheel_count; w++) {
            cr_assert(near(m.wheels[w ^ 1].load_n, l.wheels[w].load_n, 0, TINY * l.weight_n));
            cr_assert(near(m.wheels[w ^ 1].side_n, l.wheels[w].side_n, 0, TINY * l.weight_n));
        }
    }
}

/* Just below the lateral acceleration that is printed it runs, just above it tips. */
Test(vehicle_property, tips_where_it_is_said_to)
{
    for (int i = 0; i < VEHICLES; i++) {
        struct spt_vehicle v;
        struct spt_vehicle_run run;
        struct spt_vehicle_loads l = random_loads(&v, &run, NULL), again;
        enum spt_vehicle_problem problem;
        if (run.bend == 0 || run.speed_km_h == 0 || l.lateral_g * run.bend <= 0 ||
            !isfinite(l.tip_g) || l.tip_g < 0.05)
            continue;
        run.bank = 0;
        double limit_km_h = 3.6 * sqrt(l.tip_g * SPT_GRAVITY_M_S2 * run.radius_m);
        run.speed_km_h = limit_km_h * (1 - 1e-9);
        cr_assert_eq(spt_vehicle_load(&v, &run, &again, &problem), SPT_OK);
        run.speed_km_h = limit_km_h * (1 + 1e-9);
        cr_assert_eq(spt_vehicle_load(&v, &run, &again, &problem), SPT_CANNOT_CARRY);
    }
}
