/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <float.h>
#include <math.h>

#include "spalltime/lubricant.h"
#include "spalltime/service.h"
#include "study/visit/visits.h"

#define NONE ((double)NAN)

/* State of making the calendar. Visits are numbered from 1 on from the first that is not at once.
 */
struct plan {
    const struct spt_schedule *schedule;
    double end_h, first_h;
    long begun;                            /* visits of the season before the start */
    long next[SPT_SCHEDULE_TASKS_MAX];     /* visit at which the task is done next; 0: never */
    double last_h[SPT_SCHEDULE_TASKS_MAX]; /* when it was done before, or counts from */
    int done[SPT_SCHEDULE_TASKS_MAX];
    int replacement; /* index of the task; -1: none */
    int visits;
    struct spt_schedule_entry *entries;
    int count, capacity;
    bool cut;
};

static void add_entry(struct plan *plan, int task, double at_h, double due_h)
{
    plan->cut = plan->cut || plan->count == plan->capacity;
    if (plan->cut)
        return;
    plan->entries[plan->count++] = (struct spt_schedule_entry){.task = task,
                                                               .number = ++plan->done[task],
                                                               .visit = plan->visits,
                                                               .at_h = at_h,
                                                               .due_h = due_h};
}

/* True where a visit is the last of a season. */
static bool ends_season(const struct plan *plan, long visit)
{
    const struct spt_case *question = plan->schedule->question;
    return spt_season_has(question) &&
           visit % lround(question->yearly_use_h / plan->schedule->visit_h) == 0;
}

/* The task before a season, as a visit of its own. */
static void get_ready(struct plan *plan, double at_h)
{
    for (int i = 0; i < plan->schedule->task_count; i++)
        if (plan->schedule->tasks[i].task == SPT_TASK_READY) {
            plan->visits++;
            add_entry(plan, i, at_h, at_h);
            if (!plan->cut)
                plan->entries[plan->count - 1].before = true;
        }
}

/* A visit before the first, for what is overdue, in a season also for what is due before it. */
static void work_off(struct plan *plan)
{
    const struct spt_schedule *schedule = plan->schedule;
    bool any = false;
    for (int i = 0; i < schedule->task_count; i++) {
        const struct spt_schedule_task *task = &schedule->tasks[i];
        const double first_h = spt_schedule_first_h(task);
        plan->last_h[i] = isnan(task->own_h) ? 0 : -fmin(task->spent_h, task->own_h);
        const bool late = spt_season_has(schedule->question) && spt_visits_has(schedule, task) &&
                          first_h < plan->first_h * (1 - 1e-9);
        if (task->task == SPT_TASK_REPLACE || !(first_h <= 0 || late))
            continue;
        plan->visits += !any;
        any = true;
        plan->last_h[i] = 0;
        add_entry(plan, i, 0, 0);
    }
}

/* The number of the last visit that is not later than `due_h`. */
static long find_visit(const struct plan *plan, double due_h)
{
    return plan->begun + 1 +
           (long)floor((due_h - plan->first_h) / plan->schedule->visit_h * (1 + 1e-9) + 1e-9);
}

/* Every how many visits a task is done. */
static long find_step(const struct plan *plan, int task)
{
    return lround(plan->schedule->tasks[task].kept_h / plan->schedule->visit_h);
}

/* The date of the next visit of the season. */
static void begin_season(struct plan *plan)
{
    const double visit_h = plan->schedule->visit_h, run_h = plan->schedule->question->season.run_h;
    plan->first_h = visit_h;
    if (!spt_season_has(plan->schedule->question) || isnan(visit_h))
        return;
    plan->begun = (long)floor(run_h / visit_h + 1e-9);
    plan->first_h = (double)(plan->begun + 1) * visit_h - run_h;
    if (!(run_h > 0))
        get_ready(plan, 0);
}

/* The date of the first visit, and the visit at which each task is done first. */
static void begin(struct plan *plan)
{
    const struct spt_schedule *schedule = plan->schedule;
    for (int i = 0; i < schedule->task_count; i++)
        if (!spt_season_has(schedule->question) && spt_visits_has(schedule, &schedule->tasks[i]))
            plan->first_h = fmin(plan->first_h, plan->last_h[i] + schedule->tasks[i].own_h);
    for (int i = 0; i < schedule->task_count; i++) {
        if (!spt_visits_has(schedule, &schedule->tasks[i]))
            continue;
        const long step = find_step(plan, i);
        const long at = find_visit(plan, plan->last_h[i] + schedule->tasks[i].own_h);
        plan->next[i] = at > step ? at / step * step : at;
    }
}

/* The replacement, done at a visit where it is due soon after. Result: true where the plan ends. */
static bool replaces(struct plan *plan, double at_h)
{
    if (plan->replacement < 0)
        return false;
    const double due_h = plan->schedule->tasks[plan->replacement].every_h;
    if (due_h > plan->end_h || due_h - at_h > SPT_SCHEDULE_REPLACE_WITHIN * due_h)
        return false;
    plan->visits++;
    add_entry(plan, plan->replacement, fmin(at_h, due_h), due_h);
    return true;
}

static bool repacks(const struct plan *plan, long visit)
{
    for (int i = 0; i < plan->schedule->task_count; i++)
        if (plan->schedule->tasks[i].task == SPT_TASK_REPACK && plan->next[i] == visit)
            return true;
    return false;
}

/* Adds everything that is done at one visit; repacking renews the grease. */
static void make_visit(struct plan *plan, long visit, double at_h)
{
    const bool repacked = repacks(plan, visit);
    bool any = false;
    for (int i = 0; i < plan->schedule->task_count; i++) {
        const struct spt_schedule_task *task = &plan->schedule->tasks[i];
        const long step = plan->next[i] ? find_step(plan, i) : 0;
        const bool here = step && plan->next[i] == visit;
        const bool renewed = step && repacked && task->task == SPT_TASK_REGREASE;
        plan->visits += here && !renewed && !any;
        any = any || (here && !renewed);
        if (here && !renewed)
            add_entry(plan, i, at_h, plan->last_h[i] + task->own_h);
        if (here && !renewed && !plan->cut && task->task == SPT_TASK_REGREASE)
            plan->entries[plan->count - 1].ends_season = ends_season(plan, visit);
        if (here)
            plan->next[i] = visit / step * step + step;
        if (here || renewed)
            plan->last_h[i] = at_h;
    }
}

/* The first visit from one on at which anything is done; 0: there is none. */
static long find_next(const struct plan *plan)
{
    long next = 0;
    for (int i = 0; i < plan->schedule->task_count; i++)
        if (plan->next[i] && (!next || plan->next[i] < next))
            next = plan->next[i];
    return next;
}

/* Without a replacement or a target that ends the plan: some years, or only the tasks that are due
 * at once. */
static double open_end_h(const struct spt_case *question)
{
    return question->yearly_use_h > 0 ? SPT_SCHEDULE_OPEN_YEARS * question->yearly_use_h : DBL_MIN;
}

/* When the plan ends. */
static double find_end(const struct spt_schedule *schedule)
{
    double end_h = schedule->replace_h > 0 && schedule->replace_governor != SPT_GOVERNOR_FATIGUE_FAR
                       ? schedule->replace_h
                       : schedule->question->target_life_h;
    if (!(end_h > 0))
        end_h = open_end_h(schedule->question);
    return fmin(end_h, spt_schedule_planned_h(schedule->question));
}

/* The task that ends the plan; -1: none. */
static int find_replacement(const struct spt_schedule *schedule)
{
    for (int i = 0; i < schedule->task_count; i++)
        if (schedule->tasks[i].task == SPT_TASK_REPLACE && schedule->tasks[i].every_h > 0)
            return i;
    return -1;
}

int spt_schedule_calendar(const struct spt_schedule *schedule, struct spt_schedule_entry *entries,
                          int capacity, bool *cut)
{
    struct plan plan = {.schedule = schedule,
                        .end_h = find_end(schedule),
                        .replacement = find_replacement(schedule),
                        .entries = entries,
                        .capacity = entries ? capacity : 0};
    bool ended = false;
    begin_season(&plan);
    work_off(&plan);
    begin(&plan);
    for (long visit; !ended && !plan.cut && (visit = find_next(&plan));) {
        const double at_h = plan.first_h + (double)(visit - plan.begun - 1) * schedule->visit_h;
        if (at_h >= plan.end_h * (1 - 1e-9))
            break;
        ended = replaces(&plan, at_h);
        if (!ended)
            make_visit(&plan, visit, at_h);
        if (!ended && ends_season(&plan, visit) && at_h < plan.end_h - schedule->visit_h)
            get_ready(&plan, at_h);
    }
    if (!ended && !plan.cut)
        replaces(&plan, plan.end_h);
    *cut = plan.cut;
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
    return isnan(task->own_h) ? NONE : spt_regreasing_first(task->own_h, task->spent_h);
}

bool spt_schedule_is_overdue(const struct spt_schedule_task *task)
{
    return is_unknown(task) || task->spent_h >= task->own_h;
}

bool spt_schedule_is_impractical(const struct spt_case *question,
                                 const struct spt_schedule_task *task)
{
    if (task->task == SPT_TASK_REPLACE || task->task == SPT_TASK_INSPECT ||
        task->task == SPT_TASK_REGREASE)
        return false;
    return task->raw_h < SPT_SCHEDULE_PRACTICAL_H &&
           !(spt_schedule_days(question, task->raw_h) >= SPT_SCHEDULE_WEEK_DAYS);
}

bool spt_schedule_is_far(const struct spt_case *question, double age_h)
{
    const double year_h = question->yearly_use_h;
    return age_h > (year_h > 0 ? SPT_SCHEDULE_FAR_YEARS * year_h : SPT_SCHEDULE_FAR_H);
}

double spt_schedule_planned_h(const struct spt_case *question)
{
    double yearly_h = question->yearly_use_h > 0 ? question->yearly_use_h : 24 * SPT_DAYS_PER_YEAR;
    return SPT_SCHEDULE_YEARS_MAX * yearly_h;
}

double spt_schedule_entry_days(const struct spt_case *question,
                               const struct spt_schedule_entry *entry)
{
    return spt_season_has(question) ? spt_season_days(question, entry->at_h, entry->before)
                                    : spt_schedule_days(question, entry->at_h);
}

double spt_schedule_days(const struct spt_case *question, double at_h)
{
    return question->yearly_use_h > 0 ? at_h / question->yearly_use_h * SPT_DAYS_PER_YEAR : NONE;
}
