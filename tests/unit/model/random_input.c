/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

Test(random_input, triangle_and_uniform_invert_their_closed_forms)
{
    const struct spt_random_input triangle = {
        .spread = SPT_RANDOM_TRIANGULAR, .low = 10, .centre = 12, .high = 20};
    const struct spt_random_input uniform = {.spread = SPT_RANDOM_UNIFORM, .low = -3, .high = 5};
    static const double shares[] = {1e-9, 0.05, 0.2, 0.2001, 0.7, 0.999999};
    for (size_t i = 0; i < 6; i++) {
        double x, below;
        cr_assert_eq(spt_random_value(&triangle, shares[i], &x), SPT_OK);
        below = x < 12 ? (x - 10) * (x - 10) / 20 : 1 - (20 - x) * (20 - x) / 80;
        cr_expect(near(below, shares[i], 1e-6, 1e-12), "%g: %g", shares[i], x);
        cr_assert_eq(spt_random_value(&uniform, shares[i], &x), SPT_OK);
        cr_expect(near(x, -3 + 8 * shares[i], 1e-12, 0));
    }
}

Test(random_input, a_triangle_may_peak_at_an_end)
{
    const struct spt_random_input rising = {
        .spread = SPT_RANDOM_TRIANGULAR, .low = 1, .centre = 3, .high = 3};
    const struct spt_random_input falling = {
        .spread = SPT_RANDOM_TRIANGULAR, .low = 1, .centre = 1, .high = 3};
    double x;
    cr_assert_eq(spt_random_value(&rising, 0.25, &x), SPT_OK);
    cr_expect(near(x, 2.0, 1e-12, 0), "%g", x);
    cr_assert_eq(spt_random_value(&falling, 0.75, &x), SPT_OK);
    cr_expect(near(x, 2.0, 1e-12, 0), "%g", x);
}

Test(random_input, classes_come_with_their_weights_and_never_with_weight_0)
{
    static const double weights[] = {0, 3, 0, 1, 0};
    const struct spt_random_input input = {
        .spread = SPT_RANDOM_CLASSES, .class_count = 5, .class_weights = weights};
    double x;
    cr_assert_eq(spt_random_value(&input, 1e-12, &x), SPT_OK);
    cr_expect_eq(x, 1.0);
    cr_assert_eq(spt_random_value(&input, 0.7499, &x), SPT_OK);
    cr_expect_eq(x, 1.0);
    cr_assert_eq(spt_random_value(&input, 0.7501, &x), SPT_OK);
    cr_expect_eq(x, 3.0);
    cr_assert_eq(spt_random_value(&input, 1.0 - 1e-16, &x), SPT_OK);
    cr_expect_eq(x, 3.0);
}

Test(random_input, incomplete_descriptions_are_refused)
{
    static const double none[] = {0, 0};
    static const double negative[] = {1, -1};
    const struct spt_random_input bad[] = {
        {.spread = SPT_RANDOM_FIXED, .centre = (double)NAN},
        {.spread = SPT_RANDOM_NORMAL, .centre = 1, .deviation = 0},
        {.spread = SPT_RANDOM_LOGNORMAL, .centre = -1, .deviation = 1},
        {.spread = SPT_RANDOM_TRIANGULAR, .low = 1, .centre = 4, .high = 3},
        {.spread = SPT_RANDOM_UNIFORM, .low = 3, .high = 3},
        {.spread = SPT_RANDOM_CLASSES, .class_count = 0},
        {.spread = SPT_RANDOM_CLASSES, .class_count = 2, .class_weights = none},
        {.spread = SPT_RANDOM_CLASSES, .class_count = 2, .class_weights = negative},
        {.spread = (enum spt_random_spread)99},
    };
    double x;
    for (size_t i = 0; i < sizeof bad / sizeof *bad; i++) {
        cr_expect_eq(spt_random_value(&bad[i], 0.5, &x), SPT_BAD_ARGUMENT, "row %zu", i);
        cr_expect(isnan(x));
    }
    const struct spt_random_input good = {.spread = SPT_RANDOM_FIXED, .centre = 2.385};
    cr_expect_eq(spt_random_value(&good, 0.0, &x), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_random_value(&good, 1.0, &x), SPT_BAD_ARGUMENT);
    cr_assert_eq(spt_random_value(&good, 0.5, &x), SPT_OK);
    cr_expect_eq(x, 2.385);
}

Test(random_input, a_design_needs_memory_and_a_dimension_in_range)
{
    double design[40];
    cr_expect_eq(spt_random_sobol(1, 10, 4, design, 39), SPT_TOO_SMALL);
    cr_expect_eq(spt_random_sobol(1, 10, 4, design, 40), SPT_OK);
    cr_expect_eq(spt_random_sobol(1, 1, 40, design, 40), SPT_OK);
    cr_expect_eq(spt_random_sobol(1, 1, 41, design, 40), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_random_sobol(1, 0, 4, design, 40), SPT_BAD_ARGUMENT);
}

Test(random_input, rank_correlation_sees_only_order)
{
    static const double x[] = {1, 2, 3, 4, 5, 6};
    static const double cubes[] = {1, 8, 27, 64, 125, 216};
    static const double falling[] = {9, 7, 5, 3, 2, 1};
    static const double equal[] = {4, 4, 4, 4, 4, 4};
    double work[12], rho;

    cr_assert_eq(spt_random_rank_correlation(x, cubes, 6, work, &rho), SPT_OK);
    cr_expect(near(rho, 1.0, 1e-12, 0));
    cr_assert_eq(spt_random_rank_correlation(x, falling, 6, work, &rho), SPT_OK);
    cr_expect(near(rho, -1.0, 1e-12, 0));
    cr_expect_eq(spt_random_rank_correlation(x, equal, 6, work, &rho), SPT_NOT_APPLICABLE);
    cr_expect(isnan(rho));
}
