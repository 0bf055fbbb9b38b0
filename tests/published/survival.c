/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/statistics.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/published.h"

Test(survival_published, quantiles_meet_the_reliability_factors_of_iso_281_table_12)
{
    static const char source[] =
        "ISO 281:2007 table 12, a1 (from memory, every entry met by the formula)";
    static const struct {
        double percent, a1, half_unit;
    } rows[] = {
        {90, 1, 5e-7},          {95, 0.64, 0.005},      {96, 0.55, 0.005},
        {97, 0.47, 0.005},      {98, 0.37, 0.005},      {99, 0.25, 0.005},
        {99.2, 0.22, 0.005},    {99.4, 0.19, 0.005},    {99.6, 0.16, 0.005},
        {99.8, 0.12, 0.005},    {99.9, 0.093, 0.0005},  {99.92, 0.087, 0.0005},
        {99.94, 0.080, 0.0005}, {99.95, 0.077, 0.0005},
    };
    const struct spt_life_law law = spt_survival_iso_law(2385.0);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double t, survival;
        cr_assert_eq(spt_survival_quantile(&law, rows[i].percent / 100.0, &t), SPT_OK);
        cr_expect(agrees(source, named("t / 2385.0, %g %%", rows[i].percent), rows[i].a1,
                         t / 2385.0, rows[i].half_unit));
        cr_assert_eq(spt_survival_fatigue(&law, t, &survival), SPT_OK);
        cr_expect(agrees_within(source, named("survival, row %d", (int)i), rows[i].percent / 100.0,
                                survival, 1e-12));
    }
}

Test(survival_published, the_two_parameter_form_meets_the_older_reliability_factors)
{
    static const char source[] = "The two-parameter factors of the table before 2007 (from memory)";
    static const struct {
        double percent, a1;
    } rows[] = {{90, 1}, {95, 0.62}, {96, 0.53}, {97, 0.44}, {98, 0.33}, {99, 0.21}};
    const struct spt_life_law law = {1.0, 1.5, 0.0};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double t;
        cr_assert_eq(spt_survival_quantile(&law, rows[i].percent / 100.0, &t), SPT_OK);
        cr_expect(agrees(source, named("t, %g %%", rows[i].percent), rows[i].a1, t, 0.005));
    }
}

Test(survival_published, grease_lasts_one_interval_at_99_and_2_7_at_90_percent)
{
    static const char source[] =
        "\"The relubrication interval is the 1 % grease life and L10 is 2.7 of it\": catalogue "
        "practice, Lugt, Grease Lubrication in Rolling Bearings, 2013 (from memory)";
    const struct spt_grease_plan plan = {3000, (double)INFINITY};
    double survival;

    cr_assert_eq(spt_regreasing_survival(&plan, 3000, &survival), SPT_OK);
    cr_expect(agrees(source, "survival", 0.99, survival, 0.0005));
    cr_assert_eq(spt_regreasing_survival(&plan, 8100, &survival), SPT_OK);
    cr_expect(agrees(source, "survival", 0.90, survival, 0.0005));
}
