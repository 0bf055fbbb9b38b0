/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/batch/aiso_power.h"

#include <criterion/criterion.h>
#include <math.h>

#include "model/constants.h"
#include "spalltime/life.h"

/* The polynomials against powl with the exponents of constants.h, from the cap of a_ISO to 1. */
static void expect_power(const double *root, struct spt_aiso_family family, const char *name)
{
    const int steps = 20000;
    double least = pow(SPT_LIFE_FACTOR_MAX / SPT_AISO_SCALE, 1.0 / family.power);
    double worst = 0.0;
    for (int i = 0; i <= steps; i++) {
        double bracket = least + (1.0 - least) * i / steps;
        long double want = powl((long double)bracket, (long double)family.power);
        double error = (double)fabsl((long double)spt_aiso_power(root, bracket) / want - 1.0L);
        worst = fmax(worst, error);
    }
    cr_expect_lt(worst, 1e-14, "%s: %g", name, worst);
}

Test(aiso_power, equals_powl_over_every_bracket_that_can_occur)
{
    const struct spt_aiso_family ball = SPT_AISO_BALL;
    const struct spt_aiso_family roller = SPT_AISO_ROLLER;
    expect_power(spt_aiso_root_ball, ball, "ball");
    expect_power(spt_aiso_root_roller, roller, "roller");
}
