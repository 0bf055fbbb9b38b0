/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/life.h"
#include "support/near.h"
#include "support/story.h"

/* Dents stay in the raceways (a rule of this tool: no recovery law is accepted). Two stages with
 * nothing else changing, dirty until t1 with life L_d, then clean with L_c:
 * stays: L_d; cured: t1 + (1 - t1/L_d) L_c; half: t1 + (1 - t1/L_d) sqrt(L_d L_c). */

#define DIRTIER 2 /* classes */

static void set_dirt(struct example_case *made, int above_first)
{
    int first = (int)spt_cleanliness_first(made->question.lubricant.kind);
    for (int i = 0; i < made->question.bearing_count; i++)
        for (int j = 0; j < EXAMPLE_PHASES; j++)
            made->phases[i][j].condition.cleanliness = (enum spt_cleanliness)(first + above_first);
}

static void soil(struct example_case *made)
{
    set_dirt(made, 1 + DIRTIER);
}

static void wash(struct example_case *made)
{
    set_dirt(made, 1);
}

static void leave(struct example_case *made)
{
    (void)made;
}

static double life_with(int above_first)
{
    static struct example_case made;
    example_copy(&story.base, &made);
    set_dirt(&made, above_first);
    return example_life(&made.question);
}

static void begin(int bearings)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, bearings);
    wash(&story.base);
}

Test(dents, two_stages_have_the_three_lives_of_the_closed_forms)
{
    const double at_h = 1500;
    begin(1);
    const double dirty_h = life_with(1 + DIRTIER), clean_h = life_with(1);
    soil(&story.base);
    story_add_event(&story, at_h, wash);
    story_tell();
    const double left = 1 - at_h / dirty_h;
    cr_assert(timeline.dents.differ);
    cr_expect(near(timeline.life_h, dirty_h, 1e-12, 0), "%.12g", timeline.life_h);
    cr_expect(near(timeline.dents.if_cured_h, at_h + left * clean_h, 1e-12, 0));
    cr_expect(near(timeline.dents.half_credit_h, at_h + left * sqrt(dirty_h * clean_h), 1e-12, 0));
    cr_expect(timeline.dents.of_class);
    cr_expect_eq(timeline.dents.cleanliness, story.base.phases[0][0].condition.cleanliness);
    cr_expect(near(timeline.dents.hours, at_h, 1e-12, 0));
}

Test(dents, a_life_that_ends_before_the_wash_has_one_number)
{
    begin(1);
    soil(&story.base);
    const double dirty_h = example_life(&story.base.question);
    story_add_event(&story, dirty_h * 1.1, wash);
    story_tell();
    cr_expect(near(timeline.life_h, dirty_h, 1e-12, 0));
    cr_expect_not(timeline.dents.differ);
    cr_expect(near(timeline.dents.if_cured_h, dirty_h, 1e-12, 0));
}

Test(dents, count_from_half_an_hour_of_running_in_sum)
{
    static const struct {
        double hours;
        int spells;
        bool stay;
    } rows[] = {{0.45, 1, false}, {0.55, 1, true}, {0.2, 2, false}, {0.3, 2, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        begin(1);
        const double clean_h = life_with(1), dirty_h = life_with(1 + DIRTIER);
        for (int k = 0; k < rows[i].spells; k++) {
            story_add_event(&story, 1000 + 500 * k, soil);
            story_add_event(&story, 1000 + 500 * k + rows[i].hours, wash);
        }
        story_tell();
        cr_expect_eq(timeline.life_h < 0.99 * clean_h, rows[i].stay, "%g h, %d times: %.9g of %.9g",
                     rows[i].hours, rows[i].spells, timeline.life_h, clean_h);
        if (rows[i].stay && rows[i].spells == 1)
            cr_expect(near(timeline.life_h, 1000 + (1 - 1000 / clean_h) * dirty_h, 1e-9, 0));
    }
}

/* Standing in dirt dents nothing. */
Test(dents, hours_at_rest_do_not_count)
{
    begin(1);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        story.base.phases[0][j].speed_rpm *= j == 0;
    story.base.phases[0][0].time_share = 0.1;
    story.base.phases[0][1].time_share = 0.9;
    story_add_event(&story, 100, soil);
    story_add_event(&story, 104, wash); /* 0.4 h of running */
    story_tell();
    cr_expect_not(timeline.dents.differ);
    cr_expect_gt(timeline.life_h, 0.99 * example_life(&story.base.question));
}

Test(dents, the_order_of_two_spells_of_one_class_is_free)
{
    double lives_h[2];
    for (int k = 0; k < 2; k++) {
        begin(1);
        story_add_event(&story, 1000, soil);
        story_add_event(&story, k ? 1200 : 1900, wash);
        story_add_event(&story, k ? 3000 : 3700, soil);
        story_add_event(&story, k ? 3900 : 3900, wash);
        story_tell();
        lives_h[k] = timeline.life_h;
    }
    cr_expect(near(lives_h[0], lives_h[1], 1e-12, 0));
}

Test(dents, one_lasting_class_has_one_number)
{
    begin(2);
    story_add_event(&story, 777, leave);
    story_tell();
    cr_expect_not(timeline.dents.differ);
    cr_expect(near(timeline.life_h, example_life(&story.base.question), 1e-9, 0));
    cr_expect_eq(timeline.dents.if_cured_h, timeline.life_h);
    cr_expect_eq(timeline.dents.half_credit_h, timeline.life_h);
}

Test(dents, stay_is_at_most_half_is_at_most_cured)
{
    for (int dirt = 1; dirt < 4; dirt++)
        for (int bearings = 1; bearings < 3; bearings++) {
            begin(bearings);
            set_dirt(&story.base, 1 + dirt);
            story_add_event(&story, 911, wash);
            story_tell();
            cr_expect_lt(timeline.life_h, timeline.dents.half_credit_h);
            cr_expect_lt(timeline.dents.half_credit_h, timeline.dents.if_cured_h);
        }
}

Test(dents, a_later_hour_of_dirt_never_lengthens)
{
    double before_h = (double)INFINITY;
    for (int hours = 1; hours < 3000; hours *= 3) {
        begin(1);
        story_add_event(&story, 1000, soil);
        story_add_event(&story, 1000 + hours, wash);
        story_tell();
        cr_expect_leq(timeline.life_h, before_h * (1 + 1e-12), "%d h", hours);
        before_h = timeline.life_h;
    }
}

/* Drifts of dirt restart with fresh oil, but the dents of the worst class reached stay. */
Test(dents, of_a_drift_stay_through_the_oil_changes)
{
    begin(1);
    const int first = (int)spt_cleanliness_first(SPT_LUBRICATION_OIL_BATH);
    const double clean_h = life_with(1), dirty_h = life_with(2);
    struct spt_drift *drift = story_add_drift(&story, 0, 800);
    drift->class_from = first + 1;
    drift->class_to = first + 2;
    story.service.oil_change_every_h = 800;
    story_tell();
    const double stay_h = 400 + (1 - 400 / clean_h) * dirty_h;
    cr_expect(near(timeline.life_h, stay_h, 1e-9, 0), "%.12g, not %.12g", timeline.life_h, stay_h);
    cr_expect(near(timeline.dents.if_cured_h, 2 / (1 / clean_h + 1 / dirty_h), 0.02, 0));
}

/* So short a peak takes many periods until it has ruled for half an hour. */
Test(dents, of_short_peaks_add_up_over_many_oil_changes)
{
    begin(1);
    const int first = (int)spt_cleanliness_first(SPT_LUBRICATION_OIL_BATH);
    const double clean_h = life_with(1), dirty_h = life_with(4);
    struct spt_drift *drift = story_add_drift(&story, 9.9, 9.9);
    drift->class_from = drift->class_to = first + 4;
    story.service.oil_change_every_h = 10;
    story_tell();
    const double found = timeline.life_h;
    cr_expect_lt(found, clean_h);
    cr_expect(near(found, 50 + (1 - 50 / clean_h) * dirty_h, 1e-2, 0), "%.9g", found);
}

static void renew_at(int event)
{
    story.service.events[event].new_bearing = true;
}

Test(dents, are_gone_with_a_new_bearing_which_lives_as_in_a_new_file)
{
    begin(1);
    const double clean_h = life_with(1), dirty_h = life_with(1 + DIRTIER);
    soil(&story.base);
    const double at_h = 0.6 * dirty_h;
    story_add_event(&story, at_h, wash);
    renew_at(0);
    story_tell();
    cr_expect(near(timeline.life_h, at_h + clean_h, 1e-9, 0), "%.12g, not %.12g", timeline.life_h,
              at_h + clean_h);
    cr_expect(timeline.stages[1].renewed);
    cr_expect_not(timeline.stages[0].renewed);
    cr_expect(near(timeline.stages[1].damage, 1, 1e-9, 0));
    cr_expect(near(timeline.damage_at_end, 1, 1e-9, 0));
    cr_expect_not(timeline.dents.differ);
    cr_expect(near(timeline.influences[0].damage_at, 0.6, 1e-9, 0));
}

Test(dents, of_the_past_end_with_a_new_bearing)
{
    begin(1);
    const double clean_h = life_with(1);
    story.base.question.past.dents =
        (struct spt_dents){.of_class = true,
                           .cleanliness = (enum spt_cleanliness)(
                               (int)spt_cleanliness_first(SPT_LUBRICATION_OIL_BATH) + 1 + DIRTIER)};
    const double dirty_h = life_with(1 + DIRTIER);
    cr_expect(near(example_life(&story.base.question), dirty_h, 1e-12, 0));
    story_tell();
    cr_expect(near(timeline.life_h, dirty_h, 1e-12, 0));
    cr_expect(near(timeline.dents.if_cured_h, clean_h, 1e-12, 0));
    cr_expect(near(timeline.dents.half_credit_h, sqrt(clean_h * dirty_h), 1e-12, 0));
    story_add_event(&story, 0.5 * dirty_h, leave);
    renew_at(0);
    story_tell();
    cr_expect(near(timeline.life_h, 0.5 * dirty_h + clean_h, 1e-9, 0));
}

/* e_C numbers: the least that ruled. */
Test(dents, of_a_given_factor_stay_too)
{
    begin(1);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        story.base.phases[0][j].condition.contamination_factor = 0.15;
    const double dirty_h = example_life(&story.base.question);
    story_add_event(&story, 300, wash);
    story_tell();
    cr_expect_not(timeline.dents.differ); /* wash keeps the number */
    cr_expect(near(timeline.life_h, dirty_h, 1e-9, 0));
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        story.base.phases[0][j].condition.contamination_factor = 0.6;
    story.base.question.past.dents =
        (struct spt_dents){.of_factor = true, .contamination_factor = 0.15};
    story_tell();
    cr_expect(near(timeline.life_h, dirty_h, 1e-9, 0));
    cr_expect_gt(timeline.dents.if_cured_h, dirty_h);
}

/* Each phase keeps its own dirt in the life of the standard; the bound stands beside it. */
Test(dents, of_the_dirtiest_phase_bound_the_life_of_a_duty)
{
    struct spt_phase_result results[EXAMPLE_PHASES];
    struct spt_phase_dents bound;
    begin(1);
    const double dirty_h = life_with(1 + DIRTIER);
    struct example_case *made = &story.base;
    int first = (int)spt_cleanliness_first(SPT_LUBRICATION_OIL_BATH);
    cr_assert_eq(spt_phase_dents(&made->question, results, &bound), SPT_OK);
    cr_expect(isnan(bound.life_h));
    made->phases[0][1].condition.cleanliness = (enum spt_cleanliness)(first + 1 + DIRTIER);
    const double life_h = example_life(&made->question);
    made->question.target_life_h = sqrt(life_h * dirty_h);
    cr_assert_eq(spt_phase_dents(&made->question, results, &bound), SPT_OK);
    spt_phase_dents_judge(&made->question, life_h, &bound);
    cr_expect(near(bound.life_h, dirty_h, 1e-12, 0));
    cr_expect_str_eq(bound.phase, "field");
    cr_expect(bound.tells);
    cr_expect(bound.changes);
    made->question.target_life_h = 0.9 * dirty_h;
    spt_phase_dents_judge(&made->question, life_h, &bound);
    cr_expect_not(bound.changes);
    cr_expect(bound.tells);
}

/* The timeline of one duty stays that of the standard. */
Test(dents, of_phases_are_no_memory_of_a_timeline)
{
    begin(1);
    int first = (int)spt_cleanliness_first(SPT_LUBRICATION_OIL_BATH);
    story.base.phases[0][1].condition.cleanliness = (enum spt_cleanliness)(first + 4);
    story_add_event(&story, 500, leave);
    story_tell();
    cr_expect(near(timeline.life_h, example_life(&story.base.question), 1e-9, 0));
    cr_expect_not(timeline.dents.differ);
}
