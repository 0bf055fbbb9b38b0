/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Times of the hub model, best of some rounds, and ratios to other solvers in the same run:
 *   hub_bench [PYTHON hub_case.py] */
#include <gsl/gsl_multiroots.h>
#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include "bench/hub_study.h"
#include "spalltime/setting.h"
#include "support/hub_example.h"

#define ROUNDS 7
#define POINTS 100

/* What is timed: the example hub in straight running or in a corner, at one setting. */
struct bench {
    struct spt_hub_model model;
    struct spt_hub_load load;
    double setting_mm;
    struct spt_hub_solution solution;
    struct spt_hub_position close; /* a micrometre and 20 microradians away */
    bool failed;
};

static double read_clock_ms(void)
{
    struct timespec now;
    clock_gettime(CLOCK_MONOTONIC, &now);
    return 1e3 * (double)now.tv_sec + 1e-6 * (double)now.tv_nsec;
}

/* Best time of one call in ms. */
static double time_call(void (*call)(struct bench *), struct bench *bench, int repeat)
{
    double best = HUGE_VAL;
    for (int round = 0; round < ROUNDS; round++) {
        double start = read_clock_ms();
        for (int i = 0; i < repeat; i++)
            call(bench);
        best = fmin(best, (read_clock_ms() - start) / repeat);
    }
    return best;
}

static void solve_cold(struct bench *b)
{
    b->failed |= spt_hub_solve(&b->model, b->setting_mm, &b->load, NULL, &b->solution) != SPT_OK;
}

static void solve_close(struct bench *b)
{
    struct spt_hub_solution s;
    b->failed |= spt_hub_solve(&b->model, b->setting_mm, &b->load, &b->close, &s) != SPT_OK;
}

static void assess(struct bench *b)
{
    struct spt_hub_result r;
    b->failed |= spt_hub_assess(&b->model, b->setting_mm, &b->load, NULL, &r) != SPT_OK;
}

static void make_duty(struct spt_setting_case cases[3])
{
    static const double sides[3] = {0, 0.3, -0.3}, shares[3] = {0.9, 0.05, 0.05};
    for (int i = 0; i < 3; i++)
        cases[i] = (struct spt_setting_case){.load = example_load(sides[i]),
                                             .time_share = shares[i],
                                             .speed_rpm = 420,
                                             .life_factor = {1, 1}};
}

static void draw_curve(struct bench *b)
{
    struct spt_setting_case cases[3];
    struct spt_setting_point points[POINTS];
    struct spt_setting_duty duty = {.cases = cases, .count = 3};
    make_duty(cases);
    b->failed |= spt_setting_curve(&b->model, &duty, -0.15, 0.5, POINTS, points) != SPT_OK;
}

static void study(struct bench *b)
{
    struct spt_setting_case cases[3];
    struct spt_setting_duty duty = {.cases = cases, .count = 3};
    struct spt_setting_inputs q = {-0.2, 0.3, 0.05, 0.02, false, 0};
    struct spt_setting_study s;
    make_duty(cases);
    b->failed |= spt_setting_study(&b->model, &duty, &q, &s) != SPT_OK;
}

/* ---- GSL on the same equations and the same derivatives ---- */

static void evaluate(const gsl_vector *x, struct bench *b, struct spt_hub_energy *energy)
{
    double l0 = b->model.length_mm;
    struct spt_hub_position at = {gsl_vector_get(x, 0), gsl_vector_get(x, 1), gsl_vector_get(x, 2),
                                  gsl_vector_get(x, 3) / l0, gsl_vector_get(x, 4) / l0};
    spt_hub_energy(&b->model, b->setting_mm, &b->load, &at, energy);
}

static int find_both(const gsl_vector *x, void *bench, gsl_vector *f, gsl_matrix *slope)
{
    struct spt_hub_energy energy;
    evaluate(x, bench, &energy);
    for (size_t i = 0; i < SPT_HUB_UNKNOWNS; i++) {
        if (f != NULL)
            gsl_vector_set(f, i, energy.gradient_n[i]);
        for (size_t j = 0; slope != NULL && j < SPT_HUB_UNKNOWNS; j++)
            gsl_matrix_set(slope, i, j, energy.hessian_n_mm[i][j]);
    }
    return GSL_SUCCESS;
}

static int find_force(const gsl_vector *x, void *bench, gsl_vector *f)
{
    return find_both(x, bench, f, NULL);
}

static int find_slope(const gsl_vector *x, void *bench, gsl_matrix *slope)
{
    return find_both(x, bench, NULL, slope);
}

static void solve_gsl(struct bench *b)
{
    double l0 = b->model.length_mm,
           data[SPT_HUB_UNKNOWNS] = {b->close.x_mm, b->close.y_mm, b->close.z_mm,
                                     b->close.tilt_x_rad * l0, b->close.tilt_y_rad * l0};
    gsl_vector_view start = gsl_vector_view_array(data, SPT_HUB_UNKNOWNS);
    gsl_multiroot_function_fdf system = {find_force, find_slope, find_both, SPT_HUB_UNKNOWNS, b};
    gsl_multiroot_fdfsolver *solver =
        gsl_multiroot_fdfsolver_alloc(gsl_multiroot_fdfsolver_hybridsj, SPT_HUB_UNKNOWNS);
    int result = gsl_multiroot_fdfsolver_set(solver, &system, &start.vector);
    for (int i = 0; i < 200 && result == GSL_SUCCESS; i++) {
        result = gsl_multiroot_fdfsolver_iterate(solver);
        if (gsl_multiroot_test_residual(solver->f, b->solution.allowed_n) == GSL_SUCCESS)
            break;
    }
    b->failed |= gsl_multiroot_test_residual(solver->f, 1e3 * b->solution.allowed_n) != GSL_SUCCESS;
    gsl_multiroot_fdfsolver_free(solver);
}

static void report(struct bench *b, const char *name, double side, double setting)
{
    b->load = example_load(side);
    b->setting_mm = setting;
    b->failed = false;
    double cold = time_call(solve_cold, b, 200);
    b->close = b->solution.position;
    b->close.x_mm += 1e-3;
    b->close.y_mm -= 1e-3;
    b->close.z_mm += 1e-3;
    b->close.tilt_x_rad += 2e-5;
    b->close.tilt_y_rad -= 2e-5;
    double close = time_call(solve_close, b, 200), full = time_call(assess, b, 100);
    bool own = b->failed;
    b->failed = false;
    double gsl = time_call(solve_gsl, b, 200);
    printf("%-34s cold %.3f ms (%d steps)  close %.3f  assessed %.3f  hybridsj close %.3f = %.2f "
           "x%s%s\n",
           name, cold, b->solution.iterations, close, full, gsl, gsl / close,
           own ? "  OWN FAILED" : "", b->failed ? "  hybridsj failed" : "");
}

/* Prints the script's line and the ratio; the script prints ms per solve, y um, z um, tilt mrad. */
static void compare_script(struct bench *b, const char *python, const char *script)
{
    char command[512];
    double ms, y, z, tilt;
    if (strlen(python) == 0) {
        printf("SciPy: not here\n");
        return;
    }
    snprintf(command, sizeof command, "%s %s", python, script);
    FILE *pipe = popen(command, "r");
    if (pipe == NULL || fscanf(pipe, "%lf %lf %lf %lf", &ms, &y, &z, &tilt) != 4) {
        printf("SciPy: no answer\n");
    } else {
        b->load = example_load(0);
        b->setting_mm = 0.0254;
        double own = time_call(solve_cold, b, 200);
        const struct spt_hub_position *p = &b->solution.position;
        double off = fmax(fabs(p->y_mm * 1e3 - y), fabs(p->z_mm * 1e3 - z));
        printf("SciPy, same case, cold               %.3f ms = %.0f x own %.3f ms; positions "
               "differ by %.1e um\n",
               ms, ms / own, own, off);
    }
    if (pipe != NULL)
        pclose(pipe);
}

int main(int count, char **arguments)
{
    struct spt_hub hub = example_hub();
    struct bench b = {.model = example_model(&hub)};
    printf("43 rollers, %d laminae\n", hub.laminae);
    report(&b, "straight, preload 0.1 mm", 0, -0.1);
    report(&b, "straight, no play", 0, 0);
    report(&b, "straight, play 0.127 mm", 0, 0.127);
    report(&b, "corner 0.3 g, no play", 0.3, 0);
    report(&b, "corner 0.3 g, play 0.5 mm", 0.3, 0.5);
    b.failed = false;
    double curve = time_call(draw_curve, &b, 1), whole = time_call(study, &b, 1);
    printf("curve of %d settings, 3 load cases   %.1f ms%s\n", POINTS, curve,
           b.failed ? "  FAILED" : "");
    printf("whole study with scatter             %.1f ms\n", whole);
    hub_study_bench();
    if (count == 3)
        compare_script(&b, arguments[1], arguments[2]);
    return b.failed;
}
