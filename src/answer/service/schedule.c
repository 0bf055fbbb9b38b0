/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/schedule.h"

#include <math.h>
#include <stddef.h>

#include "answer/field/history.h"
#include "answer/field/spread.h"
#include "answer/life/life.h"
#include "answer/service/care.h"
#include "answer/service/greasing.h"
#include "answer/service/oil.h"
#include "answer/service/schedule_parts.h"
#include "answer/service/schedule_words.h"

struct task_row {
    const char *what, *every, *governor;
    double every_h, every_km;
};

static struct task_row make_row(struct spt_page *page, const struct spt_schedule *schedule,
                                const struct spt_schedule_task *task)
{
    char what[SPT_WHAT_LENGTH], span[SPT_SPAN_LENGTH];
    const bool far = task->governor == SPT_GOVERNOR_FATIGUE_FAR;
    spt_schedule_name(schedule, task, what);
    return (struct task_row){
        .what = spt_page_words(page, "%s", what),
        .every = far ? "-" : spt_page_words(page, "%s", spt_schedule_every(schedule, task, span)),
        .governor = spt_governor_name(task->governor),
        .every_h = far ? (double)NAN : task->every_h,
        .every_km = far ? (double)NAN : spt_schedule_task_km(schedule->question, task),
    };
}

static void show_tasks(struct spt_page *page, const struct spt_schedule *schedule)
{
    static const struct spt_column columns[] = {
        {.head = "what", .kind = SPT_WORDS, .width = 25, .at = offsetof(struct task_row, what)},
        {.head = "every h",
         .kind = SPT_HOURS,
         .width = 9,
         .gap = 1,
         .none = "-",
         .at = offsetof(struct task_row, every_h)},
        {.head = "km",
         .kind = SPT_AMOUNT,
         .width = 9,
         .gap = 1,
         .none = "-",
         .at = offsetof(struct task_row, every_km)},
        {.head = "every",
         .kind = SPT_DAY,
         .width = 11,
         .gap = 1,
         .at = offsetof(struct task_row, every)},
        {.head = "governed by",
         .kind = SPT_WORDS,
         .width = 22,
         .gap = 2,
         .at = offsetof(struct task_row, governor)},
    };
    const int count = schedule->task_count;
    struct task_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = make_row(page, schedule, &schedule->tasks[i]);
    spt_page_table(page, "tasks", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
}

static void say_note(void *context, const char *who, const char *sentence)
{
    (void)who;
    spt_page_say(context, SPT_BODY, "- ", "%s", sentence);
}

static void say_warning(void *context, const char *who, const char *sentence)
{
    (void)who;
    spt_page_say(context, SPT_BODY, "! ", "%s", sentence);
}

static void say_target(struct spt_page *page, const struct spt_schedule *schedule)
{
    const struct spt_schedule_point *then = &schedule->at_target_life;
    if (!isnan(then->fatigue))
        spt_page_say(page, SPT_BODY, "",
                     "At the target of %s h %.3g %% survive fatigue, where %g %% are wanted.",
                     spt_page_hours(page, then->t_h), 100 * then->fatigue,
                     schedule->question->reliability_percent);
}

/* "900 h at either end", or both ends of the band where they differ. */
static const char *tell_span(struct spt_page *page, double low_h, double high_h)
{
    const char *low = spt_page_hours(page, low_h);
    return low_h == high_h ? spt_page_words(page, "%s at either end", spt_page_life(page, low_h))
                           : spt_page_words(page, "%s to %s", low, spt_page_life(page, high_h));
}

/* ", replace at 4 420 h to 92 700 h", or what is said of ages that are too far away. */
static const char *tell_replacement(struct spt_page *page, const struct spt_case *question,
                                    double low_h, double high_h)
{
    if (spt_schedule_is_far(question, low_h))
        return "; fatigue asks for no replacement at either end";
    if (spt_schedule_is_far(question, high_h))
        return spt_page_words(page,
                              ", replace at %s at the lower end, never by fatigue at the other",
                              spt_page_life(page, low_h));
    return spt_page_words(page, ", replace at %s", tell_span(page, low_h, high_h));
}

/* The bands of the intervals that depend on fatigue life, by the uncertainty of the inputs. */
static void say_band(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_schedule_intervals *low = &report->low, *high = &report->high;
    if (!report->spread)
        return;
    spt_band_page(page, report->spread);
    if (isnan(low->replace_h) || isnan(high->replace_h))
        spt_page_say(page, SPT_BODY, "",
                     "With a life missing at an end of that band, the intervals have none "
                     "either: go by the maker.");
    else
        spt_page_say(
            page, SPT_BODY, "", "With the lives at its ends: inspect every %s%s.%s",
            tell_span(page, low->inspect_h, high->inspect_h),
            tell_replacement(page, report->schedule->question, low->replace_h, high->replace_h),
            low->inspect_h < high->inspect_h || low->replace_h < high->replace_h
                ? " Where a failure can hurt somebody, take the shorter."
                : "");
}

static bool rests_on_fatigue(const struct spt_schedule *schedule)
{
    for (int i = 0; i < schedule->task_count; i++)
        if (schedule->tasks[i].governor == SPT_GOVERNOR_LIFE_99 ||
            schedule->tasks[i].governor == SPT_GOVERNOR_FATIGUE)
            return true;
    return false;
}

/* Reasons why the intervals may be too long. */
static void say_reservations(struct spt_page *page, const struct spt_schedule_report *report)
{
    if (report->judgement->parts[SPT_CONCERN_LIMITS].grade == SPT_GRADE_CAUTION &&
        rests_on_fatigue(report->schedule))
        spt_page_say(page, SPT_BODY, "- ",
                     "Intervals that rest on fatigue life may be too long: something else may end "
                     "it first (other ends, above).");
}

static void say_plan(struct spt_page *page, const struct spt_schedule_report *report)
{
    const struct spt_schedule *schedule = report->schedule;
    const struct spt_finding_sink warnings = {say_warning, page}, notes = {say_note, page};
    spt_page_open(page, "Plan");
    say_target(page, schedule);
    spt_schedule_warnings(schedule, &warnings);
    spt_greasing_page(page, &schedule->greasing);
    spt_oil_page(page, schedule);
    show_tasks(page, schedule);
    say_band(page, report);
    spt_schedule_notes(schedule, &notes);
    say_reservations(page, report);
    spt_page_close(page);
}

void spt_schedule_report_take(struct spt_schedule_report *report,
                              const struct spt_maintenance *plan)
{
    report->schedule = &plan->schedule;
    report->entry_count = plan->entry_count;
    report->entries = plan->entries;
    report->cut = plan->cut;
    report->curve_count = plan->curve_count;
    report->curve = plan->curve;
    report->spread = plan->spread;
    report->low = plan->low;
    report->high = plan->high;
}

void spt_schedule_plan_page(struct spt_page *page, const struct spt_schedule_report *report)
{
    say_plan(page, report);
    spt_care_page(page, report->schedule);
    spt_schedule_survival_page(page, report);
    spt_schedule_replacement_page(page, report);
    spt_schedule_cost_page(page, report);
    spt_schedule_calendar_page(page, report);
}

void spt_schedule_page(struct spt_page *page, const struct spt_schedule_report *report)
{
    if (report->costs_alone) {
        spt_schedule_cost_page(page, report);
        return;
    }
    spt_history_page(page, report->schedule->question);
    spt_schedule_plan_page(page, report);
    spt_page_flags(page, report->assessment);
}
