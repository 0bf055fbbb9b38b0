/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/numeric.h"

#include <criterion/criterion.h>
#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <math.h>

#include "support/near.h"

struct jump {
    double place;
    double height;
};

static double fall_with_jump(double x, void *context)
{
    const struct jump *jump = context;
    return exp(-3 * x) + (x > jump->place ? jump->height : 0);
}

/* exp(-3 x) with a step up, whose integral from 0 to 2 is known in closed form. The small steps are
 * what the adaptive rule takes for rounding. */
Test(numeric, an_integrand_that_jumps_is_integrated_to_1e_10)
{
    static const double heights[] = {0.3, 1e-2, 1e-4, 1e-5, 1e-6, 1e-7};
    for (size_t i = 0; i < sizeof heights / sizeof *heights; i++)
        for (int k = 1; k < 8; k++) {
            struct jump jump = {k * 0.2137, heights[i]};
            gsl_function function = {fall_with_jump, &jump};
            double value, want = (1 - exp(-6)) / 3 + jump.height * (2 - jump.place);
            cr_assert_eq(spt_numeric_integral(&function, 0, 2, &value), SPT_OK);
            cr_expect(near(value, want, 1e-10, 0), "%g at %g: %.15g, not %.15g", jump.height,
                      jump.place, value, want);
        }
}

static double jitter(double x, void *context)
{
    (void)context;
    return sin(1e9 * x * x) > 0;
}

Test(numeric, an_integrand_that_jumps_everywhere_is_given_up)
{
    gsl_function function = {jitter, NULL};
    double value;
    cr_expect_eq(spt_numeric_integral(&function, 1, 2, &value), SPT_NOT_CONVERGED);
    cr_expect(isnan(value));
}

static int errors_seen;

static void see_error(const char *reason, const char *file, int line, int error)
{
    (void)reason, (void)file, (void)line, (void)error;
    errors_seen++;
}

static double line_above_zero(double x, void *context)
{
    (void)context;
    return 1 + x;
}

/* A library must not end its caller's process, nor take its handler away. */
Test(numeric, an_error_of_gsl_is_a_status_and_the_callers_handler_stays)
{
    gsl_function function = {line_above_zero, NULL};
    double value;
    gsl_error_handler_t *before = gsl_set_error_handler(see_error);
    cr_expect_eq(spt_numeric_root(&function, 0, 1, &value), SPT_NOT_CONVERGED);
    cr_expect(isnan(value));
    cr_expect_eq(spt_numeric_minimum(&function, 0, 0.5, 1, &value), SPT_NOT_CONVERGED);
    cr_expect_eq(errors_seen, 0);
    cr_expect_eq(gsl_set_error_handler(before), see_error);
}

/* GSL's own inverse gives up on the first two. Reference values: the last two from printed tables
 * (NIST/SEMATECH e-Handbook 1.3.6.7.4, upper critical values: 3.841 at 1 and 129.561 at 100
 * degrees, from memory); the others by putting the answer back. */
Test(numeric, chi_squared_quantiles_are_found_for_any_degrees_of_freedom)
{
    static const struct {
        double fraction, nu, want;
        bool upper;
    } rows[] = {{0.975, 2318, 0, true},    {0.975, 2 * 1159 + 2, 0, false},
                {0.99, 2 * 1076, 0, true}, {0.0005, 2e6, 0, false},
                {0.95, 1, 3.841, false},   {0.025, 100, 129.561, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double x;
        cr_assert_eq(spt_numeric_chi_squared(rows[i].fraction, rows[i].upper, rows[i].nu, &x),
                     SPT_OK, "row %zu", i);
        double share =
            rows[i].upper ? gsl_cdf_chisq_Q(x, rows[i].nu) : gsl_cdf_chisq_P(x, rows[i].nu);
        cr_expect(near(share, rows[i].fraction, 1e-9, 0), "row %zu: %.12g", i, share);
        if (rows[i].want > 0)
            cr_expect(near(x, rows[i].want, 0, 6e-4), "row %zu: %.6g", i, x);
    }
}
