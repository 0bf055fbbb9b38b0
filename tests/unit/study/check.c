/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/assess.h"
#include "spalltime/reach.h"
#include "support/case_example.h"
#include "support/near.h"
#include "support/story.h"

static const double none = (double)NAN, endless = (double)INFINITY;
static struct example_case made;
static struct spt_phase_result results[SPT_BEARINGS_MAX * EXAMPLE_PHASES];

/* What `spt_assess` says of the case, and whether it then has no number. */
static enum spt_status refuse(void)
{
    static struct spt_assessment answer;
    enum spt_status status = spt_assess(&made.question, results, &answer);
    cr_expect_eq(isnan(answer.modified_rating_life_h), status != SPT_OK);
    cr_expect_eq(isnan(answer.basic_rating_life_h), status != SPT_OK);
    cr_expect(status == SPT_OK || isnan(answer.cured_life_h[SPT_CAUSE_DEBRIS]));
    return status;
}

Test(check, a_number_that_no_phase_can_have_is_refused)
{
    struct spt_phase *phase = &made.phases[0][1];
    double *const members[] = {&phase->time_share,
                               &phase->speed_rpm,
                               &phase->setting_factor,
                               &phase->cured_setting_factor,
                               &phase->condition.grease_age_h,
                               &phase->condition.water_ppm,
                               &phase->radial_load_n};
    const double wrong[] = {-0.1, none, endless};
    for (size_t i = 0; i < sizeof members / sizeof *members; i++)
        for (int j = 0; j < 3; j++) {
            example_make(&made, SPT_LUBRICATION_GREASE, 1);
            cr_assert_eq(refuse(), SPT_OK);
            *members[i] = wrong[j];
            cr_expect_eq(refuse(), SPT_BAD_ARGUMENT, "member %zu: %g", i, wrong[j]);
        }
    example_make(&made, SPT_LUBRICATION_GREASE, 1);
    phase->time_share *= 0.9;
    cr_expect_eq(refuse(), SPT_BAD_ARGUMENT, "the shares leave time over");
}

/* One bearing has one grease; its age counts for grease alone. */
Test(check, ages_of_grease_that_differ_between_phases_are_refused)
{
    example_make(&made, SPT_LUBRICATION_GREASE, 1);
    made.phases[0][0].condition.grease_age_h = made.phases[0][1].condition.grease_age_h = 238.5;
    cr_assert_eq(refuse(), SPT_OK);
    made.phases[0][1].condition.grease_age_h = 239;
    cr_expect_eq(refuse(), SPT_BAD_ARGUMENT);
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    made.phases[0][1].condition.grease_age_h = 239;
    cr_expect_eq(refuse(), SPT_OK);
}

Test(check, surroundings_outside_their_enumeration_are_refused_for_grease)
{
    for (int i = 0; i < 4; i++) {
        example_make(&made, SPT_LUBRICATION_GREASE, 1);
        struct spt_surroundings *around = &made.phases[0][0].condition.surroundings;
        if (i == 0)
            around->dust = (enum spt_dust)9;
        else if (i == 1)
            around->moisture = (enum spt_moisture) - 1;
        else if (i == 2)
            around->vibration = (enum spt_vibration)3;
        else
            around->shaft = (enum spt_shaft)3;
        cr_expect_eq(refuse(), SPT_BAD_ARGUMENT, "%d", i);
    }
    example_make(&made, SPT_LUBRICATION_OIL_BATH, 1);
    made.phases[0][0].condition.surroundings.dust = (enum spt_dust)9;
    cr_expect_eq(refuse(), SPT_OK, "oil does not look at them");
}

Test(check, a_bearing_that_is_not_there_is_refused)
{
    struct spt_loss loss;
    struct spt_bearing_result bearing;
    static const int indices[] = {-1, 1, 7};
    for (int i = 0; i < 3; i++) {
        example_make(&made, SPT_LUBRICATION_GREASE, 1);
        cr_expect_eq(spt_loss_split(&made.question, indices[i], results, &loss), SPT_BAD_ARGUMENT);
        cr_expect(isnan(loss.reference_life_h));
        cr_expect_eq(spt_assess_bearing(&made.question, indices[i], 0, results, &bearing),
                     SPT_BAD_ARGUMENT);
        cr_expect(isnan(bearing.modified_rating_life_h));
        made.question.bearing_count = indices[i] == 1 ? 0 : indices[i];
        cr_expect_eq(refuse(), SPT_BAD_ARGUMENT);
    }
}

/* Each of these makes the service of the story wrong. */
static void spoil(struct spt_service *service, int how)
{
    struct spt_drift *drift = &service->drifts[0];
    double *const members[] = {&service->regrease_every_h,
                               &service->oil_change_every_h,
                               &service->until_h,
                               &service->regrease_every_h,
                               &service->until_h,
                               &service->events[0].at_h,
                               &drift->from_h,
                               &drift->to_h,
                               &drift->water_to_ppm,
                               &drift->load_from,
                               &service->events[0].grease_age_h};
    const double values[] = {0, -1, 0, endless, endless, -1, 6000, endless, none, -2, endless};
    if (how < 11)
        *members[how] = values[how];
    else if (how == 11)
        service->drift_count = SPT_DRIFTS_MAX + 1;
    else if (how == 12)
        service->event_count = -1;
    else if (how == 13)
        drift->class_from = drift->class_to = SPT_CLEANLINESS_BATH_17_14;
    else if (how == 14)
        drift->class_from = SPT_CLEANLINESS_GREASE_HIGH;
    else
        service->cases = NULL;
}

Test(check, a_service_outside_its_ranges_is_refused_and_leaves_no_number)
{
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    story_add_event(&story, 1000, story_load_more);
    struct spt_drift *drift = story_add_drift(&story, 100, 5000);
    drift->water_from_ppm = 100;
    drift->water_to_ppm = 400;
    story_tell();
    const struct spt_timeline told = timeline;
    for (int how = 0; how < 16; how++) {
        struct spt_service wrong = story.service;
        double damage[2];
        static const double times[] = {10, 20};
        spoil(&wrong, how);
        timeline = told;
        cr_expect_eq(spt_timeline(&story.base.question, &wrong, &story_workspace, &timeline),
                     SPT_BAD_ARGUMENT, "%d", how);
        cr_expect(isnan(timeline.life_h) && isnan(timeline.damage_at_end) &&
                  isnan(timeline.undisturbed_h));
        cr_expect_eq(timeline.stage_count + timeline.influence_count, 0);
        cr_expect_eq(
            spt_timeline_curve(&story.base.question, &wrong, &story_workspace, times, 2, damage),
            SPT_BAD_ARGUMENT, "%d", how);
    }
}

Test(check, times_of_a_curve_have_to_rise_from_0)
{
    static const double times[][3] = {{2000, 1000, 3000}, {-1, 1, 2}, {1, 2, (double)NAN}};
    double damage[3];
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    for (int i = 0; i < 3; i++) {
        damage[2] = 7;
        cr_expect_eq(spt_timeline_curve(&story.base.question, &story.service, &story_workspace,
                                        times[i], 3, damage),
                     SPT_BAD_ARGUMENT, "%d", i);
        cr_expect(isnan(damage[2]));
    }
}

Test(check, a_target_that_is_none_leaves_no_number)
{
    static struct spt_reach reach;
    static struct spt_phase phases[SPT_BEARINGS_MAX * EXAMPLE_PHASES];
    const struct spt_reach_workspace workspace = {phases, results, NULL};
    example_make(&made, SPT_LUBRICATION_GREASE, 1);
    cr_expect_eq(spt_reach(&made.question, none, &workspace, &reach), SPT_BAD_ARGUMENT);
    cr_expect(isnan(reach.present_life_h) && isnan(reach.target_h));
    for (int lever = 0; lever < SPT_LEVER_COUNT; lever++)
        cr_expect(isnan(reach.levers[lever].value) && isnan(reach.levers[lever].life_h));
}
