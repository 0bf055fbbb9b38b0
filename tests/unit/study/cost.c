/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/cost.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "study/service/schedule_policy.h"
#include "support/near.h"
#include "support/schedule_case.h"

/* Annuity tables (from memory). */
Test(cost, an_annuity_pays_off_with_interest)
{
    static const double rows[][3] = {
        {0.05, 10, 0.12950}, {0.05, 5, 0.23097}, {0, 5, 0.2}, {0.08, 7, 0.19207}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        cr_expect(near(spt_cost_annuity(rows[i][0], rows[i][1]), rows[i][2], 0, 5e-6),
                  "row %zu: %g", i, spt_cost_annuity(rows[i][0], rows[i][1]));
    cr_expect(near(spt_cost_annuity(1e-9, 7), 1.0 / 7, 1e-8, 0));
    cr_expect(isnan(spt_cost_annuity(-0.01, 5)) && isnan(spt_cost_annuity(0.05, 0)));
}

/* A plan with one fatigue life and one grease, without its making. */
struct sketch {
    double l10_h, interval_h, every_h, replace_h;
};

static struct spt_schedule *draw(const struct spt_case *question, const struct sketch *sketch)
{
    static struct spt_schedule plan;
    plan = (struct spt_schedule){.question = question,
                                 .bearing_count = 1,
                                 .life_known = true,
                                 .fatigue_count = 1,
                                 .grease_count = 1,
                                 .floor = SPT_WEIBULL_FLOOR,
                                 .fatigue_factor = 1,
                                 .replace_h = sketch->replace_h,
                                 .task_count = 1};
    plan.bearings[0].l10_h = sketch->l10_h;
    plan.fatigue[0] = (struct spt_life_law){sketch->l10_h, SPT_WEIBULL_SLOPE, SPT_WEIBULL_FLOOR};
    plan.grease[0] = (struct spt_grease_plan){sketch->interval_h, sketch->every_h};
    plan.tasks[0] = (struct spt_schedule_task){.task = SPT_TASK_REGREASE,
                                               .every_h = sketch->every_h,
                                               .raw_h = sketch->every_h,
                                               .own_h = sketch->every_h};
    spt_visits_align(&plan, (double)NAN);
    return &plan;
}

/* Trailers of four hubs, 600 h a year: regression figures without an outside authority. */
static struct spt_costs trailer_costs(void)
{
    const double none = (double)NAN;
    return (struct spt_costs){.planned = 260,
                              .failure = 1900,
                              .visit = 30,
                              .downtime = none,
                              .job_h = 0.15,
                              .wage_per_h = 45,
                              .grease = 0.4,
                              .investment = none,
                              .years = none,
                              .interest = none};
}

Test(cost, a_worn_lip_and_a_seal_with_two_lips_on_trailers)
{
    static const struct {
        struct sketch sketch;
        double investment, visits, planned, failures, cost, low, high;
    } rows[] = {{{8710, 110, 100, 8710}, (double)NAN, 6, .17718, .21871, 813.22, 538.67, 2276.4},
                {{37000, 1300, 600, 12000}, 35, 1, .19466, .0096968, 159.97, 150.78, 207.44}};
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_cost_result results[2] = {{.payback_years = 0}};
    struct spt_costs costs = trailer_costs();
    question.yearly_use_h = 600;
    question.units = 4;
    for (int i = 0; i < 2; i++) {
        costs.investment = rows[i].investment;
        costs.years = 5;
        costs.interest = 0.05;
        results[i].l10_h = rows[i].sketch.l10_h;
        results[i].interval_h = rows[i].sketch.interval_h;
        results[i].rusts = true;
        cr_assert_eq(spt_cost_plan(draw(&question, &rows[i].sketch), &costs, &results[i].money),
                     SPT_OK);
        const struct spt_money *money = &results[i].money;
        cr_expect(near(money->middle.visits, rows[i].visits, 1e-12, 0));
        cr_expect(near(money->middle.planned, rows[i].planned, 5e-5, 0), "%.6g",
                  money->middle.planned);
        cr_expect(near(money->middle.failures, rows[i].failures, 5e-5, 0), "%.6g",
                  money->middle.failures);
        cr_expect(near(money->middle.cost, rows[i].cost, 2e-5, 0), "%.7g", money->middle.cost);
        cr_expect(near(money->low.cost, rows[i].low, 3e-5, 0), "%.7g", money->low.cost);
        cr_expect(near(money->high.cost, rows[i].high, 3e-5, 0), "%.7g", money->high.cost);
        spt_cost_compare(&results[0], &costs, 4, &results[i]);
    }
    cr_expect_not(results[0].pays);
    cr_expect(results[1].pays && results[1].helps);
    cr_expect_eq(results[1].unhelped, 1u << SPT_HAZARD_RUST);
    /* by hand: 4 x 35 over 813.22 - (159.97 - 4 x 35 x .23097) */
    cr_expect(near(results[1].payback_years, 140 / (813.22 - 159.97 + 32.336), 1e-4, 0), "%g",
              results[1].payback_years);
    cr_expect(near(12 * results[1].money.middle.cost, 1919.7, 3e-5, 0));
    cr_expect(near(12 * results[0].money.middle.cost, 9758.6, 3e-5, 0));
}

/* Regression figures as above: the more greases fail, the later the cheapest age. */
Test(cost, failures_of_the_grease_delay_the_cheapest_age)
{
    static const struct {
        double rate_1_h, age_h;
    } rows[] = {{0, 31065}, {1e-5, 33176}, {1e-4, 73778}};
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    for (int i = 0; i < 3; i++) {
        /* with T = t_f the rate is 0.01005/t_f */
        const double interval_h = SPT_GREASE_HAZARD / rows[i].rate_1_h;
        struct spt_schedule *plan =
            draw(&question, &(struct sketch){20000, interval_h, interval_h, (double)NAN});
        plan->grease_count = rows[i].rate_1_h > 0;
        plan->costs = (struct spt_replacement_costs){1, 10};
        plan->costs_known = true;
        cr_assert_eq(spt_schedule_optimum(plan), SPT_OK);
        cr_assert(plan->optimum_found);
        cr_expect(near(plan->at_optimum.plan.age, rows[i].age_h, 5e-5, 0), "%g: %.6g h",
                  rows[i].rate_1_h, plan->at_optimum.plan.age);
    }
}

/* L10 462 000 h, 2e-5 failures of grease an hour, costs 1 to 5: a new bearing at 25 400 h costs 30
 * % more than none (regression figures as above). */
Test(cost, a_new_bearing_for_the_sake_of_the_grease_costs_more)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    const double interval_h = SPT_GREASE_HAZARD / 2e-5;
    const struct spt_replacement_costs costs = {1, 5};
    struct spt_replacement early;
    struct spt_schedule *plan =
        draw(&question, &(struct sketch){462000, interval_h, interval_h, (double)NAN});
    cr_assert_eq(spt_replacement_at(spt_schedule_smooth, plan, &costs, 25400, &early), SPT_OK);
    cr_expect(near(early.cost_rate, 1.3022e-4, 5e-5, 0), "%.6g", early.cost_rate);
    cr_expect(near(early.cost_rate_none, 1.0034e-4, 5e-5, 0), "%.6g", early.cost_rate_none);
    plan->costs = costs;
    plan->costs_known = true;
    cr_assert_eq(spt_schedule_optimum(plan), SPT_OK);
    cr_expect(!plan->optimum_found || plan->at_optimum.plan.age > 60 * 462000.0, "%g h",
              plan->at_optimum.plan.age);
}

Test(cost, parts_only_where_neither_visit_nor_downtime_is_stated)
{
    struct spt_costs costs = trailer_costs();
    cr_expect_not(spt_cost_is_parts_only(&costs));
    costs.visit = 0;
    cr_expect(spt_cost_is_parts_only(&costs));
    costs.downtime = 12;
    cr_expect_not(spt_cost_is_parts_only(&costs));
    costs.visit = -1;
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_money money;
    cr_expect_eq(
        spt_cost_plan(draw(&question, &(struct sketch){2e4, 500, 400, 1e4}), &costs, &money),
        SPT_BAD_ARGUMENT);
    cr_expect(isnan(money.middle.cost));
}

/* Costs move the age of replacement and nothing else. */
Test(cost, the_cheapest_age_replaces_a_bearing_only_where_it_is_sooner)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    static struct spt_schedule plain, dear, cheap;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plain), SPT_OK);
    inputs.costs = (struct spt_replacement_costs){1, 3};
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &cheap), SPT_OK);
    inputs.costs = (struct spt_replacement_costs){1, 1000};
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &dear), SPT_OK);
    cr_expect_eq(cheap.replace_h, plain.replace_h);
    cr_expect_eq(schedule_task(&cheap, SPT_TASK_REPLACE)->governor,
                 schedule_task(&plain, SPT_TASK_REPLACE)->governor);
    cr_expect_lt(dear.replace_h, plain.replace_h);
    cr_expect_eq(dear.replace_h, dear.at_optimum.plan.age);
    cr_expect_eq(dear.reliable_h, plain.replace_h);
    cr_expect_eq(schedule_task(&dear, SPT_TASK_REPLACE)->governor, SPT_GOVERNOR_COSTS);
    cr_expect_eq(dear.greasing.interval_h, plain.greasing.interval_h);
    cr_expect_eq(dear.fatigue_lives.l10_h, plain.fatigue_lives.l10_h);
}
