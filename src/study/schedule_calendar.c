/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>

#include "spalltime/schedule.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)

/* The task that comes next after what `done` says; -1 when all lie beyond the end. */
static int find_next(const struct spt_schedule *schedule, const int *done, double end_h,
                     double *at_h)
{
    int next = -1;
    *at_h = NEVER;
    for (int i = 0; i < schedule->task_count; i++) {
        const struct spt_schedule_task *task = &schedule->tasks[i];
        double time_h = (done[i] + 1) * task->every_h;
        bool last = task->task == SPT_TASK_REPLACE;
        if (isnan(time_h) || (last && done[i]) || time_h >= *at_h ||
            (last ? time_h > end_h : time_h > end_h * (1 - 1e-9)))
            continue;
        next = i;
        *at_h = time_h;
    }
    return next;
}

int spt_schedule_calendar(const struct spt_schedule *schedule, struct spt_schedule_entry *entries,
                          int room, bool *cut)
{
    int done[SPT_SCHEDULE_TASKS_MAX] = {0};
    double end_h =
        schedule->replace_h > 0 ? schedule->replace_h : schedule->question->target_life_h;
    double at_h;
    int count = 0;
    *cut = false;
    if (!(end_h > 0))
        return 0;
    for (;;) {
        int next = find_next(schedule, done, end_h, &at_h);
        if (next < 0)
            return count;
        if (count == room) {
            *cut = true;
            return count;
        }
        entries[count++] = (struct spt_schedule_entry){next, ++done[next], at_h};
    }
}

double spt_schedule_days(const struct spt_case *question, double at_h)
{
    return question->yearly_use_h > 0 ? at_h / question->yearly_use_h * SPT_DAYS_PER_YEAR : NONE;
}
