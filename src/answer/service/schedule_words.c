/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/schedule_words.h"
#include "base/table.h"
#include "sentence/greasing.h"
#include "sentence/together.h"

#include <math.h>
#include <string.h>

const char *spt_task_name(enum spt_task task)
{
    static const char *const names[] = {
        [SPT_TASK_REGREASE] = "regrease",         [SPT_TASK_REPACK] = "clean out and repack",
        [SPT_TASK_OIL_CHANGE] = "change the oil", [SPT_TASK_OIL_OR_FILTER] = "change oil or filter",
        [SPT_TASK_INSPECT] = "inspect",           [SPT_TASK_REPLACE] = "replace",
    };
    SPT_ONE_EACH(names, SPT_TASK_COUNT);
    return (int)task >= 0 && task < SPT_TASK_COUNT ? names[task] : "unknown task";
}

const char *spt_governor_name(enum spt_governor governor)
{
    static const char *const names[] = {
        [SPT_GOVERNOR_GREASE_LIFE] = "grease life",
        [SPT_GOVERNOR_OWN] = "as stated, sooner",
        [SPT_GOVERNOR_TOO_OFTEN] = "cannot be kept",
        [SPT_GOVERNOR_WATER] = "water limit",
        [SPT_GOVERNOR_CLEANLINESS] = "cleanliness limit",
        [SPT_GOVERNOR_LIMIT_PASSED] = "limit passed already",
        [SPT_GOVERNOR_GREASE_AGE] = "age of the grease",
        [SPT_GOVERNOR_LIFE_99] = "99 % life",
        [SPT_GOVERNOR_YEAR] = "once a year",
        [SPT_GOVERNOR_FATIGUE] = "rolling fatigue",
        [SPT_GOVERNOR_AGE_LIMIT] = "age limit",
        [SPT_GOVERNOR_NO_LIFE] = "no life stated",
        [SPT_GOVERNOR_LIFE_ENDS] = "no life from then on",
        [SPT_GOVERNOR_NO_INTERVAL] = "no interval",
        [SPT_GOVERNOR_STATED] = "as stated",
        [SPT_GOVERNOR_NO_WEAR] = "no fatigue here",
        [SPT_GOVERNOR_OIL_LIFE] = "life of the oil",
        [SPT_GOVERNOR_OIL_AGE] = "age of the oil",
        [SPT_GOVERNOR_OIL_DIRT] = "dirt in the oil",
        [SPT_GOVERNOR_LIFE_GREASE] = "life of its grease",
        [SPT_GOVERNOR_LIFE_AGE] = "age of its grease",
    };
    SPT_ONE_EACH(names, SPT_GOVERNOR_COUNT);
    return (int)governor >= 0 && governor < SPT_GOVERNOR_COUNT ? names[governor]
                                                               : "unknown governor";
}

/* Explains to a mechanic what determines the interval. */
static const char *explain(enum spt_governor governor)
{
    static const char *const words[] = {
        [SPT_GOVERNOR_GREASE_LIFE] =
            "the greasing interval of the duty, rounded down; good to a factor of about 2",
        [SPT_GOVERNOR_OWN] =
            "the interval that `service` states, sooner than the duty asks for: the shorter one is "
            "kept",
        [SPT_GOVERNOR_TOO_OFTEN] =
            "nobody greases by hand so often: it takes a lubricator, oil or a better seal",
        [SPT_GOVERNOR_WATER] = "by then the water reaches its limit",
        [SPT_GOVERNOR_CLEANLINESS] = "by then the dirt passes its limit",
        [SPT_GOVERNOR_LIMIT_PASSED] =
            "the lubricant is beyond its limit from the start: no interval helps, mend the cause",
        [SPT_GOVERNOR_GREASE_AGE] =
            "the calendar comes before the running hours: grease also bleeds, dries and takes up "
            "water while it stands (a rule of this tool)",
        [SPT_GOVERNOR_LIFE_99] =
            "the fatigue life that 99 % of the bearings reach (a rule of this tool)",
        [SPT_GOVERNOR_YEAR] =
            "no 99 % life by fatigue is known to be shorter than a year (common practice)",
        [SPT_GOVERNOR_FATIGUE] =
            "from then on fewer survive rolling fatigue than the target reliability asks for",
        [SPT_GOVERNOR_AGE_LIMIT] = "the calendar age stated as the limit comes first",
        [SPT_GOVERNOR_NO_LIFE] = "no life can be stated for this duty; see `life`",
        [SPT_GOVERNOR_LIFE_ENDS] =
            "under the drifts and events of `service` no life can be stated from then on; see "
            "`timeline`",
        [SPT_GOVERNOR_NO_INTERVAL] =
            "speed and bore are outside the formula for regreasing, or it never turns; keep to the "
            "maker's interval",
        [SPT_GOVERNOR_STATED] =
            "the interval that `service` states for fresh oil or grease; no drift of it reaches "
            "one of its `limits`",
        [SPT_GOVERNOR_NO_WEAR] =
            "fatigue never comes so far that it sets an interval; see the flags",
        [SPT_GOVERNOR_OIL_LIFE] =
            "the oil's own life at its temperatures, rounded down (a rule of this tool below the "
            "practice of gear units)",
        [SPT_GOVERNOR_OIL_AGE] =
            "the calendar comes before the running hours: oil breathes dust and damp while it "
            "stands (a rule of this tool)",
        [SPT_GOVERNOR_OIL_DIRT] =
            "without a filter the dirt that comes in has filled it by then (a rule of this tool)",
        [SPT_GOVERNOR_LIFE_GREASE] =
            "greased for life: its grease ends, and a new bearing brings new grease",
        [SPT_GOVERNOR_LIFE_AGE] =
            "greased for life: ten years are the most where no age is stated (a rule of this tool)",
    };
    SPT_ONE_EACH(words, SPT_GOVERNOR_COUNT);
    return (int)governor >= 0 && governor < SPT_GOVERNOR_COUNT ? words[governor] : "";
}

const char *spt_schedule_bearing(const struct spt_case *question, int bearing)
{
    if (bearing < 0)
        return spt_together(question);
    if (question->hub)
        return bearing == 0 ? "inboard row" : "outboard row";
    return question->bearings[bearing].bearing.name;
}

const char *spt_schedule_where(const struct spt_case *question,
                               const struct spt_schedule_task *task)
{
    bool both = task->task == SPT_TASK_REGREASE && question->bearing_count > 1;
    return task->bearing >= 0 || both ? spt_schedule_bearing(question, task->bearing) : NULL;
}

double spt_schedule_km(const struct spt_case *question, double hours)
{
    return question->road_speed_km_h > 0 ? hours * question->road_speed_km_h : (double)NAN;
}

/* " both rows", " inboard row"; "" where there is only one bearing. */
static const char *tell_where(const struct spt_case *question, const struct spt_schedule_task *task)
{
    bool greased = task->task == SPT_TASK_REGREASE;
    return question->bearing_count > 1 && (task->bearing >= 0 || greased)
               ? spt_schedule_bearing(question, task->bearing)
               : "";
}

void spt_schedule_name(const struct spt_schedule *schedule, const struct spt_schedule_task *task,
                       char *words)
{
    const char *where = tell_where(schedule->question, task);
    snprintf(words, SPT_WHAT_LENGTH, "%s%s%s", spt_task_name(task->task), *where ? " " : "", where);
}

/* The name with quantities. */
static void write_what(const struct spt_schedule *schedule, const struct spt_schedule_task *task,
                       char *words)
{
    spt_schedule_name(schedule, task, words);
    size_t used = strlen(words);
    if (isnan(task->quantity_g))
        return;
    if (task->bearing >= 0 || schedule->bearing_count < 2) {
        snprintf(words + used, SPT_WHAT_LENGTH - used, " with %.3g g", task->quantity_g);
        return;
    }
    for (int i = 0; i < schedule->bearing_count && used < SPT_WHAT_LENGTH; i++)
        used += (size_t)snprintf(words + used, SPT_WHAT_LENGTH - used, "%s%.3g%s", i ? " + " : ", ",
                                 schedule->bearings[i].quantity_g,
                                 i + 1 < schedule->bearing_count ? "" : " g");
}

void spt_schedule_dated_what(const struct spt_schedule *schedule,
                             const struct spt_schedule_entry *entry, char *words)
{
    char what[SPT_WHAT_LENGTH];
    write_what(schedule, &schedule->tasks[entry->task], what);
    snprintf(words, SPT_WHAT_LENGTH, "%s%.*s", entry->at_h > 0 ? "" : "now: ", SPT_WHAT_LENGTH - 8,
             what);
}

void spt_schedule_why(const struct spt_schedule_task *task, char *words)
{
    snprintf(words, SPT_WHY_LENGTH, "%s: %s", spt_governor_name(task->governor),
             explain(task->governor));
}

bool spt_schedule_is_beyond(const struct spt_case *question, double every_h)
{
    return every_h > spt_schedule_planned_h(question);
}

/* True where the interval is that of the greasing, which has calendar times of its own. */
static bool is_greasing(const struct spt_schedule_task *task)
{
    return task->task == SPT_TASK_REGREASE && task->governor != SPT_GOVERNOR_OWN;
}

/* True where the interval is that of the oil itself. */
static bool is_oil(const struct spt_schedule_task *task)
{
    return task->governor == SPT_GOVERNOR_OIL_LIFE || task->governor == SPT_GOVERNOR_OIL_AGE ||
           task->governor == SPT_GOVERNOR_OIL_DIRT;
}

/* Days of the calendar kept beside the hours; NaN: the task has none, or no yearly hours. */
static double kept_days(const struct spt_schedule *schedule, const struct spt_schedule_task *task)
{
    if (is_oil(task))
        return schedule->oil.every_days;
    return is_greasing(task) ? schedule->greasing.every_days : (double)NAN;
}

double spt_schedule_task_days(const struct spt_schedule *schedule,
                              const struct spt_schedule_task *task)
{
    return is_greasing(task) || is_oil(task) ? kept_days(schedule, task)
                                             : spt_schedule_days(schedule->question, task->every_h);
}

const char *spt_schedule_every(const struct spt_schedule *schedule,
                               const struct spt_schedule_task *task, char *span)
{
    const struct spt_case *question = schedule->question;
    const double every_h = task->every_h;
    if (!(question->yearly_use_h > 0) || !spt_schedule_is_beyond(question, every_h))
        return !isnan(kept_days(schedule, task))
                   ? spt_greasing_span(kept_days(schedule, task), span)
                   : spt_text_span(spt_schedule_task_days(schedule, task), span);
    snprintf(span, SPT_SPAN_LENGTH, "> %d years", SPT_SCHEDULE_YEARS_MAX);
    return span;
}
