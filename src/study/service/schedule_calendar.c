/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <float.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "spalltime/service.h"

#define NONE ((double)NAN)
#define NEVER ((double)INFINITY)

/* State of making the calendar. */
struct plan {
    const struct spt_schedule *schedule;
    double end_h;
    double due_h[SPT_SCHEDULE_TASKS_MAX]; /* NEVER: no further time */
    int done[SPT_SCHEDULE_TASKS_MAX];
    int visits;
    struct spt_schedule_entry *entries;
    int count, capacity;
};

/* Times after the end are never reached; the replacement itself may be due exactly at the end.
 * Tasks that are too frequent in practice are done now or never. */
static void set_due(struct plan *plan, int task, double at_h)
{
    bool last = plan->schedule->tasks[task].task == SPT_TASK_REPLACE;
    if (at_h > 0 &&
        spt_schedule_is_impractical(plan->schedule->question, &plan->schedule->tasks[task])) {
        plan->due_h[task] = NEVER;
        return;
    }
    bool in_time = last ? at_h <= plan->end_h : at_h < plan->end_h * (1 - 1e-9);
    plan->due_h[task] = in_time ? at_h : NEVER;
}

static int find_next(const struct plan *plan)
{
    int next = 0;
    for (int i = 1; i < plan->schedule->task_count; i++)
        if (plan->due_h[i] < plan->due_h[next])
            next = i;
    return plan->schedule->task_count && plan->due_h[next] < NEVER ? next : -1;
}

/* True where a task is done at the visit of another task. */
static bool joins(const struct plan *plan, int task, int caller, bool repacked)
{
    const struct spt_schedule_task *tasks = plan->schedule->tasks;
    if (repacked && tasks[task].task == SPT_TASK_REGREASE)
        return false;
    if (plan->due_h[task] <= plan->due_h[caller])
        return true; /* also where it has no interval */
    return tasks[task].task != SPT_TASK_REPLACE &&
           plan->due_h[task] - plan->due_h[caller] <=
               SPT_SCHEDULE_VISIT_WITHIN * tasks[task].kept_h;
}

static bool repacks(const struct plan *plan, int caller)
{
    for (int i = 0; i < plan->schedule->task_count; i++)
        if (plan->schedule->tasks[i].task == SPT_TASK_REPACK && joins(plan, i, caller, false))
            return true;
    return false;
}

/* Result: false where the buffer is too small. */
static bool add_entry(struct plan *plan, int task, double at_h, double due_h)
{
    if (plan->count == plan->capacity)
        return false;
    plan->entries[plan->count++] =
        (struct spt_schedule_entry){task, ++plan->done[task], plan->visits, at_h, due_h};
    return true;
}

/* The replacement, if it is done at the visit of a task; else -1. */
static int find_replacement(const struct plan *plan, int caller)
{
    const struct spt_schedule_task *tasks = plan->schedule->tasks;
    for (int i = 0; i < plan->schedule->task_count; i++)
        if (tasks[i].task == SPT_TASK_REPLACE &&
            plan->due_h[i] - plan->due_h[caller] <= SPT_SCHEDULE_REPLACE_WITHIN * tasks[i].every_h)
            return i;
    return -1;
}

/* With a new bearing no other task is needed, and the plan ends. */
static bool replace(struct plan *plan, int replacement, double at_h)
{
    double due_h = plan->due_h[replacement];
    for (int i = 0; i < plan->schedule->task_count; i++)
        plan->due_h[i] = NEVER;
    return add_entry(plan, replacement, at_h, due_h);
}

/* Adds everything that is done at the visit for task `caller`; false where the buffer is too
 * small. */
static bool visit(struct plan *plan, int caller)
{
    const struct spt_schedule_task *tasks = plan->schedule->tasks;
    const struct plan before = *plan;
    const double at_h = before.due_h[caller];
    const int replacement = find_replacement(&before, caller);
    const bool repacked = repacks(&before, caller);
    plan->visits++;
    if (replacement >= 0)
        return replace(plan, replacement, at_h);
    for (int i = 0; i < plan->schedule->task_count; i++) {
        bool here = joins(&before, i, caller, repacked);
        if (here && !add_entry(plan, i, at_h, before.due_h[i]))
            return false;
        if (here || (repacked && tasks[i].task == SPT_TASK_REGREASE))
            set_due(plan, i, at_h + tasks[i].kept_h);
    }
    return true;
}

/* Without a replacement or a target that ends the plan: some years, or only the tasks that are due
 * at once. */
static double open_end_h(const struct spt_case *question)
{
    return question->yearly_use_h > 0 ? SPT_SCHEDULE_OPEN_YEARS * question->yearly_use_h : DBL_MIN;
}

int spt_schedule_calendar(const struct spt_schedule *schedule, struct spt_schedule_entry *entries,
                          int capacity, bool *cut)
{
    struct plan plan = {
        .schedule = schedule, .entries = entries, .capacity = entries ? capacity : 0};
    plan.end_h = schedule->replace_h > 0 ? schedule->replace_h : schedule->question->target_life_h;
    *cut = false;
    if (!(plan.end_h > 0))
        plan.end_h = open_end_h(schedule->question);
    plan.end_h = fmin(plan.end_h, spt_schedule_planned_h(schedule->question));
    for (int i = 0; i < schedule->task_count; i++)
        set_due(&plan, i, spt_schedule_first_h(&schedule->tasks[i]));
    for (int next; !*cut && (next = find_next(&plan)) >= 0;)
        *cut = !visit(&plan, next);
    return plan.count;
}

/* Where no life can be stated the bearing is inspected before it runs any further. */
static bool is_unknown(const struct spt_schedule_task *task)
{
    return task->task == SPT_TASK_INSPECT && task->governor == SPT_GOVERNOR_NO_LIFE;
}

double spt_schedule_first_h(const struct spt_schedule_task *task)
{
    if (is_unknown(task))
        return 0;
    return isnan(task->kept_h) ? NONE : spt_regreasing_first(task->kept_h, task->spent_h);
}

bool spt_schedule_is_overdue(const struct spt_schedule_task *task)
{
    return is_unknown(task) || task->spent_h >= task->kept_h;
}

bool spt_schedule_is_impractical(const struct spt_case *question,
                                 const struct spt_schedule_task *task)
{
    if (task->task == SPT_TASK_REPLACE || task->task == SPT_TASK_INSPECT ||
        task->task == SPT_TASK_REGREASE)
        return false;
    return task->every_h < SPT_SCHEDULE_PRACTICAL_H &&
           !(spt_schedule_days(question, task->every_h) >= SPT_SCHEDULE_WEEK_DAYS);
}

double spt_schedule_planned_h(const struct spt_case *question)
{
    double yearly_h = question->yearly_use_h > 0 ? question->yearly_use_h : 24 * SPT_DAYS_PER_YEAR;
    return SPT_SCHEDULE_YEARS_MAX * yearly_h;
}

double spt_schedule_days(const struct spt_case *question, double at_h)
{
    return question->yearly_use_h > 0 ? at_h / question->yearly_use_h * SPT_DAYS_PER_YEAR : NONE;
}
