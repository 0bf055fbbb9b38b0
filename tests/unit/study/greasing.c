/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

#define UNSTATED_DUST (1u << SPT_SURROUNDING_DUST)
#define UNSTATED_MOISTURE (1u << SPT_SURROUNDING_MOISTURE)

static struct spt_assessment assessment;

static const struct spt_phase_result *assess(const struct spt_case *question)
{
    cr_assert_eq(spt_assess(question, schedule_results, &assessment), SPT_OK);
    return &assessment.bearings[0].phases[0];
}

static bool has(enum spt_flag flag)
{
    return spt_notes_has(&assessment.bearings[0].notes, flag);
}

/* Rules of this tool, by hand: the levels and factors of each row. */
Test(greasing_inference, levels_follow_from_cleanliness_and_water)
{
    static const struct {
        enum spt_cleanliness class;
        int dust; /* stated; -1: not */
        double water_ppm;
        int moisture;
        int dust_level, moisture_level;
        double factor;
        bool dusty, wet, seals; /* flags */
    } rows[] = {
        {SPT_CLEANLINESS_GREASE_SEVERE, -1, 500, -1, 3, 3, .02, false, false, false},
        {SPT_CLEANLINESS_GREASE_SEVERE, 0, 500, 0, 2, 2, .16, true, true, false},
        {SPT_CLEANLINESS_GREASE_VERY_SEVERE, 0, 30000, 0, 3, 3, .02, true, true, false},
        {SPT_CLEANLINESS_GREASE_NORMAL, 0, 100, 0, 0, 0, 1, false, false, false},
        {SPT_CLEANLINESS_GREASE_NORMAL, -1, 100, -1, 1, 0, .7, false, false, false},
        {SPT_CLEANLINESS_GREASE_HIGH, 3, 50, 0, 3, 0, .2, false, false, true},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
        struct spt_condition *state = &schedule_phase.condition;
        state->cleanliness = rows[i].class;
        state->water_ppm = rows[i].water_ppm;
        state->surroundings_assumed =
            (rows[i].dust < 0 ? UNSTATED_DUST : 0) | (rows[i].moisture < 0 ? UNSTATED_MOISTURE : 0);
        state->surroundings.dust = (enum spt_dust)fmax(rows[i].dust, 0);
        state->surroundings.moisture = (enum spt_moisture)fmax(rows[i].moisture, 0);
        const struct spt_phase_result *result = assess(&question);
        cr_expect_eq((int)result->surroundings.dust, rows[i].dust_level, "row %zu", i);
        cr_expect_eq((int)result->surroundings.moisture, rows[i].moisture_level, "row %zu", i);
        cr_expect(near(result->interval.dust_factor * result->interval.moisture_factor,
                       rows[i].factor, 1e-12, 0),
                  "row %zu", i);
        cr_expect_eq(has(SPT_FLAG_DUST_CONTRADICTED), rows[i].dusty, "row %zu", i);
        cr_expect_eq(has(SPT_FLAG_WET_CONTRADICTED), rows[i].wet, "row %zu", i);
        cr_expect_eq(has(SPT_FLAG_SEALS_TRUSTED), rows[i].seals, "row %zu", i);
    }
}

Test(greasing_inference, severe_dirt_and_water_count_as_if_both_were_stated)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_condition *state = &schedule_phase.condition;
    state->cleanliness = SPT_CLEANLINESS_GREASE_SEVERE;
    state->water_ppm = 500;
    state->surroundings_assumed = UNSTATED_DUST | UNSTATED_MOISTURE;
    const double inferred_h = assess(&question)->interval.interval_h;
    state->surroundings_assumed = 0;
    state->surroundings.dust = SPT_DUST_HEAVY_ABRASIVE;
    state->surroundings.moisture = SPT_MOISTURE_SPLASH;
    cr_expect_eq(inferred_h, assess(&question)->interval.interval_h);
}

Test(greasing_inference, a_given_factor_of_contamination_is_read_like_its_class)
{
    static const double factors[] = {0.83, 0.6, 0.599, 0.4, 0.2385, 0.1, 0.0999, 0.03, 0.0299, 0};
    static const int levels[] = {0, 0, 1, 1, 2, 2, 3, 3, 3, 3};
    for (size_t i = 0; i < sizeof levels / sizeof *levels; i++) {
        struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
        schedule_phase.condition.contamination_factor = factors[i];
        schedule_phase.condition.surroundings_assumed = UNSTATED_DUST;
        cr_expect_eq((int)assess(&question)->surroundings.dust, levels[i], "%g", factors[i]);
    }
}

Test(greasing_inference, vibration_and_shaft_follow_from_the_machine)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    schedule_phase.condition.surroundings_assumed =
        1u << SPT_SURROUNDING_VIBRATION | 1u << SPT_SURROUNDING_SHAFT;
    cr_expect_eq(assess(&question)->surroundings.vibration, SPT_VIBRATION_LOW);
    cr_expect_eq(assess(&question)->surroundings.shaft, SPT_SHAFT_HORIZONTAL);
    question.vehicle_hub = true;
    cr_expect_eq(assess(&question)->surroundings.vibration, SPT_VIBRATION_MEDIUM);
    question.bearings[0].bearing.type = SPT_THRUST_BALL;
    schedule_phase.equivalent_load_n = 2900;
    cr_expect_eq(assess(&question)->surroundings.shaft, SPT_SHAFT_VERTICAL);
}

/* What stands wet runs wet. */
Test(greasing_inference, a_phase_that_stands_passes_its_dirt_and_wet_on)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_phase phases[2] = {schedule_phase, schedule_phase};
    phases[0].time_share = 0.3;
    phases[1].time_share = 0.7;
    phases[1].condition.surroundings.moisture = SPT_MOISTURE_SPLASH;
    question.bearings[0].phases = phases;
    question.bearings[0].phase_count = 2;
    cr_expect_eq(assess(&question)->surroundings.moisture, SPT_MOISTURE_DRY, "both turn");
    phases[1].speed_rpm = 0;
    const struct spt_phase_result *turning = assess(&question);
    cr_expect_eq(turning->surroundings.moisture, SPT_MOISTURE_SPLASH);
    /* of all hours only 30 % turn */
    cr_expect(near(assessment.bearings[0].grease_interval_h, turning->interval.interval_h / 0.3,
                   1e-12, 0));
    cr_expect_eq(assessment.greasing.months, 3);
}

/* Our own evaluation of the whole chain, no published authority: the two rows of an 8 t trailer. */
Test(greasing_inference, a_trailer_hub_is_greased_by_its_weaker_row)
{
    static const double bores_mm[] = {65, 50}, outsides_mm[] = {120, 90};
    static const double ratings_n[] = {151e3, 82.5e3}, loaded_n[] = {18.4e3, 11e3},
                        empty_n[] = {6e3, 3.6e3}, hours[] = {192.2, 213.3};
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_phase phases[2][2];
    static struct spt_phase_result results[4];
    question.bearing_count = 2;
    question.vehicle_hub = true;
    question.yearly_use_h = (double)NAN;
    question.bearings[1] = question.bearings[0];
    for (int row = 0; row < 2; row++) {
        struct spt_bearing *bearing = &question.bearings[row].bearing;
        bearing->type = SPT_TAPERED_ROLLER;
        bearing->bore_mm = bores_mm[row];
        bearing->outside_diameter_mm = outsides_mm[row];
        bearing->pitch_diameter_mm = (bores_mm[row] + outsides_mm[row]) / 2;
        bearing->dynamic_load_rating_n = ratings_n[row];
        bearing->outer_turns = true;
        question.bearings[row].phases = phases[row];
        question.bearings[row].phase_count = 2;
        for (int i = 0; i < 2; i++) {
            phases[row][i] = schedule_phase;
            phases[row][i].time_share = i ? 0.4 : 0.6;
            phases[row][i].speed_rpm = 252.63;
            phases[row][i].equivalent_load_n = i ? empty_n[row] : loaded_n[row];
            phases[row][i].temperature_c = 34; /* 24 degC estimated, and 10 K */
            struct spt_condition *state = &phases[row][i].condition;
            state->surroundings_assumed = 1u << SPT_SURROUNDING_VIBRATION;
            state->surroundings.dust = SPT_DUST_HEAVY;
            state->surroundings.moisture = SPT_MOISTURE_SPLASH;
        }
    }
    cr_assert_eq(spt_assess(&question, results, &assessment), SPT_OK);
    for (int row = 0; row < 2; row++)
        cr_expect(near(assessment.bearings[row].grease_interval_h, hours[row], 3e-4, 0), "%g",
                  assessment.bearings[row].grease_interval_h);
    cr_expect_eq(assessment.greasing.every_h, 150);
    cr_expect_eq(assessment.greasing.months, 3);
    cr_expect_eq(assessment.greasing.bearing, 0);
}

/* 100 ppm is no finding at 0 degC, 400 ppm is: about 202 ppm of it falls out. */
Test(greasing_inference, water_that_falls_out_in_the_cold_is_told_and_wets_the_grease)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    question.lubricant.solubility = SPT_SOLUBILITY_ADDITIVATED;
    const struct spt_phase_result *result = assess(&question);
    cr_expect_not(spt_notes_has(&result->notes, SPT_FLAG_WATER_COLD));
    schedule_phase.condition.water_ppm = 400;
    schedule_phase.condition.surroundings.moisture = SPT_MOISTURE_HUMID;
    result = assess(&question);
    cr_expect(spt_notes_has(&result->notes, SPT_FLAG_WATER_COLD));
    cr_expect_eq(result->surroundings.moisture, SPT_MOISTURE_CONDENSATION);
    schedule_phase.condition.coldest_c = 23.85;
    result = assess(&question);
    cr_expect_not(spt_notes_has(&result->notes, SPT_FLAG_WATER_COLD));
    cr_expect_eq(result->surroundings.moisture, SPT_MOISTURE_HUMID);
}

Test(greasing_inference, hot_oil_is_told)
{
    static const struct {
        double temperature_c;
        enum spt_base_oil base;
        int flag; /* -1: none */
    } rows[] = {{79, SPT_BASE_OIL_MINERAL, -1},
                {85, SPT_BASE_OIL_MINERAL, SPT_FLAG_OIL_WARM},
                {115, SPT_BASE_OIL_MINERAL, SPT_FLAG_OIL_HOT},
                {125, SPT_BASE_OIL_MINERAL, SPT_FLAG_OIL_PEAK},
                {105, SPT_BASE_OIL_PAO, -1},
                {151, SPT_BASE_OIL_PAO, SPT_FLAG_OIL_PEAK},
                {151, SPT_BASE_OIL_OTHER, -1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_case question = schedule_case(SPT_LUBRICATION_OIL_BATH);
        schedule_phase.temperature_c = rows[i].temperature_c;
        question.lubricant.base_oil = rows[i].base;
        const struct spt_phase_result *result = assess(&question);
        for (int flag = SPT_FLAG_OIL_WARM; flag <= SPT_FLAG_OIL_PEAK; flag++)
            cr_expect_eq(spt_notes_has(&result->notes, (enum spt_flag)flag), flag == rows[i].flag,
                         "row %zu, flag %d", i, flag);
    }
}
