/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/assess.h"
#include "support/near.h"
#include "support/story.h"

static struct spt_timeline second;

static void load_less(struct example_case *made)
{
    story_scale_loads(made, 0.77);
}

static void get_dirty(struct example_case *made)
{
    for (int i = 0; i < made->question.bearing_count; i++)
        for (int j = 0; j < EXAMPLE_PHASES; j++)
            made->phases[i][j].condition.cleanliness = SPT_CLEANLINESS_GREASE_SEVERE;
}

static void do_nothing(struct example_case *made)
{
    (void)made;
}

static double first_rate(double age_h)
{
    return story_rate(&story.base, 0, age_h, 0, 1);
}

/* Simpson's rule in 2n panels over the age of the grease. */
static double damage_of_ages(double from_h, double to_h, int n)
{
    double width_h = (to_h - from_h) / (2 * n);
    double sum = first_rate(from_h) + first_rate(to_h);
    for (int i = 1; i < 2 * n; i++)
        sum += (i % 2 ? 4 : 2) * first_rate(from_h + i * width_h);
    return sum * width_h / 3;
}

Test(timeline, constant_oil_gives_the_life_of_life)
{
    for (int bearings = 1; bearings <= 2; bearings++) {
        story_begin(&story, SPT_LUBRICATION_OIL_BATH, bearings);
        story_tell();
        double life_h = example_life(&story.base.question);
        cr_expect(near(timeline.life_h, life_h, 1e-12, 0), "%.17g, not %.17g", timeline.life_h,
                  life_h);
        cr_expect(near(timeline.undisturbed_h, life_h, 1e-12, 0));
        cr_expect(near(timeline.damage_at_end, 1, 1e-12, 0));
        cr_expect(isnan(timeline.stopped_h));
        cr_expect_eq(timeline.stage_count, 1);
        cr_expect_eq(timeline.influence_count, 0);
        cr_expect_eq(timeline.until_h, 1e6);
        cr_expect(near(timeline.stages[0].start_life_h, life_h, 1e-12, 0));
        cr_expect(near(timeline.stages[0].end_life_h, life_h, 1e-12, 0));
    }
}

Test(timeline, oil_changes_alone_change_nothing)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    story.service.oil_change_every_h = 731.3;
    story_tell();
    cr_expect(near(timeline.life_h, example_life(&story.base.question), 1e-11, 0));
}

Test(timeline, a_step_gives_the_sum_of_two_pieces)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    double at_h = 2385;
    story_add_event(&story, at_h, story_load_more);
    story_tell();
    double before = story_rate(&story.base, 0, -1, 0, 1),
           after = story_rate(&story.base, 0, -1, 0, 1.235);
    double life_h = at_h + (1 - at_h * before) / after;
    cr_expect(near(timeline.life_h, life_h, 1e-12, 0), "%.15g, not %.15g", timeline.life_h, life_h);
    cr_expect(near(timeline.influences[0].damage_at, at_h * before, 1e-12, 0));
    cr_expect(near(timeline.influences[0].life_without_h, 1 / before, 1e-12, 0));
    cr_expect(near(timeline.undisturbed_h, 1 / before, 1e-12, 0));
    cr_expect(near(timeline.stages[1].start_life_h, 1 / after, 1e-12, 0));
    cr_expect(near(timeline.stages[0].end_life_h, 1 / before, 1e-12, 0));
    cr_expect_eq(timeline.worst_stage, timeline.stages[1].damage > timeline.stages[0].damage);
}

Test(timeline, grease_ages_from_its_stated_age)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.service.until_h = 5000;
    story_tell();
    double sum = damage_of_ages(900, 5900, 200);
    cr_expect(near(timeline.damage_at_end, sum, 1e-9, 0), "%.12g, not %.12g",
              timeline.damage_at_end, sum);
    cr_expect(near(timeline.stages[0].start_life_h, 1 / first_rate(900), 1e-12, 0));
}

Test(timeline, one_bearing_has_one_grease)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.base.phases[0][0].condition.grease_age_h = 100;
    story.service.until_h = 3000;
    cr_expect_eq(story_run(&story, &timeline), SPT_BAD_ARGUMENT);
}

/* The interval counts from the last greasing, 900 h ago: the first is due 400 h from now, and at
 * once where 800 h are over. */
Test(timeline, regreasing_renews_the_grease)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.service.regrease_every_h = 1300;
    story.service.until_h = 5000;
    story_tell();
    double sum = damage_of_ages(900, 1300, 50) + 3 * damage_of_ages(0, 1300, 50) +
                 damage_of_ages(0, 700, 50);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0), "%.12g, not %.12g",
              timeline.damage_at_end, sum);
    story.service.regrease_every_h = 800;
    story_tell();
    sum = 6 * damage_of_ages(0, 800, 50) + damage_of_ages(0, 200, 50);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0), "%.12g, not %.12g",
              timeline.damage_at_end, sum);
}

Test(timeline, more_regreasing_never_shortens_the_life)
{
    double before_h = (double)INFINITY;
    static const double periods_h[] = {50, 333, 1000, 2500, 6000, 15000};
    for (size_t i = 0; i < sizeof periods_h / sizeof *periods_h; i++) {
        story_begin(&story, SPT_LUBRICATION_GREASE, 2);
        story.service.regrease_every_h = periods_h[i];
        story_tell();
        cr_expect_lt(timeline.life_h, before_h, "every %g h", periods_h[i]);
        before_h = timeline.life_h;
    }
}

Test(timeline, an_event_may_state_the_age_of_its_grease)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story_add_event(&story, 2000, do_nothing);
    story.service.events[0].grease_age_h = 300;
    story.service.until_h = 3000;
    story_tell();
    double sum = damage_of_ages(900, 2900, 100) + damage_of_ages(300, 1300, 100);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0));
    cr_expect(isinf(timeline.influences[0].life_without_h));
    story.service.regrease_every_h = 1500; /* at 600; then the event at 2000 */
    story_tell();
    sum = damage_of_ages(900, 1500, 100) + damage_of_ages(0, 1400, 100) +
          damage_of_ages(300, 400, 100) + damage_of_ages(0, 900, 100);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0));
    story.service.until_h = 3500; /* regreased at 2100 and not again */
    story_tell();
    sum += damage_of_ages(900, 1400, 100);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0));
}

/* An event before the first hour leaves other grease than the stated one: the first is due by that
 * age, whether it is new, in its interval or past it. */
Test(timeline, the_first_regreasing_counts_from_the_grease_of_an_event_at_the_start)
{
    static const double ages_h[] = {0, 700, 5000}, first_h[] = {1300, 600, 0};
    for (int i = 0; i < 3; i++) {
        story_begin(&story, SPT_LUBRICATION_GREASE, 1);
        story_add_event(&story, 0, do_nothing);
        story.service.events[0].grease_age_h = ages_h[i];
        story.service.regrease_every_h = 1300;
        story.service.until_h = first_h[i] + 900;
        story_tell();
        double sum = first_h[i] > 0 ? damage_of_ages(ages_h[i], 1300, 50) : 0;
        sum += damage_of_ages(0, 900, 50);
        cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0), "%g h: %.12g, not %.12g", ages_h[i],
                  timeline.damage_at_end, sum);
    }
}

/* Both at 3100 h: what the event states holds. */
Test(timeline, an_event_at_a_regreasing_wins)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story_add_event(&story, 3100, do_nothing);
    story.service.events[0].grease_age_h = 450;
    story.service.regrease_every_h = 1000;
    story.service.until_h = 3400;
    story_tell();
    double sum = damage_of_ages(900, 1000, 100) + 3 * damage_of_ages(0, 1000, 100) +
                 damage_of_ages(450, 750, 100);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0));
}

/* Periods that are worked out once against the same ones walked: a drift that does nothing for
 * ever keeps them from being taken as alike. */
Test(timeline, like_periods_add_up_as_if_walked)
{
    static const double periods_h[] = {37.7, 100.1, 911};
    for (size_t i = 0; i < 3; i++)
        for (int bearings = 1; bearings <= 2; bearings++) {
            story_begin(&story, SPT_LUBRICATION_GREASE, bearings);
            story.service.regrease_every_h = periods_h[i];
            story_add_event(&story, 5005, story_load_more);
            story_add_event(&story, 5300.3, load_less);
            story_tell();
            story_begin(&other, SPT_LUBRICATION_GREASE, bearings);
            other.service = story.service;
            memcpy(other.changes, story.changes, sizeof other.changes);
            struct spt_drift *drift = story_add_drift(&other, 0, 1e6);
            drift->water_from_ppm = drift->water_to_ppm = 1;
            cr_assert_eq(story_run(&other, &second), SPT_OK);
            cr_expect(near(timeline.life_h, second.life_h, 1e-9, 0), "%g h: %.12g, not %.12g",
                      periods_h[i], timeline.life_h, second.life_h);
            for (int stage = 0; stage < 3; stage++)
                cr_expect(near(timeline.stages[stage].damage, second.stages[stage].damage, 1e-9, 0),
                          "%g h, stage %d", periods_h[i], stage);
        }
}

/* In a steady state 1/D times the way to here is the life, for one and for both. */
Test(timeline, two_bearings_combine_by_the_product_of_their_survivals)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.until_h = 4000;
    story_tell();
    double both = timeline.damage_at_end, single[2];
    for (int i = 0; i < 2; i++) {
        story_begin(&other, SPT_LUBRICATION_GREASE, 2);
        other.base.question.bearings[0] = other.base.question.bearings[i];
        other.base.question.bearing_count = 1;
        other.service.until_h = 4000;
        cr_assert_eq(story_run(&other, &second), SPT_OK);
        single[i] = second.damage_at_end;
    }
    double sum = 0, a1;
    double percent = story.base.question.reliability_percent;
    cr_assert_eq(spt_life_reliability_factor(percent, &a1), SPT_OK);
    for (int i = 0; i < 2; i++)
        sum += pow(fmax(a1 * single[i] / both - 0.05, 0) / (a1 - 0.05), 1.5);
    cr_expect(near(sum, 1, 1e-12, 0), "%.15g", sum);
}

Test(timeline, an_event_never_reached_costs_nothing)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    double life_h = example_life(&story.base.question);
    story_add_event(&story, 1.7 * life_h, story_load_more);
    story_tell();
    cr_expect(near(timeline.life_h, life_h, 1e-12, 0));
    cr_expect(isnan(timeline.influences[0].damage_at));
    cr_expect(near(timeline.influences[0].life_without_h, life_h, 1e-12, 0));
    cr_expect_eq(timeline.stage_count, 1);
}

Test(timeline, an_event_at_0_holds_from_the_start)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    story_add_event(&story, 0, story_load_more);
    story_tell();
    cr_expect(near(timeline.life_h, 1 / story_rate(&story.base, 0, -1, 0, 1.235), 1e-12, 0));
    cr_expect_eq(timeline.influences[0].damage_at, 0);
    cr_expect_eq(timeline.stage_count, 1);
}

Test(timeline, events_at_one_time_both_hold)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    story_add_event(&story, 1500, story_load_more);
    story_add_event(&story, 1500, load_less);
    story_tell();
    double before = story_rate(&story.base, 0, -1, 0, 1);
    double after = story_rate(&story.base, 0, -1, 0, 1.235 * 0.77);
    double with_first = story_rate(&story.base, 0, -1, 0, 1.235);
    cr_expect(near(timeline.life_h, 1500 + (1 - 1500 * before) / after, 1e-12, 0));
    cr_expect(near(timeline.influences[1].life_without_h, 1500 + (1 - 1500 * before) / with_first,
                   1e-12, 0));
    cr_expect_eq(timeline.stage_count, 2);
}

/* 3 x 100.1 h is a rounding less than 300.3 h. */
Test(timeline, an_event_a_rounding_after_a_regreasing_is_not_late)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.service.regrease_every_h = 100.1;
    cr_assert_lt(3 * 100.1, 300.3);
    story_add_event(&story, 300.3, get_dirty);
    story.service.until_h = 400.4;
    story_tell();
    static struct example_case dirty;
    example_copy(&story.base, &dirty);
    get_dirty(&dirty);
    double clean = 3 * damage_of_ages(0, 100.1, 20); /* 900 h old at the start: overdue */
    example_copy(&dirty, &story.base);
    double sum = clean + damage_of_ages(0, 100.1, 20);
    cr_expect(near(timeline.damage_at_end, sum, 1e-9, 0), "%.12g, not %.12g",
              timeline.damage_at_end, sum);
}

Test(timeline, looking_ends_at_the_horizon)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    story.service.until_h = 77;
    story_tell();
    cr_expect(isinf(timeline.life_h) && isinf(timeline.undisturbed_h));
    cr_expect(near(timeline.damage_at_end, 77 / example_life(&story.base.question), 1e-12, 0));
    cr_expect_eq(timeline.stages[0].to_h, 77);
    story.service.until_h = (double)NAN;
    story_scale_loads(&story.base, 0.05);
    story_tell();
    cr_expect(isinf(timeline.life_h));
    cr_expect_eq(timeline.until_h, 1e6);
    cr_expect_eq(timeline.stages[0].to_h, 1e6);
}

/* The age at which the film is gone, by halving on `life` itself. */
static double age_without_film(void)
{
    double low_h = 0, high_h = 1e6;
    for (int i = 0; i < 100; i++) {
        double middle_h = (low_h + high_h) / 2;
        *(isnan(first_rate(middle_h)) ? &high_h : &low_h) = middle_h;
    }
    return low_h;
}

Test(timeline, the_hour_at_which_the_film_goes_is_found)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story_scale_loads(&story.base, 0.3); /* outlives its grease */
    story_tell();
    double last_h = age_without_film() - 900;
    cr_assert_gt(last_h, 1000);
    cr_assert_lt(last_h, 9e5);
    cr_expect(isnan(timeline.life_h));
    cr_expect(near(timeline.stopped_h, last_h, 1e-9, 0), "%.12g, not %.12g", timeline.stopped_h,
              last_h);
    double sum = damage_of_ages(900, 900 + last_h * (1 - 1e-9), 4000);
    cr_expect(near(timeline.damage_at_end, sum, 1e-6, 0), "%.12g, not %.12g",
              timeline.damage_at_end, sum);
    cr_expect_eq(timeline.stage_count, 1);
    cr_expect(isnan(timeline.undisturbed_h));
}

Test(timeline, without_a_film_at_the_start_there_is_nothing_to_spend)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        story.base.phases[0][j].temperature_c = 280;
    story_add_event(&story, 100, story_load_more);
    story_tell();
    cr_expect(isnan(timeline.life_h));
    cr_expect(near(timeline.stopped_h, 0, 0, 1e-6), "%g", timeline.stopped_h);
    cr_expect_eq(timeline.damage_at_end, 0);
    cr_expect(isnan(timeline.influences[0].damage_at));
}

/* 65 degC rises by 400 K in 1000 h; of an oil this thick a film is left at 300 degC, where the
 * models end. */
Test(timeline, a_temperature_beyond_the_models_ends_the_statement)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    example_set_oil(&story.base.question, 4600, 250);
    struct spt_drift *drift = story_add_drift(&story, 0, 1000);
    drift->rise_from_k = 0;
    drift->rise_to_k = 400;
    story_scale_loads(&story.base, 0.1);
    story_tell();
    cr_expect(isnan(timeline.life_h));
    cr_expect(near(timeline.stopped_h, 1000 * (300 - 65) / 400.0, 1e-9, 0), "%.12g",
              timeline.stopped_h);
}

#define EVENTS 3

Test(timeline, life_without_each_event_is_that_of_a_story_without_it)
{
    static void (*const changes[])(struct example_case *) = {get_dirty, story_load_more, load_less};
    static const double at_h[] = {700, 2500, 4100};
    story_begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.regrease_every_h = 650;
    for (int i = 0; i < EVENTS; i++)
        story_add_event(&story, at_h[i], changes[i]);
    struct spt_drift *drift = story_add_drift(&story, 300, 3000);
    drift->water_from_ppm = 200;
    drift->water_to_ppm = 500;
    story_tell();
    cr_assert_eq(timeline.influence_count, EVENTS + 1);
    for (int left_out = 0; left_out <= EVENTS; left_out++) {
        story_begin(&other, SPT_LUBRICATION_GREASE, 2);
        other.service.regrease_every_h = 650;
        for (int i = 0; i < EVENTS; i++)
            if (i != left_out)
                story_add_event(&other, at_h[i], changes[i]);
        if (left_out != EVENTS)
            *story_add_drift(&other, 300, 3000) = story.service.drifts[0];
        cr_assert_eq(story_run(&other, &second), SPT_OK);
        cr_expect(near(timeline.influences[left_out].life_without_h, second.life_h, 1e-10, 0),
                  "without %d: %.12g, not %.12g", left_out,
                  timeline.influences[left_out].life_without_h, second.life_h);
    }
}

Test(timeline, stages_sum_to_the_damage_at_the_end)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.regrease_every_h = 420;
    story_add_event(&story, 1000, get_dirty);
    story_add_event(&story, 1900, load_less);
    story_add_drift(&story, 500, 3000)->rise_from_k = 0;
    story.service.drifts[0].rise_to_k = 8;
    story_tell();
    double sum = 0;
    cr_assert_eq(timeline.stage_count, 5);
    for (int i = 0; i < timeline.stage_count; i++) {
        cr_expect_eq(timeline.stages[i].from_h, i ? timeline.stages[i - 1].to_h : 0);
        cr_expect_gt(timeline.stages[i].damage, 0);
        cr_expect_leq(timeline.stages[i].damage, timeline.stages[timeline.worst_stage].damage);
        sum += timeline.stages[i].damage;
    }
    cr_expect(near(sum, timeline.damage_at_end, 1e-13, 0));
    cr_expect(near(sum, 1, 1e-9, 0));
    cr_expect_eq(timeline.stages[4].to_h, timeline.life_h);
}

Test(timeline, the_curve_rises_to_1_at_the_end_of_the_life)
{
    enum { POINTS = 101 };
    double times_h[POINTS], damage[POINTS];
    story_begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.regrease_every_h = 420;
    story_add_event(&story, 1000, get_dirty);
    story_tell();
    for (int i = 0; i < POINTS; i++)
        times_h[i] = timeline.life_h * i / (POINTS - 1);
    cr_assert_eq(spt_timeline_curve(&story.base.question, &story.service, &story_workspace, times_h,
                                    POINTS, damage),
                 SPT_OK);
    cr_expect_eq(damage[0], 0);
    for (int i = 1; i < POINTS; i++)
        cr_expect_gt(damage[i], damage[i - 1], "%d", i);
    cr_expect(near(damage[POINTS - 1], 1, 1e-9, 0), "%.12g", damage[POINTS - 1]);
}

Test(timeline, the_curve_has_no_value_without_a_film)
{
    double damage[2];
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story_scale_loads(&story.base, 0.3);
    story_tell();
    const double times_h[] = {0.5 * timeline.stopped_h, 1.5 * timeline.stopped_h};
    cr_assert_eq(spt_timeline_curve(&story.base.question, &story.service, &story_workspace, times_h,
                                    2, damage),
                 SPT_OK);
    cr_expect_gt(damage[0], 0);
    cr_expect(isnan(damage[1]));
}

/* The state before the event raises no flag of the dirt, the one after it does. */
Test(timeline, flags_stand_in_the_stages_whose_states_raise_them)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story_add_event(&story, 1000, get_dirty);
    struct spt_drift *drift = story_add_drift(&story, 2000, 3000);
    drift->water_from_ppm = 100;
    drift->water_to_ppm = 600;
    story.service.until_h = 4000;
    story.service.regrease_every_h = 400;
    story_tell();
    cr_assert_eq(timeline.stage_count, 4);
    static const bool dirty[] = {false, true, true, true}, wet[] = {false, false, true, true};
    for (int i = 0; i < 4; i++) {
        const struct spt_notes *notes = &timeline.stages[i].placed.notes;
        cr_expect_eq(spt_notes_has(notes, SPT_FLAG_HEAVY_CONTAMINATION), dirty[i], "stage %d", i);
        cr_expect_eq(spt_notes_has(notes, SPT_FLAG_WATER_EXTRAPOLATED), wet[i], "stage %d", i);
    }
}

Test(timeline, the_flag_that_ends_the_statement_stands_in_the_last_stage)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story_scale_loads(&story.base, 0.3);
    story_tell();
    cr_assert(isnan(timeline.life_h));
    cr_expect(spt_notes_has(&timeline.stages[0].placed.notes, SPT_FLAG_GREASE_OVERDUE));
    cr_expect(spt_notes_has(&timeline.stages[0].placed.notes, SPT_FLAG_GREASE_EXHAUSTED));
}
