/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/lubricant.h"
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

Test(visits_property, what_is_kept_is_never_longer_and_loses_less_than_half)
{
    for (double raw = 8; raw < 1e6; raw *= 1.0237) {
        const double hours = spt_regreasing_kept_h(raw), km = spt_visits_km(raw);
        cr_expect(hours <= raw && hours > raw / 2, "%g h: %g", raw, hours);
        cr_expect(km <= raw && km > raw / 2, "%g km: %g", raw, km);
        for (double base = 8; base <= raw && raw < 384 * base; base *= 1.73) {
            const double kept = spt_visits_multiple(base, raw);
            cr_expect(kept <= raw * (1 + 1e-9) && kept > raw / 2, "%g of %g: %g", raw, base, kept);
            cr_expect(near(kept / base, round(kept / base), 1e-12, 0), "%g of %g", raw, base);
        }
    }
}

/* In a plan with and without hours a year every interval is a multiple of that of the visits, no
 * longer than it may be, and tasks of nested intervals meet. */
Test(visits_property, every_interval_of_a_plan_is_a_multiple_of_that_of_its_visits)
{
    static struct spt_schedule plan;
    static struct spt_schedule_entry entries[SPT_SCHEDULE_ENTRIES_MAX];
    static const double yearly_h[] = {(double)NAN, 137, 900, 2385, 8000};
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    struct spt_service service = schedule_drift_service(0, 7000);
    bool cut;
    service.drifts[0].water_from_ppm = 100;
    service.drifts[0].water_to_ppm = 500;
    inputs.service = &service;
    for (int i = 0; i < 40; i++) {
        question.yearly_use_h = yearly_h[i % 5];
        inputs.limits.water_ppm = 130 + 40 * (i / 5);
        schedule_phase.temperature_c = 55 + 7.3 * (i % 7);
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
        int tasks = 0;
        for (int j = 0; j < plan.task_count; j++) {
            const struct spt_schedule_task *task = &plan.tasks[j];
            if (!spt_visits_has(&plan, task))
                continue;
            const double step = task->kept_h / plan.visit_h;
            cr_expect(near(step, round(step), 1e-9, 0) && step >= 1 - 1e-9, "%d, task %d: %g", i, j,
                      step);
            cr_expect_leq(task->kept_h, task->own_h * (1 + 1e-9), "%d, task %d", i, j);
            cr_expect_leq(task->every_h, task->raw_h * (1 + 1e-9), "%d, task %d", i, j);
            tasks++;
        }
        cr_expect_gt(tasks, 1);
        const int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
        for (int j = 1; j < count; j++)
            cr_expect(plan.tasks[entries[j].task].task == SPT_TASK_REPLACE ||
                          near(entries[j].at_h / plan.visit_h,
                               round(entries[j].at_h / plan.visit_h), 1e-9, 0),
                      "%d: a date of its own at %g h", i, entries[j].at_h);
    }
}
