/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The load zone at the clearance at work within the life of a bearing. */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/arena.h"
#include "spalltime/assess.h"
#include "spalltime/sweep.h"
#include "support/case_example.h"
#include "support/near.h"
#include "support/plain.h"

/* The example with one deep groove ball bearing 60 x 110 x 22 on k5, and its results. */
static void make(struct example_case *made, int class, double axial_n)
{
    struct spt_bearing ball = plain_bearing(SPT_DEEP_GROOVE_BALL);
    example_make(made, SPT_LUBRICATION_OIL_BATH, 1);
    ball.bore_mm = 60;
    ball.outside_diameter_mm = 110;
    ball.width_mm = 22;
    ball.pitch_diameter_mm = 85;
    ball.dynamic_load_rating_n = 52e3;
    ball.static_load_rating_n = 36e3;
    ball.fatigue_load_limit_n = 1.6e3;
    ball.f0 = 14;
    ball.has_seat = class >= 0;
    ball.seat = (struct spt_seat){.clearance = class, .shaft_fit = SPT_SHAFT_K5, .housing_fit = -1};
    made->question.bearings[0].bearing = ball;
    for (int i = 0; i < EXAMPLE_PHASES; i++) {
        made->phases[0][i].radial_load_n = 4100 - 1300 * i;
        made->phases[0][i].axial_load_n = axial_n;
    }
}

static struct spt_bearing_result assess(const struct example_case *made,
                                        struct spt_phase_result *results)
{
    struct spt_bearing_result bearing;
    cr_assert_eq(spt_assess_bearing(&made->question, 0, 0, results, &bearing), SPT_OK);
    return bearing;
}

/* Each class costs more than the one before, none gives more than a bearing that states none, and
 * the rating life is left alone. */
Test(zone, a_larger_class_shortens_the_life_and_none_lengthens_it)
{
    struct example_case made;
    struct spt_phase_result results[EXAMPLE_PHASES], unstated[EXAMPLE_PHASES];
    make(&made, -1, 0);
    const struct spt_bearing_result free = assess(&made, unstated);
    double before_h = free.modified_rating_life_h;
    cr_expect_eq(unstated[0].zone.factor, 1);
    cr_expect(isnan(unstated[0].zone.extent));
    for (int class = SPT_CLEARANCE_2; class < SPT_CLEARANCE_CLASS_COUNT; class ++) {
        make(&made, class, 0);
        const struct spt_bearing_result bearing = assess(&made, results);
        cr_expect_leq(bearing.modified_rating_life_h, before_h);
        cr_expect_eq(bearing.basic_rating_life_h, free.basic_rating_life_h);
        for (int i = 0; i < EXAMPLE_PHASES; i++)
            cr_expect(near(results[i].modified_rating_life_h,
                           results[i].zone.factor * unstated[i].modified_rating_life_h, 1e-12, 0));
        before_h = bearing.modified_rating_life_h;
    }
    cr_expect_lt(results[0].zone.factor, 0.8);
    cr_expect_lt(results[1].zone.factor, results[0].zone.factor);
}

/* Normal clearance on a common fit costs a few per cent at most under a common load. */
Test(zone, normal_clearance_on_its_usual_fit_costs_little)
{
    struct example_case made;
    struct spt_phase_result results[EXAMPLE_PHASES];
    make(&made, SPT_CLEARANCE_NORMAL, 0);
    assess(&made, results);
    cr_expect_gt(results[0].zone.factor, 0.9, "%g", results[0].zone.factor);
}

/* The thrust takes the clearance up, without a jump at Fa/Fr = e. */
Test(zone, thrust_takes_the_loss_away)
{
    struct example_case made;
    struct spt_phase_result results[EXAMPLE_PHASES];
    double before = 0;
    for (double axial_n = 0; axial_n < 2000; axial_n += 10) {
        make(&made, SPT_CLEARANCE_4, axial_n);
        assess(&made, results);
        const struct spt_equivalent_load *load = &results[0].dynamic;
        cr_expect_geq(results[0].zone.factor, before);
        if (axial_n > 0)
            cr_expect_leq(results[0].zone.factor - before, 0.01);
        if (load->ratio > load->limit_ratio)
            cr_expect_eq(results[0].zone.factor, 1);
        before = results[0].zone.factor;
    }
    cr_expect_eq(before, 1);
}

/* Few balls that carry all are flagged with the angle and the factor. */
Test(zone, a_narrow_zone_is_flagged)
{
    struct example_case made;
    struct spt_phase_result results[EXAMPLE_PHASES];
    make(&made, SPT_CLEARANCE_4, 0);
    made.phases[0][1].radial_load_n = 40;
    assess(&made, results);
    cr_expect(!spt_notes_has(&results[0].notes, SPT_FLAG_ZONE_NARROW));
    cr_expect(spt_notes_has(&results[1].notes, SPT_FLAG_ZONE_NARROW));
}

/* The row of a sweep has the life of the case, not that of the kernel, which knows no clearance. */
Test(zone, a_sweep_counts_it_too)
{
    static struct spt_sweep_block block;
    static double factors[SPT_SWEEP_BLOCK] = {0.7, 1, 1.6};
    const double *columns[SPT_SWEEP_FIELD_COUNT] = {[SPT_SWEEP_LOAD_FACTOR] = factors};
    bool swept[SPT_SWEEP_FIELD_COUNT] = {[SPT_SWEEP_LOAD_FACTOR] = true};
    struct example_case made, changed;
    struct spt_phase_result results[EXAMPLE_PHASES];
    struct spt_sweep_plan plan;
    struct spt_sweep_workspace *workspace;
    struct spt_arena arena = {0};
    make(&made, SPT_CLEARANCE_3, 0);
    cr_assert_eq(spt_sweep_plan_make(&made.question, swept, NULL, &plan), SPT_OK);
    cr_assert_eq(spt_sweep_workspace_make(&plan, false, &arena, &workspace), SPT_OK);
    spt_sweep_work(&plan, columns, 3, workspace, &block);
    for (int i = 0; i < 3; i++) {
        example_copy(&made, &changed);
        for (int j = 0; j < EXAMPLE_PHASES; j++)
            changed.phases[0][j].radial_load_n *= factors[i];
        const struct spt_bearing_result want = assess(&changed, results);
        cr_expect(near(block.values[SPT_SWEEP_MODIFIED_RATING_LIFE_H][i],
                       want.modified_rating_life_h, 1e-12, 0));
    }
    spt_arena_free(&arena);
}
