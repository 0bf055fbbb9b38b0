/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/replacement.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

/* Textbook case of optimum replacement time, Weibull 2.5, 1000 h, costs 1 and 5: 493.0470 h (a
 * reliability wiki; inputs and formula read, the answer from memory). The unit test of the Python
 * package "reliability" has 493.1851185 h and 0.0034620429190: the point of a grid, 0.03 % high,
 * at which the cost agrees to 5e-8. */
Test(replacement_published, weibull_lives_with_costs_1_to_5)
{
    const struct spt_weibull w = {2.5, 1000};
    const struct spt_replacement_costs costs = {1, 5};
    struct spt_replacement plan;

    cr_assert_eq(spt_replacement_weibull(&w, &costs, &plan), SPT_OK);
    cr_expect(near(plan.age, 493.0470, 0, 5e-5), "T %.7f", plan.age);
    cr_expect(near(plan.age, 493.1851185, 5e-4, 0));
    cr_expect(near(plan.cost_rate, 0.0034620429190, 1e-7, 0), "C %.13f", plan.cost_rate);
}

static double survive_uniform(double t, const void *context)
{
    double end = *(const double *)context;
    return t < end ? 1.0 - t / end : 0.0;
}

/* Jardine and Tsang, Maintenance, Replacement and Reliability, chapter 2 problem 2: lives uniform
 * over 0 to 40 000 km, costs 100 and 200. The book stops at the grid point 30 000; the optimum by
 * calculus is 40 000 (sqrt 3 - 1) = 29 282.03. */
Test(replacement_published, uniform_lives_of_jardine_and_tsang)
{
    static const struct {
        double age, cost;
    } rows[] = {{10000, 0.0143}, {20000, 0.01}, {30000, 0.0093}, {40000, 0.01}};
    const double end = 40000;
    const struct spt_replacement_costs costs = {100, 200};
    struct spt_replacement plan;

    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        cr_assert_eq(spt_replacement_at(survive_uniform, &end, &costs, rows[i].age, &plan), SPT_OK);
        cr_expect(near(plan.cost_rate, rows[i].cost, 0, 5e-5), "C(%g) %.7f", rows[i].age,
                  plan.cost_rate);
        cr_expect(near(plan.mean_life, 20000, 1e-9, 0), "%.9g", plan.mean_life);
    }
    cr_assert_eq(spt_replacement_optimum(survive_uniform, &end, &costs, &plan), SPT_OK);
    cr_expect(near(plan.age, 40000 * (sqrt(3.0) - 1.0), 1e-6, 0), "T %.7f", plan.age);
    cr_expect(near(plan.cost_rate, 0.0093, 0, 5e-5));
}
