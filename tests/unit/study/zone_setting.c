/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/ask.h"
#include "support/hub_scenario.h"
#include "support/near.h"

/* The zone of a setting leads back to that setting. */
Test(zone_setting, finds_the_setting_that_made_the_zone)
{
    static const char *const hubs[] = {HUB_SCENARIO_PLACES "  end_play: 0.08 mm\n",
                                       HUB_SCENARIO_PLACES "  preload: 0.03 mm\n"};
    static const double settings_mm[] = {0.08, -0.03};
    for (int i = 0; i < 2; i++) {
        struct hub_scenario test;
        struct spt_arena arena = {0};
        struct spt_error error;
        struct spt_assessment assessment;
        double found_mm;
        hub_scenario_read(&test, hubs[i], NULL);
        const struct spt_case *question = &test.scenario.base.question;
        cr_assert_eq(spt_ask_life(question, &arena, &assessment, &error), SPT_OK);
        for (int row = 0; row < 2; row++) {
            const int phase = assessment.bearings[row].worst_phase;
            const double zone_deg = assessment.hub->phases[phase].rows[row].contact.zone_deg;
            cr_assert_eq(
                spt_ask_zone_setting(question, row, phase, zone_deg, &arena, &found_mm, &error),
                SPT_OK);
            if (zone_deg < 359.5) /* all round is all round at many settings */
                cr_expect(near(found_mm, settings_mm[i], 0, 0.01), "row %d: %g mm, not %g", row,
                          found_mm, settings_mm[i]);
        }
        spt_arena_free(&arena);
        hub_scenario_free(&test);
    }
}

Test(zone_setting, has_no_setting_for_a_zone_out_of_reach)
{
    struct hub_scenario test;
    struct spt_arena arena = {0};
    struct spt_error error;
    double found_mm = 1;
    hub_scenario_read(&test, HUB_SCENARIO_PLACES "  end_play: 0.08 mm\n", NULL);
    const struct spt_case *question = &test.scenario.base.question;
    cr_assert_eq(spt_ask_zone_setting(question, 0, 0, 5, &arena, &found_mm, &error), SPT_OK);
    cr_expect(isnan(found_mm));
    struct spt_case bare = *question;
    bare.hub = NULL;
    cr_expect_eq(spt_ask_zone_setting(&bare, 0, 0, 100, &arena, &found_mm, &error),
                 SPT_NOT_APPLICABLE);
    spt_arena_free(&arena);
    hub_scenario_free(&test);
}
