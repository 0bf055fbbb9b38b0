/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "study/visit/visits.h"

#include <math.h>
#include <stddef.h>

#include "spalltime/lubricant.h"

#define NONE ((double)NAN)
#define SAME (1 + 1e-9) /* round-off between hours and days */

double spt_visits_multiple(double base, double interval)
{
    static const int multiples[] = {1,  2,  3,  4,  6,   8,   12,  16, 24,
                                    36, 48, 72, 96, 144, 192, 288, 384};
    double kept = base;
    if (!(base > 0) || !(interval * SAME >= base))
        return NONE;
    for (size_t i = 0; i < sizeof multiples / sizeof *multiples; i++)
        if (multiples[i] * base <= interval * SAME)
            kept = multiples[i] * base;
    return kept;
}

double spt_visits_km(double raw_km)
{
    static const double steps[] = {1, 1.5, 2, 2.5, 4, 5, 8};
    double decade = 1, kept = NONE;
    if (!(raw_km >= 1) || isinf(raw_km))
        return NONE;
    while (10 * decade <= raw_km * SAME)
        decade *= 10;
    for (size_t i = 0; i < sizeof steps / sizeof *steps; i++)
        if (steps[i] * decade <= raw_km * SAME)
            kept = steps[i] * decade;
    return kept;
}

bool spt_visits_rounds(const struct spt_schedule_task *task)
{
    return task->task != SPT_TASK_REPLACE && task->governor != SPT_GOVERNOR_OWN &&
           task->governor != SPT_GOVERNOR_STATED && task->governor != SPT_GOVERNOR_YEAR &&
           task->governor != SPT_GOVERNOR_SEASON && task->governor != SPT_GOVERNOR_NO_LIFE;
}

void spt_visits_round(const struct spt_case *question, struct spt_schedule_task *task)
{
    const double raw_days = spt_schedule_days(question, task->every_h);
    task->raw_h = task->own_h = task->kept_h = task->every_h;
    task->every_days = raw_days;
    const double hours = spt_regreasing_kept_h(task->raw_h);
    if (!spt_visits_rounds(task) || isnan(hours))
        return; /* what nobody can keep is said with its hours */
    task->every_h = task->own_h = task->kept_h = hours;
    if (spt_season_has(question)) { /* the calendar rests in the lay-up */
        task->every_days = NONE;
        return;
    }
    const double days = spt_regreasing_kept_days(raw_days);
    if (isnan(days))
        return;
    task->every_days = days;
    task->own_h = task->kept_h =
        fmin(hours, spt_regreasing_days_exact(days) / SPT_DAYS_PER_YEAR * question->yearly_use_h);
}

bool spt_visits_has(const struct spt_schedule *schedule, const struct spt_schedule_task *task)
{
    return task->task != SPT_TASK_REPLACE && task->own_h > 0 && isfinite(task->own_h) &&
           !spt_schedule_is_impractical(schedule->question, task);
}

double spt_visits_base(const struct spt_schedule *schedule)
{
    double base_h = NONE;
    for (int i = 0; i < schedule->task_count; i++)
        if (spt_visits_has(schedule, &schedule->tasks[i]))
            base_h = fmin(base_h, schedule->tasks[i].own_h);
    return base_h;
}

/* The number of equal parts of a season at whose ends its visits are. */
static int find_parts(const struct spt_schedule *schedule)
{
    const struct spt_case *question = schedule->question;
    return spt_season_greasings(question->yearly_use_h, question->season.months,
                                spt_visits_base(schedule), schedule->greasing.months);
}

/* Within a season each task is done at equal parts of it, so that one is at its end; what may wait
 * longer, after so many seasons. */
static void align_season(struct spt_schedule *schedule, int parts)
{
    const double season_h = schedule->question->yearly_use_h;
    schedule->visit_h = season_h / parts;
    for (int i = 0; i < schedule->task_count; i++) {
        struct spt_schedule_task *task = &schedule->tasks[i];
        if (!spt_visits_has(schedule, task))
            continue;
        task->kept_h = spt_visits_multiple(season_h, task->own_h);
        for (int every = parts; isnan(task->kept_h) && every > 0; every--)
            if (parts % every == 0 && every * schedule->visit_h <= task->own_h * SAME)
                task->kept_h = every * schedule->visit_h;
    }
}

void spt_visits_align(struct spt_schedule *schedule, double base_h)
{
    const int parts = spt_season_has(schedule->question) ? find_parts(schedule) : 0;
    if (parts > 0) {
        align_season(schedule, parts);
        return;
    }
    const double own_h = spt_visits_base(schedule);
    schedule->visit_h = isnan(base_h) ? own_h : spt_visits_multiple(base_h, own_h);
    if (isnan(schedule->visit_h))
        schedule->visit_h = own_h; /* more often than the others: it keeps its own */
    for (int i = 0; i < schedule->task_count; i++) {
        struct spt_schedule_task *task = &schedule->tasks[i];
        if (spt_visits_has(schedule, task))
            task->kept_h = spt_visits_multiple(schedule->visit_h, task->own_h);
    }
}
