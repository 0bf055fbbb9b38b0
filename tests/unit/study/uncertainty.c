/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/uncertainty.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "spalltime/assess.h"
#include "spalltime/lubricant.h"
#include "support/near.h"
#include "support/plain.h"

#define SAMPLES 20000
#define THREADS 8

static struct spt_phase phases[2];
static struct spt_phase scratch_phases[2 * THREADS];
static struct spt_phase_result scratch_results[2 * THREADS];
static double design[2 * SPT_UNCERTAIN_COUNT * SAMPLES], lives[3 * SAMPLES], scratch[4 * SAMPLES],
    shares[3 * SPT_UNCERTAIN_SHARE_SAMPLES];

static struct spt_uncertainty_workspace make_workspace(int threads, bool with_shares)
{
    return (struct spt_uncertainty_workspace){.threads = threads,
                                              .phases = scratch_phases,
                                              .results = scratch_results,
                                              .design = design,
                                              .lives = lives,
                                              .scratch = scratch,
                                              .shares = with_shares ? shares : NULL};
}

static struct spt_bearing_case make_ball(struct spt_phase *phase, double rating_n)
{
    struct spt_bearing_case part = {plain_bearing(SPT_DEEP_GROOVE_BALL), phase, 1};
    part.bearing.bore_mm = 40;
    part.bearing.outside_diameter_mm = 80;
    part.bearing.width_mm = 18;
    part.bearing.pitch_diameter_mm = 60;
    part.bearing.dynamic_load_rating_n = rating_n;
    part.bearing.static_load_rating_n = 18000;
    part.bearing.fatigue_load_limit_n = 820;
    return part;
}

/* One ball bearing in an oil bath. With e_C = 0 its a_ISO is 0.1 at any load and film, so that the
 * life is 0.1 (C/P)^3 1e6/(60 n) exactly. */
static struct spt_case make_case(double contamination_factor)
{
    struct spt_case question = plain_case("bench");
    phases[0] = (struct spt_phase){
        .name = "run",
        .time_share = 1,
        .speed_rpm = 1237,
        .equivalent_load_n = 2900,
        .temperature_c = 61,
        .setting_factor = 1,
        .cured_setting_factor = 1,
        .condition = {.cleanliness = SPT_CLEANLINESS_BATH_17_14,
                      .contamination_factor = contamination_factor,
                      .water_ppm = 100},
    };
    phases[1] = phases[0];
    question.bearings[0] = make_ball(&phases[0], 29500);
    question.lubricant =
        (struct spt_lubricant){.kind = SPT_LUBRICATION_OIL_BATH, .density_g_cm3 = (double)NAN};
    cr_assert_eq(spt_viscosity_line(40, 105, 100, 11.3, &question.lubricant.line), SPT_OK);
    return question;
}

static struct spt_uncertainty certain(void)
{
    return (struct spt_uncertainty){.class_first = SPT_CLEANLINESS_BATH_13_10,
                                    .class_stated = SPT_CLEANLINESS_BATH_17_14,
                                    .seed = 2385,
                                    .samples = SAMPLES};
}

static struct spt_random_input lognormal(double deviation)
{
    return (struct spt_random_input){
        .spread = SPT_RANDOM_LOGNORMAL, .centre = 1, .deviation = deviation};
}

static const double class_weights[] = {0.1, 0.2, 0.4, 0.3};

/* Everything spread at once. */
static struct spt_uncertainty spread_all(void)
{
    struct spt_uncertainty all = certain();
    all.inputs[SPT_UNCERTAIN_LOAD] =
        (struct spt_random_input){.spread = SPT_RANDOM_NORMAL, .centre = 1, .deviation = 0.11};
    all.inputs[SPT_UNCERTAIN_SPEED] = (struct spt_random_input){
        .spread = SPT_RANDOM_TRIANGULAR, .low = 0.8, .centre = 1, .high = 1.1};
    all.inputs[SPT_UNCERTAIN_TEMPERATURE] =
        (struct spt_random_input){.spread = SPT_RANDOM_UNIFORM, .low = -8, .high = 9};
    all.inputs[SPT_UNCERTAIN_WATER] = lognormal(0.7);
    all.inputs[SPT_UNCERTAIN_CLEANLINESS] = (struct spt_random_input){
        .spread = SPT_RANDOM_CLASSES, .class_count = 4, .class_weights = class_weights};
    all.inputs[SPT_UNCERTAIN_RATING] =
        (struct spt_random_input){.spread = SPT_RANDOM_UNIFORM, .low = 0.95, .high = 1.05};
    return all;
}

Test(uncertainty, any_number_of_threads_gives_the_same_bits)
{
    static double first[3 * SAMPLES];
    static const int threads[] = {1, 2, 3, 8};
    struct spt_case question = make_case((double)NAN);
    question.bearing_count = 2;
    question.bearings[1] = make_ball(&phases[1], 24000);
    struct spt_uncertainty all = spread_all();
    struct spt_uncertainty_result one;
    for (size_t i = 0; i < sizeof threads / sizeof *threads; i++) {
        struct spt_uncertainty_workspace workspace = make_workspace(threads[i], true);
        struct spt_uncertainty_result result;
        memset(lives, 0, sizeof lives);
        cr_assert_eq(spt_uncertainty(&question, &all, &workspace, &result), SPT_OK);
        if (i == 0) {
            one = result;
            memcpy(first, lives, sizeof lives);
        }
        cr_expect_eq(memcmp(first, lives, sizeof lives), 0, "%d threads", threads[i]);
        cr_expect_eq(memcmp(&one, &result, sizeof result), 0, "%d threads", threads[i]);
    }
    cr_expect_lt(one.system.p5_h, one.system.p50_h);
    cr_expect_lt(one.system.p50_h, one.system.p95_h);
    cr_expect_lt(one.system.p50_h, one.bearings[1].p50_h);
    cr_expect_lt(one.bearings[1].p50_h, one.bearings[0].p50_h);
    for (int i = 0; i < SPT_UNCERTAIN_END_PLAY; i++) /* which takes a hub: uncertainty_hub.c */
        cr_expect(one.drivers[i].spread && !isnan(one.drivers[i].rank_correlation), "%d", i);
}

Test(uncertainty, another_seed_gives_other_samples_of_the_same_distribution)
{
    struct spt_case question = make_case((double)NAN);
    struct spt_uncertainty all = spread_all();
    struct spt_uncertainty_workspace workspace = make_workspace(2, false);
    struct spt_uncertainty_result one, two;
    cr_assert_eq(spt_uncertainty(&question, &all, &workspace, &one), SPT_OK);
    all.seed++;
    cr_assert_eq(spt_uncertainty(&question, &all, &workspace, &two), SPT_OK);
    cr_expect_neq(one.system.p50_h, two.system.p50_h);
    cr_expect(near(one.system.p50_h, two.system.p50_h, 0.02, 0));
    cr_expect(near(one.system.p5_h, two.system.p5_h, 0.03, 0));
}

Test(uncertainty, no_spread_gives_the_plain_life_everywhere)
{
    struct spt_case question = make_case((double)NAN);
    struct spt_uncertainty none = certain();
    struct spt_uncertainty_workspace workspace = make_workspace(3, true);
    struct spt_uncertainty_result result;
    double life_h;
    question.reliability_percent = 95;
    cr_assert_eq(spt_case_life(&question, scratch_results, &life_h), SPT_OK);
    cr_assert_eq(spt_uncertainty(&question, &none, &workspace, &result), SPT_OK);
    cr_expect_eq(result.system.p5_h, life_h);
    cr_expect_eq(result.system.p50_h, life_h);
    cr_expect_eq(result.system.p95_h, life_h);
    cr_expect_eq(result.bearings[0].p50_h, life_h);
    /* time to spall is then the law behind a1 alone; the stated 95 % life is its 5 % time */
    cr_expect(near(result.time_to_spall.l5_h, life_h, 1e-9, 0), "%.9g", result.time_to_spall.l5_h);
    cr_expect(near(result.time_to_spall.l10_h, life_h / result.reliability_factor, 1e-9, 0));
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++)
        cr_expect(!result.drivers[i].spread && isnan(result.drivers[i].rank_correlation));
}

/* ln(life) = const - 3 ln(load): with a lognormal load it is normal with three times the deviation,
 * whose quantiles are tabulated (z of 5 % is -1.6449). */
Test(uncertainty, a_lognormal_load_gives_the_closed_form)
{
    struct spt_case question = make_case(0);
    struct spt_uncertainty one = certain();
    struct spt_uncertainty_workspace workspace = make_workspace(2, true);
    struct spt_uncertainty_result result;
    double plain_h = 0.1 * pow(29500.0 / 2900, 3) * 1e6 / (60 * 1237);
    one.inputs[SPT_UNCERTAIN_LOAD] = lognormal(0.2);
    cr_assert_eq(spt_uncertainty(&question, &one, &workspace, &result), SPT_OK);
    cr_expect(near(result.system.p50_h, plain_h, 2e-3, 0), "%g", result.system.p50_h / plain_h);
    cr_expect(near(result.system.p5_h, plain_h * exp(-1.6449 * 0.6), 3e-3, 0));
    cr_expect(near(result.system.p95_h, plain_h * exp(1.6449 * 0.6), 3e-3, 0));
    cr_expect(near(result.drivers[SPT_UNCERTAIN_LOAD].rank_correlation, -1, 1e-12, 0));
    cr_expect(near(result.drivers[SPT_UNCERTAIN_LOAD].share.first, 1, 0.01, 0));
    cr_expect(near(result.drivers[SPT_UNCERTAIN_LOAD].share.total, 1, 0.01, 0));
}

/* Variances of ln(life): (3 x 0.2)^2 = 0.36 by the load, (3 x 0.1)^2 = 0.09 by the rating; no
 * interaction, so their shares are 0.8 and 0.2, alone and with all. */
Test(uncertainty, two_inputs_share_the_variance_as_their_squares)
{
    struct spt_case question = make_case(0);
    struct spt_uncertainty two = certain();
    struct spt_uncertainty_workspace workspace = make_workspace(2, true);
    struct spt_uncertainty_result result;
    two.inputs[SPT_UNCERTAIN_LOAD] = lognormal(0.2);
    two.inputs[SPT_UNCERTAIN_RATING] = lognormal(0.1);
    cr_assert_eq(spt_uncertainty(&question, &two, &workspace, &result), SPT_OK);
    const struct spt_driver *load = &result.drivers[SPT_UNCERTAIN_LOAD];
    const struct spt_driver *rating = &result.drivers[SPT_UNCERTAIN_RATING];
    cr_expect(near(load->share.first, 0.8, 0, 0.01), "%g", load->share.first);
    cr_expect(near(load->share.total, 0.8, 0, 0.01), "%g", load->share.total);
    cr_expect(near(rating->share.first, 0.2, 0, 0.01), "%g", rating->share.first);
    cr_expect(near(rating->share.total, 0.2, 0, 0.01), "%g", rating->share.total);
    /* Spearman of a normal pair with Pearson r: 6/pi asin(r/2) (Pearson 1907, from memory) */
    double expected = -6 / acos(-1.0) * asin(sqrt(0.8) / 2);
    cr_expect(near(load->rank_correlation, expected, 0, 0.005), "%g", load->rank_correlation);
    cr_expect(rating->rank_correlation > 0.3 && rating->rank_correlation < 0.5);
}

/* Life is inverse to speed here: quantiles of a uniform speed turn round. */
Test(uncertainty, a_uniform_speed_gives_the_closed_form)
{
    struct spt_case question = make_case(0);
    struct spt_uncertainty one = certain();
    struct spt_uncertainty_workspace workspace = make_workspace(2, false);
    struct spt_uncertainty_result result;
    double plain_h = 0.1 * pow(29500.0 / 2900, 3) * 1e6 / (60 * 1237);
    one.inputs[SPT_UNCERTAIN_SPEED] =
        (struct spt_random_input){.spread = SPT_RANDOM_UNIFORM, .low = 0.8, .high = 1.2};
    cr_assert_eq(spt_uncertainty(&question, &one, &workspace, &result), SPT_OK);
    cr_expect(near(result.system.p5_h, plain_h / 1.18, 1e-3, 0));
    cr_expect(near(result.system.p50_h, plain_h, 1e-3, 0));
    cr_expect(near(result.system.p95_h, plain_h / 0.82, 1e-3, 0));
}

Test(uncertainty, classes_come_out_by_their_weights)
{
    struct spt_case question = make_case((double)NAN);
    struct spt_uncertainty one = certain();
    struct spt_uncertainty_workspace workspace = make_workspace(2, false);
    struct spt_uncertainty_result result;
    double of_class[4];
    one.inputs[SPT_UNCERTAIN_CLEANLINESS] = (struct spt_random_input){
        .spread = SPT_RANDOM_CLASSES, .class_count = 4, .class_weights = class_weights};
    for (int i = 0; i < 4; i++) {
        phases[0].condition.cleanliness = (enum spt_cleanliness)(SPT_CLEANLINESS_BATH_13_10 + i);
        cr_assert_eq(spt_case_life(&question, scratch_results, &of_class[i]), SPT_OK);
    }
    phases[0].condition.cleanliness = SPT_CLEANLINESS_BATH_17_14;
    cr_assert_eq(spt_uncertainty(&question, &one, &workspace, &result), SPT_OK);
    for (int i = 0; i < 4; i++) {
        int count = 0;
        for (int j = 0; j < SAMPLES; j++)
            count += lives[j] == of_class[i];
        cr_expect(near((double)count / SAMPLES, class_weights[i], 0, 2e-3), "class %d: %d", i,
                  count);
    }
    /* a phase of another class, and one with a given e_C, keep theirs */
    phases[0].condition.cleanliness = SPT_CLEANLINESS_BATH_21_18;
    cr_assert_eq(spt_uncertainty(&question, &one, &workspace, &result), SPT_OK);
    cr_expect_eq(result.system.p5_h, result.system.p95_h);
    cr_expect_eq(result.drivers[SPT_UNCERTAIN_CLEANLINESS].unmoved.phases, 1);
    cr_expect_eq(result.drivers[SPT_UNCERTAIN_CLEANLINESS].unmoved.first, 0);
    cr_expect_eq(result.drivers[SPT_UNCERTAIN_WATER].unmoved.phases, 0, "water is known");
}

Test(uncertainty, phases_that_an_input_leaves_alone_are_counted)
{
    struct spt_case question = make_case((double)NAN);
    struct spt_uncertainty all = spread_all();
    struct spt_uncertainty_workspace workspace = make_workspace(2, false);
    struct spt_uncertainty_result result;
    question.bearings[0].phase_count = 2;
    phases[0].time_share = phases[1].time_share = 0.5;
    phases[1].condition.contamination_factor = 0.37;
    phases[1].condition.water_ppm = 0;
    cr_assert_eq(spt_uncertainty(&question, &all, &workspace, &result), SPT_OK);
    static const int want[SPT_UNCERTAIN_COUNT] = {
        [SPT_UNCERTAIN_CLEANLINESS] = 1, [SPT_UNCERTAIN_WATER] = 1};
    for (int i = 0; i < SPT_UNCERTAIN_COUNT; i++) {
        cr_expect_eq(result.drivers[i].unmoved.phases, want[i], "%s",
                     spt_uncertain_name((enum spt_uncertain)i));
        cr_expect_eq(result.drivers[i].unmoved.first, want[i] ? 1 : -1);
    }
    phases[1].equivalent_load_n = 0;
    cr_assert_eq(spt_uncertainty(&question, &all, &workspace, &result), SPT_OK);
    cr_expect_eq(result.drivers[SPT_UNCERTAIN_LOAD].unmoved.phases, 1);
    cr_expect_eq(result.drivers[SPT_UNCERTAIN_SPEED].unmoved.phases, 0);
}

/* The predictive distribution against drawing lives outright, from other random numbers. */
Test(uncertainty, the_stated_share_spalls_by_the_stated_time)
{
    struct spt_case question = make_case(0);
    struct spt_uncertainty one = certain();
    struct spt_uncertainty_workspace workspace = make_workspace(2, false);
    struct spt_uncertainty_result result;
    const int n = 200000;
    double plain_h = 0.1 * pow(29500.0 / 2900, 3) * 1e6 / (60 * 1237);
    int by_1 = 0, by_10 = 0, by_50 = 0;
    one.inputs[SPT_UNCERTAIN_LOAD] = lognormal(0.25);
    cr_assert_eq(spt_uncertainty(&question, &one, &workspace, &result), SPT_OK);
    for (int i = 0; i < n; i++) {
        double factor, life_h;
        spt_random_value(&one.inputs[SPT_UNCERTAIN_LOAD], spt_random_uniform(91, (uint64_t)i, 0),
                         &factor);
        const struct spt_life_law law = spt_survival_iso_law(plain_h / pow(factor, 3));
        cr_assert_eq(spt_survival_quantile(&law, spt_random_uniform(91, (uint64_t)i, 1), &life_h),
                     SPT_OK);
        by_1 += life_h <= result.time_to_spall.l1_h;
        by_10 += life_h <= result.time_to_spall.l10_h;
        by_50 += life_h <= result.time_to_spall.l50_h;
    }
    /* four standard deviations of a share of n */
    cr_expect(near((double)by_1 / n, 0.01, 0, 4 * sqrt(0.01 * 0.99 / n)), "%d", by_1);
    cr_expect(near((double)by_10 / n, 0.10, 0, 4 * sqrt(0.10 * 0.90 / n)), "%d", by_10);
    cr_expect(near((double)by_50 / n, 0.50, 0, 4 * sqrt(0.50 * 0.50 / n)), "%d", by_50);
}

Test(uncertainty, samples_without_a_life_are_counted_and_stand_below_all)
{
    struct spt_case question = make_case((double)NAN);
    struct spt_uncertainty one = certain();
    struct spt_uncertainty_workspace workspace = make_workspace(2, true);
    struct spt_uncertainty_result result;
    phases[0].speed_rpm = 40; /* a thin film already, gone when hot */
    one.inputs[SPT_UNCERTAIN_TEMPERATURE] =
        (struct spt_random_input){.spread = SPT_RANDOM_UNIFORM, .low = -30, .high = 30};
    cr_assert_eq(spt_uncertainty(&question, &one, &workspace, &result), SPT_OK);
    double without = result.share_without_life;
    cr_assert(without > 0.05 && without < 0.6, "%g", without);
    cr_expect(isnan(result.system.p5_h));
    cr_expect(isnan(result.time_to_spall.l1_h), "more than 1 %% have no life");
    cr_expect(isnan(spt_uncertainty_quantile(&result, without - 0.01)));
    cr_expect(spt_uncertainty_quantile(&result, without + 0.01) > 0);
    cr_expect(isnan(result.drivers[SPT_UNCERTAIN_TEMPERATURE].share.first));
    cr_expect_lt(result.drivers[SPT_UNCERTAIN_TEMPERATURE].rank_correlation, -0.5);
}

Test(uncertainty, no_load_never_spalls)
{
    struct spt_case question = make_case((double)NAN);
    struct spt_uncertainty all = spread_all();
    struct spt_uncertainty_workspace workspace = make_workspace(2, true);
    struct spt_uncertainty_result result;
    phases[0].equivalent_load_n = 0;
    cr_assert_eq(spt_uncertainty(&question, &all, &workspace, &result), SPT_OK);
    cr_expect(isinf(result.system.p5_h) && isinf(result.system.p95_h));
    cr_expect(isinf(result.time_to_spall.l50_h));
    cr_expect(isnan(result.drivers[SPT_UNCERTAIN_LOAD].rank_correlation));
    cr_expect_eq(result.share_without_life, 0);
}

/* A normal factor with a deviation of 0.4 lies below 0.01 with probability 0.00666 (z = -2.475). */
Test(uncertainty, a_factor_that_is_held_is_counted)
{
    struct spt_case question = make_case(0);
    struct spt_uncertainty one = certain();
    struct spt_uncertainty_workspace workspace = make_workspace(2, false);
    struct spt_uncertainty_result result;
    one.inputs[SPT_UNCERTAIN_RATING] =
        (struct spt_random_input){.spread = SPT_RANDOM_NORMAL, .centre = 1, .deviation = 0.4};
    cr_assert_eq(spt_uncertainty(&question, &one, &workspace, &result), SPT_OK);
    cr_expect(near(result.held, 0.00666 * SAMPLES, 0, 4), "%d", result.held);
}

Test(uncertainty, the_target_is_met_by_the_share_above_it)
{
    struct spt_case question = make_case(0);
    struct spt_uncertainty one = certain();
    struct spt_uncertainty_workspace workspace = make_workspace(2, false);
    struct spt_uncertainty_result result;
    one.inputs[SPT_UNCERTAIN_LOAD] = lognormal(0.2);
    cr_assert_eq(spt_uncertainty(&question, &one, &workspace, &result), SPT_OK);
    cr_expect(isnan(result.share_at_target));
    question.target_life_h = spt_uncertainty_quantile(&result, 0.3);
    cr_assert_eq(spt_uncertainty(&question, &one, &workspace, &result), SPT_OK);
    cr_expect(near(result.share_at_target, 0.7, 0, 1e-3), "%g", result.share_at_target);
}

Test(uncertainty, what_is_out_of_range_is_refused)
{
    struct spt_case question = make_case(0);
    struct spt_uncertainty_workspace workspace = make_workspace(2, false);
    struct spt_uncertainty_result result;
    struct spt_uncertainty bad[6];
    for (int i = 0; i < 6; i++)
        bad[i] = certain();
    bad[0].samples = 99;
    bad[1].samples = SPT_UNCERTAIN_SAMPLES_MAX + 1;
    bad[2].inputs[SPT_UNCERTAIN_LOAD] = lognormal(-0.1);
    bad[3].inputs[SPT_UNCERTAIN_LOAD] = (struct spt_random_input){
        .spread = SPT_RANDOM_CLASSES, .class_count = 4, .class_weights = class_weights};
    bad[4].inputs[SPT_UNCERTAIN_CLEANLINESS] = lognormal(0.1);
    bad[5].inputs[SPT_UNCERTAIN_CLEANLINESS] = bad[3].inputs[SPT_UNCERTAIN_LOAD];
    bad[5].class_first = SPT_CLEANLINESS_GREASE_VERY_SEVERE;
    for (int i = 0; i < 6; i++) {
        cr_expect_eq(spt_uncertainty(&question, &bad[i], &workspace, &result), SPT_BAD_ARGUMENT,
                     "%d", i);
        cr_expect(isnan(result.system.p50_h), "%d", i);
    }
    struct spt_uncertainty fine = certain();
    workspace.threads = 0;
    cr_expect_eq(spt_uncertainty(&question, &fine, &workspace, &result), SPT_BAD_ARGUMENT);
    workspace.threads = 2;
    cr_assert_eq(spt_uncertainty(&question, &fine, &workspace, &result), SPT_OK);
    double time_h;
    cr_expect_eq(spt_uncertainty_spall_time(&result, 0, &time_h), SPT_BAD_ARGUMENT);
    cr_expect(isnan(spt_uncertainty_quantile(&result, 1)));
    struct spt_uncertainty fewest = certain();
    fewest.samples = 100;
    cr_expect_eq(spt_uncertainty(&question, &fewest, &workspace, &result), SPT_OK);
}
