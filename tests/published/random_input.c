/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/published.h"

Test(random_published, philox_known_answers)
{
    static const char source[] =
        "Known answers of Philox 4x32-10 that come with the paper's code (Salmon et al. 2011; "
        "recalled from memory and met to the last bit, which chance does not do)";
    static const struct {
        uint32_t counter[4], key[2], words[4];
    } rows[] = {
        {{0, 0, 0, 0}, {0, 0}, {0x6627e8d5, 0xe169c58d, 0xbc57ac4c, 0x9b00dbd8}},
        {{0xffffffff, 0xffffffff, 0xffffffff, 0xffffffff},
         {0xffffffff, 0xffffffff},
         {0x408f276d, 0x41c83b0e, 0xa20bc7c6, 0x6d5451fd}},
        {{0x243f6a88, 0x85a308d3, 0x13198a2e, 0x03707344},
         {0xa4093822, 0x299f31d0},
         {0xd16cfe09, 0x94fdcceb, 0x5001e420, 0x24126ea1}},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        uint32_t words[4];
        spt_random_philox(rows[i].counter, rows[i].key, words);
        for (int k = 0; k < 4; k++)
            cr_expect(agrees(source, named("words, row %zu word %d", i, k), rows[i].words[k],
                             words[k], 0));
    }
}

/* Ishigami function, a = 7, b = 0.1: Saltelli et al., Global Sensitivity Analysis, 2008; from its
 * closed form, first 0.3139 0.4424 0, total 0.5576 0.4424 0.2437 */
static double ishigami(const double *u)
{
    const double pi = 3.14159265358979323846;
    double x1 = pi * (2 * u[0] - 1), x2 = pi * (2 * u[1] - 1), x3 = pi * (2 * u[2] - 1);
    return sin(x1) + 7.0 * sin(x2) * sin(x2) + 0.1 * pow(x3, 4) * sin(x1);
}

Test(random_published, variance_shares_of_the_ishigami_function)
{
    static const char source[] =
        "Ishigami function, Saltelli et al., Global Sensitivity Analysis, 2008";
    enum { N = 8192 };
    static double design[N * 6], a[N], b[N], mixed[N];
    static const double first[] = {0.3139, 0.4424, 0.0};
    static const double total[] = {0.5576, 0.4424, 0.2437};

    cr_assert_eq(spt_random_sobol(20, N, 6, design, N * 6), SPT_OK);
    for (int input = 0; input < 3; input++) {
        struct spt_random_share share;
        for (int i = 0; i < N; i++) {
            double row[3] = {design[6 * i], design[6 * i + 1], design[6 * i + 2]};
            a[i] = ishigami(row);
            b[i] = ishigami(&design[6 * i + 3]);
            row[input] = design[6 * i + 3 + input];
            mixed[i] = ishigami(row);
        }
        cr_assert_eq(spt_random_variance_share(a, b, mixed, N, &share), SPT_OK);
        cr_expect(agrees(source, named("first, first %d", input), first[input], share.first, 0.01));
        cr_expect(agrees(source, named("total, total %d", input), total[input], share.total, 0.01));
    }
}

Test(random_published, normal_quantiles)
{
    static const char source[] =
        "Standard normal table: 95 % two-sided at 1.959964, 99 % one-sided at 2.326348";
    const struct spt_random_input normal = {
        .spread = SPT_RANDOM_NORMAL, .centre = 70, .deviation = 5};
    const struct spt_random_input lognormal = {
        .spread = SPT_RANDOM_LOGNORMAL, .centre = 400, .deviation = 0.5};
    double value;

    cr_assert_eq(spt_random_value(&normal, 0.975, &value), SPT_OK);
    cr_expect(agrees(source, "value", 70 + 5 * 1.959964, value, 3e-6));
    cr_assert_eq(spt_random_value(&lognormal, 0.01, &value), SPT_OK);
    cr_expect(agrees_within(source, "value", 400 * exp(-0.5 * 2.326348), value, 1e-6));
}

Test(random_published, spearman_worked_example)
{
    static const char source[] =
        "Spearman 1904 form of the textbooks' example: IQ against hours of television a week "
        "(from memory, widely printed worked example), rho = -29/165";
    static const double iq[] = {106, 86, 100, 101, 99, 103, 97, 113, 112, 110};
    static const double hours[] = {7, 0, 27, 50, 28, 29, 20, 12, 6, 17};
    double work[20], correlation;

    cr_assert_eq(spt_random_rank_correlation(iq, hours, 10, work, &correlation), SPT_OK);
    cr_expect(agrees_within(source, "correlation", -29.0 / 165.0, correlation, 1e-12));
}
