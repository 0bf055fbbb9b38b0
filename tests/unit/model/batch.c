/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/sweep.h"

#include <criterion/criterion.h>
#include <float.h>
#include <math.h>
#include <stdio.h>

#include "spalltime/lubricant.h"
#include "support/batch_case.h"
#include "support/near.h"

static struct batch_case c; /* 350 kB: too much for a stack */

static void expect_agreement(size_t points, const char *what)
{
    struct spt_batch_results results = batch_case_results(&c);
    cr_assert_eq(spt_batch_points(&c.batch, 0, points, &results), SPT_OK, "%s", what);
    for (size_t i = 0; i < points; i++) {
        struct scalar_point got = batch_case_point(&c, i);
        struct scalar_point want = scalar_chain(&c.batch, i);
        cr_expect(points_agree(&got, &want),
                  "%s, point %zu: kappa %.17g for %.17g, e_C %.17g for %.17g, a_ISO %.17g for "
                  "%.17g, a_w %.17g for %.17g, L10h %.17g for %.17g, life %.17g for %.17g, status "
                  "%u for %u",
                  what, i, got.viscosity_ratio, want.viscosity_ratio, got.contamination_factor,
                  want.contamination_factor, got.life_modification_factor,
                  want.life_modification_factor, got.water_factor, want.water_factor,
                  got.basic_rating_life_h, want.basic_rating_life_h, got.modified_rating_life_h,
                  want.modified_rating_life_h, got.status, want.status);
    }
}

Test(batch, one_point_of_each_bearing_type_equals_the_scalar_model)
{
    for (int type = 0; type < SPT_BEARING_TYPE_COUNT; type++) {
        batch_case_make(&c, (enum spt_bearing_type)type);
        expect_agreement(1, spt_bearing_type_name((enum spt_bearing_type)type));
        cr_expect(c.out[5][0] > 100.0 && c.out[5][0] < 1e7, "a life like others: %g", c.out[5][0]);
    }
}

/* Speeds that put kappa on, just below and just above its steps. */
Test(batch, steps_of_kappa_are_those_of_the_scalar_model)
{
    static const double steps[] = {SPT_KAPPA_MIN, 0.4, 1.0, SPT_KAPPA_MAX};
    static const enum spt_bearing_type types[] = {SPT_TAPERED_ROLLER, SPT_DEEP_GROOVE_BALL,
                                                  SPT_THRUST_BALL, SPT_THRUST_ROLLER};
    for (size_t t = 0; t < 4; t++)
        for (size_t s = 0; s < 4; s++) {
            batch_case_make(&c, types[t]);
            double kappa = scalar_chain(&c.batch, 0).viscosity_ratio;
            double speed = c.in[SPT_BATCH_SPEED_RPM][0] * pow(steps[s] / kappa, 1 / 0.83);
            if (speed > 1000.0)
                batch_case_set(&c, SPT_BATCH_LINE_A, c.in[SPT_BATCH_LINE_A][0] + 0.05);
            for (int i = 0; i < 401; i++)
                c.in[SPT_BATCH_SPEED_RPM][i] = speed * (1.0 + (i - 200) * 1e-15);
            for (int i = 401; i < 500; i++)
                c.in[SPT_BATCH_SPEED_RPM][i] = speed * (1.0 + (i - 450) * 1e-6);
            expect_agreement(500, "kappa near a step");
        }
}

Test(batch, the_step_of_the_reference_viscosity_is_at_1000_rpm)
{
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    c.in[SPT_BATCH_SPEED_RPM][0] = nextafter(1000.0, 0.0);
    c.in[SPT_BATCH_SPEED_RPM][1] = 1000.0;
    c.in[SPT_BATCH_SPEED_RPM][2] = nextafter(1000.0, 2000.0);
    expect_agreement(3, "1000 r/min");
    cr_expect(near(c.out[0][1] / c.out[0][0], 45000.0 * pow(1000.0, -0.83) / 4500.0 * sqrt(1000.0),
                   1e-12, 0.0),
              "kappa rises by the step of the standard, got %g", c.out[0][1] / c.out[0][0]);
}

Test(batch, clean_and_dirty_ends_equal_the_scalar_model)
{
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    c.batch.pitch_diameter_mm = 55.0; /* very severe: e_C is 0 */
    for (int i = 0; i < 14; i++)
        c.in[SPT_BATCH_CONDITION][i] = i;
    c.in[SPT_BATCH_EQUIVALENT_LOAD_N][0] = 1500.0; /* reaches the cap of 50 */
    expect_agreement(14, "conditions");
    cr_expect_eq(c.out[1][SPT_CLEANLINESS_GREASE_VERY_SEVERE], 0.0);
    cr_expect(near(c.out[2][SPT_CLEANLINESS_GREASE_VERY_SEVERE], 0.1, 1e-15, 0.0));
    cr_expect_eq(c.out[2][0], 50.0);
    cr_expect_eq(c.status[0] & SPT_BATCH_LIFE_FACTOR_CAPPED, SPT_BATCH_LIFE_FACTOR_CAPPED);
    c.batch.pitch_diameter_mm = 500.0; /* where b of one condition changes */
    expect_agreement(14, "conditions at 500 mm");
}

Test(batch, a_given_contamination_factor_is_taken_as_it_is)
{
    static const double e_c[] = {0.0, DBL_TRUE_MIN, 1e-300, 0.1, 0.2, 0.43, 1.0};
    batch_case_make(&c, SPT_DEEP_GROOVE_BALL);
    batch_case_drop(&c, SPT_BATCH_CONDITION);
    batch_case_set(&c, SPT_BATCH_CONTAMINATION_FACTOR, 0.3);
    for (int i = 0; i < 7; i++)
        c.in[SPT_BATCH_CONTAMINATION_FACTOR][i] = e_c[i];
    expect_agreement(8, "given e_C");
    for (int i = 0; i < 7; i++)
        cr_expect_eq(c.out[1][i], e_c[i]);
}

Test(batch, water_has_no_credit_and_a_floor)
{
    const double water[] = {0.0,    DBL_TRUE_MIN, 25.0,   nextafter(100.0, 0.0),
                            100.0,  101.0,        400.0,  401.0,
                            5440.0, 5441.0,       5442.0, 1e6};
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    for (int i = 0; i < 12; i++)
        c.in[SPT_BATCH_WATER_PPM][i] = water[i];
    expect_agreement(12, "water");
    cr_expect_eq(c.out[3][4], 1.0);
    cr_expect(near(c.out[3][11], 1.0 / 11.0, 1e-15, 0.0));
}

Test(batch, worn_grease_without_film_has_kappa_0_and_no_modified_life)
{
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    batch_case_set(&c, SPT_BATCH_FILM_RATIO, 0.6);
    c.in[SPT_BATCH_FILM_RATIO][1] = 0.0;
    c.in[SPT_BATCH_FILM_RATIO][2] = 1.0;
    c.in[SPT_BATCH_FILM_RATIO][3] = 0.02;
    expect_agreement(4, "film ratio");
    cr_expect_eq(c.out[0][1], 0.0);
    cr_expect(isnan(c.out[5][1]));
    cr_expect(c.out[4][1] > 0.0, "the basic life needs no film");
    cr_expect_eq(c.status[1] & SPT_BATCH_FILM_TOO_THIN, SPT_BATCH_FILM_TOO_THIN);
}

Test(batch, the_ep_rule_equals_the_scalar_model)
{
    for (int type = 0; type < SPT_BEARING_TYPE_COUNT; type++) {
        batch_case_make(&c, (enum spt_bearing_type)type);
        c.batch.ep_additive = true;
        for (int i = 0; i < 600; i++) {
            c.in[SPT_BATCH_SPEED_RPM][i] = 12.0 + 1.7 * i;
            c.in[SPT_BATCH_CONDITION][i] = i % 14;
            c.in[SPT_BATCH_EQUIVALENT_LOAD_N][i] = 2e3 + 170.0 * ((i * 37) % 600);
            c.in[SPT_BATCH_TEMPERATURE_C][i] = 60.0 + i % 60;
        }
        expect_agreement(600, "EP");
        int credits = 0;
        for (int i = 0; i < 600; i++)
            credits += (c.status[i] & SPT_BATCH_EP_CREDIT) != 0;
        cr_expect(credits > 10, "the rule applied %d times", credits);
    }
}

Test(batch, two_viscosities_serve_in_place_of_a_line)
{
    batch_case_make(&c, SPT_CYLINDRICAL_ROLLER);
    batch_case_drop(&c, SPT_BATCH_LINE_A);
    batch_case_drop(&c, SPT_BATCH_LINE_B);
    batch_case_set(&c, SPT_BATCH_NU40_MM2_S, 146.0);
    batch_case_set(&c, SPT_BATCH_NU100_MM2_S, 14.9);
    for (int i = 0; i < 300; i++)
        c.in[SPT_BATCH_NU40_MM2_S][i] = 16.0 + i; /* up to 0: thinner than at 100 degC */
    for (int i = 300; i < 310; i++)
        c.in[SPT_BATCH_NU40_MM2_S][i] = 14.9 - 0.1 * (i - 300);
    expect_agreement(311, "nu40 and nu100");
    for (int i = 300; i < 310; i++)
        cr_expect_eq(c.status[i], SPT_BATCH_BAD_INPUT);
}

/* Each bad value in each column, at places in full and in short blocks. */
Test(batch, bad_inputs_give_nan_and_a_status_and_leave_the_others_alone)
{
    const double bad[] = {(double)NAN,
                          -(double)NAN,
                          (double)INFINITY,
                          -(double)INFINITY,
                          -1e-3,
                          -DBL_TRUE_MIN,
                          -1e6,
                          1e7,
                          -1e99,
                          -300.0,
                          0.0};
    static const enum spt_batch_variable needs_more_than_0[] = {
        SPT_BATCH_DYNAMIC_LOAD_RATING_N, SPT_BATCH_FATIGUE_LOAD_LIMIT_N, SPT_BATCH_SPEED_RPM,
        SPT_BATCH_EQUIVALENT_LOAD_N, SPT_BATCH_LINE_B};
    for (int v = 0; v < SPT_BATCH_VARIABLE_COUNT; v++) {
        batch_case_make(&c, SPT_TAPERED_ROLLER);
        if (!c.batch.columns[v].values)
            continue;
        for (int k = 0; k < 11; k++) {
            c.in[v][23 * k] = bad[k];
            c.in[v][512 + 2 * k] = bad[k];
        }
        expect_agreement(540, "bad inputs");
        for (size_t k = 0; k < 5; k++)
            if ((int)needs_more_than_0[k] == v)
                cr_expect_eq(c.status[23 * 10], SPT_BATCH_BAD_INPUT, "0 in column %d", v);
        cr_expect_eq(c.status[0], SPT_BATCH_BAD_INPUT, "NaN in column %d", v);
        cr_expect_eq(c.status[23], SPT_BATCH_BAD_INPUT, "-NaN in column %d", v);
        cr_expect_eq(c.status[46], SPT_BATCH_BAD_INPUT, "infinity in column %d", v);
        cr_expect_neq(c.status[1], SPT_BATCH_BAD_INPUT, "its neighbour in column %d", v);
    }
}

/* The scalar functions take them, the kernel's contract does not. */
Test(batch, magnitudes_beyond_1e100_are_marked)
{
    static const double absurd[] = {DBL_MAX, 1.001e100, 0.999e-100, DBL_MIN, DBL_TRUE_MIN};
    struct spt_batch_results results = batch_case_results(&c);
    for (int v = SPT_BATCH_DYNAMIC_LOAD_RATING_N; v <= SPT_BATCH_EQUIVALENT_LOAD_N; v++) {
        batch_case_make(&c, SPT_TAPERED_ROLLER);
        for (int k = 0; k < 5; k++)
            c.in[v][k] = absurd[k];
        cr_assert_eq(spt_batch_points(&c.batch, 0, 6, &results), SPT_OK);
        for (int k = 0; k < 5; k++) {
            cr_expect_eq(c.status[k], SPT_BATCH_BAD_INPUT, "%g in column %d", absurd[k], v);
            cr_expect(isnan(c.out[0][k]) && isnan(c.out[4][k]) && isnan(c.out[5][k]));
        }
        cr_expect_neq(c.status[5], SPT_BATCH_BAD_INPUT);
    }
}

Test(batch, columns_end_where_they_are_stated_to)
{
    static const struct {
        enum spt_batch_variable variable;
        double last, beyond;
    } ends[] = {{SPT_BATCH_DYNAMIC_LOAD_RATING_N, 1e100, 1.001e100},
                {SPT_BATCH_DYNAMIC_LOAD_RATING_N, 1e-100, 0.999e-100},
                {SPT_BATCH_WATER_PPM, 1e6, 1.001e6},
                {SPT_BATCH_FILM_RATIO, 1.0, 1.001},
                {SPT_BATCH_CONTAMINATION_FACTOR, 1.0, 1.001},
                {SPT_BATCH_LINE_A, 1e100, 1.001e100}};
    struct spt_batch_results results = batch_case_results(&c);
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        batch_case_make(&c, SPT_TAPERED_ROLLER);
        if (ends[i].variable == SPT_BATCH_CONTAMINATION_FACTOR)
            batch_case_drop(&c, SPT_BATCH_CONDITION);
        batch_case_set(&c, ends[i].variable, ends[i].last);
        c.in[ends[i].variable][1] = ends[i].beyond;
        if (ends[i].variable == SPT_BATCH_DYNAMIC_LOAD_RATING_N) /* a usual ratio */
            c.in[SPT_BATCH_EQUIVALENT_LOAD_N][0] = ends[i].last;
        if (ends[i].variable == SPT_BATCH_LINE_A) /* a line as steep brings the oil back */
            c.in[SPT_BATCH_LINE_B][0] = (1e100 - log10(2.0)) / log10(63.7 + 273.15);
        cr_assert_eq(spt_batch_points(&c.batch, 0, 2, &results), SPT_OK);
        cr_expect_neq(c.status[0] & SPT_BATCH_BAD_INPUT, SPT_BATCH_BAD_INPUT, "%g in column %d",
                      ends[i].last, (int)ends[i].variable);
        cr_expect_eq(c.status[1], SPT_BATCH_BAD_INPUT, "%g in column %d", ends[i].beyond,
                     (int)ends[i].variable);
    }
}

Test(batch, factors_of_the_whole_batch_end_where_they_are_stated_to)
{
    struct spt_batch_results results = batch_case_results(&c);
    static const double fine[] = {0.01, 100.0}, beyond[] = {0.00999, 100.1};
    for (int i = 0; i < 2; i++) {
        batch_case_make(&c, SPT_TAPERED_ROLLER);
        c.batch.density_factor = fine[i];
        c.batch.reliability_factor = fine[1 - i];
        cr_expect_eq(spt_batch_points(&c.batch, 0, 1, &results), SPT_OK, "%g", fine[i]);
        c.batch.density_factor = beyond[i];
        cr_expect_eq(spt_batch_points(&c.batch, 0, 1, &results), SPT_BAD_ARGUMENT);
        c.batch.density_factor = 1.0;
        c.batch.reliability_factor = beyond[i];
        cr_expect_eq(spt_batch_points(&c.batch, 0, 1, &results), SPT_BAD_ARGUMENT);
    }
}

Test(batch, a_bad_constant_marks_every_point)
{
    double speed = (double)NAN;
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    c.batch.columns[SPT_BATCH_SPEED_RPM] = (struct spt_batch_column){&speed, 0};
    expect_agreement(700, "constant NaN");
    double condition = 2.5;
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    c.batch.columns[SPT_BATCH_CONDITION] = (struct spt_batch_column){&condition, 0};
    expect_agreement(700, "condition 2.5");
    cr_expect_eq(c.status[699], SPT_BATCH_BAD_INPUT);
}

Test(batch, constants_and_strides_give_the_same_as_plain_columns)
{
    static double pairs[2 * 700];
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    for (int v = 0; v < SPT_BATCH_VARIABLE_COUNT; v++)
        if (c.batch.columns[v].values)
            c.batch.columns[v].stride = 0;
    for (int i = 0; i < 1400; i++)
        pairs[i] = i % 2 ? -1.0 : 3000.0 + 40.0 * i;
    c.batch.columns[SPT_BATCH_EQUIVALENT_LOAD_N] = (struct spt_batch_column){pairs, 2};
    expect_agreement(700, "stride 2");
}

/* One column varies, whatever follows from the others is worked out once: three blocks of each. */
Test(batch, any_column_may_be_the_only_one_that_varies)
{
    for (int v = 0; v < SPT_BATCH_VARIABLE_COUNT; v++) {
        batch_case_make(&c, v % 2 ? SPT_TAPERED_ROLLER : SPT_DEEP_GROOVE_BALL);
        c.batch.ep_additive = v % 3 == 0;
        if (v == SPT_BATCH_CONTAMINATION_FACTOR)
            batch_case_drop(&c, SPT_BATCH_CONDITION);
        if (v == SPT_BATCH_NU40_MM2_S || v == SPT_BATCH_NU100_MM2_S) {
            batch_case_drop(&c, SPT_BATCH_LINE_A);
            batch_case_drop(&c, SPT_BATCH_LINE_B);
            batch_case_set(&c, SPT_BATCH_NU40_MM2_S, 220.0);
            batch_case_set(&c, SPT_BATCH_NU100_MM2_S, 19.0);
        }
        if (!c.batch.columns[v].values)
            batch_case_set(&c, (enum spt_batch_variable)v, 0.71);
        for (int i = 0; i < 700; i++)
            c.in[v][i] = v == SPT_BATCH_CONDITION ? (double)(i % 14)
                                                  : c.in[v][0] * (1.0 - 0.001 * (i % 311));
        for (int other = 0; other < SPT_BATCH_VARIABLE_COUNT; other++)
            if (other != v)
                c.batch.columns[other].stride = 0;
        char what[40];
        snprintf(what, sizeof what, "variable %d", v);
        expect_agreement(700, what);
    }
}

/* The film ratio thins kappa, and the fresh one is what kappa would be without it. */
Test(batch, the_fresh_viscosity_ratio_is_that_of_the_full_film)
{
    static double fresh[700], full[700];
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    for (int i = 0; i < 700; i++)
        c.in[SPT_BATCH_SPEED_RPM][i] = 20.0 + 3.1 * i;
    batch_case_set(&c, SPT_BATCH_FILM_RATIO, 0.385);
    struct spt_batch_results worn = {.viscosity_ratio = c.out[0], .fresh_viscosity_ratio = fresh};
    cr_assert_eq(spt_batch_points(&c.batch, 0, 700, &worn), SPT_OK);
    batch_case_drop(&c, SPT_BATCH_FILM_RATIO);
    struct spt_batch_results without = {.viscosity_ratio = full};
    cr_assert_eq(spt_batch_points(&c.batch, 0, 700, &without), SPT_OK);
    for (int i = 0; i < 700; i++) {
        cr_expect_eq(fresh[i], full[i], "point %d: %.17g for %.17g", i, fresh[i], full[i]);
        cr_expect(near(c.out[0][i], full[i] * pow(0.385, 1.3), 1e-12, 0.0), "point %d", i);
    }
    batch_case_set(&c, SPT_BATCH_FILM_RATIO, 0.385);
    struct spt_batch_grid grid = {.batch = c.batch, .count = 2};
    grid.axes[0] = (struct spt_batch_axis){SPT_BATCH_SPEED_RPM, c.in[SPT_BATCH_SPEED_RPM], 350};
    grid.axes[1] =
        (struct spt_batch_axis){SPT_BATCH_EQUIVALENT_LOAD_N, c.in[SPT_BATCH_EQUIVALENT_LOAD_N], 2};
    cr_assert_eq(spt_batch_grid_rows(&grid, 0, 350, &worn), SPT_OK);
    for (int i = 0; i < 700; i++)
        cr_expect(near(fresh[i], full[i / 2], 1e-13, 0.0), "grid point %d", i);
}

Test(batch, temperatures_beyond_the_oil_are_marked)
{
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    for (int i = 0; i < 1273; i++)
        c.in[SPT_BATCH_TEMPERATURE_C][i] = -273.0 + i;
    c.in[SPT_BATCH_TEMPERATURE_C][1273] = nextafter(-273.15, 0.0);
    c.in[SPT_BATCH_TEMPERATURE_C][1274] = -273.15;
    c.in[SPT_BATCH_TEMPERATURE_C][1275] = -274.5;
    expect_agreement(1276, "temperatures");
    cr_expect_eq(c.status[1275], SPT_BATCH_BAD_INPUT);
    cr_expect_eq(c.status[0], SPT_BATCH_BAD_INPUT, "thicker than 2e7 mm2/s");
    cr_expect_eq(c.status[1272] & SPT_BATCH_VISCOSITY_RANGE, SPT_BATCH_VISCOSITY_RANGE);
}

Test(batch, incomplete_batches_are_refused_and_nothing_is_written)
{
    static const enum spt_batch_variable needed[] = {SPT_BATCH_DYNAMIC_LOAD_RATING_N,
                                                     SPT_BATCH_FATIGUE_LOAD_LIMIT_N,
                                                     SPT_BATCH_SPEED_RPM,
                                                     SPT_BATCH_EQUIVALENT_LOAD_N,
                                                     SPT_BATCH_TEMPERATURE_C,
                                                     SPT_BATCH_LINE_A,
                                                     SPT_BATCH_LINE_B,
                                                     SPT_BATCH_CONDITION};
    struct spt_batch_results results = batch_case_results(&c);
    for (size_t k = 0; k < 8; k++) {
        batch_case_make(&c, SPT_TAPERED_ROLLER);
        c.out[5][0] = 2.385;
        batch_case_drop(&c, needed[k]);
        cr_expect_eq(spt_batch_points(&c.batch, 0, 1, &results), SPT_BAD_ARGUMENT, "column %d",
                     (int)needed[k]);
        cr_expect_eq(c.out[5][0], 2.385);
    }
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    batch_case_set(&c, SPT_BATCH_CONTAMINATION_FACTOR, 0.5);
    cr_expect_eq(spt_batch_points(&c.batch, 0, 1, &results), SPT_BAD_ARGUMENT, "both e_C");
    batch_case_make(&c, SPT_BEARING_TYPE_COUNT);
    cr_expect_eq(spt_batch_points(&c.batch, 0, 1, &results), SPT_BAD_ARGUMENT, "type");
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    c.batch.pitch_diameter_mm = (double)NAN;
    cr_expect_eq(spt_batch_points(&c.batch, 0, 1, &results), SPT_BAD_ARGUMENT, "D_pw");
}

Test(batch, no_points_and_no_results_are_fine)
{
    struct spt_batch_results none = {.status = NULL};
    batch_case_make(&c, SPT_TAPERED_ROLLER);
    cr_expect_eq(spt_batch_points(&c.batch, 0, 0, &none), SPT_OK);
    cr_expect_eq(spt_batch_points(&c.batch, 0, 300, &none), SPT_OK);
}
