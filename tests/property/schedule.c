/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

static struct spt_phase moved[2];
static struct spt_phase_result results_of_moved[2];
static const struct spt_timeline_workspace workspace = {moved, results_of_moved};

static struct spt_schedule plan_at_age(const struct spt_schedule_inputs *inputs, double age_h)
{
    static struct spt_schedule plan;
    schedule_phase.condition.grease_age_h = age_h;
    cr_assert_eq(spt_schedule(inputs, schedule_results, &plan), SPT_OK);
    return plan;
}

/* What is thrown away at the first regreasing says nothing about how long the next may stay. */
Test(schedule_property, older_grease_never_makes_a_longer_plan)
{
    static const double parts[] = {1e-9, 0.01, 0.3, 0.9, 1.1, 2.7, 5, 9, 40}; /* of t_f */
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    question.target_life_h = (double)NAN;
    question.yearly_use_h = 8000;
    schedule_phase.temperature_c = 91;
    question.reliability_percent = 97.7;
    double t_f = schedule_grease_h(&inputs);
    inputs.timeline_workspace = &workspace;
    struct spt_schedule before = plan_at_age(&inputs, 0), fresh = before;
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        struct spt_schedule plan = plan_at_age(&inputs, parts[i] * t_f);
        cr_expect(plan.regrease_h <= before.regrease_h * (1 + 1e-9), "%g t_f: %.9g h after %.9g h",
                  parts[i], plan.regrease_h, before.regrease_h);
        cr_expect(plan.replace_h <= before.replace_h * (1 + 1e-9), "%g t_f: %.9g h after %.9g h",
                  parts[i], plan.replace_h, before.replace_h);
        before = plan;
    }
    cr_expect(near(before.regrease_h, fresh.regrease_h, 1e-9, 0)); /* renewed now */
    cr_expect(near(before.replace_h, fresh.replace_h, 1e-9, 0));
}

Test(schedule_property, the_plan_is_continuous_where_grease_is_fresh)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    inputs.timeline_workspace = &workspace;
    question.target_life_h = (double)NAN;
    const struct spt_schedule fresh = plan_at_age(&inputs, 0), used = plan_at_age(&inputs, 1e-6);
    cr_expect(near(used.regrease_h, fresh.regrease_h, 1e-9, 0));
    cr_expect(near(used.replace_h, fresh.replace_h, 1e-9, 0), "%.9g h, fresh %.9g h",
              used.replace_h, fresh.replace_h);
    cr_expect(near(used.fatigue_lives.l1_h, fresh.fatigue_lives.l1_h, 1e-9, 0));
}

/* A new bearing renews fatigue: wet, shaking, the shaft and the greasing move its age by nothing
 * but the water in the life. */
Test(schedule_property, replacement_does_not_follow_the_grease)
{
    static struct spt_schedule plan;
    static const double shares[] = {(double)NAN, 0.5, 0.1}; /* of the interval, as stated */
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    const double every_h = schedule_grease_h(&inputs);
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    const double want_h = plan.replace_h;
    for (int i = 0; i < 3 * SPT_MOISTURE_COUNT * SPT_VIBRATION_COUNT; i++) {
        struct spt_service service = schedule_drift_service(0, 1);
        service.drift_count = 0;
        service.regrease_every_h = shares[i % 3] * every_h;
        inputs.service = i % 3 ? &service : NULL;
        schedule_phase.condition.surroundings =
            (struct spt_surroundings){.moisture = (enum spt_moisture)(i / 3 % SPT_MOISTURE_COUNT),
                                      .vibration = (enum spt_vibration)(i / 3 / SPT_MOISTURE_COUNT),
                                      .shaft = (enum spt_shaft)(i % SPT_SHAFT_COUNT)};
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
        cr_expect(near(plan.replace_h, want_h, 1e-9, 0), "%d: %.12g, not %.12g h", i,
                  plan.replace_h, want_h);
    }
}

/* Without damage by fatigue there is nothing to replace for. */
Test(schedule_property, a_life_that_grows_ends_in_no_replacement)
{
    static struct spt_schedule plan;
    static struct spt_schedule_entry entries[SPT_SCHEDULE_ENTRIES_MAX];
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    double before_h = 0;
    for (double load_n = 2900; load_n > 0.1; load_n /= 1.9) {
        bool cut;
        schedule_phase.radial_load_n = load_n;
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
        const bool far = spt_schedule_is_far(&question, plan.replace_h);
        cr_expect_geq(plan.replace_h, before_h, "%g N", load_n);
        cr_expect_eq(far, plan.replace_governor == SPT_GOVERNOR_FATIGUE_FAR, "%g N", load_n);
        const int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
        for (int i = 0; i < count; i++)
            cr_expect(!far || plan.tasks[entries[i].task].task != SPT_TASK_REPLACE, "%g N", load_n);
        before_h = plan.replace_h;
    }
    cr_expect_eq(plan.replace_governor, SPT_GOVERNOR_FATIGUE_FAR);
    schedule_phase.radial_load_n = 0;
    cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
    cr_expect(!(plan.replace_h > 0));
}
