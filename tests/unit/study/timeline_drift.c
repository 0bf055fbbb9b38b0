/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/assess.h"
#include "support/near.h"
#include "support/story.h"

static double water_at(double time_h)
{
    double part = fmin(fmax((time_h - 1000) / 3000, 0), 1);
    return time_h < 1000 ? 0 : 150 + part * (900 - 150);
}

/* The midpoint rule in parts of `every_h` hours; kinks are at whole hours. */
static double damage_of_water(double until_h, double every_h)
{
    double sum = 0;
    long count = lround(until_h / every_h);
    for (long i = 0; i < count; i++)
        sum += story_rate(&story.base, 0, -1, water_at(((double)i + 0.5) * every_h), 1) * every_h;
    return sum;
}

Test(timeline_drift, a_drift_of_water_meets_a_fine_sum)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = story_add_drift(&story, 1000, 4000);
    drift->water_from_ppm = 150;
    drift->water_to_ppm = 900;
    story.service.until_h = 6000;
    story_tell();
    cr_expect(isinf(timeline.life_h));
    cr_expect(near(timeline.damage_at_end, damage_of_water(6000, 2), 1e-6, 0));
    cr_expect_eq(timeline.stage_count, 3);
    cr_expect(near(timeline.stages[1].damage, damage_of_water(4000, 2) - damage_of_water(1000, 2),
                   1e-6, 0));
}

/* The water of 200 ppm of the phases is a floor that a drift from 150 ppm leaves alone at first. */
Test(timeline_drift, a_drift_below_the_water_of_a_phase_changes_nothing)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = story_add_drift(&story, 0, 4000);
    drift->water_from_ppm = 20;
    drift->water_to_ppm = 199;
    story_tell();
    cr_expect(near(timeline.life_h, example_life(&story.base.question), 1e-9, 0));
}

Test(timeline_drift, a_drift_of_load_meets_a_fine_sum)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = story_add_drift(&story, 500, 2500);
    drift->load_from = 0.9;
    drift->load_to = 1.3;
    story.service.until_h = 3000;
    story_tell();
    double sum =
        500 * story_rate(&story.base, 0, -1, 0, 1) + 500 * story_rate(&story.base, 0, -1, 0, 1.3);
    for (int i = 0; i < 2000; i++)
        sum += story_rate(&story.base, 0, -1, 0, 0.9 + 0.4 * (i + 0.5) / 2000);
    cr_expect(near(timeline.damage_at_end, sum, 1e-6, 0), "%.9g, not %.9g", timeline.damage_at_end,
              sum);
}

Test(timeline_drift, two_drifts_of_load_multiply_and_of_temperature_add)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    for (int i = 0; i < 2; i++) {
        struct spt_drift *drift = story_add_drift(&story, 0, 0);
        drift->load_from = drift->load_to = i ? 1.1 : 1.2;
        drift->rise_from_k = drift->rise_to_k = i ? 4 : 7;
    }
    story_tell();
    story_begin(&other, SPT_LUBRICATION_OIL_BATH, 1);
    story_scale_loads(&other.base, 1.32);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        other.base.phases[0][j].temperature_c += 11;
    cr_expect(near(timeline.life_h, example_life(&other.base.question), 1e-12, 0));
}

static double damage_of_dirt(double clock_h, double every_h, double until_h)
{
    double sum = 0;
    for (double time_h = 0.5; time_h < until_h; time_h += 1) {
        double age_h = time_h - every_h * floor(time_h / every_h);
        double part = fmin(age_h / clock_h, 1);
        sum += story_rate(&story.base, 0, -1, 100 + part * 700, 1 + 0.2 * fmin(time_h / 5000, 1));
    }
    return sum;
}

/* Water runs on the age of the oil, load on the hours of the bearing. */
Test(timeline_drift, an_oil_change_starts_drifts_of_water_again_but_not_of_load)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    story.service.oil_change_every_h = 1300;
    story.service.until_h = 6000;
    struct spt_drift *drift = story_add_drift(&story, 0, 1000);
    drift->water_from_ppm = 100;
    drift->water_to_ppm = 800;
    drift = story_add_drift(&story, 0, 5000);
    drift->load_from = 1;
    drift->load_to = 1.2;
    story_tell();
    double sum = damage_of_dirt(1000, 1300, 6000);
    cr_expect(near(timeline.damage_at_end, sum, 1e-6, 0), "%.9g, not %.9g", timeline.damage_at_end,
              sum);
}

/* Periods for which n times the period over the period is not n in floating point. */
Test(timeline_drift, an_oil_change_a_rounding_early_still_starts_the_drift_again)
{
    double expected = (double)NAN;
    unsigned long long state = 235;
    for (int i = 0; i < 40; i++) {
        double every_h = random_between(&state, 300, 900);
        story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
        story.service.oil_change_every_h = every_h;
        story.service.until_h = 11.5 * every_h;
        struct spt_drift *drift = story_add_drift(&story, 0.3 * every_h, 0.3 * every_h);
        drift->water_from_ppm = drift->water_to_ppm = 600;
        story_tell();
        double damage = timeline.damage_at_end / every_h;
        if (isnan(expected))
            expected = story_rate(&story.base, 0, -1, 200, 1) * (12 * 0.3) +
                       story_rate(&story.base, 0, -1, 600, 1) * (11.5 - 12 * 0.3);
        cr_expect(near(damage, expected, 1e-10, 0), "every %.17g h", every_h);
    }
}

Test(timeline_drift, drift_of_class_steps_through_the_classes_in_equal_times)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = story_add_drift(&story, 200, 1100);
    drift->class_from = SPT_CLEANLINESS_BATH_17_14;
    drift->class_to = SPT_CLEANLINESS_BATH_21_18;
    story.service.until_h = 1400;
    story_tell();
    static const double hours[] = {200, 300, 300, 300 + 300};
    double sum = 0;
    for (int i = 0; i < 4; i++) {
        example_copy(&story.base, &other.base);
        for (int j = 0; i && j < EXAMPLE_PHASES; j++)
            other.base.phases[0][j].condition.cleanliness =
                (enum spt_cleanliness)((int)SPT_CLEANLINESS_BATH_17_14 + i - 1);
        sum += hours[i] / example_life(&other.base.question);
    }
    cr_expect(near(timeline.damage_at_end, sum, 1e-11, 0), "%.12g, not %.12g",
              timeline.damage_at_end, sum);
}

/* Rising, each class in turn for as long; falling, the dents of the first stay to the end. */
Test(timeline_drift, drift_of_class_is_as_long_in_each_and_backwards_keeps_the_dents)
{
    double of_class = 0, worst = 0;
    for (int class = SPT_CLEANLINESS_BATH_17_14; class <= SPT_CLEANLINESS_BATH_21_18; class ++) {
        story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
        for (int j = 0; j < EXAMPLE_PHASES; j++)
            story.base.phases[0][j].condition.cleanliness = (enum spt_cleanliness) class;
        worst = 1 / example_life(&story.base.question);
        of_class += 300 * worst;
    }
    for (int i = 0; i < 2; i++) {
        story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
        struct spt_drift *drift = story_add_drift(&story, 0, 900);
        drift->class_from = i ? SPT_CLEANLINESS_BATH_21_18 : SPT_CLEANLINESS_BATH_17_14;
        drift->class_to = i ? SPT_CLEANLINESS_BATH_17_14 : SPT_CLEANLINESS_BATH_21_18;
        story.service.until_h = 900;
        story_tell();
        cr_expect(near(timeline.damage_at_end, i ? 900 * worst : of_class, 1e-11, 0));
    }
}

/* A phase with a given e_C keeps it whatever the class does. */
Test(timeline_drift, drift_of_class_leaves_a_given_contamination_factor)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        story.base.phases[0][j].condition.contamination_factor = 0.4;
    struct spt_drift *drift = story_add_drift(&story, 0, 100);
    drift->class_from = drift->class_to = SPT_CLEANLINESS_BATH_21_18;
    story_tell();
    cr_expect(near(timeline.life_h, example_life(&story.base.question), 1e-11, 0));
}

/* Too hot for a film at first, then cold enough, then colder than the format allows (-60 degC): the
 * life that comes between does not count. */
Test(timeline_drift, a_life_that_begins_late_is_none)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    for (int j = 0; j < EXAMPLE_PHASES; j++) {
        story.base.phases[0][j].temperature_c = 160;
        story.base.phases[0][j].speed_rpm = 20;
    }
    struct spt_drift *drift = story_add_drift(&story, 0, 4000);
    drift->rise_from_k = 0;
    drift->rise_to_k = -221;
    cr_assert_eq(story_run(&story, &timeline), SPT_OK);
    cr_expect(isnan(timeline.life_h));
    cr_expect_eq(timeline.stopped_h, 0);
    cr_expect_eq(timeline.damage_at_end, 0);
}

Test(timeline_drift, a_drift_from_its_end_is_a_step)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = story_add_drift(&story, 1234.5, 1234.5);
    drift->load_from = 1; /* has come to its end at once */
    drift->load_to = 1.235;
    story_tell();
    double before = story_rate(&story.base, 0, -1, 0, 1),
           after = story_rate(&story.base, 0, -1, 0, 1.235);
    cr_expect(near(timeline.life_h, 1234.5 + (1 - 1234.5 * before) / after, 1e-11, 0));
    cr_expect(near(timeline.influences[0].damage_at, 1234.5 * before, 1e-11, 0));
}

/* A hundred million periods: one by one they would be far more pieces than one answer may have. */
Test(timeline_drift, short_periods_without_a_drift_are_spent_at_once)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.regrease_every_h = 0.01;
    story_scale_loads(&story.base, 0.2);
    story_add_event(&story, 1000, story_load_more);
    story_tell();
    cr_expect(isinf(timeline.life_h));
}

Test(timeline_drift, short_periods_in_a_drift_give_up)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.service.regrease_every_h = 0.01;
    struct spt_drift *drift = story_add_drift(&story, 0, 9e5);
    drift->water_from_ppm = 200;
    drift->water_to_ppm = 900;
    cr_expect_eq(story_run(&story, &timeline), SPT_NOT_CONVERGED);
    story.service.regrease_every_h = 10; /* some thousand periods in three runs */
    cr_expect_eq(story_run(&story, &timeline), SPT_OK);
}
