/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "spalltime/service.h"

#include <criterion/criterion.h>
#include <math.h>

#include "support/near.h"
#include "support/schedule_case.h"

static struct spt_schedule plan;
static struct spt_schedule_entry entries[SPT_SCHEDULE_ENTRIES_MAX];

/* A rule of this tool, by hand: 900/250 = 3.6; six months of three each are two. */
Test(season, greasings_are_so_many_that_none_is_late)
{
    static const struct {
        double season_h, months, kept_h;
        int cap, want;
    } rows[] = {{300, 6, 463, 12, 1}, {900, 6, 250, 12, 4}, {500, 6, 500, 12, 1},
                {300, 6, 463, 3, 2},  {300, 7, 463, 3, 3},  {300, 7, 463, 0, 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++)
        cr_expect_eq(
            spt_season_greasings(rows[i].season_h, rows[i].months, rows[i].kept_h, rows[i].cap),
            rows[i].want, "row %zu", i);
}

/* By hand: seven months from April are 213.06 days; 300 h of 600 h are the middle of them. */
Test(season, days_rest_in_the_lay_up)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    question.yearly_use_h = 600;
    question.season = (struct spt_season){.month = 3, .months = 7};
    const double length = 7 * 365.25 / 12;
    static const double hours[] = {0, 300, 600, 900, 1200};
    const double want[] = {0, length / 2, length, 365.25 + length / 2, 365.25 + length};
    for (int i = 0; i < 5; i++)
        cr_expect(near(spt_season_days(&question, hours[i], false), want[i], 1e-9, 1e-9),
                  "%g h: %g", hours[i], spt_season_days(&question, hours[i], false));
    cr_expect(near(spt_season_days(&question, 600, true), 365.25, 1e-9, 0));
    /* from the middle of the season: 300 h are left of it */
    spt_season_begin(&question, 90 + length / 2);
    cr_expect(near(question.season.run_h, 300, 1e-9, 0));
    cr_expect(near(spt_season_days(&question, 300, false), length / 2, 1e-9, 0));
    cr_expect(near(spt_season_days(&question, 300, true), 365.25 - length / 2, 1e-9, 0));
    /* from the winter it waits for April */
    spt_season_begin(&question, 334);
    cr_expect_eq(question.season.run_h, 0);
    cr_expect(near(question.season.wait_days, 365.25 - 244, 1e-9, 0));
    cr_expect(near(spt_season_days(&question, 0, false), 121.25, 1e-9, 0));
}

/* Every season ends with a purge, begins with a look, and no greasing comes late. */
Test(season, each_season_ends_with_a_purge_and_begins_with_a_look)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_schedule_inputs inputs = schedule_inputs(&question);
    static const double started[] = {0, 90 + 40, 90 + 120, 340}; /* days of the year */
    bool cut;
    question.yearly_use_h = 2000;
    question.target_life_h = 9000;
    question.season = (struct spt_season){.month = 3, .months = 7};
    schedule_phase.temperature_c = 97;
    for (int i = 0; i < 4; i++) {
        spt_season_begin(&question, started[i]);
        cr_assert_eq(spt_schedule(&inputs, schedule_results, &plan), SPT_OK);
        const int count = spt_schedule_calendar(&plan, entries, SPT_SCHEDULE_ENTRIES_MAX, &cut);
        const double run_h = question.season.run_h;
        int purges = 0, looks = 0;
        double last_h = 0;
        for (int j = 0; j < count; j++) {
            const enum spt_task task = plan.tasks[entries[j].task].task;
            const double part = (run_h + entries[j].at_h) / 2000;
            const bool ends = near(part, round(part), 1e-9, 1e-9);
            if (task == SPT_TASK_REGREASE) {
                cr_expect_leq(entries[j].at_h - last_h, plan.regrease_h * (1 + 1e-9));
                cr_expect_eq(entries[j].ends_season, ends && entries[j].at_h > 0, "%d: %g h", i,
                             entries[j].at_h);
                last_h = entries[j].at_h;
                purges += entries[j].ends_season;
            }
            cr_expect_eq(entries[j].before, task == SPT_TASK_READY);
            cr_expect(task != SPT_TASK_READY || ends, "%d: ready at %g h", i, entries[j].at_h);
            looks += task == SPT_TASK_READY;
            cr_expect(!j || spt_schedule_entry_days(&question, &entries[j]) >=
                                spt_schedule_entry_days(&question, &entries[j - 1]) - 1e-9);
        }
        cr_expect_geq(purges, 3, "%d: %d", i, purges);
        cr_expect_geq(looks, purges - 1, "%d: %d", i, looks);
        cr_expect(near(plan.visit_h * round(2000 / plan.visit_h), 2000, 1e-12, 0));
    }
}

/* By hand: ten greasings in a month are three days each, though a tenth of a year's mean is 36. */
Test(season, the_week_of_a_greasing_is_one_of_the_season)
{
    struct spt_case question = schedule_case(SPT_LUBRICATION_GREASE);
    struct spt_greasing greasing;
    question.yearly_use_h = 700;
    cr_assert_eq(spt_case_greasing(&question, schedule_results, &greasing), SPT_OK);
    cr_expect_eq(greasing.state, SPT_GREASING_KEPT);
    question.season = (struct spt_season){.month = 3, .months = 1};
    question.yearly_use_h = 10 * greasing.every_h; /* three days each */
    cr_assert_eq(spt_case_greasing(&question, schedule_results, &greasing), SPT_OK);
    cr_expect_eq(greasing.state, SPT_GREASING_OFTEN);
    question.season.months = 11; /* a month each */
    cr_assert_eq(spt_case_greasing(&question, schedule_results, &greasing), SPT_OK);
    cr_expect_eq(greasing.state, SPT_GREASING_KEPT);
}
