/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

static double interval_of(const struct spt_case *question)
{
    struct spt_greasing greasing;
    cr_assert_eq(spt_case_greasing(question, schedule_results, &greasing), SPT_OK);
    return greasing.interval_h;
}

/* A random case that may leave out any of its keys. */
static struct spt_case draw_case(unsigned long long *seed)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_condition *state = &schedule_phase.condition;
    question.vehicle_hub = random_between(seed, 0, 1) < 0.5;
    question.bearings[0].bearing.outer_turns = random_between(seed, 0, 1) < 0.5;
    state->cleanliness =
        (enum spt_cleanliness)((int)SPT_CLEANLINESS_GREASE_HIGH + (int)random_between(seed, 0, 5));
    if (random_between(seed, 0, 1) < 0.3)
        state->contamination_factor = random_between(seed, 0, 1);
    state->surroundings_assumed = (unsigned)random_between(seed, 0, 16);
    state->water_assumed = random_between(seed, 0, 1) < 0.3;
    state->water_ppm = state->water_assumed ? 0 : exp(random_between(seed, 3, 11));
    state->surroundings = (struct spt_surroundings){
        (enum spt_dust)(int)random_between(seed, 0, SPT_DUST_COUNT),
        (enum spt_moisture)(int)random_between(seed, 0, SPT_MOISTURE_COUNT),
        (enum spt_vibration)(int)random_between(seed, 0, SPT_VIBRATION_COUNT),
        (enum spt_shaft)(int)random_between(seed, 0, SPT_SHAFT_COUNT)};
    return question;
}

/* What is left out counts no milder than the mildest that could be stated. */
Test(greasing_property, leaving_a_key_out_never_beats_its_mildest_statement)
{
    unsigned long long seed = 2385;
    for (int i = 0; i < 3000; i++) {
        const struct spt_case question = draw_case(&seed);
        const struct spt_phase drawn = schedule_phase;
        struct spt_condition *state = &schedule_phase.condition;
        for (int key = 0; key < SPT_SURROUNDING_COUNT; key++) {
            schedule_phase = drawn;
            state->surroundings_assumed |= 1u << key;
            const double absent_h = interval_of(&question);
            state->surroundings_assumed &= ~(1u << key);
            if (key == SPT_SURROUNDING_DUST)
                state->surroundings.dust = SPT_DUST_LIGHT;
            if (key == SPT_SURROUNDING_MOISTURE)
                state->surroundings.moisture = SPT_MOISTURE_DRY;
            if (key == SPT_SURROUNDING_VIBRATION)
                state->surroundings.vibration = SPT_VIBRATION_LOW;
            if (key == SPT_SURROUNDING_SHAFT)
                state->surroundings.shaft = SPT_SHAFT_HORIZONTAL;
            cr_expect(absent_h <= interval_of(&question), "case %d, key %d", i, key);
        }
        schedule_phase = drawn;
        state->water_assumed = true;
        state->water_ppm = 0;
        const double absent_h = interval_of(&question);
        state->water_assumed = false;
        cr_expect(absent_h <= interval_of(&question), "case %d, water", i);
    }
}

Test(greasing_property, dirtier_and_wetter_inside_is_never_greased_less_often)
{
    unsigned long long seed = 2386;
    for (int i = 0; i < 3000; i++) {
        const struct spt_case question = draw_case(&seed);
        struct spt_condition *state = &schedule_phase.condition;
        double before_h = interval_of(&question);
        if (isnan(state->contamination_factor))
            state->cleanliness += state->cleanliness < SPT_CLEANLINESS_GREASE_VERY_SEVERE;
        else
            state->contamination_factor *= 0.7;
        double dirtier_h = interval_of(&question);
        cr_expect(dirtier_h <= before_h, "case %d: dirt", i);
        state->water_ppm = state->water_ppm * 1.6 + 7;
        cr_expect(interval_of(&question) <= dirtier_h, "case %d: water", i);
    }
}

static void harden(struct spt_case *question, int which)
{
    if (which == 0)
        schedule_phase.speed_rpm *= 1.27;
    else if (which == 1)
        schedule_phase.radial_load_n *= 1.19;
    else if (which == 2)
        schedule_phase.temperature_c += 7.3;
    else if (which == 3)
        schedule_phase.condition.coldest_c -= 9.1;
    else if (which == 4)
        question->bearings[0].bearing.outer_turns = true;
    else if (which == 5)
        question->vehicle_hub = true;
}

/* The same holds for a whole case, and for the cold in which its water falls out. */
Test(greasing_property, a_harder_case_is_never_greased_less_often)
{
    unsigned long long seed = 2387;
    int moved = 0;
    for (int i = 0; i < 3000; i++) {
        struct spt_case question = draw_case(&seed);
        schedule_phase.speed_rpm = exp(random_between(&seed, 3, 8));
        schedule_phase.radial_load_n = exp(random_between(&seed, 5, 9));
        schedule_phase.temperature_c = random_between(&seed, 20, 110);
        schedule_phase.condition.coldest_c = random_between(&seed, -20, 20);
        double before_h = interval_of(&question);
        for (int which = 0; which < 6; which++) {
            harden(&question, which);
            const double after_h = interval_of(&question);
            cr_expect(!(after_h > before_h), "case %d, input %d: %g h", i, which, after_h);
            moved += after_h < before_h;
            before_h = after_h;
        }
    }
    cr_expect_gt(moved, 6000);
}

/* What only fatigue asks for moves no interval, to the last digit; nor does the class inside where
 * dust as heavy is stated. */
Test(greasing_property, fatigue_data_moves_nothing)
{
    unsigned long long seed = 2388;
    for (int i = 0; i < 1000; i++) {
        struct spt_case question = draw_case(&seed);
        struct spt_bearing *bearing = &question.bearings[0].bearing;
        struct spt_condition *state = &schedule_phase.condition;
        state->surroundings_assumed = 0;
        state->contamination_factor = (double)NAN;
        state->surroundings.dust = SPT_DUST_HEAVY_ABRASIVE;
        state->cleanliness = SPT_CLEANLINESS_GREASE_VERY_SEVERE;
        const double want_h = interval_of(&question);
        bearing->fatigue_load_limit_n *= random_between(&seed, 0.1, 10);
        bearing->static_load_rating_n *= random_between(&seed, 0.5, 2);
        question.reliability_percent = random_between(&seed, 90, 99.9);
        question.target_life_h = exp(random_between(&seed, 3, 12));
        question.lubricant.ep_additive = !question.lubricant.ep_additive;
        state->cleanliness = (enum spt_cleanliness)((int)SPT_CLEANLINESS_GREASE_HIGH +
                                                    (int)random_between(&seed, 0, 5));
        cr_expect_eq(interval_of(&question), want_h, "case %d", i);
    }
}
