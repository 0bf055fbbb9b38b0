/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/sweep.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "spalltime/lubricant.h"
#include "support/batch_case.h"
#include "support/left_out.h"
#include "support/near.h"

static struct batch_case c;

static double random_log(unsigned long long *seed, double low, double high)
{
    return exp(random_between(seed, log(low), log(high)));
}

static void fill_random(unsigned long long *seed)
{
    for (int i = 0; i < BATCH_CASE_POINTS; i++) {
        double nu40 = random_log(seed, 5.0, 1500.0);
        double nu100 = 2.0 + (nu40 - 4.0) * random_between(seed, 0.05, 0.2);
        struct spt_walther line;
        spt_viscosity_line(40.0, nu40, 100.0, nu100, &line);
        c.in[SPT_BATCH_LINE_A][i] = line.a;
        c.in[SPT_BATCH_LINE_B][i] = line.b;
        c.in[SPT_BATCH_DYNAMIC_LOAD_RATING_N][i] = random_log(seed, 5e3, 5e6);
        c.in[SPT_BATCH_FATIGUE_LOAD_LIMIT_N][i] =
            c.in[SPT_BATCH_DYNAMIC_LOAD_RATING_N][i] * random_between(seed, 0.04, 0.2);
        c.in[SPT_BATCH_EQUIVALENT_LOAD_N][i] =
            c.in[SPT_BATCH_DYNAMIC_LOAD_RATING_N][i] * random_log(seed, 0.005, 0.7);
        c.in[SPT_BATCH_SPEED_RPM][i] = random_log(seed, 5.0, 2e4);
        c.in[SPT_BATCH_TEMPERATURE_C][i] = random_between(seed, -20.0, 150.0);
        c.in[SPT_BATCH_CONDITION][i] = floor(random_between(seed, 0.0, 14.0));
        c.in[SPT_BATCH_WATER_PPM][i] = random_log(seed, 10.0, 2e4);
        c.in[SPT_BATCH_FILM_RATIO][i] = random_between(seed, 0.0, 1.0);
    }
}

Test(batch_property, a_million_random_points_equal_the_scalar_model_within_1e12)
{
    unsigned long long seed = 20240601;
    int disagreements = 0;
    for (int round = 0; round < 500; round++) {
        batch_case_make(&c, (enum spt_bearing_type)(round % SPT_BEARING_TYPE_COUNT));
        batch_case_set(&c, SPT_BATCH_FILM_RATIO, 1.0);
        c.batch.pitch_diameter_mm = random_log(&seed, 15.0, 1500.0);
        c.batch.density_factor = random_between(&seed, 0.9, 1.1);
        c.batch.ep_additive = round % 5 == 0;
        fill_random(&seed);
        if (round % 2)
            batch_case_drop(&c, SPT_BATCH_FILM_RATIO);
        struct spt_batch_results results = batch_case_results(&c);
        cr_assert_eq(spt_batch_points(&c.batch, 0, BATCH_CASE_POINTS, &results), SPT_OK);
        for (size_t i = 0; i < BATCH_CASE_POINTS; i++) {
            struct scalar_point got = batch_case_point(&c, i);
            struct scalar_point want = scalar_chain(&c.batch, i);
            if (!points_agree(&got, &want) && disagreements++ < 5)
                cr_expect(false,
                          "round %d point %zu: kappa %.17g for %.17g, a_ISO %.17g for %.17g, life "
                          "%.17g for %.17g, status %u for %u",
                          round, i, got.viscosity_ratio, want.viscosity_ratio,
                          got.life_modification_factor, want.life_modification_factor,
                          got.modified_rating_life_h, want.modified_rating_life_h, got.status,
                          want.status);
        }
    }
    cr_expect_eq(disagreements, 0, "%d of 1000000 points disagree", disagreements);
}

/* Bit patterns drawn at random: most of them absurd, many NaN or infinite. With the sanitizers on,
 * this looks for undefined behaviour; without, for points that come out neither NaN nor marked. */
Test(batch_property, random_bit_patterns_are_answered_or_marked)
{
    unsigned long long seed = 4711;
    for (int round = 0; round < 60; round++) {
        batch_case_make(&c, (enum spt_bearing_type)(round % SPT_BEARING_TYPE_COUNT));
        c.batch.ep_additive = round % 2;
        for (int v = 0; v < SPT_BATCH_VARIABLE_COUNT; v++)
            for (int i = 0; i < BATCH_CASE_POINTS; i++)
                if (c.batch.columns[v].values && random_between(&seed, 0.0, 1.0) < 0.2) {
                    random_between(&seed, 0.0, 1.0);
                    memcpy(&c.in[v][i], &seed, sizeof(double));
                }
        struct spt_batch_results results = batch_case_results(&c);
        cr_assert_eq(spt_batch_points(&c.batch, 0, BATCH_CASE_POINTS, &results), SPT_OK);
        for (size_t i = 0; i < BATCH_CASE_POINTS; i++) {
            struct scalar_point got = batch_case_point(&c, i);
            bool none = isnan(got.viscosity_ratio) && isnan(got.basic_rating_life_h) &&
                        isnan(got.modified_rating_life_h);
            bool all =
                isfinite(got.viscosity_ratio) && isfinite(got.basic_rating_life_h) &&
                got.contamination_factor >= 0.0 && got.contamination_factor <= 1.0 &&
                isnan(got.modified_rating_life_h) == ((got.status & SPT_BATCH_FILM_TOO_THIN) != 0);
            cr_expect(got.status == SPT_BATCH_BAD_INPUT ? none : all, "point %zu, status %u", i,
                      got.status);
        }
    }
}

/* ---- grids ---- */

#define SPEEDS 7
#define TEMPERATURES 5
#define CONDITIONS 14
#define LOADS 300
#define GRID_POINTS (SPEEDS * TEMPERATURES * CONDITIONS * LOADS)

static double speeds[SPEEDS], temperatures[TEMPERATURES], conditions[CONDITIONS], loads[LOADS];
static double grid_out[6][GRID_POINTS];
static unsigned char grid_status[GRID_POINTS];

static const struct spt_batch_results grid_results = {.viscosity_ratio = grid_out[0],
                                                      .contamination_factor = grid_out[1],
                                                      .life_modification_factor = grid_out[2],
                                                      .water_factor = grid_out[3],
                                                      .basic_rating_life_h = grid_out[4],
                                                      .modified_rating_life_h = grid_out[5],
                                                      .status = grid_status};

static void fill_axes(void)
{
    for (int i = 0; i < SPEEDS; i++)
        speeds[i] = 15.0 * pow(3.1, i);
    for (int i = 0; i < TEMPERATURES; i++)
        temperatures[i] = 21.0 + 19.5 * i;
    for (int i = 0; i < CONDITIONS; i++)
        conditions[i] = i;
    for (int i = 0; i < LOADS; i++)
        loads[i] = 900.0 * pow(1.02, i);
}

/* The value of an axis at a grid point counts through the later axes first. */
static void expect_grid(const struct spt_batch_grid *grid, size_t first_row, size_t rows,
                        const char *what)
{
    cr_assert_eq(spt_batch_grid_rows(grid, first_row, rows, &grid_results), SPT_OK, "%s", what);
    size_t length = spt_batch_grid_row(grid);
    int disagreements = 0;
    for (size_t k = 0; k < rows * length; k++) {
        struct spt_batch point = grid->batch;
        double values[SPT_BATCH_AXES_MAX];
        size_t rest = first_row * length + k;
        for (int a = grid->count - 1; a >= 0; a--) {
            values[a] = grid->axes[a].values[rest % grid->axes[a].count];
            rest /= grid->axes[a].count;
            point.columns[grid->axes[a].variable] = (struct spt_batch_column){&values[a], 0};
        }
        struct scalar_point want = scalar_chain(&point, 0);
        struct scalar_point got = {grid_out[0][k], grid_out[1][k], grid_out[2][k], grid_out[3][k],
                                   grid_out[4][k], grid_out[5][k], grid_status[k]};
        if (!points_agree(&got, &want) && disagreements++ < 5)
            cr_expect(false,
                      "%s point %zu: kappa %.17g for %.17g, a_ISO %.17g for %.17g, L10h %.17g for "
                      "%.17g, life %.17g for %.17g, status %u for %u",
                      what, k, got.viscosity_ratio, want.viscosity_ratio,
                      got.life_modification_factor, want.life_modification_factor,
                      got.basic_rating_life_h, want.basic_rating_life_h, got.modified_rating_life_h,
                      want.modified_rating_life_h, got.status, want.status);
        if (!grid->batch.ep_additive && !isnan(got.life_modification_factor))
            cr_expect_eq(!!(got.status & SPT_BATCH_LIFE_FACTOR_CAPPED),
                         got.life_modification_factor > 50 * (1 - 1e-12), "%s point %zu", what, k);
    }
    cr_expect_eq(disagreements, 0, "%s: %d points disagree", what, disagreements);
}

static struct spt_batch_grid make_grid(enum spt_bearing_type type)
{
    fill_axes();
    batch_case_make(&c, type);
    struct spt_batch_grid grid = {.batch = c.batch, .count = 4};
    grid.axes[0] = (struct spt_batch_axis){SPT_BATCH_SPEED_RPM, speeds, SPEEDS};
    grid.axes[1] = (struct spt_batch_axis){SPT_BATCH_TEMPERATURE_C, temperatures, TEMPERATURES};
    grid.axes[2] = (struct spt_batch_axis){SPT_BATCH_CONDITION, conditions, CONDITIONS};
    grid.axes[3] = (struct spt_batch_axis){SPT_BATCH_EQUIVALENT_LOAD_N, loads, LOADS};
    return grid;
}

Test(batch_property, a_grid_with_the_load_innermost_equals_the_scalar_model)
{
    static const enum spt_bearing_type types[] = {SPT_TAPERED_ROLLER, SPT_DEEP_GROOVE_BALL,
                                                  SPT_THRUST_BALL, SPT_THRUST_ROLLER};
    for (size_t t = 0; t < 4; t++) {
        struct spt_batch_grid grid = make_grid(types[t]);
        cr_assert_eq(spt_batch_grid_points(&grid), (size_t)GRID_POINTS);
        expect_grid(&grid, 0, GRID_POINTS / LOADS, spt_bearing_type_name(types[t]));
        expect_grid(&grid, 33, 300, "some rows");
        grid.batch.ep_additive = true;
        expect_grid(&grid, 0, GRID_POINTS / LOADS, "EP");
    }
}

Test(batch_property, a_grid_with_another_axis_innermost_equals_the_scalar_model)
{
    struct spt_batch_grid grid = make_grid(SPT_TAPERED_ROLLER);
    struct spt_batch_axis load = grid.axes[3];
    grid.axes[3] = grid.axes[0];
    grid.axes[0] = load;
    expect_grid(&grid, 0, GRID_POINTS / SPEEDS, "speed innermost");
    expect_grid(&grid, 17, 1000, "some rows, speed innermost");
    grid.count = 1;
    expect_grid(&grid, 0, 1, "load alone");
    grid.count = 0;
    expect_grid(&grid, 0, 1, "no axis: one point");
}

Test(batch_property, rows_of_any_length_equal_the_scalar_model)
{
    struct spt_batch_grid grid = make_grid(SPT_TAPERED_ROLLER);
    for (size_t count = 1; count <= 40; count++) {
        grid.axes[3].count = count;
        expect_grid(&grid, 0, (size_t)SPEEDS * TEMPERATURES * CONDITIONS, "a short row");
    }
}

Test(batch_property, bad_values_on_grid_axes_are_marked)
{
    struct spt_batch_grid grid = make_grid(SPT_CYLINDRICAL_ROLLER);
    speeds[3] = (double)NAN;
    temperatures[1] = -300.0;
    conditions[5] = 2.5;
    loads[7] = 0.0;
    loads[270] = (double)INFINITY;
    expect_grid(&grid, 0, GRID_POINTS / LOADS, "bad axis values");
    speeds[3] = 1e-90; /* lives beyond the short way */
    loads[270] = 1e-80;
    expect_grid(&grid, 0, 3 * TEMPERATURES * CONDITIONS, "huge ratios");
}

Test(batch_property, grids_that_are_none_are_refused)
{
    struct spt_batch_grid grid = make_grid(SPT_TAPERED_ROLLER);
    cr_expect_eq(spt_batch_grid_rows(&grid, 490, 1, &grid_results), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_batch_grid_rows(&grid, (size_t)-1, 2, &grid_results), SPT_BAD_ARGUMENT);
    grid.axes[1].variable = SPT_BATCH_SPEED_RPM;
    cr_expect_eq(spt_batch_grid_points(&grid), 0u, "an axis twice");
    grid = make_grid(SPT_TAPERED_ROLLER);
    grid.axes[1].count = 0;
    cr_expect_eq(spt_batch_grid_points(&grid), 0u, "an empty axis");
    grid = make_grid(SPT_TAPERED_ROLLER);
    for (int a = 0; a < 4; a++)
        grid.axes[a].count = (size_t)1 << 20;
    cr_expect_eq(spt_batch_grid_points(&grid), 0u, "more points than a size_t counts");
}

/* gcc on x86-64 builds three variants of the kernel; that this program holds them guards against a
 * compiler or a flag that quietly drops them. */
Test(batch_build, the_kernel_has_its_vector_variants)
{
    const char *variant = spt_batch_variant();
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__) && defined(__ELF__)
    static char line[4096];
    int found = 0;
    FILE *nm = popen("nm /proc/$PPID/exe 2>/dev/null", "r");
    cr_assert_not_null(nm);
    int lines = 0;
    while (fgets(line, sizeof line, nm)) {
        lines++;
        found += strstr(line, "run_points.arch_x86_64_v3") != NULL;
        found += strstr(line, "run_points.arch_x86_64_v4") != NULL;
        found += strstr(line, "run_points.default") != NULL;
    }
    pclose(nm);
    if (lines == 0)
        leave_out("no nm here (Debian: apt-get install binutils)");
    cr_expect_geq(found, 3, "%d variants found", found);
#endif
    cr_expect(strcmp(variant, "portable") == 0 || strncmp(variant, "x86-64-v", 8) == 0, "%s",
              variant);
}
