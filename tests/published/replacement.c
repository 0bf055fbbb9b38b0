/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/published.h"

Test(replacement_published, weibull_lives_with_costs_1_to_5)
{
    static const char source[] =
        "Textbook case of optimum replacement time, Weibull 2.5, 1000 h, costs 1 and 5: "
        "493.0470 h (a reliability wiki; inputs and formula read, the answer from memory). The "
        "unit test of the Python package \"reliability\" has 493.1851185 h and "
        "0.0034620429190: the point of a grid, 0.03 % high, at which the cost agrees to 5e-8.";
    const struct spt_weibull w = {2.5, 1000};
    const struct spt_replacement_costs costs = {1, 5};
    struct spt_replacement plan;

    cr_assert_eq(spt_replacement_weibull(&w, &costs, &plan), SPT_OK);
    cr_expect(agrees(source, "T", 493.0470, plan.age, 5e-5));
    cr_expect(agrees_within(source, "age", 493.1851185, plan.age, 5e-4));
    cr_expect(agrees_within(source, "C", 0.0034620429190, plan.cost_rate, 1e-7));
}

static double survive_uniform(double t, const void *context)
{
    double end = *(const double *)context;
    return t < end ? 1.0 - t / end : 0.0;
}

Test(replacement_published, uniform_lives_of_jardine_and_tsang)
{
    static const char source[] =
        "Jardine and Tsang, Maintenance, Replacement and Reliability, chapter 2 problem 2: "
        "lives uniform over 0 to 40 000 km, costs 100 and 200. The book stops at the grid "
        "point 30 000; the optimum by calculus is 40 000 (sqrt 3 - 1) = 29 282.03.";
    static const struct {
        double age, cost;
    } rows[] = {{10000, 0.0143}, {20000, 0.01}, {30000, 0.0093}, {40000, 0.01}};
    const double end = 40000;
    const struct spt_replacement_costs costs = {100, 200};
    struct spt_replacement plan;

    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        cr_assert_eq(spt_replacement_at(survive_uniform, &end, &costs, rows[i].age, &plan), SPT_OK);
        cr_expect(agrees(source, named("cost_rate, C(%g)", rows[i].age), rows[i].cost,
                         plan.cost_rate, 5e-5));
        cr_expect(agrees_within(source, "mean_life", 20000, plan.mean_life, 1e-9));
    }
    cr_assert_eq(spt_replacement_optimum(survive_uniform, &end, &costs, &plan), SPT_OK);
    cr_expect(agrees_within(source, "T", 40000 * (sqrt(3.0) - 1.0), plan.age, 1e-6));
    cr_expect(agrees(source, "cost_rate", 0.0093, plan.cost_rate, 5e-5));
}
