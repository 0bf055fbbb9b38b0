/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/published.h"

/* NIST/SEMATECH e-Handbook of Statistical Methods 8.4.1.3: failures in h, ten more sound at 500 */
static const double nist_times[] = {54, 187, 216, 240, 244, 335, 361, 373, 375, 386, 500};
static const int nist_counts[] = {1, 1, 1, 1, 1, 1, 1, 1, 1, 1, 10};
static const bool nist_failed[] = {true, true, true, true, true, true,
                                   true, true, true, true, false};
static const struct spt_weibull_data nist = {11, nist_times, nist_counts, nist_failed, NULL, NULL};

/* Lieblein and Zelen, J. Res. NBS 57 (1956) 273-316, 23 ball bearings, million revolutions. The
 * copies disagree on the seventh value: 48.48 (Lawless), 48.40 and 48.80. */
#define BALL_BEARINGS(seventh)                                                                     \
    {                                                                                              \
        17.88, 28.92, 33.00, 41.52, 42.12, 45.60, seventh, 51.84, 51.96, 54.12, 55.56, 67.80,      \
            68.64, 68.64, 68.88, 84.12, 93.12, 98.64, 105.12, 105.84, 127.92, 128.04, 173.40       \
    }
static const double ball_bearings_4848[] = BALL_BEARINGS(48.48);
static const double ball_bearings_4880[] = BALL_BEARINGS(48.80);

Test(weibull_published, nist_handbook_example_of_censored_lives)
{
    static const char source[] = "NIST/SEMATECH e-Handbook of Statistical Methods 8.4.1.3";
    struct spt_weibull_fit fit;
    double mean, deviation;

    cr_assert_eq(spt_weibull_fit(&nist, &fit), SPT_OK);
    cr_expect_eq(fit.failures, 10);
    cr_expect_eq(fit.censored, 10);
    cr_expect(agrees(source, "shape", 1.7208, fit.weibull.shape, 5e-5));
    /* printed 606.5280 with an estimate that stopped early; the maximum is at 606.5276 */
    cr_expect(agrees(source, "scale", 606.5280, fit.weibull.scale, 5e-4));
    cr_expect(agrees(source, "logL", -75.135, fit.log_likelihood, 5e-4));
    cr_expect(agrees(source, "AIC", 154.27, 4.0 - 2.0 * fit.log_likelihood, 5e-3));
    cr_assert_eq(spt_weibull_mean(&fit.weibull, &mean), SPT_OK);
    cr_assert_eq(spt_weibull_deviation(&fit.weibull, &deviation), SPT_OK);
    cr_expect(agrees(source, "mean", 540.737, mean, 5e-4));
    cr_expect(agrees(source, "deviation", 323.806, deviation, 5e-4));
}

Test(weibull_published, lieblein_zelen_ball_bearings)
{
    static const struct {
        const char *source;
        const double *times;
        double shape, shape_tolerance, scale, scale_tolerance, log_likelihood, log_tolerance;
    } rows[] = {
        {"23 ball bearings of 1956, seventh 48.48: constants of the conf package vignette "
         "(2.10206, 1/0.01221)",
         ball_bearings_4848, 2.10206, 5e-6, 1.0 / 0.01221, 0.034, -113.691, 5e-4},
        {"23 ball bearings of 1956, seventh 48.48: Lawless, Meeker (2.102, 81.88); logL Leemis, "
         "from memory",
         ball_bearings_4848, 2.102, 5e-4, 81.88, 5e-3, -113.691, 5e-4},
        {"23 ball bearings of 1956, seventh 48.80: only logL, Gupta and Kundu 2001, from memory",
         ball_bearings_4880, 2.103, 0.01, 81.9, 0.1, -113.689, 5e-4},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_weibull_data data = {23, rows[i].times, NULL, NULL, NULL, NULL};
        struct spt_weibull_fit fit;
        cr_assert_eq(spt_weibull_fit(&data, &fit), SPT_OK);
        cr_expect(agrees(rows[i].source, "shape", rows[i].shape, fit.weibull.shape,
                         rows[i].shape_tolerance));
        cr_expect(agrees(rows[i].source, "scale", rows[i].scale, fit.weibull.scale,
                         rows[i].scale_tolerance));
        cr_expect(agrees(rows[i].source, "logL", rows[i].log_likelihood, fit.log_likelihood,
                         rows[i].log_tolerance));
    }
}

Test(weibull_published, nist_handbook_bounds_of_an_exponential_life)
{
    static const char source[] =
        "NIST/SEMATECH e-Handbook 8.4.5.1 (from memory): 1600 h, two failures: 90 % two-sided "
        "bounds of the mean time between failures 254 h and 4502 h; no failures: T/-ln(alpha), "
        "factor 0.3338 at 95 %. The upper bound there has 2r degrees of freedom, as here.";
    static const double two[] = {400, 1200};
    static const double none[] = {1000};
    static const bool sound[] = {false};
    const struct spt_weibull_data data = {2, two, NULL, NULL, NULL, NULL};
    const struct spt_weibull_data zero = {1, none, NULL, sound, NULL, NULL};
    struct spt_weibull_assumed result;

    cr_assert_eq(spt_weibull_assumed_slope(&data, 1.0, 0.95, &result), SPT_OK);
    cr_expect(agrees(source, "low", 254, result.scale.low, 0.5));
    cr_expect(agrees(source, "high", 4502, result.scale.high, 1.0));
    cr_expect(agrees_within(source, "scale_estimate", 800, result.scale_estimate, 1e-12));
    cr_assert_eq(spt_weibull_assumed_slope(&zero, 1.0, 0.95, &result), SPT_OK);
    cr_expect(agrees(source, "low", 333.8, result.scale.low, 0.05));
    cr_expect(isinf(result.scale.high));
    cr_expect(isnan(result.scale_estimate));
}

Test(weibull_published, montgomery_runger_bearing)
{
    static const char source[] =
        "Montgomery and Runger, Applied Statistics and Probability for Engineers, Weibull "
        "example of a bearing: shape 0.5, scale 5000 h";
    const struct spt_weibull w = {0.5, 5000};
    double mean, survival;

    cr_assert_eq(spt_weibull_mean(&w, &mean), SPT_OK);
    cr_assert_eq(spt_weibull_survival(&w, 6000, &survival), SPT_OK);
    cr_expect(agrees_within(source, "mean", 10000, mean, 1e-12));
    cr_expect(agrees(source, "survival", 0.334, survival, 0.0005));
}

Test(weibull_published, median_and_characteristic_life_over_l10)
{
    static const char source[] =
        "Trade knowledge: the median life is about five times L10 (slope about 1.17), and the "
        "textbooks' characteristic life 4.48 L10 with slope 1.5 (Shigley's theta)";
    struct spt_weibull w;
    double median;

    cr_assert_eq(spt_weibull_from_l10(1.0, 1.17, &w), SPT_OK);
    cr_assert_eq(spt_weibull_quantile(&w, 0.5, &median), SPT_OK);
    cr_expect(agrees(source, "L50/L10", 5.0, median, 0.05));
    cr_assert_eq(spt_weibull_from_l10(1.0, 1.5, &w), SPT_OK);
    cr_expect(agrees(source, "scale/L10", 4.48, w.scale, 0.005));
}

Test(weibull_published, median_ranks)
{
    static const char source[] =
        "Standard tables of median ranks (from memory, to four digits); Benard's formula";
    static const struct {
        int n, i;
        double exact, benard;
    } rows[] = {
        {10, 1, 0.0670, 0.067308}, {10, 2, 0.1623, 0.163462},  {10, 3, 0.2586, 0.259615},
        {10, 4, 0.3551, 0.355769}, {10, 5, 0.4517, 0.451923},  {10, 6, 0.5483, 0.548077},
        {10, 7, 0.6449, 0.644231}, {10, 8, 0.7414, 0.740385},  {10, 9, 0.8377, 0.836538},
        {5, 1, 0.1294, 0.129630},  {10, 10, 0.9330, 0.932692}, {5, 2, 0.3138, 0.314815},
        {5, 3, 0.5000, 0.500000},  {5, 4, 0.6862, 0.685185},   {5, 5, 0.8706, 0.870370},
    };
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
        double exact, benard;
        cr_assert_eq(spt_rank_median(SPT_RANK_EXACT, rows[k].i, rows[k].n, &exact), SPT_OK);
        cr_assert_eq(spt_rank_median(SPT_RANK_BENARD, rows[k].i, rows[k].n, &benard), SPT_OK);
        cr_expect(agrees(source, named("exact, %d of %d", rows[k].i, rows[k].n), rows[k].exact,
                         exact, 5.1e-5));
        cr_expect(agrees(source, named("benard, %d of %d", rows[k].i, rows[k].n), rows[k].benard,
                         benard, 5.1e-7));
        cr_expect_leq(fabs(exact - benard), 0.0013);
    }
}

Test(weibull_published, johnson_adjusted_ranks)
{
    static const char source[] =
        "Documentation of the Python package \"reliability\", plotting positions: ten items, + "
        "sound";
    static const double times[] = {150, 340, 560, 800, 1130, 1720, 2470, 4210, 5230, 6890};
    static const bool failed[] = {true, false, true, true, false, true, false, false, true, true};
    static const double ranks[] = {1, 2.111111, 3.222222, 4.518519, 6.679012, 8.839506};
    static const double fractions[] = {.06730769, .17414530, .28098291,
                                       .40562678, .61336657, .82110636};
    const struct spt_weibull_data data = {10, times, NULL, failed, NULL, NULL};
    struct spt_rank_point points[10];
    int count;

    cr_assert_eq(spt_rank_points(&data, SPT_RANK_BENARD, points, 10, &count), SPT_OK);
    cr_assert_eq(count, 6);
    for (int i = 0; i < count; i++) {
        cr_expect(agrees(source, "rank", ranks[i], points[i].rank, 5e-7));
        cr_expect(agrees(source, "F", fractions[i], points[i].fraction, 5e-9));
        cr_expect(agrees(source, named("y, row %d", (int)i), log(-log(1.0 - fractions[i])),
                         points[i].y, 1e-7));
    }
}

/* Found at the first of eight inspections after which they had cracked, or sound at the last. */
Test(weibull_published, parts_found_cracked_at_eight_inspections)
{
    static const char source[] =
        "Nelson, Applied Life Data Analysis (1982), 167 parts found cracked at eight inspections; "
        "data and the printed fit of statistics handbooks from memory";
    static const double times[] = {6.12, 19.92, 29.64, 35.40, 39.72, 45.24, 52.32, 63.48, 63.48};
    static const double last_good[] = {0,     6.12,  19.92, 29.64,      35.40,
                                       39.72, 45.24, 52.32, (double)NAN};
    static const int counts[] = {5, 16, 12, 18, 18, 2, 6, 17, 73};
    static const bool failed[] = {true, true, true, true, true, true, true, true, false};
    const struct spt_weibull_data data = {9, times, counts, failed, last_good, NULL};
    struct spt_weibull_fit fit;

    cr_assert_eq(spt_weibull_fit(&data, &fit), SPT_OK);
    cr_expect(agrees(source, "shape", 1.4854, fit.weibull.shape, 5e-5));
    cr_expect(agrees(source, "scale", 71.6904, fit.weibull.scale, 5e-5));
    cr_expect(agrees(source, "logL", -309.6684, fit.log_likelihood, 5e-5));
    cr_expect(
        agrees(source, "standard error of ln scale", 0.0744, sqrt(fit.variance_log_scale), 5e-5));
    cr_expect(agrees(source, "standard error of 1/shape", 0.0664,
                     sqrt(fit.variance_log_shape) / fit.weibull.shape, 5e-5));
}
