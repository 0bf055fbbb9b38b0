/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>
#include <pthread.h>

#include "support/near.h"

enum { N = 4000, D = 5, THREADS = 4 };

struct part {
    int first, step;
    double *sum; /* one for each sample */
};

static void *draw_part(void *argument)
{
    const struct part *part = argument;
    for (int i = part->first; i < N; i += part->step) {
        part->sum[i] = 0.0;
        for (uint32_t d = 0; d < D; d++)
            part->sum[i] += spt_random_uniform(42, (uint64_t)i, d);
    }
    return NULL;
}

Test(random_property, samples_are_the_same_on_one_thread_and_on_four)
{
    static double one[N], four[N];
    struct part whole = {0, 1, one};
    struct part parts[THREADS];
    pthread_t threads[THREADS];

    draw_part(&whole);
    for (int k = 0; k < THREADS; k++) {
        parts[k] = (struct part){k, THREADS, four};
        cr_assert_eq(pthread_create(&threads[k], NULL, draw_part, &parts[k]), 0);
    }
    for (int k = 0; k < THREADS; k++)
        cr_assert_eq(pthread_join(threads[k], NULL), 0);
    for (int i = 0; i < N; i++)
        cr_assert_eq(one[i], four[i], "sample %d", i);
}

Test(random_property, seeds_samples_and_dimensions_give_different_numbers_inside_0_and_1)
{
    double base = spt_random_uniform(1, 2, 3);
    cr_expect_neq(base, spt_random_uniform(2, 2, 3));
    cr_expect_neq(base, spt_random_uniform(1, 3, 3));
    cr_expect_neq(base, spt_random_uniform(1, 2, 4));
    cr_expect_neq(base, spt_random_uniform(1, 2 + (UINT64_C(1) << 32), 3));
    cr_expect_neq(base, spt_random_uniform(1 + (UINT64_C(1) << 32), 2, 3));
    for (uint64_t i = 0; i < 100000; i++) {
        double u = spt_random_uniform(5, i, 0);
        cr_assert(u > 0.0 && u < 1.0);
    }
}

/* mean 1/2 and variance 1/12, within five standard errors; neighbours uncorrelated */
Test(random_property, plain_numbers_are_uniform)
{
    double sum = 0, squares = 0, products = 0;
    for (uint64_t i = 0; i < 100000; i++) {
        double u = spt_random_uniform(9, i, 2) - 0.5;
        sum += u;
        squares += u * u;
        products += u * (spt_random_uniform(9, i, 3) - 0.5);
    }
    cr_expect(near(sum / 1e5, 0, 0, 5 * sqrt(1 / 12.0 / 1e5)));
    cr_expect(near(squares / 1e5, 1 / 12.0, 0, 5 * sqrt(1 / 180.0 / 1e5)));
    cr_expect(near(products / 1e5, 0, 0, 5 * (1 / 12.0) / sqrt(1e5)));
}

/* A shorter design is the beginning of a longer one, and a design is even: each sixteenth of each
 * axis holds a sixteenth of 1024 points, within one or two for the shift. */
Test(random_property, sobol_designs_are_even_and_do_not_depend_on_their_length)
{
    enum { M = 1024 };
    static double longer[M * D], shorter[100 * D], other[M * D];

    cr_assert_eq(spt_random_sobol(77, M, D, longer, M * D), SPT_OK);
    cr_assert_eq(spt_random_sobol(77, 100, D, shorter, 100 * D), SPT_OK);
    cr_assert_eq(spt_random_sobol(78, M, D, other, M * D), SPT_OK);
    for (int k = 0; k < 100 * D; k++)
        cr_assert_eq(longer[k], shorter[k]);
    cr_expect_neq(longer[0], other[0]);
    for (int d = 0; d < D; d++) {
        int bins[16] = {0};
        for (int i = 0; i < M; i++) {
            cr_assert(longer[i * D + d] > 0.0 && longer[i * D + d] < 1.0);
            bins[(int)(16 * longer[i * D + d])]++;
        }
        for (int b = 0; b < 16; b++)
            cr_expect(near(bins[b], M / 16.0, 0, 2), "axis %d bin %d: %d", d, b, bins[b]);
    }
}

Test(random_property, values_rise_with_their_share)
{
    static const double weights[] = {2, 0, 5, 1};
    const struct spt_random_input inputs[] = {
        {.spread = SPT_RANDOM_NORMAL, .centre = 70, .deviation = 8},
        {.spread = SPT_RANDOM_LOGNORMAL, .centre = 300, .deviation = 0.7},
        {.spread = SPT_RANDOM_TRIANGULAR, .low = 1, .centre = 2, .high = 7},
        {.spread = SPT_RANDOM_UNIFORM, .low = 1, .high = 7},
        {.spread = SPT_RANDOM_CLASSES, .class_count = 4, .class_weights = weights},
    };
    for (size_t k = 0; k < sizeof inputs / sizeof *inputs; k++) {
        double before = -(double)INFINITY;
        for (int i = 1; i < 1000; i++) {
            double value;
            cr_assert_eq(spt_random_value(&inputs[k], i / 1000.0, &value), SPT_OK);
            cr_assert_geq(value, before, "input %zu at %d", k, i);
            before = value;
        }
    }
}
