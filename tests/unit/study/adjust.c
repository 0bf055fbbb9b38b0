/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/case_example.h"
#include "support/near.h"

static const double none = (double)NAN;
static struct example_case made;
static struct spt_phase phases[4];

Test(adjust, temperatures_of_the_format_are_within_the_models)
{
    static const struct {
        double temperature_c, ambient_c;
        bool within;
    } rows[] = {{300, 999, true},         {300.001, 20, false},
                {-60, -999, true},        {-60.001, 20, false},
                {(double)NAN, 150, true}, {(double)NAN, 150.001, false},
                {(double)NAN, -60, true}, {(double)NAN, -60.001, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        example_make(&made, SPT_LUBRICATION_OIL_BATH, 2);
        made.phases[1][1].temperature_c = rows[i].temperature_c;
        made.phases[1][1].ambient_c = rows[i].ambient_c;
        cr_expect_eq(spt_case_within_temperatures(&made.question), rows[i].within, "row %zu", i);
    }
}

Test(adjust, nothing_is_changed_by_no_adjustment)
{
    struct spt_case adjusted;
    struct spt_adjustment change = spt_adjustment_none();
    example_make(&made, SPT_LUBRICATION_GREASE, 2);
    made.phases[0][1].temperature_c = none;
    spt_adjust_case(&made.question, &change, phases, &adjusted);
    cr_expect_eq(spt_case_phase_count(&adjusted), 4);
    cr_expect_eq(adjusted.bearings[0].phases, phases);
    cr_expect_eq(adjusted.bearings[1].phases, phases + 2);
    cr_expect(near(example_life(&adjusted), example_life(&made.question), 1e-15, 0));
}

/* The ambient belongs to an estimate; a stated temperature moves by itself. */
Test(adjust, a_rise_moves_the_ambient_of_an_estimate_only)
{
    struct spt_case adjusted;
    struct spt_adjustment change = spt_adjustment_none();
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    made.phases[0][1].temperature_c = none;
    change.temperature_rise_k = 12;
    spt_adjust_case(&made.question, &change, phases, &adjusted);
    cr_expect_eq(phases[0].temperature_c, 77);
    cr_expect_eq(phases[0].ambient_c, 20);
    cr_expect(isnan(phases[1].temperature_c));
    cr_expect_eq(phases[1].ambient_c, 32);
}
