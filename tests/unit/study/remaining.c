/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "spalltime/reach.h"
#include "spalltime/statistics.h"
#include "support/near.h"
#include "support/story.h"

/* Life of bearings that still run after some hours: S(t0 + t)/S(t0) = R, the product over the
 * bearings, S by the law behind a1 of ISO 281:2007 (slope 1.5, least life 0.05 L10). */

static double hazard(double damage)
{
    return pow(fmax((damage - 0.05) / 0.95, 0), 1.5); /* in units of ln(1/0.9) */
}

/* One bearing: t = L10 (0.05 + 0.95 (H(D0) + ln R/ln 0.9)^(1/1.5) - D0). */
static double left_alone(double l10_h, double spent, double survival)
{
    return l10_h * (0.05 + 0.95 * pow(hazard(spent) + log(survival) / log(0.9), 1 / 1.5) - spent);
}

static struct spt_remaining remaining_of(const struct spt_case *question)
{
    struct spt_phase_result results[EXAMPLE_PHASES];
    struct spt_remaining remaining;
    cr_assert_eq(spt_remaining(question, results, &remaining), SPT_OK);
    return remaining;
}

Test(remaining, life_of_one_bearing_meets_the_closed_form)
{
    static const double spent[] = {0.01, 0.049, 0.051, 0.3, 0.97, 2.5};
    static const double reliabilities[] = {90, 95, 99};
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_case *question = &story.base.question;
    const double l10_h = example_life(question);
    for (size_t i = 0; i < sizeof spent / sizeof *spent; i++)
        for (size_t k = 0; k < sizeof reliabilities / sizeof *reliabilities; k++) {
            question->past.hours_run = spent[i] * l10_h;
            question->reliability_percent = reliabilities[k];
            const struct spt_remaining found = remaining_of(question);
            const double want_h = left_alone(l10_h, spent[i], reliabilities[k] / 100);
            cr_expect(near(found.life_h, want_h, 1e-12, 0), "%g: %.12g, not %.12g", spent[i],
                      found.life_h, want_h);
            cr_expect(near(found.survival, pow(0.9, hazard(spent[i])), 1e-12, 0));
        }
}

Test(remaining, life_of_two_bearings_is_where_the_product_falls_to_the_reliability)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 2);
    struct spt_case *question = &story.base.question;
    double rates[2];
    for (int b = 0; b < 2; b++)
        rates[b] = story_rate(&story.base, b, -1, 0, 1);
    question->past.hours_run = 0.4 / rates[0];
    question->reliability_percent = 95;
    const double life_h = remaining_of(question).life_h, t0 = question->past.hours_run;
    double sum = 0;
    for (int b = 0; b < 2; b++)
        sum += hazard((t0 + life_h) * rates[b]) - hazard(t0 * rates[b]);
    cr_expect(near(sum, log(0.95) / log(0.9), 1e-10, 0), "%.12g", sum);
}

Test(remaining, life_falls_with_the_hours_run_and_goes_to_that_of_a_new_bearing)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 2);
    struct spt_case *question = &story.base.question;
    const double new_h = example_life(question);
    double before_h = new_h;
    for (double hours = 1e-6; hours < 5 * new_h; hours *= 4) {
        question->past.hours_run = hours;
        const struct spt_remaining found = remaining_of(question);
        cr_expect_lt(found.life_h, before_h * (1 + 1e-12), "%g h", hours);
        cr_expect_gt(found.hours_run + found.life_h, new_h * (1 - 1e-12), "%g h", hours);
        before_h = found.life_h;
    }
    question->past.hours_run = 1e-6;
    cr_expect(near(remaining_of(question).life_h, new_h, 1e-9, 0));
}

/* Before the least life nothing has failed: the total is that of a new bearing. */
Test(remaining, hours_below_the_least_life_change_no_total)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_case *question = &story.base.question;
    const double new_h = example_life(question);
    question->past.hours_run = 0.04 * new_h;
    cr_expect(near(question->past.hours_run + remaining_of(question).life_h, new_h, 1e-12, 0));
}

Test(remaining, hours_0_leave_every_number_to_the_last_digit)
{
    static struct spt_timeline before;
    story_begin(&story, SPT_LUBRICATION_GREASE, 2);
    story.service.regrease_every_h = 650;
    cr_assert_eq(story_run(&story, &before), SPT_OK);
    story.base.question.past.stated = true;
    story.base.question.past.hours_run = 0;
    story_tell();
    cr_expect_eq(timeline.life_h, before.life_h);
    cr_expect_eq(timeline.damage_at_end, before.damage_at_end);
}

Test(remaining, life_of_a_timeline_is_that_of_the_steady_case)
{
    for (int bearings = 1; bearings < 3; bearings++) {
        story_begin(&story, SPT_LUBRICATION_OIL_BATH, bearings);
        struct spt_case *question = &story.base.question;
        question->past.hours_run = 0.37 * example_life(question);
        const double life_h = remaining_of(question).life_h;
        story_tell();
        cr_expect(near(timeline.life_h, life_h, 1e-9, 0), "%.12g, not %.12g", timeline.life_h,
                  life_h);
        cr_expect(near(timeline.damage_at_end, 1, 1e-9, 0));
        question->target_life_h = question->past.hours_run + life_h;
        cr_expect_eq(timeline.hours_run, question->past.hours_run);
    }
}

static void leave(struct example_case *made)
{
    (void)made;
}

/* The hours run are those of the bearing that was there. */
Test(remaining, life_ends_with_a_new_bearing)
{
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_case *question = &story.base.question;
    const double new_h = example_life(question);
    question->past.hours_run = 0.9 * new_h;
    story_add_event(&story, 0.1 * new_h, leave);
    story.service.events[0].new_bearing = true;
    story_tell();
    cr_expect(near(timeline.life_h, 1.1 * new_h, 1e-9, 0), "%.12g", timeline.life_h);
}

/* The past in another condition. */
Test(remaining, life_counts_the_condition_of_the_past)
{
    static struct example_case then;
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_case *question = &story.base.question;
    const double now_h = example_life(question);
    example_copy(&story.base, &then);
    story_load_more(&then);
    const double then_h = example_life(&then.question);
    question->past.hours_run = 0.5 * then_h;
    question->past.as_run = &then.question;
    cr_expect(near(remaining_of(question).life_h, left_alone(now_h, 0.5, 0.9), 1e-12, 0));
}

/* A lever changes the hours to come: the load that reaches a target of a bearing that has run is
 * that of the closed form with the damage of the load as it was. */
Test(remaining, life_that_a_lever_reaches_counts_the_hours_run_as_they_were)
{
    static struct spt_phase phases[EXAMPLE_PHASES], changed_phases[EXAMPLE_PHASES];
    struct spt_phase_result results[EXAMPLE_PHASES];
    const struct spt_reach_workspace workspace = {phases, results, NULL};
    struct spt_reach reach;
    struct spt_adjustment lighter = spt_adjustment_none();
    struct spt_case changed;
    story_begin(&story, SPT_LUBRICATION_OIL_BATH, 1);
    struct spt_case *question = &story.base.question;
    const double now_h = example_life(question);
    question->past.hours_run = 0.5 * now_h;
    const double present_h = 0.5 * now_h + left_alone(now_h, 0.5, 0.9);
    cr_assert_eq(spt_reach(question, 1.3 * present_h, &workspace, &reach), SPT_OK);
    cr_expect(near(reach.present_life_h, present_h, 1e-12, 0), "%.12g", reach.present_life_h);
    const struct spt_lever_result *load = &reach.levers[SPT_LEVER_LOAD];
    cr_assert_eq(load->outcome, SPT_LEVER_REACHES);
    lighter.load_factor = load->value;
    spt_adjust_case(question, &lighter, changed_phases, &changed);
    changed.past = (struct spt_past){0};
    const double want_h = 0.5 * now_h + left_alone(example_life(&changed), 0.5, 0.9);
    cr_expect(near(load->life_h, want_h, 1e-9, 0), "%.12g, not %.12g", load->life_h, want_h);
    cr_expect(near(load->life_h, 1.3 * present_h, 1e-8, 0));
    cr_assert_eq(spt_reach(question, 0.4 * now_h, &workspace, &reach), SPT_OK);
    cr_expect(reach.reached_already);
    cr_expect_eq(reach.levers[SPT_LEVER_WATER].outcome, SPT_LEVER_ALWAYS);
}

/* A past of which no life can be stated, such as worn-out grease: then none can be stated now. */
Test(remaining, life_is_none_where_the_past_has_none)
{
    static struct example_case then;
    story_begin(&story, SPT_LUBRICATION_GREASE, 1);
    struct spt_case *question = &story.base.question;
    example_copy(&story.base, &then);
    for (int j = 0; j < EXAMPLE_PHASES; j++)
        then.phases[0][j].condition.grease_age_h = 1e6;
    question->past.hours_run = 100;
    question->past.as_run = &then.question;
    cr_expect(isnan(remaining_of(question).life_h));
    story_tell();
    cr_expect(isnan(timeline.life_h));
    cr_expect_eq(timeline.stopped_h, 0);
    struct spt_phase_result results[EXAMPLE_PHASES];
    struct spt_schedule plan;
    const struct spt_schedule_inputs inputs = {.question = question,
                                               .limits = {(double)NAN, -1},
                                               .costs = {(double)NAN, (double)NAN},
                                               .floor = 0.05};
    cr_assert_eq(spt_schedule(&inputs, results, &plan), SPT_OK);
    cr_expect_not(plan.life_known);
    cr_expect(isnan(plan.replace_h));
}
