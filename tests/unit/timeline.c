/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/timeline.h"

#include <criterion/criterion.h>
#include <math.h>
#include <string.h>

#include "spalltime/adjust.h"
#include "support/case_example.h"
#include "support/near.h"

#define EVENTS 3

static const double none = (double)NAN;

/* A case with up to three events; each event has a function that changes the case. */
struct story {
    struct example_case base;
    struct spt_service service;
    void (*changes[EVENTS])(struct example_case *made);
    struct example_case made[(EVENTS + 1) * EVENTS];
    struct spt_case cases[(EVENTS + 1) * EVENTS];
};

static struct story story, other;
static struct spt_timeline timeline, second;
static struct spt_phase phases[4];
static struct spt_phase_result results[4];
static const struct spt_timeline_room room = {phases, results};

static void begin(struct story *told, enum spt_lubrication kind, int bearings)
{
    memset(told, 0, sizeof *told);
    example_make(&told->base, kind, bearings);
    told->service =
        (struct spt_service){.regrease_every_h = none, .oil_change_every_h = none, .until_h = none};
}

static void add_event(struct story *told, double at_h, void (*change)(struct example_case *))
{
    int i = told->service.event_count++;
    told->service.events[i] = (struct spt_event){"event", at_h, none};
    told->changes[i] = change;
}

static struct spt_drift *add_drift(struct story *told, double from_h, double to_h)
{
    struct spt_drift *drift = &told->service.drifts[told->service.drift_count++];
    *drift = (struct spt_drift){"drift", from_h, to_h, none, none, -1, -1, none, none, none, none};
    return drift;
}

/* Works the cases of every row out and runs the timeline. */
static enum spt_status run(struct story *told, struct spt_timeline *into)
{
    int count = told->service.event_count;
    for (int row = 0; row <= count; row++) {
        const struct example_case *before = &told->base;
        for (int i = 0; i < count; i++) {
            struct example_case *after = &told->made[count * row + i];
            example_copy(before, after);
            if (i != row)
                told->changes[i](after);
            told->cases[count * row + i] = after->question;
            before = after;
        }
    }
    told->service.cases = told->cases;
    return spt_timeline(&told->base.question, &told->service, &room, into);
}

static void tell(void)
{
    cr_assert_eq(run(&story, &timeline), SPT_OK);
}

static void scale_loads(struct example_case *made, double factor)
{
    for (int i = 0; i < made->question.bearing_count; i++)
        for (int j = 0; j < EXAMPLE_PHASES; j++) {
            made->phases[i][j].radial_load_n *= factor;
            made->phases[i][j].axial_load_n *= factor;
        }
}

static void load_more(struct example_case *made)
{
    scale_loads(made, 1.235);
}

static void load_less(struct example_case *made)
{
    scale_loads(made, 0.77);
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

/* 1/L of one bearing of a case whose grease has one age, water a floor, loads a factor. */
static double rate(const struct example_case *base, int bearing, double age_h, double water_ppm,
                   double load_factor)
{
    static struct example_case made;
    struct spt_bearing_result result;
    example_copy(base, &made);
    scale_loads(&made, load_factor);
    for (int i = 0; i < made.question.bearing_count; i++)
        for (int j = 0; j < EXAMPLE_PHASES; j++) {
            struct spt_condition *state = &made.phases[i][j].condition;
            if (age_h >= 0)
                state->grease_age_h = age_h;
            state->water_ppm = fmax(state->water_ppm, water_ppm);
        }
    cr_assert_eq(spt_assess_bearing(&made.question, bearing, 0, results, &result), SPT_OK);
    return 1 / result.modified_rating_life_h;
}

static double first_rate(double age_h)
{
    return rate(&story.base, 0, age_h, 0, 1);
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
        begin(&story, SPT_LUBRICATION_OIL_BATH, bearings);
        tell();
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
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    story.service.oil_change_every_h = 731.3;
    tell();
    cr_expect(near(timeline.life_h, example_life(&story.base.question), 1e-11, 0));
}

Test(timeline, a_step_gives_the_sum_of_two_pieces)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    double at_h = 2385;
    add_event(&story, at_h, load_more);
    tell();
    double before = rate(&story.base, 0, -1, 0, 1), after = rate(&story.base, 0, -1, 0, 1.235);
    double life_h = at_h + (1 - at_h * before) / after;
    cr_expect(near(timeline.life_h, life_h, 1e-12, 0), "%.15g, not %.15g", timeline.life_h, life_h);
    cr_expect(near(timeline.influences[0].damage_at, at_h * before, 1e-12, 0));
    cr_expect(near(timeline.influences[0].life_without_h, 1 / before, 1e-12, 0));
    cr_expect(near(timeline.undisturbed_h, 1 / before, 1e-12, 0));
    cr_expect(near(timeline.stages[1].start_life_h, 1 / after, 1e-12, 0));
    cr_expect(near(timeline.stages[0].end_life_h, 1 / before, 1e-12, 0));
    cr_expect_eq(timeline.worst_stage, timeline.stages[1].damage > timeline.stages[0].damage);
}

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
        sum += rate(&story.base, 0, -1, water_at(((double)i + 0.5) * every_h), 1) * every_h;
    return sum;
}

Test(timeline, a_drift_of_water_meets_a_fine_sum)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = add_drift(&story, 1000, 4000);
    drift->water_from_ppm = 150;
    drift->water_to_ppm = 900;
    story.service.until_h = 6000;
    tell();
    cr_expect(isinf(timeline.life_h));
    cr_expect(near(timeline.damage_at_end, damage_of_water(6000, 2), 1e-6, 0));
    cr_expect_eq(timeline.stage_count, 3);
    cr_expect(near(timeline.stages[1].damage, damage_of_water(4000, 2) - damage_of_water(1000, 2),
                   1e-6, 0));
}

/* The water of 200 ppm of the phases is a floor that a drift from 150 ppm leaves alone at first. */
Test(timeline, a_drift_below_the_water_of_a_phase_changes_nothing)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = add_drift(&story, 0, 4000);
    drift->water_from_ppm = 20;
    drift->water_to_ppm = 199;
    tell();
    cr_expect(near(timeline.life_h, example_life(&story.base.question), 1e-9, 0));
}

Test(timeline, a_drift_of_load_meets_a_fine_sum)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = add_drift(&story, 500, 2500);
    drift->load_from = 0.9;
    drift->load_to = 1.3;
    story.service.until_h = 3000;
    tell();
    double sum = 500 * rate(&story.base, 0, -1, 0, 1) + 500 * rate(&story.base, 0, -1, 0, 1.3);
    for (int i = 0; i < 2000; i++)
        sum += rate(&story.base, 0, -1, 0, 0.9 + 0.4 * (i + 0.5) / 2000);
    cr_expect(near(timeline.damage_at_end, sum, 1e-6, 0), "%.9g, not %.9g", timeline.damage_at_end,
              sum);
}

Test(timeline, two_drifts_of_load_multiply_and_of_temperature_add)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    for (int i = 0; i < 2; i++) {
        struct spt_drift *drift = add_drift(&story, 0, 0);
        drift->load_from = drift->load_to = i ? 1.1 : 1.2;
        drift->rise_from_k = drift->rise_to_k = i ? 4 : 7;
    }
    tell();
    begin(&other, SPT_LUBRICATION_OIL_BATH, 1);
    scale_loads(&other.base, 1.32);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        other.base.phases[0][j].temperature_c += 11;
    cr_expect(near(timeline.life_h, example_life(&other.base.question), 1e-12, 0));
}

Test(timeline, grease_ages_from_its_stated_age)
{
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.service.until_h = 5000;
    tell();
    double sum = damage_of_ages(900, 5900, 200);
    cr_expect(near(timeline.damage_at_end, sum, 1e-9, 0), "%.12g, not %.12g",
              timeline.damage_at_end, sum);
    cr_expect(near(timeline.stages[0].start_life_h, 1 / first_rate(900), 1e-12, 0));
}

Test(timeline, oldest_grease_of_the_phases_is_the_age_at_the_start)
{
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.base.phases[0][0].condition.grease_age_h = 100;
    story.service.until_h = 3000;
    tell();
    begin(&other, SPT_LUBRICATION_GREASE, 1);
    other.service.until_h = 3000;
    cr_assert_eq(run(&other, &second), SPT_OK);
    cr_expect(near(timeline.damage_at_end, second.damage_at_end, 1e-12, 0));
}

/* The first period starts from the stated age, the others from fresh grease. */
Test(timeline, regreasing_renews_the_grease)
{
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.service.regrease_every_h = 800;
    story.service.until_h = 5000;
    tell();
    double sum =
        damage_of_ages(900, 1700, 50) + 5 * damage_of_ages(0, 800, 50) + damage_of_ages(0, 200, 50);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0), "%.12g, not %.12g",
              timeline.damage_at_end, sum);
}

Test(timeline, more_regreasing_never_shortens_the_life)
{
    double before_h = (double)INFINITY;
    static const double periods_h[] = {50, 333, 1000, 2500, 6000, 15000};
    for (size_t i = 0; i < sizeof periods_h / sizeof *periods_h; i++) {
        begin(&story, SPT_LUBRICATION_GREASE, 2);
        story.service.regrease_every_h = periods_h[i];
        tell();
        cr_expect_lt(timeline.life_h, before_h, "every %g h", periods_h[i]);
        before_h = timeline.life_h;
    }
}

Test(timeline, an_event_may_state_the_age_of_its_grease)
{
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    add_event(&story, 2000, do_nothing);
    story.service.events[0].grease_age_h = 300;
    story.service.until_h = 3000;
    tell();
    double sum = damage_of_ages(900, 2900, 100) + damage_of_ages(300, 1300, 100);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0));
    cr_expect(isinf(timeline.influences[0].life_without_h));
    story.service.regrease_every_h = 1500; /* at 1500; then the event at 2000 */
    tell();
    sum = damage_of_ages(900, 2400, 100) + damage_of_ages(0, 500, 100) +
          damage_of_ages(300, 1300, 100);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0));
    story.service.until_h = 3500; /* regreased at 3000 */
    tell();
    sum += damage_of_ages(0, 500, 100);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0));
}

/* Both at 3000 h: what the event states holds. */
Test(timeline, an_event_at_a_regreasing_wins)
{
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    add_event(&story, 3000, do_nothing);
    story.service.events[0].grease_age_h = 450;
    story.service.regrease_every_h = 1000;
    story.service.until_h = 3400;
    tell();
    double sum = damage_of_ages(900, 1900, 100) + 2 * damage_of_ages(0, 1000, 100) +
                 damage_of_ages(450, 850, 100);
    cr_expect(near(timeline.damage_at_end, sum, 1e-10, 0));
}

/* Periods that are worked out once against the same ones walked: a drift that does nothing for
 * ever keeps them from being taken as alike. */
Test(timeline, like_periods_add_up_as_if_walked)
{
    static const double periods_h[] = {37.7, 100.1, 911};
    for (size_t i = 0; i < 3; i++)
        for (int bearings = 1; bearings <= 2; bearings++) {
            begin(&story, SPT_LUBRICATION_GREASE, bearings);
            story.service.regrease_every_h = periods_h[i];
            add_event(&story, 5005, load_more);
            add_event(&story, 5300.3, load_less);
            tell();
            begin(&other, SPT_LUBRICATION_GREASE, bearings);
            other.service = story.service;
            memcpy(other.changes, story.changes, sizeof other.changes);
            struct spt_drift *drift = add_drift(&other, 0, 1e6);
            drift->water_from_ppm = drift->water_to_ppm = 1;
            cr_assert_eq(run(&other, &second), SPT_OK);
            cr_expect(near(timeline.life_h, second.life_h, 1e-9, 0), "%g h: %.12g, not %.12g",
                      periods_h[i], timeline.life_h, second.life_h);
            for (int stage = 0; stage < 3; stage++)
                cr_expect(near(timeline.stages[stage].damage, second.stages[stage].damage, 1e-9, 0),
                          "%g h, stage %d", periods_h[i], stage);
        }
}

static double damage_of_dirt(double clock_h, double every_h, double until_h)
{
    double sum = 0;
    for (double time_h = 0.5; time_h < until_h; time_h += 1) {
        double age_h = time_h - every_h * floor(time_h / every_h);
        double part = fmin(age_h / clock_h, 1);
        sum += rate(&story.base, 0, -1, 100 + part * 700, 1 + 0.2 * fmin(time_h / 5000, 1));
    }
    return sum;
}

/* Water runs on the age of the oil, load on the hours of the bearing. */
Test(timeline, an_oil_change_starts_drifts_of_water_again_but_not_of_load)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    story.service.oil_change_every_h = 1300;
    story.service.until_h = 6000;
    struct spt_drift *drift = add_drift(&story, 0, 1000);
    drift->water_from_ppm = 100;
    drift->water_to_ppm = 800;
    drift = add_drift(&story, 0, 5000);
    drift->load_from = 1;
    drift->load_to = 1.2;
    tell();
    double sum = damage_of_dirt(1000, 1300, 6000);
    cr_expect(near(timeline.damage_at_end, sum, 1e-6, 0), "%.9g, not %.9g", timeline.damage_at_end,
              sum);
}

/* Periods for which n times the period over the period is not n in floating point. */
Test(timeline, an_oil_change_a_rounding_early_still_starts_the_drift_again)
{
    double expected = none;
    unsigned long long state = 235;
    for (int i = 0; i < 40; i++) {
        double every_h = random_between(&state, 300, 900);
        begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
        story.service.oil_change_every_h = every_h;
        story.service.until_h = 11.5 * every_h;
        struct spt_drift *drift = add_drift(&story, 0.3 * every_h, 0.3 * every_h);
        drift->water_from_ppm = drift->water_to_ppm = 600;
        tell();
        double damage = timeline.damage_at_end / every_h;
        if (isnan(expected))
            expected = rate(&story.base, 0, -1, 200, 1) * (12 * 0.3) +
                       rate(&story.base, 0, -1, 600, 1) * (11.5 - 12 * 0.3);
        cr_expect(near(damage, expected, 1e-10, 0), "every %.17g h", every_h);
    }
}

Test(timeline, drift_of_class_steps_through_the_classes_in_equal_times)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = add_drift(&story, 200, 1100);
    drift->class_from = SPT_CLEANLINESS_BATH_17_14;
    drift->class_to = SPT_CLEANLINESS_BATH_21_18;
    story.service.until_h = 1400;
    tell();
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

Test(timeline, drift_of_class_backwards_is_as_long_in_each)
{
    double damage[2];
    for (int i = 0; i < 2; i++) {
        begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
        struct spt_drift *drift = add_drift(&story, 0, 900);
        drift->class_from = i ? SPT_CLEANLINESS_BATH_21_18 : SPT_CLEANLINESS_BATH_17_14;
        drift->class_to = i ? SPT_CLEANLINESS_BATH_17_14 : SPT_CLEANLINESS_BATH_21_18;
        story.service.until_h = 900;
        tell();
        damage[i] = timeline.damage_at_end;
    }
    cr_expect(near(damage[0], damage[1], 1e-11, 0));
}

/* A phase with a given e_C keeps it whatever the class does. */
Test(timeline, drift_of_class_leaves_a_given_contamination_factor)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        story.base.phases[0][j].condition.contamination_factor = 0.4;
    struct spt_drift *drift = add_drift(&story, 0, 100);
    drift->class_from = drift->class_to = SPT_CLEANLINESS_BATH_21_18;
    tell();
    cr_expect(near(timeline.life_h, example_life(&story.base.question), 1e-11, 0));
}

Test(timeline, two_bearings_combine_with_slope_one_and_a_half)
{
    begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.until_h = 4000;
    tell();
    double both = timeline.damage_at_end, single[2];
    for (int i = 0; i < 2; i++) {
        begin(&other, SPT_LUBRICATION_GREASE, 2);
        other.base.question.bearings[0] = other.base.question.bearings[i];
        other.base.question.bearing_count = 1;
        other.service.until_h = 4000;
        cr_assert_eq(run(&other, &second), SPT_OK);
        single[i] = second.damage_at_end;
    }
    cr_expect(near(both, pow(pow(single[0], 1.5) + pow(single[1], 1.5), 1 / 1.5), 1e-12, 0));
}

Test(timeline, an_event_never_reached_costs_nothing)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    double life_h = example_life(&story.base.question);
    add_event(&story, 1.7 * life_h, load_more);
    tell();
    cr_expect(near(timeline.life_h, life_h, 1e-12, 0));
    cr_expect(isnan(timeline.influences[0].damage_at));
    cr_expect(near(timeline.influences[0].life_without_h, life_h, 1e-12, 0));
    cr_expect_eq(timeline.stage_count, 1);
}

Test(timeline, an_event_at_0_holds_from_the_start)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    add_event(&story, 0, load_more);
    tell();
    cr_expect(near(timeline.life_h, 1 / rate(&story.base, 0, -1, 0, 1.235), 1e-12, 0));
    cr_expect_eq(timeline.influences[0].damage_at, 0);
    cr_expect_eq(timeline.stage_count, 1);
}

Test(timeline, events_at_one_time_both_hold)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    add_event(&story, 1500, load_more);
    add_event(&story, 1500, load_less);
    tell();
    double before = rate(&story.base, 0, -1, 0, 1);
    double after = rate(&story.base, 0, -1, 0, 1.235 * 0.77);
    double with_first = rate(&story.base, 0, -1, 0, 1.235);
    cr_expect(near(timeline.life_h, 1500 + (1 - 1500 * before) / after, 1e-12, 0));
    cr_expect(near(timeline.influences[1].life_without_h, 1500 + (1 - 1500 * before) / with_first,
                   1e-12, 0));
    cr_expect_eq(timeline.stage_count, 2);
}

/* 3 x 100.1 h is a rounding less than 300.3 h. */
Test(timeline, an_event_a_rounding_after_a_regreasing_is_not_late)
{
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.service.regrease_every_h = 100.1;
    cr_assert_lt(3 * 100.1, 300.3);
    add_event(&story, 300.3, get_dirty);
    story.service.until_h = 400.4;
    tell();
    static struct example_case dirty;
    example_copy(&story.base, &dirty);
    get_dirty(&dirty);
    double clean = damage_of_ages(900, 1000.1, 20) + 2 * damage_of_ages(0, 100.1, 20);
    example_copy(&dirty, &story.base);
    double sum = clean + damage_of_ages(0, 100.1, 20);
    cr_expect(near(timeline.damage_at_end, sum, 1e-9, 0), "%.12g, not %.12g",
              timeline.damage_at_end, sum);
}

Test(timeline, a_drift_from_its_end_is_a_step)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_drift *drift = add_drift(&story, 1234.5, 1234.5);
    drift->load_from = 1; /* has come to its end at once */
    drift->load_to = 1.235;
    tell();
    double before = rate(&story.base, 0, -1, 0, 1), after = rate(&story.base, 0, -1, 0, 1.235);
    cr_expect(near(timeline.life_h, 1234.5 + (1 - 1234.5 * before) / after, 1e-11, 0));
    cr_expect(near(timeline.influences[0].damage_at, 1234.5 * before, 1e-11, 0));
}

Test(timeline, looking_ends_at_the_horizon)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    story.service.until_h = 77;
    tell();
    cr_expect(isinf(timeline.life_h) && isinf(timeline.undisturbed_h));
    cr_expect(near(timeline.damage_at_end, 77 / example_life(&story.base.question), 1e-12, 0));
    cr_expect_eq(timeline.stages[0].to_h, 77);
    story.service.until_h = none;
    scale_loads(&story.base, 0.05);
    tell();
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
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    scale_loads(&story.base, 0.3); /* outlives its grease */
    tell();
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
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        story.base.phases[0][j].temperature_c = 280;
    add_event(&story, 100, load_more);
    tell();
    cr_expect(isnan(timeline.life_h));
    cr_expect(near(timeline.stopped_h, 0, 0, 1e-6), "%g", timeline.stopped_h);
    cr_expect_eq(timeline.damage_at_end, 0);
    cr_expect(isnan(timeline.influences[0].damage_at));
}

/* 65 degC rises by 400 K in 1000 h; of an oil this thick a film is left at 300 degC, where the
 * models end. */
Test(timeline, a_temperature_beyond_the_models_ends_the_statement)
{
    begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    example_set_oil(&story.base.question, 4600, 250);
    struct spt_drift *drift = add_drift(&story, 0, 1000);
    drift->rise_from_k = 0;
    drift->rise_to_k = 400;
    scale_loads(&story.base, 0.1);
    tell();
    cr_expect(isnan(timeline.life_h));
    cr_expect(near(timeline.stopped_h, 1000 * (300 - 65) / 400.0, 1e-9, 0), "%.12g",
              timeline.stopped_h);
}

Test(timeline, life_without_each_event_is_that_of_a_story_without_it)
{
    static void (*const changes[])(struct example_case *) = {get_dirty, load_more, load_less};
    static const double at_h[] = {700, 2500, 4100};
    begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.regrease_every_h = 650;
    for (int i = 0; i < EVENTS; i++)
        add_event(&story, at_h[i], changes[i]);
    struct spt_drift *drift = add_drift(&story, 300, 3000);
    drift->water_from_ppm = 200;
    drift->water_to_ppm = 500;
    tell();
    cr_assert_eq(timeline.influence_count, EVENTS + 1);
    for (int left_out = 0; left_out <= EVENTS; left_out++) {
        begin(&other, SPT_LUBRICATION_GREASE, 2);
        other.service.regrease_every_h = 650;
        for (int i = 0; i < EVENTS; i++)
            if (i != left_out)
                add_event(&other, at_h[i], changes[i]);
        if (left_out != EVENTS)
            *add_drift(&other, 300, 3000) = story.service.drifts[0];
        cr_assert_eq(run(&other, &second), SPT_OK);
        cr_expect(near(timeline.influences[left_out].life_without_h, second.life_h, 1e-10, 0),
                  "without %d: %.12g, not %.12g", left_out,
                  timeline.influences[left_out].life_without_h, second.life_h);
    }
}

Test(timeline, stages_sum_to_the_damage_at_the_end)
{
    begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.regrease_every_h = 420;
    add_event(&story, 1000, get_dirty);
    add_event(&story, 1900, load_less);
    add_drift(&story, 500, 3000)->rise_from_k = 0;
    story.service.drifts[0].rise_to_k = 8;
    tell();
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
    begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.regrease_every_h = 420;
    add_event(&story, 1000, get_dirty);
    tell();
    for (int i = 0; i < POINTS; i++)
        times_h[i] = timeline.life_h * i / (POINTS - 1);
    cr_assert_eq(
        spt_timeline_curve(&story.base.question, &story.service, &room, times_h, POINTS, damage),
        SPT_OK);
    cr_expect_eq(damage[0], 0);
    for (int i = 1; i < POINTS; i++)
        cr_expect_gt(damage[i], damage[i - 1], "%d", i);
    cr_expect(near(damage[POINTS - 1], 1, 1e-9, 0), "%.12g", damage[POINTS - 1]);
}

Test(timeline, the_curve_has_no_value_without_a_film)
{
    double damage[2];
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    scale_loads(&story.base, 0.3);
    tell();
    const double times_h[] = {0.5 * timeline.stopped_h, 1.5 * timeline.stopped_h};
    cr_assert_eq(
        spt_timeline_curve(&story.base.question, &story.service, &room, times_h, 2, damage),
        SPT_OK);
    cr_expect_gt(damage[0], 0);
    cr_expect(isnan(damage[1]));
}

/* A hundred million periods: one by one they would be far more pieces than one answer may have. */
Test(timeline, short_periods_without_a_drift_are_spent_at_once)
{
    begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.regrease_every_h = 0.01;
    scale_loads(&story.base, 0.2);
    add_event(&story, 1000, load_more);
    tell();
    cr_expect(isinf(timeline.life_h));
}

Test(timeline, short_periods_in_a_drift_give_up)
{
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    story.service.regrease_every_h = 0.01;
    struct spt_drift *drift = add_drift(&story, 0, 9e5);
    drift->water_from_ppm = 200;
    drift->water_to_ppm = 900;
    cr_expect_eq(run(&story, &timeline), SPT_NOT_CONVERGED);
    story.service.regrease_every_h = 10; /* some thousand periods in three runs */
    cr_expect_eq(run(&story, &timeline), SPT_OK);
}

/* The state before the event raises no flag of the dirt, the one after it does. */
Test(timeline, flags_stand_in_the_stages_whose_states_raise_them)
{
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    add_event(&story, 1000, get_dirty);
    struct spt_drift *drift = add_drift(&story, 2000, 3000);
    drift->water_from_ppm = 100;
    drift->water_to_ppm = 600;
    story.service.until_h = 4000;
    story.service.regrease_every_h = 400;
    tell();
    cr_assert_eq(timeline.stage_count, 4);
    static const bool dirty[] = {false, true, true, true}, wet[] = {false, false, true, true};
    for (int i = 0; i < 4; i++) {
        const struct spt_notes *notes = &timeline.stages[i].notes;
        cr_expect_eq(spt_notes_has(notes, SPT_FLAG_HEAVY_CONTAMINATION), dirty[i], "stage %d", i);
        cr_expect_eq(spt_notes_has(notes, SPT_FLAG_WATER_EXTRAPOLATED), wet[i], "stage %d", i);
    }
}

Test(timeline, the_flag_that_ends_the_statement_stands_in_the_last_stage)
{
    begin(&story, SPT_LUBRICATION_GREASE, 1);
    scale_loads(&story.base, 0.3);
    tell();
    cr_assert(isnan(timeline.life_h));
    cr_expect(spt_notes_has(&timeline.stages[0].notes, SPT_FLAG_GREASE_OVERDUE));
    cr_expect(spt_notes_has(&timeline.stages[0].notes, SPT_FLAG_GREASE_EXHAUSTED));
}
