/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/curve/survival_curve.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/case_example.h"
#include "support/near.h"

#define SAMPLES 20000
#define SPREAD 0.09 /* of ln(load) */

static double design[SPT_UNCERTAIN_COUNT * SAMPLES], lives[3 * SAMPLES], scratch[4 * SAMPLES];

static void plan_case(const struct spt_case *question, struct spt_schedule *plan)
{
    struct spt_phase_result results[2 * EXAMPLE_PHASES];
    const struct spt_schedule_inputs inputs = {.question = question,
                                               .limits = {(double)NAN, -1},
                                               .costs = {(double)NAN, (double)NAN},
                                               .floor = SPT_WEIBULL_FLOOR};
    cr_assert_eq(spt_schedule(&inputs, results, plan), SPT_OK);
}

static void spread_load(const struct spt_case *question, struct spt_uncertainty_result *result)
{
    struct spt_phase phases[2 * EXAMPLE_PHASES];
    struct spt_phase_result results[2 * EXAMPLE_PHASES];
    const struct spt_uncertainty_workspace workspace = {.threads = 1,
                                                        .phases = phases,
                                                        .results = results,
                                                        .design = design,
                                                        .lives = lives,
                                                        .scratch = scratch};
    struct spt_uncertainty uncertainty = {.seed = 2385, .samples = SAMPLES};
    uncertainty.inputs[SPT_UNCERTAIN_LOAD] =
        (struct spt_random_input){.spread = SPT_RANDOM_LOGNORMAL, .centre = 1, .deviation = SPREAD};
    cr_assert_eq(spt_uncertainty(question, &uncertainty, &workspace, result), SPT_OK);
}

/* Share of the curve at a time, between its points. */
static double read_share(const struct spt_survival_curve *curve, const double *shares, double t_h)
{
    int i = 1;
    while (i < SPT_SURVIVAL_POINTS - 1 && curve->times_h[i] < t_h)
        i++;
    double part = log(t_h / curve->times_h[i - 1]) / log(curve->times_h[i] / curve->times_h[i - 1]);
    return shares[i - 1] + part * (shares[i] - shares[i - 1]);
}

Test(survival_curve, it_passes_the_lives_of_the_plan)
{
    struct example_case made;
    struct spt_schedule plan;
    struct spt_survival_curve curve;
    static const double shares[4] = {0.99, 0.95, 0.90, 0.50};
    example_make(&made, SPT_LUBRICATION_GREASE, 2);
    plan_case(&made.question, &plan);
    cr_assert_eq(spt_survival_curve(&plan, NULL, &curve), SPT_OK);
    cr_expect(curve.fatigue && curve.grease && !curve.followed && !curve.banded);
    const double marks_h[4] = {plan.combined_lives.l1_h, plan.combined_lives.l5_h,
                               plan.combined_lives.l10_h, plan.combined_lives.l50_h};
    for (int i = 0; i < 4; i++)
        cr_expect(near(read_share(&curve, curve.by_both, marks_h[i]), shares[i], 0, 0.002), "%g",
                  shares[i]);
    for (int i = 0; i < SPT_SURVIVAL_POINTS; i++) {
        struct spt_schedule_point point;
        cr_assert_eq(spt_schedule_survival(&plan, curve.times_h[i], &point), SPT_OK);
        cr_expect_eq(curve.by_both[i], point.combined);
        cr_expect_eq(curve.by_both[i], curve.by_fatigue[i] * curve.by_grease[i]);
        cr_expect(i == 0 || curve.by_both[i] <= curve.by_both[i - 1], "it never rises");
    }
    cr_expect_gt(curve.by_both[0], 0.99);
    cr_expect_lt(curve.by_both[SPT_SURVIVAL_POINTS - 1], 0.25);
}

/* Life goes with the third power of the load, so ln(life) is normal with three times its spread;
 * 1.645 is the 95 % point of the standard normal (NIST/SEMATECH e-Handbook, 1.3.6.7.1). */
Test(survival_curve, its_band_is_that_of_the_samples)
{
    struct example_case made;
    struct spt_schedule plan;
    struct spt_uncertainty_result spread;
    struct spt_survival_curve curve;
    example_make_basic(&made, 29500, 2900, 1237);
    plan_case(&made.question, &plan);
    spread_load(&made.question, &spread);
    cr_assert_eq(spt_survival_curve(&plan, &spread, &curve), SPT_OK);
    cr_assert(curve.banded);
    double stated_h = plan.fatigue_lives.l10_h, factor = exp(3 * SPREAD * 1.645);
    cr_expect(near(curve.low_lives.l10_h, stated_h / factor, 0.004, 0), "%g",
              curve.low_lives.l10_h);
    cr_expect(near(curve.high_lives.l10_h, stated_h * factor, 0.004, 0));
    cr_expect(near(curve.low_lives.l10_h, spread.system.p5_h, 0.002, 0), "as `spread` prints it");
    cr_expect(near(curve.high_lives.l10_h, spread.system.p95_h, 0.002, 0));
    /* one law for all, but for the line between two samples: the 50 and 99 % lives of an edge stand
     * to its 90 % life as those of the plan
     */
    cr_expect(near(curve.low_lives.l50_h / curve.low_lives.l10_h,
                   plan.fatigue_lives.l50_h / stated_h, 1e-3, 0));
    cr_expect(near(curve.high_lives.l1_h / curve.high_lives.l10_h,
                   plan.fatigue_lives.l1_h / stated_h, 1e-3, 0));
    for (int i = 0; i < SPT_SURVIVAL_POINTS; i++)
        cr_expect(curve.low[i] <= curve.as_stated[i] && curve.as_stated[i] <= curve.high[i]);
    cr_expect(near(read_share(&curve, curve.low, curve.low_lives.l50_h), 0.5, 0, 0.003));
}

Test(survival_curve, two_rows_in_series_have_the_band_of_the_system)
{
    struct example_case made;
    struct spt_schedule plan;
    struct spt_uncertainty_result spread;
    struct spt_survival_curve curve;
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 2);
    plan_case(&made.question, &plan);
    spread_load(&made.question, &spread);
    cr_assert_eq(spt_survival_curve(&plan, &spread, &curve), SPT_OK);
    /* the rated life of the system counts both rows by slope 1.5, the law behind a1 has a least
     * life as well: a few percent apart */
    cr_expect(near(curve.low_lives.l10_h, spread.system.p5_h, 0.03, 0), "%g, %g",
              curve.low_lives.l10_h, spread.system.p5_h);
    cr_expect(near(curve.high_lives.l10_h, spread.system.p95_h, 0.03, 0));
}

Test(survival_curve, without_a_life_there_is_none)
{
    struct example_case made;
    struct spt_schedule plan;
    struct spt_survival_curve curve;
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    for (int i = 0; i < EXAMPLE_PHASES; i++)
        made.phases[0][i].temperature_c = 290; /* no film is left */
    plan_case(&made.question, &plan);
    cr_assert_not(plan.life_known);
    cr_expect_eq(spt_survival_curve(&plan, NULL, &curve), SPT_NOT_APPLICABLE);
}

/* Samples of a single bearing written down: rated lives, and a1 to bring them to 90 %. */
static struct spt_uncertainty_result make_strata(const double *rated_h, int count, double a1)
{
    return (struct spt_uncertainty_result){
        .reliability_factor = a1, .stratum_count = count, .strata_h = {rated_h}};
}

/* A sample that is the plan's own life has the plan's curve, on both edges of its band; a1 of the
 * rated lives is taken out. */
Test(survival_curve, one_sample_is_a_band_without_width)
{
    static const double factors[] = {1, 0.64};
    struct example_case made;
    struct spt_schedule plan;
    struct spt_survival_curve curve;
    example_make_basic(&made, 29500, 2900, 1237);
    plan_case(&made.question, &plan);
    for (int k = 0; k < 2; k++) {
        double rated_h = factors[k] * plan.fatigue_lives.l10_h;
        struct spt_uncertainty_result spread = make_strata(&rated_h, 1, factors[k]);
        cr_assert_eq(spt_survival_curve(&plan, &spread, &curve), SPT_OK);
        cr_assert(curve.banded);
        cr_expect(near(curve.low_lives.l10_h, plan.fatigue_lives.l10_h, 1e-9, 0));
        cr_expect(near(curve.high_lives.l50_h, plan.fatigue_lives.l50_h, 1e-9, 0));
        for (int i = 0; i < SPT_SURVIVAL_POINTS; i++) {
            cr_expect(near(curve.low[i], curve.as_stated[i], 1e-9, 1e-12), "point %d", i);
            cr_expect(near(curve.high[i], curve.as_stated[i], 1e-9, 1e-12), "point %d", i);
        }
    }
    struct spt_uncertainty_result nothing = make_strata(NULL, 0, 1);
    cr_assert_eq(spt_survival_curve(&plan, &nothing, &curve), SPT_OK);
    cr_expect_not(curve.banded);
}

/* A sample that breaks down at once does so at any time: its share is 0 and no edge reaches one. */
Test(survival_curve, a_sample_without_life_survives_nothing)
{
    struct example_case made;
    struct spt_schedule plan;
    struct spt_survival_curve curve;
    const double rated_h[2] = {0, 0};
    const struct spt_uncertainty_result spread = make_strata(rated_h, 2, 1);
    example_make_basic(&made, 29500, 2900, 1237);
    plan_case(&made.question, &plan);
    cr_assert_eq(spt_survival_curve(&plan, &spread, &curve), SPT_OK);
    cr_expect(isnan(curve.low_lives.l50_h) && isnan(curve.high_lives.l50_h));
    for (int i = 0; i < SPT_SURVIVAL_POINTS; i++)
        cr_expect(curve.low[i] == 0 && curve.high[i] == 0, "point %d", i);
}

/* One of twenty samples without life: the line to the next begins at a half, so that the low edge
 * never falls to it; the high edge does. */
Test(survival_curve, an_edge_that_begins_at_a_share_has_no_life_for_it)
{
    struct example_case made;
    struct spt_schedule plan;
    struct spt_survival_curve curve;
    double rated_h[20];
    example_make_basic(&made, 29500, 2900, 1237);
    plan_case(&made.question, &plan);
    for (int i = 0; i < 20; i++)
        rated_h[i] = i ? plan.fatigue_lives.l10_h : 0;
    const struct spt_uncertainty_result spread = make_strata(rated_h, 20, 1);
    cr_assert_eq(spt_survival_curve(&plan, &spread, &curve), SPT_OK);
    cr_expect(isnan(curve.low_lives.l50_h) && isnan(curve.low_lives.l10_h));
    cr_expect(near(curve.high_lives.l50_h, plan.fatigue_lives.l50_h, 1e-9, 0));
}

/* From half of L1 to two and a half times L50, which are ours, in equal ratios. */
Test(survival_curve, its_times_rise_in_equal_ratios)
{
    struct example_case made;
    struct spt_schedule plan;
    struct spt_survival_curve curve;
    const int last = SPT_SURVIVAL_POINTS - 1;
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    plan_case(&made.question, &plan);
    cr_assert_eq(spt_survival_curve(&plan, NULL, &curve), SPT_OK);
    cr_expect_not(curve.grease, "an oil bath has none");
    cr_expect(near(curve.times_h[0], plan.combined_lives.l1_h / 2, 1e-12, 0));
    cr_expect(near(curve.times_h[last], plan.combined_lives.l50_h * 2.5, 1e-12, 0));
    double ratio = curve.times_h[1] / curve.times_h[0];
    for (int i = 2; i <= last; i++)
        cr_expect(near(curve.times_h[i] / curve.times_h[i - 1], ratio, 1e-9, 0), "point %d", i);
}

/* A bearing that does not tire is worn out by its grease alone. */
Test(survival_curve, grease_alone_has_a_curve_too)
{
    struct example_case made;
    struct spt_schedule plan;
    struct spt_survival_curve curve;
    example_make(&made, SPT_LUBRICATION_GREASE, 1);
    plan_case(&made.question, &plan);
    plan.fatigue_count = 0;
    plan.fatigue_lives.l10_h = (double)INFINITY;
    plan.combined_lives = plan.grease_lives;
    cr_assert_eq(spt_survival_curve(&plan, NULL, &curve), SPT_OK);
    cr_expect(curve.grease && !curve.fatigue);
    for (int i = 0; i < SPT_SURVIVAL_POINTS; i++) {
        cr_expect_eq(curve.as_stated[i], 1);
        cr_expect_eq(curve.by_both[i], curve.by_grease[i]);
    }
}

Test(survival_curve, without_an_earliest_or_a_middle_life_there_is_none)
{
    struct example_case made;
    struct spt_schedule plan;
    struct spt_survival_curve curve;
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    plan_case(&made.question, &plan);
    struct spt_schedule lasting = plan, dead = plan;
    lasting.combined_lives.l50_h = (double)INFINITY;
    cr_expect_eq(spt_survival_curve(&lasting, NULL, &curve), SPT_NOT_APPLICABLE);
    dead.combined_lives.l1_h = 0;
    cr_expect_eq(spt_survival_curve(&dead, NULL, &curve), SPT_NOT_APPLICABLE);
    cr_expect_eq(spt_survival_curve(&plan, NULL, &curve), SPT_OK);
}
