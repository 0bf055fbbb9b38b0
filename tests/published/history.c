/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Mean loads of known curves: a history of many short samples against closed forms and against the
 * rules of the handbooks. */
#include "spalltime/history.h"

#include <criterion/criterion.h>
#include <math.h>
#include <stdlib.h>

#include "support/near.h"

#define PI 3.14159265358979323846
#define SAMPLES 20000
#define BALL 3.0
#define ROLLER (10.0 / 3)

/* Load over largest load at a share of the period, from 0 to 1. */
typedef double curve(double share);

static double ramp_from_nothing(double share)
{
    return share;
}

static double ramp_from_a_third(double share)
{
    return (1 + 2 * share) / 3;
}

static double rectified_sine(double share)
{
    return fabs(sin(2 * PI * share));
}

static double raised_sine(double share)
{
    return (1 - cos(2 * PI * share)) / 2;
}

/* Power mean of a curve in bins, over its largest load; the steps are uneven in time. */
static double bin_mean(curve *load, double exponent)
{
    const struct spt_history_terms terms = {
        .kind = SPT_HISTORY_WHOLE, .exponent = exponent, .bins = {8, 1, 1, 1}};
    size_t size = spt_history_size(&terms);
    struct spt_history history;
    struct spt_history_bin bins[16];
    int count;
    void *memory = malloc(size);
    cr_assert(memory);
    cr_assert_eq(spt_history_begin(&terms, memory, size, &history), SPT_OK);
    for (int i = 0; i < SAMPLES; i++) {
        /* odd steps are three times as long and begin half a step early */
        double wide = i % 2 ? 1.5 : 0.5, middle = (i + 0.25) / SAMPLES;
        const struct spt_history_sample sample = {wide / SAMPLES, 600, 1e4 * load(middle), 0, 0};
        cr_assert_eq(spt_history_add(&history, &sample), SPT_OK);
    }
    cr_assert_eq(spt_history_bins(&history, terms.bins, bins, 16, &count), SPT_OK);
    double damage = 0, revolutions = 0;
    for (int i = 0; i < count; i++) {
        damage += bins[i].time_h * bins[i].speed_rpm * pow(bins[i].load_n, exponent);
        revolutions += bins[i].time_h * bins[i].speed_rpm;
    }
    free(memory);
    return pow(damage / revolutions, 1 / exponent) / 1e4;
}

/* Mean of |sin|^s over a period: Gamma((s+1)/2) / (sqrt(pi) Gamma(s/2+1)).
 * Source: Abramowitz and Stegun, Handbook of Mathematical Functions, 6.2.1 and 6.2.2 (from
 * memory). */
static double mean_sine_power(double s)
{
    return tgamma((s + 1) / 2) / (sqrt(PI) * tgamma(s / 2 + 1));
}

Test(history, power_means_of_curves_meet_their_integrals)
{
    static const double exponents[] = {BALL, ROLLER};
    for (int i = 0; i < 2; i++) {
        double p = exponents[i], low = 1.0 / 3;
        const struct {
            const char *name;
            curve *load;
            double mean; /* of the p-th power */
        } rows[] = {
            {"ramp from 0", ramp_from_nothing, 1 / (p + 1)},
            {"ramp from a third", ramp_from_a_third, (1 - pow(low, p + 1)) / ((p + 1) * (1 - low))},
            {"rectified sine", rectified_sine, mean_sine_power(p)},
            {"raised sine", raised_sine, mean_sine_power(2 * p)},
        };
        for (size_t k = 0; k < sizeof rows / sizeof *rows; k++) {
            double got = bin_mean(rows[k].load, p), want = pow(rows[k].mean, 1 / p);
            cr_expect(near(got, want, 1e-4, 0), "%s, p %g: %.6g, not %.6g", rows[k].name, p, got,
                      want);
        }
    }
}

/* The rules are rounded, one for both exponents, and the linear one is on the safe side: hence the
 * wide tolerances. */
Test(history, mean_loads_meet_the_rules_of_the_handbooks)
{
    static const char source[] = "bearing handbooks and JIS B 1518 commentaries on fluctuating "
                                 "loads, from memory: linear (Pmin + 2 Pmax)/3; sine 0.65 Pmax "
                                 "(from 0 to Pmax), 0.75 Pmax (half waves)";
    static const struct {
        curve *load;
        double mean, tolerance;
    } rows[] = {
        {ramp_from_a_third, (1.0 / 3 + 2) / 3, 0.09},
        {ramp_from_nothing, 2.0 / 3, 0.06},
        {raised_sine, 0.65, 0.07},
        {rectified_sine, 0.75, 0.03},
    };
    for (size_t k = 0; k < sizeof rows / sizeof *rows; k++)
        for (int roller = 0; roller < 2; roller++) {
            double got = bin_mean(rows[k].load, roller ? ROLLER : BALL);
            cr_expect(near(got, rows[k].mean, rows[k].tolerance, 0),
                      "row %zu, p %s: %.4g, not %.4g (%s)", k, roller ? "10/3" : "3", got,
                      rows[k].mean, source);
        }
}

/* Palmgren's rule worked by hand for p 3: speeds 300, 600, 150 r/min for 20, 50, 30 % of the time
 * under 2, 4, 8 kN: (0.2 300 8 + 0.5 600 64 + 0.3 150 512) / 405 = 105.4815 kN^3, root 4.724894. */
Test(history, steps_meet_the_mean_load_rule_of_palmgren)
{
    const struct spt_history_terms terms = {
        .kind = SPT_HISTORY_WHOLE, .exponent = BALL, .bins = {1, 1, 1, 1}};
    static const struct spt_history_sample steps[] = {
        {20, 300, 2e3, 0, 0}, {50, 600, 4e3, 0, 0}, {30, 150, 8e3, 0, 0}};
    size_t size = spt_history_size(&terms);
    struct spt_history history;
    struct spt_history_bin one;
    int count;
    void *memory = malloc(size);
    cr_assert(memory);
    cr_assert_eq(spt_history_begin(&terms, memory, size, &history), SPT_OK);
    for (int i = 0; i < 3; i++)
        cr_assert_eq(spt_history_add(&history, &steps[i]), SPT_OK);
    cr_assert_eq(spt_history_bins(&history, terms.bins, &one, 1, &count), SPT_OK);
    cr_expect(near(one.load_n, 4724.894, 0, 5e-4), "%.10g", one.load_n);
    cr_expect(near(one.speed_rpm, 405, 1e-14, 0), "%.10g", one.speed_rpm);
    free(memory);
}
