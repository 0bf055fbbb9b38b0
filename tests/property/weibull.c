/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/fit.h"
#include "support/near.h"

static double draw_life(const struct spt_weibull *w, uint64_t seed, uint64_t sample, int bearing)
{
    double u = spt_random_uniform(seed, sample, (uint32_t)bearing);
    return w->scale * pow(-log(u), 1.0 / w->shape);
}

/* The ratio bounds of L10 hold the truth about as often as they say. 400 samples of 20 bearings,
 * stopped at a time by which some 70 % have failed; the tolerance is three standard deviations of
 * the count (0.045) plus 0.03 for samples of this size. */
Test(weibull_property, bounds_hold_the_truth_as_often_as_they_say)
{
    enum { SAMPLES = 400, N = 20 };
    const struct spt_weibull truth = {1.5, 1000};
    static const struct spt_weibull_interval_inputs questions[] = {
        {SPT_WEIBULL_SHAPE, 0, 0.90}, {SPT_WEIBULL_SCALE, 0, 0.90}, {SPT_WEIBULL_LIFE, 0.10, 0.90}};
    double true_values[3] = {1.5, 1000, 1000 * pow(-log(0.9), 1 / 1.5)};
    int ratio_holds[3] = {0}, wald_holds[3] = {0};

    for (uint64_t s = 0; s < SAMPLES; s++) {
        double times[N];
        bool failed[N];
        for (int i = 0; i < N; i++) {
            double life = draw_life(&truth, 7, s, i);
            failed[i] = life < 1130;
            times[i] = failed[i] ? life : 1130;
        }
        const struct spt_weibull_data data = {N, times, NULL, failed, NULL, NULL};
        struct spt_weibull_fit fit;
        cr_assert_eq(spt_weibull_fit(&data, &fit), SPT_OK);
        for (int q = 0; q < 3; q++) {
            struct spt_interval ratio, wald;
            cr_assert_eq(spt_weibull_ratio(&data, &fit, &questions[q], &ratio), SPT_OK);
            cr_assert_eq(spt_weibull_wald(&fit, &questions[q], &wald), SPT_OK);
            ratio_holds[q] += ratio.low <= true_values[q] && true_values[q] <= ratio.high;
            wald_holds[q] += wald.low <= true_values[q] && true_values[q] <= wald.high;
        }
    }
    for (int q = 0; q < 3; q++) {
        cr_expect(near((double)ratio_holds[q] / SAMPLES, 0.90, 0, 0.075), "ratio %d: %d", q,
                  ratio_holds[q]);
        cr_expect(near((double)wald_holds[q] / SAMPLES, 0.90, 0, 0.075), "Wald %d: %d", q,
                  wald_holds[q]);
    }
}

/* With the slope known the lower bound is exact for tests stopped at a failure with 2r degrees of
 * freedom, so with 2r + 2 it holds at least as often as it says. */
Test(weibull_property, the_lower_bound_with_the_right_slope_is_on_the_safe_side)
{
    enum { SAMPLES = 600, N = 12 };
    const struct spt_weibull truth = {1.5, 10000};
    int holds = 0;

    for (uint64_t s = 0; s < SAMPLES; s++) {
        double times[N];
        bool failed[N];
        struct spt_weibull_assumed result;
        for (int i = 0; i < N; i++) {
            double life = draw_life(&truth, 11, s, i);
            failed[i] = life < 2000;
            times[i] = failed[i] ? life : 2000;
        }
        const struct spt_weibull_data data = {N, times, NULL, failed, NULL, NULL};
        cr_assert_eq(spt_weibull_assumed_slope(&data, 1.5, 0.90, &result), SPT_OK);
        holds += result.scale.low <= truth.scale;
    }
    cr_expect_geq((double)holds / SAMPLES, 0.90 - 0.037, "%d", holds);
}

/* Many lives give back the distribution they came from: 4000, within five standard errors. */
Test(weibull_property, a_large_sample_gives_back_its_distribution)
{
    enum { N = 4000 };
    static double times[N];
    const struct spt_weibull truth = {2.2, 3456};
    const struct spt_weibull_data data = {N, times, NULL, NULL, NULL, NULL};
    struct spt_weibull_fit fit;

    for (int i = 0; i < N; i++)
        times[i] = draw_life(&truth, 3, 0, i);
    cr_assert_eq(spt_weibull_fit(&data, &fit), SPT_OK);
    cr_expect(near(log(fit.weibull.shape / 2.2), 0, 0, 5 * sqrt(fit.variance_log_shape)));
    cr_expect(near(log(fit.weibull.scale / 3456), 0, 0, 5 * sqrt(fit.variance_log_scale)));
    /* asymptotic variance of the shape, complete sample: 0.608 shape^2/n (Lawless, from memory) */
    cr_expect(near(fit.variance_log_shape * N, 0.608, 0.05, 0), "%g", fit.variance_log_shape * N);
}

/* The fit is the maximum, moves with the unit of time, and no small field sample is without an
 * answer. */
Test(weibull_property, small_random_samples_are_fitted_at_their_maximum)
{
    unsigned long long state = 99;
    for (int s = 0; s < 400; s++) {
        double times[12], scaled[12];
        bool failed[12];
        int n = 3 + s % 10;
        for (int i = 0; i < n; i++) {
            times[i] = exp(random_between(&state, 2.0, 9.0));
            scaled[i] = times[i] * 60.0;
            failed[i] = i < 3 || random_between(&state, 0, 1) < 0.3;
        }
        const struct spt_fit_inputs inputs = {.data = {n, times, NULL, failed},
                                              .confidence = 0.95,
                                              .assumed_slope = 1.5,
                                              .estimated_l10 = 100};
        const struct spt_fit_workspace none = {NULL, 0, NULL, 0};
        struct spt_fit_inputs other = inputs;
        struct spt_fit fit, again;
        other.data.times = scaled;
        cr_assert_eq(spt_fit(&inputs, &none, &fit), SPT_OK, "sample %d", s);
        cr_assert_eq(spt_fit(&other, &none, &again), SPT_OK, "sample %d", s);
        cr_expect_eq(fit.basis, SPT_FIT_LIKELIHOOD);
        cr_expect(near(again.slope.estimate, fit.slope.estimate, 1e-9, 0));
        cr_expect(near(again.l10.ratio.low, 60 * fit.l10.ratio.low, 1e-6, 0));
        cr_expect(near(again.l10.ratio.high, 60 * fit.l10.ratio.high, 1e-6, 0));
        static const double nudges[][2] = {{1.01, 1}, {0.99, 1}, {1, 1.01}, {1, 0.99}};
        for (int k = 0; k < 4; k++) {
            const struct spt_weibull w = {fit.slope.estimate * nudges[k][0],
                                          fit.scale.estimate * nudges[k][1]};
            double value;
            cr_assert_eq(spt_weibull_log_likelihood(&inputs.data, &w, &value), SPT_OK);
            cr_expect_lt(value, fit.log_likelihood, "sample %d nudge %d", s, k);
        }
    }
}

/* Each ratio bound really lies where the likelihood has dropped by chi-squared/2, seen by a search
 * over the shape on a fine grid. */
Test(weibull_property, ratio_bounds_lie_on_the_contour_of_the_likelihood)
{
    static const double times[] = {120, 340, 560, 800, 950, 1000};
    static const bool failed[] = {true, true, false, true, true, false};
    const struct spt_weibull_data data = {6, times, NULL, failed, NULL, NULL};
    const struct spt_weibull_interval_inputs l10 = {SPT_WEIBULL_LIFE, 0.10, 0.95};
    struct spt_weibull_fit fit;
    struct spt_interval bounds;

    cr_assert_eq(spt_weibull_fit(&data, &fit), SPT_OK);
    cr_assert_eq(spt_weibull_ratio(&data, &fit, &l10, &bounds), SPT_OK);
    const double ends[] = {bounds.low, bounds.high};
    for (int k = 0; k < 2; k++) {
        double best = -(double)INFINITY;
        for (int i = 0; i < 20000; i++) {
            struct spt_weibull w;
            double value;
            cr_assert_eq(spt_weibull_from_l10(ends[k], 0.05 * pow(1.0004, i), &w), SPT_OK);
            cr_assert_eq(spt_weibull_log_likelihood(&data, &w, &value), SPT_OK);
            best = fmax(best, value);
        }
        /* 3.841459: 95 % point of chi-squared with one degree of freedom, standard table */
        cr_expect(near(2 * (fit.log_likelihood - best), 3.841459, 1e-5, 0), "%.7f",
                  2 * (fit.log_likelihood - best));
    }
}

/* The median rank rises with the rank, is symmetric, and stays within 1/(30 n) of Benard's formula:
 * in a large sample it is the median of a gamma distribution over n, which lies at most 1/3 below
 * its order (Chen and Rubin 1986, from memory), against Benard's 0.3. GSL's own inverse of the
 * beta distribution gave up on one of these. */
Test(rank_property, exact_ranks_are_found_for_every_size)
{
    static const int sizes[] = {1, 2, 7, 23, 101, 399, 548, 677, 1000, 4840};
    for (size_t k = 0; k < sizeof sizes / sizeof *sizes; k++) {
        int n = sizes[k];
        double before = 0.0;
        for (int i = 1; i <= n; i++) {
            double exact, mirrored, benard;
            cr_assert_eq(spt_rank_median(SPT_RANK_EXACT, i, n, &exact), SPT_OK, "%d of %d", i, n);
            cr_assert_eq(spt_rank_median(SPT_RANK_EXACT, n + 1 - i, n, &mirrored), SPT_OK);
            cr_assert_eq(spt_rank_median(SPT_RANK_BENARD, i, n, &benard), SPT_OK);
            cr_assert_gt(exact, before);
            cr_assert(near(exact, 1.0 - mirrored, 0, 1e-11), "%d of %d", i, n);
            cr_assert(near(exact, benard, 0, 1.0 / (30.0 * n)), "%d of %d: %g %g", i, n, exact,
                      benard);
            before = exact;
        }
    }
}

/* Bearings looked at every 1400 h, in 0.7 of their characteristic life: what an inspection finds
 * is known to an interval. So stated it gives back L10; taken as of the time found, or of the
 * middle between the looks, it does not. The mean of ln(L10/true) over 300 samples of 40 has a
 * standard error of about 0.013. */
Test(weibull_property, only_intervals_give_an_unbiased_l10_of_inspected_bearings)
{
    enum { SAMPLES = 300, N = 40 };
    const struct spt_weibull truth = {1.5, 2000};
    double every = 1400.0, l10, bias[3] = {0};
    cr_assert_eq(spt_weibull_quantile(&truth, 0.10, &l10), SPT_OK);
    for (uint64_t s = 0; s < SAMPLES; s++) {
        double last_good[N], found[N], middle[N];
        bool failed[N];
        for (int i = 0; i < N; i++) {
            double before = floor(draw_life(&truth, 31, s, i) / every) * every;
            failed[i] = before < 3 * every;
            last_good[i] = before;
            found[i] = failed[i] ? before + every : 3 * every;
            middle[i] = failed[i] ? before + every / 2 : 3 * every;
        }
        const struct spt_weibull_data data[] = {{N, found, NULL, failed, last_good, NULL},
                                                {N, found, NULL, failed, NULL, NULL},
                                                {N, middle, NULL, failed, NULL, NULL}};
        for (int k = 0; k < 3; k++) {
            struct spt_weibull_fit fit;
            double got;
            cr_assert_eq(spt_weibull_fit(&data[k], &fit), SPT_OK);
            cr_assert_eq(spt_weibull_quantile(&fit.weibull, 0.10, &got), SPT_OK);
            bias[k] += log(got / l10) / SAMPLES;
        }
    }
    cr_expect(near(bias[0], 0, 0, 0.05), "intervals: %g", bias[0]);
    cr_expect_gt(bias[1], 0.6, "time found: %g", bias[1]);
    cr_expect_gt(bias[2], 0.08, "middle: %g", bias[2]);
}

/* Machines of which half had run when records began: those that failed before are not among them.
 * Left alone, such records make L10 too long. */
Test(weibull_property, bearings_known_only_from_an_age_on_do_not_lengthen_l10)
{
    enum { N = 4000 };
    static double times[N], known_from[N];
    const struct spt_weibull truth = {2.2, 3456};
    struct spt_weibull_fit fit, blind;
    double right, wrong, l10;
    int n = 0;
    for (int i = 0; n < N; i++) {
        double life = draw_life(&truth, 5, 0, i);
        double from = i % 2 ? 2500 * spt_random_uniform(6, 0, (uint32_t)i) : 0.0;
        if (life <= from)
            continue;
        times[n] = life;
        known_from[n++] = from;
    }
    const struct spt_weibull_data data = {N, times, NULL, NULL, NULL, known_from};
    const struct spt_weibull_data left = {N, times, NULL, NULL, NULL, NULL};
    cr_assert_eq(spt_weibull_fit(&data, &fit), SPT_OK);
    cr_assert_eq(spt_weibull_fit(&left, &blind), SPT_OK);
    cr_assert_eq(spt_weibull_quantile(&truth, 0.10, &l10), SPT_OK);
    cr_assert_eq(spt_weibull_quantile(&fit.weibull, 0.10, &right), SPT_OK);
    cr_assert_eq(spt_weibull_quantile(&blind.weibull, 0.10, &wrong), SPT_OK);
    cr_expect(near(log(fit.weibull.shape / 2.2), 0, 0, 4 * sqrt(fit.variance_log_shape)));
    cr_expect(near(log(fit.weibull.scale / 3456), 0, 0, 4 * sqrt(fit.variance_log_scale)));
    cr_expect(near(right, l10, 0.06, 0), "%g not %g", right, l10);
    cr_expect_gt(wrong, 1.08 * l10, "%g", wrong);
}

/* The ratio bounds hold the truth about as often as they say with found failures too. */
Test(weibull_property, bounds_of_found_failures_hold_the_truth_as_often_as_they_say)
{
    enum { SAMPLES = 300, N = 25 };
    const struct spt_weibull truth = {1.5, 1000};
    const struct spt_weibull_interval_inputs l10 = {SPT_WEIBULL_LIFE, 0.10, 0.90};
    double true_l10 = 1000 * pow(-log(0.9), 1 / 1.5);
    int holds = 0;
    for (uint64_t s = 0; s < SAMPLES; s++) {
        double times[N], last_good[N];
        bool failed[N];
        for (int i = 0; i < N; i++) {
            last_good[i] = floor(draw_life(&truth, 17, s, i) / 200) * 200;
            failed[i] = last_good[i] < 1200;
            times[i] = failed[i] ? last_good[i] + 200 : 1200;
        }
        const struct spt_weibull_data data = {N, times, NULL, failed, last_good, NULL};
        struct spt_weibull_fit fit;
        struct spt_interval bounds;
        cr_assert_eq(spt_weibull_fit(&data, &fit), SPT_OK);
        cr_assert_eq(spt_weibull_ratio(&data, &fit, &l10, &bounds), SPT_OK);
        holds += bounds.low <= true_l10 && true_l10 <= bounds.high;
    }
    cr_expect(near((double)holds / SAMPLES, 0.90, 0, 0.08), "%d of %d", holds, SAMPLES);
}

/* Random machines that are known from an age on, the same for all, for each its own or none, some
 * of the failures found at a look. */
struct late_records {
    double times[10], known_from[10], last_good[10];
    bool failed[10];
    int n;
};

static void draw_late_records(uint64_t sample, struct late_records *to)
{
    uint32_t drawn = 0;
    double common = 2000 * spt_random_uniform(31, sample, drawn++);
    const struct spt_weibull law = {0.5 + 3 * spt_random_uniform(31, sample, drawn++), 1000};
    int failures = 3 + (int)(4 * spt_random_uniform(31, sample, drawn++));
    to->n = failures + (int)(5 * spt_random_uniform(31, sample, drawn++));
    for (int i = 0; i < to->n; i++) {
        double own = 2000 * spt_random_uniform(31, sample, drawn++);
        double kind = spt_random_uniform(31, sample, drawn++);
        double look = spt_random_uniform(31, sample, drawn++);
        double left = -log(spt_random_uniform(31, sample, drawn++)); /* ln 1/R to live from there */
        double from = sample % 3 == 0 ? common : sample % 3 == 1 ? own : kind < 0.5 ? common : 0;
        to->known_from[i] = from;
        to->times[i] = law.scale * pow(pow(from / law.scale, law.shape) + left, 1 / law.shape) + 1;
        to->failed[i] = i < failures;
        to->last_good[i] = sample % 2 || look > 0.5 ? (double)NAN
                           : look < 0.2             ? 0
                                                    : from + look * (to->times[i] - from);
    }
}

/* However flat their likelihood is, such data are answered: by a slope whose lives are numbers, or
 * by an assumed one. */
Test(weibull_property, late_records_are_always_answered)
{
    enum { SAMPLES = 1500 }; /* each of the six kinds also gets an assumed slope among them */
    int fitted = 0;
    for (uint64_t s = 0; s < SAMPLES; s++) {
        struct late_records drawn;
        struct spt_rank_point points[10];
        struct spt_fit fit;
        draw_late_records(s, &drawn);
        const struct spt_fit_inputs inputs = {
            .data = {drawn.n, drawn.times, NULL, drawn.failed, drawn.last_good, drawn.known_from},
            .confidence = 0.90,
            .assumed_slope = 1.5,
            .estimated_l10 = (double)NAN,
            .rank_method = SPT_RANK_EXACT};
        enum spt_status status =
            spt_fit(&inputs, &(struct spt_fit_workspace){points, 10, NULL, 0}, &fit);
        cr_assert_eq(status, SPT_OK, "sample %d: %s", (int)s, spt_status_text(status));
        if (fit.basis == SPT_FIT_ASSUMED_SLOPE) {
            cr_expect(isnan(fit.slope.estimate) && isnan(fit.l10.wald.low), "sample %d", (int)s);
            cr_expect_gt(fit.assumed.scale_estimate, 0, "sample %d", (int)s);
            continue;
        }
        fitted++;
        cr_expect(fit.l10.wald.low > 0 && isfinite(fit.l10.wald.high), "sample %d", (int)s);
        cr_expect(fit.l10.ratio.low <= fit.l10.estimate && fit.l10.estimate <= fit.l10.ratio.high);
    }
    cr_expect(fitted > 0.8 * SAMPLES && fitted < SAMPLES, "%d of %d", fitted, SAMPLES);
}
