/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/numeric.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"

/* exp(x) with small steps up at two places that no halving meets. */
static const double places[] = {0.3183098861837907, 1.2020569031595942};
static const double height = 2e-4;

static double step_up(double x, void *context)
{
    (void)context;
    return exp(x) + height * (x > places[0]) + height * (x > places[1]);
}

/* The integral is known in closed form. */
Test(numeric, an_integrand_that_jumps_is_integrated_to_1e_9)
{
    gsl_function function = {step_up, NULL};
    double value, want = exp(2) - 1 + height * (4 - places[0] - places[1]);
    cr_assert_eq(spt_numeric_integral(&function, 0, 2, &value), SPT_OK);
    cr_expect(near(value, want, 1e-9, 0), "%.15g, not %.15g", value, want);
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
