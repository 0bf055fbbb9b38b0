/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/schedule_words.h"
#include "base/table.h"
#include "sentence/greasing.h"
#include "sentence/together.h"

#include <math.h>
#include <string.h>

#define INSPECTION_MONTHS 12 /* common practice, no source */

const char *spt_task_name(enum spt_task task)
{
    static const char *const names[] = {
        [SPT_TASK_REGREASE] = "regrease",
        [SPT_TASK_REPACK] = "clean out and repack",
        [SPT_TASK_OIL_CHANGE] = "change the oil",
        [SPT_TASK_OIL_OR_FILTER] = "change oil or filter",
        [SPT_TASK_INSPECT] = "inspect",
        [SPT_TASK_REPLACE] = "replace",
        [SPT_TASK_READY] = "get ready for the season",
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
        [SPT_GOVERNOR_FATIGUE_FAR] = "beyond 30 years",
        [SPT_GOVERNOR_AGE_LIMIT] = "age limit",
        [SPT_GOVERNOR_COSTS] = "costs",
        [SPT_GOVERNOR_SEASON] = "lay-up",
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
        [SPT_GOVERNOR_FATIGUE_FAR] =
            "fatigue asks for no replacement: it comes after more than 30 years of use, or 200 000 h "
            "without yearly hours (a rule of this tool)",
        [SPT_GOVERNOR_AGE_LIMIT] = "the calendar age stated as the limit comes first",
        [SPT_GOVERNOR_SEASON] =
            "after the lay-up, before it runs: look at seals and for rust, drain water, take a "
            "sample, turn it by hand (common practice, no source)",
        [SPT_GOVERNOR_COSTS] =
            "at this age a planned change and the failures before it cost least (Barlow and Hunter "
            "1960); the target reliability would let it run longer",
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

double spt_schedule_task_km(const struct spt_case *question, const struct spt_schedule_task *task)
{
    const double km = spt_schedule_km(question, task->every_h); /* of the hours that are kept */
    return spt_visits_rounds(task) && !isnan(km) ? spt_visits_km(km) : km;
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
    const char *name = spt_task_name(SPT_TASK_REGREASE), *said = what;
    write_what(schedule, &schedule->tasks[entry->task], what);
    if (entry->ends_season)
        said += strlen(name); /* that task alone ends a season */
    snprintf(words, SPT_WHAT_LENGTH, "%s%s%.*s", entry->at_h > 0 || entry->before ? "" : "now: ",
             entry->ends_season ? "purge while warm" : "", SPT_WHAT_LENGTH - 24, said);
}

void spt_schedule_machines(const struct spt_fleet_start *start, char *words)
{
    if (start->machines == 1)
        snprintf(words, SPT_MACHINES_LENGTH, "machine %d", start->first);
    else
        snprintf(words, SPT_MACHINES_LENGTH, "machines %d to %d", start->first,
                 start->first + start->machines - 1);
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

/* "2 a season", "each season", "every 2 seasons". */
static const char *tell_seasons(const struct spt_case *question,
                                const struct spt_schedule_task *task, char *span)
{
    const long seasons = lround(task->kept_h / question->yearly_use_h);
    if (task->kept_h < 0.75 * question->yearly_use_h)
        snprintf(span, SPT_SPAN_LENGTH, "%ld a season",
                 lround(question->yearly_use_h / task->kept_h));
    else if (seasons < 2)
        snprintf(span, SPT_SPAN_LENGTH, "each season");
    else
        snprintf(span, SPT_SPAN_LENGTH, "%ld seasons", seasons);
    return span;
}

/* The calendar of a task where no yearly hours turn its running hours into one; 0: it has none. */
static int find_months(const struct spt_schedule *schedule, const struct spt_schedule_task *task)
{
    if (task->task == SPT_TASK_INSPECT)
        return INSPECTION_MONTHS;
    return task->task == SPT_TASK_REGREASE && task->governor != SPT_GOVERNOR_OWN
               ? schedule->greasing.months
               : 0;
}

const char *spt_schedule_every(const struct spt_schedule *schedule,
                               const struct spt_schedule_task *task, char *span)
{
    const struct spt_case *question = schedule->question;
    const double every_h = task->every_h;
    const int months = find_months(schedule, task);
    if (!(question->yearly_use_h > 0) && months > 0 && every_h > 0) {
        snprintf(span, SPT_SPAN_LENGTH, "%d months", months);
        return span;
    }
    if (!(question->yearly_use_h > 0) || !spt_schedule_is_beyond(question, every_h))
        return spt_season_has(question) && task->task != SPT_TASK_REPLACE && task->kept_h > 0
                   ? tell_seasons(question, task, span)
               : task->task == SPT_TASK_REPLACE || isnan(task->every_days)
                   ? spt_text_span(task->every_days, span)
                   : spt_greasing_span(task->every_days, span);
    snprintf(span, SPT_SPAN_LENGTH, "> %d years", SPT_SCHEDULE_YEARS_MAX);
    return span;
}
