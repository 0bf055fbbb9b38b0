/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/assess.h"

#include <criterion/criterion.h>
#include <math.h>

#include "file/file.h"
#include "scenario/scenario.h"
#include "spalltime/ask.h"
#include "support/near.h"

/* An assessment of one bearing in oil, without reference load or hub, that debris and water cost
 * life. */
struct example {
    struct spt_case question;
    struct spt_phase phase;
    struct spt_phase_result phase_result;
    struct spt_assessment assessment;
};

static void make_example(double life_h, struct example *example)
{
    *example = (struct example){
        .question = {.lubricant = {.kind = SPT_LUBRICATION_OIL_BATH},
                     .reference_load_n = (double)NAN},
        .phase = {.setting_factor = 1, .cured_setting_factor = 1},
        .phase_result = {.phase = &example->phase},
        .assessment = {.question = &example->question, .bearing_count = 1},
    };
    struct spt_bearing_result *bearing = &example->assessment.bearings[0];
    bearing->phases = &example->phase_result;
    bearing->phase_count = 1;
    bearing->modified_rating_life_h = life_h;
    for (int i = 0; i < SPT_CAUSE_COUNT; i++)
        bearing->loss.causes[i].life_if_cured_h = life_h;
    bearing->loss.causes[SPT_CAUSE_DEBRIS] = (struct spt_cause_share){true, -1.2, 23850};
    bearing->loss.causes[SPT_CAUSE_WATER] = (struct spt_cause_share){true, -0.3, 9540};
}

Test(suspect, gives_the_gain_and_the_share_of_a_cause)
{
    struct spt_suspicion found;
    struct example example;
    make_example(7950, &example);
    cr_expect_eq(spt_suspect(&example.assessment, 0, SPT_CAUSE_DEBRIS, &found), SPT_OK);
    cr_expect(found.weighed && found.applies);
    cr_expect_eq(found.cause, SPT_CAUSE_DEBRIS);
    cr_expect(near(found.life_ratio, 3, 1e-12, 0));
    cr_expect(near(found.loss_share, 0.8, 1e-12, 0));
    cr_expect(near(found.life_if_cured_h, 23850, 1e-12, 0));
}

Test(suspect, finds_no_cost_where_a_cause_does_not_apply)
{
    struct spt_suspicion found;
    struct example example;
    make_example(7950, &example);
    cr_expect_eq(spt_suspect(&example.assessment, 0, SPT_CAUSE_THIN_FILM, &found), SPT_OK);
    cr_expect(found.weighed && !found.applies);
    cr_expect_eq(found.life_ratio, 1);
    cr_expect_eq(found.loss_share, 0);
    cr_expect(near(found.life_if_cured_h, 7950, 1e-12, 0));
}

Test(suspect, weighs_no_cause_that_the_case_does_not_state)
{
    static const enum spt_cause causes[] = {SPT_CAUSE_WORN_GREASE, SPT_CAUSE_OVERLOAD,
                                            SPT_CAUSE_SETTING};
    struct example example;
    make_example(7950, &example);
    for (int stated = 0; stated < 2; stated++) {
        for (int i = 0; i < 3; i++) {
            struct spt_suspicion found;
            cr_expect_eq(spt_suspect(&example.assessment, 0, causes[i], &found), SPT_OK);
            cr_expect_eq(found.weighed, stated == 1, "%s", spt_cause_name(causes[i]));
            cr_expect_eq(isnan(found.life_ratio), !stated, "%s", spt_cause_name(causes[i]));
            cr_expect(near(found.life_h, 7950, 1e-12, 0));
        }
        example.question.lubricant.kind = SPT_LUBRICATION_GREASE;
        example.question.reference_load_n = 15200;
        example.phase.setting_factor = 0.83;
    }
}

Test(suspect, keeps_the_cured_life_where_no_life_can_be_stated_now)
{
    struct spt_suspicion found;
    struct example example;
    make_example((double)NAN, &example);
    example.assessment.bearings[0].loss.causes[SPT_CAUSE_DEBRIS].log_life_share = (double)NAN;
    cr_expect_eq(spt_suspect(&example.assessment, 0, SPT_CAUSE_DEBRIS, &found), SPT_OK);
    cr_expect(isnan(found.life_h) && isnan(found.life_ratio) && isnan(found.loss_share));
    cr_expect(near(found.life_if_cured_h, 23850, 1e-12, 0));
}

Test(suspect, refuses_what_is_not_there)
{
    static const struct {
        int index, cause;
    } rows[] = {{0, SPT_CAUSE_COUNT}, {0, -1}, {1, SPT_CAUSE_DEBRIS}, {-1, SPT_CAUSE_DEBRIS}};
    struct example example;
    make_example(7950, &example);
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct spt_suspicion found;
        cr_expect_eq(
            spt_suspect(&example.assessment, rows[i].index, (enum spt_cause)rows[i].cause, &found),
            SPT_BAD_ARGUMENT);
        cr_expect(isnan(found.life_h) && isnan(found.life_ratio) && !found.applies);
    }
}

/* The cure worked out on its own, and the shares of all causes together, agree with the split. */
Test(suspect, agrees_with_the_cure_worked_out_on_its_own)
{
    struct spt_arena arena = {0};
    struct spt_source source;
    struct spt_scenario scenario;
    struct spt_diagnostics diags = {0};
    struct spt_assessment assessment;
    struct spt_bearing_result cured;
    cr_assert_eq(spt_file_read(NULL, "scenarios/beet_trailer_hub.yaml", 65536, &arena, &source), 0);
    cr_assert(spt_scenario_load(&source, NULL, &scenario, &diags));
    struct spt_error error;
    cr_assert_eq(spt_ask_life(&scenario.base.question, &arena, &assessment, &error), SPT_OK);
    struct spt_phase_result *scratch = spt_arena_allocate(&arena, SPT_PHASES_MAX * sizeof *scratch);
    double shares = 0;
    int applying = 0;
    for (int cause = 0; cause < SPT_CAUSE_COUNT; cause++) {
        struct spt_suspicion found;
        cr_expect_eq(spt_suspect(&assessment, 0, (enum spt_cause)cause, &found), SPT_OK);
        cr_expect_eq(spt_assess_bearing(&scenario.base.question, 0, 1u << cause, scratch, &cured),
                     SPT_OK);
        shares += found.weighed ? found.loss_share : 0;
        applying += found.applies;
        if (found.applies)
            cr_expect(
                near(found.life_ratio,
                     cured.modified_rating_life_h / assessment.bearings[0].modified_rating_life_h,
                     1e-12, 0));
    }
    cr_expect_geq(applying, 3);
    cr_expect(near(shares, 1, 1e-12, 0));
    spt_scenario_free(&scenario);
    spt_arena_free(&arena);
}

/* The cause "setting" of a hub, asked about by side, for a preload and an offset from the cure. */
static bool costs(double preload_mm, double offset_mm, enum spt_setting_side side)
{
    struct spt_suspicion found;
    struct example example;
    make_example(7950, &example);
    example.phase.cured_setting_factor = 1.4;
    example.question.setting =
        (struct spt_case_setting){.preload_mm = preload_mm, .offset_mm = offset_mm};
    example.assessment.bearings[0].loss.causes[SPT_CAUSE_SETTING] =
        (struct spt_cause_share){true, -0.5, 11130};
    cr_assert_eq(spt_suspect(&example.assessment, 0, SPT_CAUSE_SETTING, &found), SPT_OK);
    cr_assert(found.applies && !found.other_side);
    spt_suspect_side(&example.assessment, side, &found);
    cr_expect_eq(found.applies, !found.other_side);
    if (found.other_side) {
        cr_expect(found.weighed);
        cr_expect_eq(found.life_ratio, 1);
        cr_expect_eq(found.loss_share, 0);
        cr_expect(near(found.life_if_cured_h, 7950, 1e-12, 0));
    }
    return found.applies;
}

Test(suspect, blames_a_setting_for_its_own_side_only)
{
    static const struct {
        double preload_mm, offset_mm;
        bool by_preload, by_play;
    } rows[] = {
        {0.12, -0.12, true, false}, /* too tight */
        {0, 0.3, false, true},      /* too loose */
        {0, -0.02, false, false},   /* tighter than the best play, but not preloaded */
        {0.04, 0, false, false},    /* preloaded, and nothing allowed lasts longer */
        {0.01, 0.03, false, false}, /* less preload than the one that the maker prescribes */
        {0, 0, false, false},
    };
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        double preload_mm = rows[i].preload_mm, offset_mm = rows[i].offset_mm;
        cr_expect(costs(preload_mm, offset_mm, SPT_SETTING_SIDE_EITHER));
        cr_expect_eq(costs(preload_mm, offset_mm, SPT_SETTING_SIDE_PRELOAD), rows[i].by_preload,
                     "row %zu", i);
        cr_expect_eq(costs(preload_mm, offset_mm, SPT_SETTING_SIDE_PLAY), rows[i].by_play,
                     "row %zu", i);
    }
}

Test(suspect, blames_a_tilt_only_where_a_ring_is_out_of_true)
{
    for (int tilted = 0; tilted < 2; tilted++) {
        struct spt_suspicion found;
        struct example example;
        make_example(7950, &example);
        example.phase.cured_setting_factor = 1.4;
        example.question.setting =
            (struct spt_case_setting){.offset_mm = 0.3, .tilted = tilted == 1};
        example.assessment.bearings[0].loss.causes[SPT_CAUSE_SETTING] =
            (struct spt_cause_share){true, -0.5, 11130};
        cr_assert_eq(spt_suspect(&example.assessment, 0, SPT_CAUSE_SETTING, &found), SPT_OK);
        spt_suspect_side(&example.assessment, SPT_SETTING_SIDE_TILT, &found);
        cr_expect_eq(found.applies, tilted == 1);
        cr_expect_eq(found.other_side, tilted == 0);
    }
}

Test(suspect, leaves_other_causes_to_either_side)
{
    struct spt_suspicion found;
    struct example example;
    make_example(7950, &example);
    cr_expect_eq(spt_suspect(&example.assessment, 0, SPT_CAUSE_DEBRIS, &found), SPT_OK);
    spt_suspect_side(&example.assessment, SPT_SETTING_SIDE_PRELOAD, &found);
    cr_expect(found.applies && !found.other_side);
}
