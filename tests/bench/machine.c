/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A gearbox shaft on two bearings, against the same equilibrium as a system of five equations. */
#include <math.h>
#include <string.h>

#include "bench/bench.h"
#include "support/machine_example.h"

#define PHASES 20000
#define PARTS 3
#define EQUATIONS 5

static struct spt_part parts[PARTS];
static struct spt_support supports[2];
static struct spt_bearing row;
static const struct spt_bearing *const rows[] = {&row, &row};
static double sink;

static struct spt_machine make_machine(void)
{
    row = tapered_example();
    parts[0] = bare_part(SPT_PART_GEAR, 90);
    parts[0].role = SPT_PART_ROLE_DRIVEN;
    parts[0].diameter_mm = 240;
    parts[0].pressure_rad = 20 * DEG;
    parts[0].helix_rad = 12 * DEG;
    parts[0].hand = 1;
    parts[0].towards_rad = clock_rad(110);
    parts[1] = bare_part(SPT_PART_BELT, 260);
    parts[1].role = SPT_PART_ROLE_DRIVER;
    parts[1].diameter_mm = 180;
    parts[1].friction = 0.5;
    parts[1].wrap_rad = 160 * DEG;
    parts[1].plus_rad = clock_rad(-30);
    parts[1].minus_rad = clock_rad(-10);
    parts[2] = bare_part(SPT_PART_WEIGHT, 90);
    parts[2].mass_kg = 28;
    for (int i = 0; i < 2; i++)
        supports[i] = (struct spt_support){.name = "s",
                                           .at_mm = 180 * i,
                                           .centre_mm = i ? 186.5 : -6.5,
                                           .locating = i ? SPT_LOCATES_LEFT : SPT_LOCATES_RIGHT,
                                           .stiffness_n_mm = (double)INFINITY};
    struct spt_machine machine = {.shaft_count = 1};
    machine.shafts[0] = (struct spt_machine_shaft){.turns = 1,
                                                   .support_count = 2,
                                                   .supports = supports,
                                                   .bearings = rows,
                                                   .part_count = PARTS,
                                                   .parts = parts};
    return machine;
}

/* ns for each bearing and phase */
double time_machine(void)
{
    struct spt_machine machine = make_machine();
    struct spt_part_load loads[PARTS];
    struct spt_support_load out[2];
    struct spt_shaft_balance balance;
    double torques[PARTS], turned_rpm, spin;
    struct spt_machine_loads phase = {loads, out, &balance, torques, &turned_rpm, &spin};
    struct spt_machine_problem problem;
    double start = now();
    for (int i = 0; i < PHASES; i++) {
        struct spt_machine_drive drive = {.speed_rpm = 310, .torque_nmm = 1e5 + i};
        spt_machine_phase(&machine, &drive, 5e5, &phase, &problem);
        sink += out[0].axial_n;
    }
    return (now() - start) / (2.0 * PHASES) * 1e9;
}

/* Gauss with column pivots. */
static void eliminate(double a[EQUATIONS][EQUATIONS + 1], double *x)
{
    for (int c = 0; c < EQUATIONS; c++) {
        int best = c;
        for (int r = c + 1; r < EQUATIONS; r++)
            if (fabs(a[r][c]) > fabs(a[best][c]))
                best = r;
        for (int k = 0; k <= EQUATIONS; k++) {
            double kept = a[c][k];
            a[c][k] = a[best][k];
            a[best][k] = kept;
        }
        for (int r = c + 1; r < EQUATIONS; r++)
            for (int k = EQUATIONS; k >= c; k--)
                a[r][k] -= a[r][c] / a[c][c] * a[c][k];
    }
    for (int r = EQUATIONS - 1; r >= 0; r--) {
        x[r] = a[r][EQUATIONS];
        for (int k = r + 1; k < EQUATIONS; k++)
            x[r] -= a[r][k] * x[k];
        x[r] /= a[r][r];
    }
}

/* The same loads of the parts, then five equations in the reactions; no thrust is shared. */
double time_machine_equations(void)
{
    make_machine();
    double start = now();
    for (int i = 0; i < PHASES; i++) {
        double a[EQUATIONS][EQUATIONS + 1] = {{1, 0, 1}, {0, 1, 0, 1}, {0, 0, 0, 0, 1}};
        double x[EQUATIONS], z[2] = {-6.5, 186.5};
        for (int k = 0; k < 2; k++) {
            a[3][2 * k + 1] = -z[k];
            a[4][2 * k] = z[k];
        }
        for (int k = 0; k < PARTS; k++) {
            const double signs[] = {1, -1, 0};
            struct spt_part_state state = {signs[k] * (1e5 + i), 5e5, 1, 310, 0};
            struct spt_part_load one;
            spt_part_load(&parts[k], &state, &one);
            for (int c = 0; c < 3; c++)
                a[c][EQUATIONS] -= one.force_n[c];
            a[3][EQUATIONS] -= one.moment_nmm[0] - one.at_mm * one.force_n[1];
            a[4][EQUATIONS] -= one.moment_nmm[1] + one.at_mm * one.force_n[0];
        }
        eliminate(a, x);
        sink += hypot(x[0], x[1]) + hypot(x[2], x[3]);
    }
    return (now() - start) / (2.0 * PHASES) * 1e9;
}
