/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The ends of the ranges that the headers of the models state. */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/fit.h"
#include "spalltime/hub.h"
#include "spalltime/lubricant.h"
#include "spalltime/statistics.h"
#include "support/near.h"

static const struct spt_geometry ball = {.elements = 9,
                                         .rows = 1,
                                         .element_diameter_mm = 9.525,
                                         .pitch_diameter_mm = 46,
                                         .contact_angle_rad = 0.3,
                                         .inner_groove_ratio = 0.515,
                                         .outer_groove_ratio = 0.53};

static enum spt_status look_at(struct spt_geometry g)
{
    struct spt_ball_contact contact;
    return spt_ball_contact(&g, &contact);
}

Test(model_edges, of_the_geometry_of_balls)
{
    struct spt_geometry g = ball;
    g.elements = 3;
    cr_expect_eq(look_at(g), SPT_OK);
    g.elements = 2;
    cr_expect_eq(look_at(g), SPT_BAD_ARGUMENT);
    g = ball;
    g.contact_angle_rad = 1.2;
    cr_expect_eq(look_at(g), SPT_OK);
    g.contact_angle_rad = 1.205;
    cr_expect_eq(look_at(g), SPT_BAD_ARGUMENT);
    g = ball;
    g.inner_groove_ratio = 0.503;
    cr_expect_eq(look_at(g), SPT_OK);
    g = ball;
    g.outer_groove_ratio = 0.503;
    cr_expect_eq(look_at(g), SPT_OK);
    g = ball;
    g.element_diameter_mm = 0.4999 * 46;
    cr_expect_eq(look_at(g), SPT_OK);
    g.element_diameter_mm = 0.5025 * 46;
    cr_expect_eq(look_at(g), SPT_BAD_ARGUMENT);
}

Test(model_edges, of_the_load_zone_integrals)
{
    struct spt_sjoevall s;
    cr_expect_eq(spt_sjoevall(1e6, 3, &s), SPT_OK);
    cr_expect_eq(spt_sjoevall(1.005e6, 1.5, &s), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_sjoevall(0.7, 3.015, &s), SPT_BAD_ARGUMENT);
}

Test(model_edges, of_viscosities)
{
    struct spt_walther line;
    double index, nu100;
    cr_expect_eq(spt_viscosity_line(100, 0.31, 40, 5, &line), SPT_OK);
    cr_expect_eq(spt_viscosity_line(100, 0.3095, 40, 5, &line), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_line(100, 300, 40, 2e7, &line), SPT_OK);
    cr_expect_eq(spt_viscosity_line(100, 300, 40, 2.01e7, &line), SPT_BAD_ARGUMENT);
    cr_expect_neq(spt_viscosity_100_from_index(2.5, 100, &nu100), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_100_from_index(2.49, 100, &nu100), SPT_BAD_ARGUMENT);
    cr_expect_neq(spt_viscosity_100_from_index(46, -50, &nu100), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_viscosity_100_from_index(46, -50.3, &nu100), SPT_BAD_ARGUMENT);
    /* ASTM D2270 begins at 2 mm2/s: an oil just above it comes back from its index */
    cr_assert_eq(spt_viscosity_index(7.1, 2.01, &index), SPT_OK);
    cr_expect_eq(spt_viscosity_100_from_index(7.1, index, &nu100), SPT_OK, "index %g", index);
    cr_expect(near(nu100, 2.01, 1e-9, 0), "%g", nu100);
}

/* A law of lives that leaves more than all. */
static double leave_too_much(double t, const void *context)
{
    (void)context;
    return t < 500 ? 1.005 : 0;
}

Test(model_edges, of_shares_that_survive)
{
    const struct spt_replacement_costs costs = {.planned = 80, .failure = 950};
    const struct spt_replacement_fleet fleet = {40, 1200};
    struct spt_replacement plan = {.survival = 1.005, .mean_cycle = 3000, .mean_life = 9000};
    struct spt_replacement_year year;
    struct spt_replacement result;
    cr_expect_eq(spt_replacement_at(leave_too_much, NULL, &costs, 300, &result), SPT_BAD_ARGUMENT);
    cr_expect_eq(spt_replacement_yearly(&plan, &costs, &fleet, &year), SPT_BAD_ARGUMENT);
    plan.survival = 1;
    cr_expect_eq(spt_replacement_yearly(&plan, &costs, &fleet, &year), SPT_OK);
    const struct spt_life_law law = spt_survival_iso_law(4321);
    const struct spt_survival_system system = {.fatigue_count = 1, .fatigue = &law};
    double life;
    cr_expect_eq(spt_survival_life(&system, 1.005, &life), SPT_BAD_ARGUMENT);
}

/* The shares that the lives are named after: R(L50) = 0.5 to R(L1) = 0.99. */
Test(model_edges, of_lives_named_after_shares)
{
    const struct spt_life_law law = {4321, 1.5, 0.05};
    const struct spt_survival_system system = {.fatigue_count = 1, .fatigue = &law};
    struct spt_survival_lives lives;
    cr_assert_eq(spt_survival_lives(&system, &lives), SPT_OK);
    const double times[] = {lives.l50_h, lives.l10_h, lives.l5_h, lives.l1_h};
    static const double shares[] = {0.50, 0.90, 0.95, 0.99};
    for (int i = 0; i < 4; i++) {
        double left;
        cr_assert_eq(spt_survival_of_system(&system, times[i], &left), SPT_OK);
        cr_expect(near(left, shares[i], 1e-9, 0), "%g of %g", left, shares[i]);
    }
}

static enum spt_fit_verdict judge(double low, double high)
{
    const struct spt_interval bounds = {low, high};
    return spt_fit_compare(sqrt(low * high), bounds, 1000).verdict;
}

/* fit.h: worse where the upper bound is below the estimate, better where the lower is above it. */
Test(model_edges, of_verdicts_about_the_field)
{
    cr_expect_eq(judge(400, 999), SPT_FIT_WORSE);
    cr_expect_eq(judge(400, 1005), SPT_FIT_IN_LINE);
    cr_expect_eq(judge(1005, 2385), SPT_FIT_BETTER);
    cr_expect_eq(judge(999, 2385), SPT_FIT_IN_LINE);
    cr_expect_eq(judge(1000 / 3. * 1.001, 2385), SPT_FIT_IN_LINE, "within a factor of 3");
    cr_expect_eq(judge(1000 / 3. * 0.995, 2385), SPT_FIT_CANNOT_TELL);
}

static const double times[] = {2100, 3400, 8000};
static const bool failed[] = {true, true, false};

Test(model_edges, of_the_confidence_of_a_fit)
{
    struct spt_fit_inputs inputs = {.data = {3, times, NULL, failed},
                                    .confidence = 1.005,
                                    .assumed_slope = 1.5,
                                    .estimated_l10 = 1100};
    struct spt_fit_workspace none = {NULL, 0, NULL, 0};
    struct spt_fit fit;
    cr_expect_eq(spt_fit(&inputs, &none, &fit), SPT_BAD_ARGUMENT);
    inputs.confidence = 0.9;
    cr_assert_eq(spt_fit(&inputs, &none, &fit), SPT_OK);
    /* with the slope assumed: scale^1.5 = sum t^1.5 / failures, L10 = scale (-ln 0.9)^(1/1.5) */
    double sum = pow(2100, 1.5) + pow(3400, 1.5) + pow(8000, 1.5);
    double l10 = pow(sum / 2 * -log(0.9), 1 / 1.5);
    cr_expect(near(fit.comparison.factor, l10 / 1100, 1e-9, 0), "%g", fit.comparison.factor);
}

/* Lives without counts stand for one bearing each. */
Test(model_edges, of_weighing_without_counts)
{
    static const int ones[] = {1, 1, 1};
    const struct spt_weibull_data plain = {3, times, NULL, failed, NULL, NULL},
                                  counted = {3, times, ones, failed, NULL, NULL};
    const struct spt_life_law law = {1700, 1.5, 0};
    struct spt_fit_candidate a, b;
    int best;
    cr_assert_eq(spt_fit_weigh(&plain, &law, 1, &a, &best), SPT_OK);
    cr_assert_eq(spt_fit_weigh(&counted, &law, 1, &b, &best), SPT_OK);
    cr_expect(near(a.log_likelihood, b.log_likelihood, 1e-13, 0));
}
