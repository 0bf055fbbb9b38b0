/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/numeric.h"

#include <criterion/criterion.h>
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
