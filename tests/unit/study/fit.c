/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/fit.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

/* NIST/SEMATECH e-Handbook 8.4.1.3: failures in h, ten more sound at 500 */
static const double nist_times[] = {54, 187, 216, 240, 244, 335, 361, 373, 375, 386, 500};
static const int nist_counts[] = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 10};
static const bool nist_failed[] = {true, true, true, true, true, true,
                                   true, true, true, true, false};
static const double returns[] = {2100, 3400, 8000};
static const int return_counts[] = {1, 1, 18};
static const bool return_failed[] = {true, true, false};
static const bool none_failed[] = {false, false, false};

static struct spt_fit_inputs nist_inputs(double estimated_l10)
{
    return (struct spt_fit_inputs){.data = {11, nist_times, nist_counts, nist_failed},
                                   .confidence = 0.95,
                                   .assumed_slope = 1.5,
                                   .estimated_l10 = estimated_l10,
                                   .rank_method = SPT_RANK_EXACT};
}

Test(fit, holds_slope_lives_bounds_lines_and_comparison)
{
    struct spt_rank_point points[20];
    const struct spt_fit_workspace space = {points, 20, NULL, 0};
    const struct spt_fit_inputs inputs = nist_inputs(1000);
    struct spt_fit fit;

    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect_eq(fit.basis, SPT_FIT_LIKELIHOOD);
    cr_expect(near(fit.slope.estimate, 1.7208, 0, 5e-5)); /* NIST */
    const struct spt_fit_quantity *all[] = {&fit.slope, &fit.scale, &fit.l10, &fit.l50};
    for (int i = 0; i < 4; i++) {
        cr_expect(all[i]->ratio.low < all[i]->estimate && all[i]->estimate < all[i]->ratio.high);
        cr_expect(all[i]->wald.low < all[i]->estimate && all[i]->estimate < all[i]->wald.high);
    }
    cr_expect_eq(fit.point_count, 10);
    cr_expect(fit.life_on_rank.r_squared > 0.8 && fit.life_on_rank.r_squared < 1.0);
    cr_expect(fit.life_on_rank.weibull.shape > fit.rank_on_life.weibull.shape);
    cr_expect_eq(fit.comparison.verdict, SPT_FIT_WORSE);
    cr_expect(near(fit.comparison.factor, fit.l10.estimate / 1000, 1e-12, 0));
    /* the fractions that the lives are named after: t_q = scale (-ln(1 - q))^(1/slope) */
    cr_expect(near(fit.l10.estimate, fit.scale.estimate * pow(-log(0.9), 1 / fit.slope.estimate),
                   1e-9, 0));
    cr_expect(
        near(fit.l50.estimate, fit.scale.estimate * pow(log(2), 1 / fit.slope.estimate), 1e-9, 0));
    cr_expect_eq(fit.best_candidate, -1);
}

Test(fit, verdict_follows_the_bounds)
{
    static const struct {
        double low, high;
        enum spt_fit_verdict verdict;
    } rows[] = {
        {200, 900, SPT_FIT_WORSE},
        {1100, 9000, SPT_FIT_BETTER},
        {400, 2500, SPT_FIT_IN_LINE},
        {300, 2500, SPT_FIT_CANNOT_TELL},
        {400, 3100, SPT_FIT_CANNOT_TELL},
        {400, (double)INFINITY, SPT_FIT_CANNOT_TELL},
        {1100, (double)INFINITY, SPT_FIT_BETTER},
        {(double)NAN, 900, SPT_FIT_CANNOT_TELL},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_interval bounds = {rows[i].low, rows[i].high};
        cr_expect_eq(spt_fit_compare(800, bounds, 1000).verdict, rows[i].verdict, "row %zu", i);
    }
}

Test(fit, a_band_is_held_against_the_bounds_of_the_field)
{
    const double none = (double)NAN, all = (double)INFINITY;
    static const struct {
        struct spt_interval bounds, band;
        enum spt_fit_overlap overlap;
    } cases[] = {
        {{91.2, 234}, {361, 7800}, SPT_FIT_BELOW_BAND},
        {{91.2, 234}, {233.9, 7800}, SPT_FIT_OVERLAPS},
        {{91.2, 234}, {12.5, 91.1}, SPT_FIT_ABOVE_BAND},
        {{91.2, 234}, {12.5, 91.3}, SPT_FIT_OVERLAPS},
        {{91.2, 234}, {101, 187}, SPT_FIT_OVERLAPS},
        {{91.2, (double)INFINITY}, {7.3, 18.9}, SPT_FIT_ABOVE_BAND}, /* no failure yet */
        {{91.2, (double)INFINITY}, {361, 7800}, SPT_FIT_OVERLAPS},
        {{91.2, 234}, {(double)NAN, 7800}, SPT_FIT_NO_BAND},
    };
    for (size_t i = 0; i < sizeof cases / sizeof *cases; i++)
        cr_expect_eq(spt_fit_against_band(cases[i].bounds, cases[i].band), cases[i].overlap, "%zu",
                     i);
    const struct spt_fit_inputs inputs = nist_inputs(1000);
    const struct spt_fit_workspace space = {NULL, 0, NULL, 0};
    struct spt_fit fit;
    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect_eq(spt_fit_l10_bounds(&fit).low, fit.l10.ratio.low);
    cr_expect(spt_fit_holds(&fit, fit.l10.estimate));
    cr_expect_not(spt_fit_holds(&fit, 1.01 * fit.l10.ratio.high));
    cr_expect_not(spt_fit_holds(&fit, 0.99 * fit.l10.ratio.low));
    cr_expect_not(spt_fit_holds(&fit, none));
    cr_expect_not(spt_fit_holds(&fit, all));
    fit.basis = SPT_FIT_ASSUMED_SLOPE;
    cr_expect_eq(spt_fit_l10_bounds(&fit).high, fit.assumed.l10.high);
}

Test(fit, few_failures_are_answered_with_an_assumed_slope_and_said_so)
{
    const struct spt_fit_workspace space = {NULL, 0, NULL, 0};
    struct spt_fit_inputs inputs = {.data = {3, returns, return_counts, return_failed},
                                    .confidence = 0.90,
                                    .assumed_slope = 1.5,
                                    .estimated_l10 = (double)NAN};
    struct spt_fit fit;
    struct spt_weibull_assumed want;

    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect_eq(fit.basis, SPT_FIT_ASSUMED_SLOPE);
    cr_expect_eq(fit.failures, 2);
    cr_expect(isnan(fit.slope.estimate) && isnan(fit.l10.ratio.low));
    cr_expect_eq(fit.point_count, 0);
    cr_assert_eq(spt_weibull_assumed_slope(&inputs.data, 1.5, 0.95, &want), SPT_OK);
    cr_expect_eq(fit.assumed.l10.low, want.l10.low);
    cr_expect_eq(fit.comparison.verdict, SPT_FIT_CANNOT_TELL);

    inputs.data.failed = none_failed;
    inputs.estimated_l10 = 500;
    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect_eq(fit.failures, 0);
    cr_expect_eq(fit.comparison.verdict, SPT_FIT_BETTER);
    cr_expect(isnan(fit.comparison.factor) && isinf(fit.comparison.bounds.high));
}

Test(fit, failures_below_the_least_life_of_the_estimate_are_counted)
{
    static const double times[] = {4, 100, 5, 700, 6};
    static const int counts[] = {2, 3, 4, 1, 5};
    static const bool failed[] = {true, true, true, true, false};
    const struct spt_fit_workspace space = {NULL, 0, NULL, 0};
    struct spt_fit_inputs inputs = {.data = {5, times, counts, failed},
                                    .confidence = 0.90,
                                    .assumed_slope = 1.5,
                                    .estimated_l10 = 2000};
    struct spt_fit fit;

    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect_eq(fit.early_failures, 6, "the one at 0.05 L10 itself is none: %d",
                 fit.early_failures);
    cr_expect_eq(fit.first_failure, 4);
    inputs.data.counts = NULL;
    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect_eq(fit.early_failures, 2);
    inputs.estimated_l10 = (double)NAN;
    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect_eq(fit.early_failures, 0);
    inputs.data.failed = none_failed;
    inputs.data.n = 3;
    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect(isnan(fit.first_failure));
}

Test(fit, failures_all_at_one_time_fall_back_on_the_assumed_slope)
{
    static const double times[] = {700, 700, 700, 700};
    const struct spt_fit_workspace space = {NULL, 0, NULL, 0};
    const struct spt_fit_inputs inputs = {.data = {4, times, NULL, NULL},
                                          .confidence = 0.90,
                                          .assumed_slope = 1.5,
                                          .estimated_l10 = 700};
    struct spt_fit fit;

    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect_eq(fit.basis, SPT_FIT_ASSUMED_SLOPE);
    cr_expect(isnan(fit.log_likelihood));
    cr_expect(near(fit.assumed.scale_estimate, 700, 1e-12, 0));
}

Test(fit, candidates_are_weighed_by_their_likelihood)
{
    const double l10 = 606.52756 * pow(-log(0.9), 1 / 1.720797);
    const struct spt_life_law laws[] = {
        {l10, 1.720797, 0}, {l10 * 3, 1.5, 0.05}, {l10 / 3, 1.5, 0.05}, {2000, 1.5, 0.05}};
    struct spt_fit_candidate candidates[4];
    const struct spt_fit_workspace space = {NULL, 0, candidates, 4};
    struct spt_fit_inputs inputs = nist_inputs((double)NAN);
    struct spt_fit fit;
    double sum = 0.0;

    inputs.candidate_count = 4;
    inputs.candidates = laws;
    cr_assert_eq(spt_fit(&inputs, &space, &fit), SPT_OK);
    cr_expect_eq(fit.best_candidate, 0);
    cr_expect(near(candidates[0].log_likelihood, -75.135, 0, 5e-4)); /* NIST */
    for (int i = 0; i < 4; i++)
        sum += candidates[i].weight;
    cr_expect(near(sum, 1.0, 1e-12, 0));
    /* the first failure, 54 h, comes before the least life of 100 h */
    cr_expect_eq(candidates[3].log_likelihood, -(double)INFINITY);
    cr_expect_eq(candidates[3].weight, 0.0);
    cr_expect(near(log(candidates[1].weight / candidates[2].weight),
                   candidates[1].log_likelihood - candidates[2].log_likelihood, 1e-9, 0));
}

Test(fit, no_candidate_that_allows_the_data_is_said)
{
    const struct spt_life_law laws[] = {{2000, 1.5, 0.05}, {5000, 1.5, 0.05}};
    const struct spt_weibull_data data = {11, nist_times, nist_counts, nist_failed, NULL, NULL};
    struct spt_fit_candidate candidates[2];
    int best;

    cr_expect_eq(spt_fit_weigh(&data, laws, 2, candidates, &best), SPT_NOT_APPLICABLE);
    cr_expect_eq(best, -1);
    cr_expect(isnan(candidates[0].weight));
    cr_expect(isinf(candidates[0].log_likelihood) && candidates[0].log_likelihood < 0);
}

Test(fit, bad_input_and_small_arrays_are_refused)
{
    struct spt_rank_point points[19];
    const struct spt_fit_workspace small = {points, 19, NULL, 0};
    const struct spt_fit_workspace space = {NULL, 0, NULL, 0};
    struct spt_fit_inputs inputs = nist_inputs(1000);
    struct spt_fit fit;

    cr_expect_eq(spt_fit(&inputs, &small, &fit), SPT_TOO_SMALL);
    cr_expect(isnan(fit.slope.estimate));
    inputs.confidence = 1.0;
    cr_expect_eq(spt_fit(&inputs, &space, &fit), SPT_BAD_ARGUMENT);
    inputs = nist_inputs(-3);
    cr_expect_eq(spt_fit(&inputs, &space, &fit), SPT_BAD_ARGUMENT);
    inputs = nist_inputs(1000);
    inputs.data.n = 0;
    cr_expect_eq(spt_fit(&inputs, &space, &fit), SPT_BAD_ARGUMENT);
}

/* Times invented; one row of each kind. */
Test(fit, finds_and_late_entries_are_counted_and_weighed)
{
    static const double times[] = {500, 900, 1200, 1300, 1500};
    static const double last_good[] = {(double)NAN, 0, 800, (double)NAN, (double)NAN};
    static const double known_from[] = {0, 0, 300, 0, 1000};
    static const int counts[] = {1, 2, 1, 3, 4};
    static const bool failed[] = {true, true, true, false, false};
    const struct spt_life_law laws[] = {spt_survival_iso_law(700), spt_survival_iso_law(1900)};
    const struct spt_fit_inputs in = {.data = {5, times, counts, failed, last_good, known_from},
                                      .confidence = 0.9,
                                      .assumed_slope = 1.5,
                                      .estimated_l10 = (double)NAN,
                                      .candidate_count = 2,
                                      .candidates = laws};
    struct spt_rank_point points[11];
    struct spt_fit_candidate candidates[2];
    const struct spt_fit_workspace space = {points, 11, candidates, 2};
    struct spt_fit fit;
    cr_assert_eq(spt_fit(&in, &space, &fit), SPT_OK);
    cr_expect(fit.failures == 4 && fit.censored == 7 && fit.found == 3 && fit.entered == 5);
    cr_expect(fit.basis == SPT_FIT_LIKELIHOOD && !fit.looks_inspected && fit.tied == 0);
    for (int k = 0; k < 2; k++) {
        double r[6], density, want;
        static const double at[6] = {900, 300, 800, 1200, 1300, 1500};
        double entry;
        for (int i = 0; i < 6; i++)
            cr_assert_eq(spt_survival_fatigue(&laws[k], at[i], &r[i]), SPT_OK);
        cr_assert_eq(spt_survival_fatigue(&laws[k], 1000, &entry), SPT_OK);
        cr_assert_eq(spt_survival_log_density(&laws[k], 500, &density), SPT_OK);
        want = density + 2 * log(1 - r[0]) + log((r[2] - r[3]) / r[1]) + 3 * log(r[4]) +
               4 * log(r[5] / entry);
        cr_expect(near(candidates[k].log_likelihood, want, 1e-12, 0), "%d: %.12g not %.12g", k,
                  candidates[k].log_likelihood, want);
    }
    /* the two found at 900 may have failed by 500, where one did: no share needs the time between
     */
    cr_expect_eq(fit.point_count, 2);
    cr_expect(fit.life_on_rank.weibull.shape > 0);
}

Test(fit, a_law_whose_least_life_lies_past_an_interval_has_no_likelihood)
{
    static const double times[] = {100, 900}, last_good[] = {40, (double)NAN};
    const struct spt_weibull_data data = {2, times, NULL, NULL, last_good, NULL};
    const struct spt_life_law laws[] = {spt_survival_iso_law(2500), spt_survival_iso_law(1500)};
    struct spt_fit_candidate candidates[2];
    int best;
    /* least lives 125 and 75 h */
    cr_assert_eq(spt_fit_weigh(&data, laws, 2, candidates, &best), SPT_OK);
    cr_expect(isinf(candidates[0].log_likelihood) && candidates[0].log_likelihood < 0);
    cr_expect(best == 1 && candidates[1].weight == 1);
}

Test(fit, failures_that_share_their_times_look_like_finds)
{
    static const struct {
        int n;
        double times[7];
        int counts[7], tied;
        double at;
        bool looks;
    } rows[] = {
        {4, {400, 800, 1200, 1600}, {1, 3, 5, 1}, 8, 1200, true},
        {4, {400, 800, 1200, 1600}, {1, 2, 2, 1}, 0, (double)NAN, false}, /* pairs happen */
        {7, {310, 420, 530, 640, 750, 870, 990}, {1, 3, 1, 1, 1, 1, 2}, 3, 420, false},
        {6, {310, 420, 530, 640, 750, 870}, {1, 3, 1, 1, 1, 2}, 3, 420, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_rank_point points[20];
        const struct spt_fit_workspace space = {points, 20, NULL, 0};
        const struct spt_fit_inputs in = {
            .data = {rows[i].n, rows[i].times, rows[i].counts, NULL, NULL, NULL},
            .confidence = 0.9,
            .assumed_slope = 1.5,
            .estimated_l10 = (double)NAN};
        struct spt_fit fit;
        cr_assert_eq(spt_fit(&in, &space, &fit), SPT_OK);
        cr_expect(fit.tied == rows[i].tied && fit.looks_inspected == rows[i].looks, "%zu: %d", i,
                  fit.tied);
        cr_expect(isnan(rows[i].at) ? isnan(fit.tied_time) : fit.tied_time == rows[i].at, "%zu", i);
    }
}
