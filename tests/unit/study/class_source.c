/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

static struct spt_bearing_result bearing;

static double interval_of(const struct spt_case *question)
{
    cr_assert_eq(spt_assess_bearing(question, 0, 0, schedule_results, &bearing), SPT_OK);
    return bearing.grease_interval_h;
}

#define DUST (1u << SPT_SURROUNDING_DUST)
#define MOISTURE (1u << SPT_SURROUNDING_MOISTURE)

/* Of dirt that nothing says, the basic life stays, and the interval is that of the worst. */
Test(class_source, grease_of_unknown_dirt_has_a_basic_life_and_the_shortest_interval)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_condition *state = &schedule_phase.condition;
    int at_bearing, at_phase;
    state->surroundings_assumed = DUST;
    state->cleanliness = SPT_CLEANLINESS_GREASE_VERY_SEVERE;
    const double dirtiest_h = interval_of(&question);
    const double basic_h = bearing.basic_rating_life_h;
    cr_expect_not(isnan(bearing.modified_rating_life_h));
    state->class_source = SPT_CLASS_UNKNOWN;
    cr_expect_eq(interval_of(&question), dirtiest_h);
    cr_expect_eq(bearing.basic_rating_life_h, basic_h);
    cr_expect(isnan(bearing.modified_rating_life_h));
    cr_expect(spt_case_lacks_dirt(&question, &at_bearing, &at_phase));
    cr_expect_eq(at_bearing, 0);
    cr_expect_eq(at_phase, 0);
    state->surroundings_assumed = 0; /* dust is stated, so that a plan can be made */
    cr_expect_not(spt_case_lacks_dirt(&question, &at_bearing, &at_phase));
    cr_expect_gt(interval_of(&question), dirtiest_h);
    state->contamination_factor = 0.3;
    cr_expect_not(spt_condition_is_unknown(state));
    interval_of(&question);
    cr_expect_not(isnan(bearing.modified_rating_life_h));
}

/* Moisture that is not stated is that of seal and surroundings, never below that of the water. */
Test(class_source, moisture_follows_from_seal_and_water)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_condition *state = &schedule_phase.condition;
    state->surroundings_assumed = MOISTURE;
    state->water_assumed = true;
    state->sealing = (struct spt_sealing){
        true, SPT_SEAL_ONE_LIP, -1, SPT_PLACE_ROAD, SPT_WET_RAIN, (double)NAN, (double)NAN, false};
    interval_of(&question);
    cr_expect_eq(schedule_results[0].surroundings.moisture, SPT_MOISTURE_CONDENSATION);
    state->sealing.seal = SPT_SEAL_FACE;
    interval_of(&question);
    cr_expect_eq(schedule_results[0].surroundings.moisture, SPT_MOISTURE_DRY);
    state->water_assumed = false;
    state->water_ppm = 900;
    interval_of(&question);
    cr_expect_eq(schedule_results[0].surroundings.moisture, SPT_MOISTURE_SPLASH);
}
