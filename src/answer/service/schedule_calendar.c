/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <math.h>
#include <stddef.h>

#include "answer/service/care.h"
#include "answer/service/schedule_parts.h"
#include "answer/service/schedule_words.h"
#include "spalltime/lubricant.h"
#include "words/words.h"

#define VISITS_SHOWN 24
#define NONE ((double)NAN)

struct entry_row {
    const char *task, *bearing, *date, *governor, *what,
        *occasion;        /* bearing, date, occasion: NULL where there is none */
    double number, visit; /* NaN: a task of care, of no visit */
    double at_h, at_km, days, due_h, grease_g, every_h, every_days;
    const char *again; /* "" for a task of the same visit as the one before it, else NULL */
    const char *when;  /* what stands in the place of the days: the date, or as `again` */
};

/* The date of an entry; NULL where there is none. */
static const char *find_date(struct spt_page *page, const struct spt_schedule_report *report,
                             double days)
{
    struct spt_date date;
    char day[SPT_DATE_LENGTH];
    return report->dated && spt_date_after(&report->start, days, &date)
               ? spt_page_words(page, "%s", spt_date_text(&date, false, day))
               : NULL;
}

static struct entry_row make_row(struct spt_page *page, const struct spt_schedule_report *report,
                                 int index)
{
    const struct spt_case *question = report->schedule->question;
    const struct spt_schedule_entry *entry = &report->entries[index];
    const struct spt_schedule_task *task = &report->schedule->tasks[entry->task];
    char what[SPT_WHAT_LENGTH];
    spt_schedule_dated_what(report->schedule, entry, what);
    struct entry_row row = {
        .task = spt_task_name(task->task),
        .bearing = spt_schedule_where(question, task),
        .governor = spt_governor_name(task->governor),
        .what = spt_page_words(page, "%s", what),
        .number = entry->number,
        .visit = entry->visit,
        .at_h = entry->at_h,
        .at_km = spt_schedule_km(question, entry->at_h),
        .days = spt_schedule_entry_days(question, entry),
        .due_h = entry->due_h,
        .grease_g = task->quantity_g,
        .every_h = task->every_h,
        .every_days = task->every_days,
        .again = index && entry[-1].visit == entry->visit ? "" : NULL,
    };
    row.date = find_date(page, report, row.days);
    row.when = row.again ? row.again : row.date;
    return row;
}

/* A task of care, which CSV has after the visits. */
static struct entry_row make_care_row(const struct spt_case *question,
                                      const struct spt_care_task *task)
{
    const double none = NONE;
    return (struct entry_row){
        .task = spt_care_what(task->care),
        .governor = spt_care_source(task->care),
        .occasion = spt_care_occasion(task->care),
        .number = none,
        .visit = none,
        .at_h = task->first_h,
        .at_km = spt_schedule_km(question, task->first_h),
        .days = spt_schedule_days(question, task->first_h),
        .due_h = none,
        .grease_g = none,
        .every_h = task->every_h,
        .every_days = task->every_days,
    };
}

static const struct spt_column entry_columns[] = {
    {.key = "task", .kind = SPT_WORDS, .at = offsetof(struct entry_row, task)},
    {.key = "bearing", .kind = SPT_WORDS, .at = offsetof(struct entry_row, bearing)},
    {.key = "number", .kind = SPT_FIXED, .at = offsetof(struct entry_row, number)},
    {.head = "at h",
     .key = "at_h",
     .kind = SPT_HOURS,
     .width = 10,
     .at = offsetof(struct entry_row, at_h),
     .instead = offsetof(struct entry_row, again)},
    {.head = "at km",
     .key = "at_km",
     .kind = SPT_AMOUNT,
     .width = 10,
     .gap = 1,
     .none = "-",
     .at = offsetof(struct entry_row, at_km),
     .instead = offsetof(struct entry_row, again)},
    {.head = "after",
     .key = "days",
     .kind = SPT_SPAN,
     .width = 11,
     .gap = 2,
     .at = offsetof(struct entry_row, days),
     .instead = offsetof(struct entry_row, when)},
    {.key = "date", .kind = SPT_WORDS, .at = offsetof(struct entry_row, date)},
    {.head = "what",
     .kind = SPT_WORDS,
     .width = 38,
     .gap = 2,
     .at = offsetof(struct entry_row, what)},
    {.head = "time",
     .kind = SPT_FIXED,
     .width = 4,
     .gap = 1,
     .at = offsetof(struct entry_row, number)},
    {.key = "grease_g", .kind = SPT_NUMBER, .at = offsetof(struct entry_row, grease_g)},
    {.key = "every_h", .kind = SPT_HOURS, .at = offsetof(struct entry_row, every_h)},
    {.key = "governed_by", .kind = SPT_WORDS, .at = offsetof(struct entry_row, governor)},
    {.key = "visit", .kind = SPT_FIXED, .at = offsetof(struct entry_row, visit)},
    {.key = "due_h", .kind = SPT_HOURS, .at = offsetof(struct entry_row, due_h)},
    {.key = "every_days", .kind = SPT_SPAN, .at = offsetof(struct entry_row, every_days)},
    {.key = "occasion", .kind = SPT_WORDS, .at = offsetof(struct entry_row, occasion)},
};
#define WHEN 5 /* the column of days or dates */
#define COLUMNS ((int)(sizeof entry_columns / sizeof *entry_columns))

static void show_entries(struct spt_page *page, const struct spt_schedule_report *report, int shown)
{
    const struct spt_schedule *schedule = report->schedule;
    const int entries = report->entry_count, count = entries + schedule->care_count;
    struct entry_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    struct spt_column *columns = spt_page_columns(page, entry_columns, COLUMNS);
    for (int i = 0; rows && i < entries; i++)
        rows[i] = make_row(page, report, i);
    for (int i = entries; rows && i < count; i++)
        rows[i] = make_care_row(schedule->question, &schedule->care[i - entries]);
    if (columns && report->dated)
        columns[WHEN].head = "date";
    spt_page_table(page, "calendar",
                   &(struct spt_table){.columns = columns,
                                       .column_count = COLUMNS,
                                       .rows = rows,
                                       .row_size = sizeof *rows,
                                       .row_count = count,
                                       .left_out = count - shown,
                                       .is_data = true});
}

#define TOLD_LENGTH 400
#define STEPS_MAX 1000 /* visits between two times of a task: 384, or those of some seasons */

static const char *tell_ordinal(int number)
{
    const int last = number % 100 >= 11 && number % 100 <= 13 ? 0 : number % 10;
    return last == 1 ? "st" : last == 2 ? "nd" : last == 3 ? "rd" : "th";
}

/* "regrease, inspect": the tasks that are done at every so many visits; their number. */
static int tell_tasks(const struct spt_schedule *schedule, long step, char *words)
{
    size_t used = 0;
    int count = 0;
    for (int i = 0; i < schedule->task_count; i++) {
        const struct spt_schedule_task *task = &schedule->tasks[i];
        char what[SPT_WHAT_LENGTH];
        if (!spt_visits_has(schedule, task) || used >= TOLD_LENGTH - 3 ||
            lround(task->kept_h / schedule->visit_h) != step)
            continue;
        spt_schedule_name(schedule, task, what);
        used +=
            (size_t)snprintf(words + used, TOLD_LENGTH - used, "%s%s", count++ ? ", " : "", what);
    }
    return count;
}

/* Tells how the tasks share their visits: "A visit every 900 h (12 months): regrease, inspect. At
 * every 3rd: clean out and repack." */
static void say_visits(struct spt_page *page, const struct spt_schedule *schedule)
{
    char words[TOLD_LENGTH], span[SPT_SPAN_LENGTH];
    const bool seasonal = spt_season_has(schedule->question);
    const double days = seasonal ? NONE : spt_schedule_days(schedule->question, schedule->visit_h);
    if (!tell_tasks(schedule, 1, words))
        return;
    const char *said = spt_page_words(page, "%s", words);
    for (int step = 2; step <= STEPS_MAX; step++)
        if (tell_tasks(schedule, step, words))
            said = spt_page_words(page, "%s; at every %d%s: %s", said, step, tell_ordinal(step),
                                  words);
    if (isnan(days))
        spt_page_say(page, SPT_BODY, "", "A visit every %s: %s.",
                     spt_page_life(page, schedule->visit_h), said);
    else
        spt_page_say(page, SPT_BODY, "", "A visit every %s (%s): %s.",
                     spt_page_life(page, schedule->visit_h), spt_text_span(days, span), said);
}

/* How a season goes. */
static void say_season(struct spt_page *page, const struct spt_schedule *schedule)
{
    const struct spt_case *question = schedule->question;
    char span[SPT_SPAN_LENGTH];
    if (!spt_season_has(question))
        return;
    const int greasings = schedule->regrease_h > 0 ? spt_season_greasings(question->yearly_use_h,
                                                                          question->season.months,
                                                                          schedule->regrease_h, 0)
                                                   : 0;
    spt_page_say(page, SPT_BODY, "", "The season: %s in %g months from %s on, then the lay-up.",
                 spt_page_life(page, question->yearly_use_h), question->season.months,
                 spt_word(&spt_month_words, question->season.month));
    if (greasings)
        spt_page_say(
            page, SPT_BODY, "",
            "%d greasing%s a season, every %s or %s of it, the last as a purge at its end: "
            "the months of the grease then rest in the lay-up (a rule of this tool).",
            greasings, greasings == 1 ? "" : "s",
            spt_page_life(page, question->yearly_use_h / greasings),
            spt_text_span(question->season.months / greasings * SPT_MONTH_DAYS, span));
}

static void say_open_end(struct spt_page *page, const struct spt_schedule *schedule)
{
    const bool replaced =
        schedule->replace_h > 0 && schedule->replace_governor != SPT_GOVERNOR_FATIGUE_FAR;
    if (replaced || schedule->question->target_life_h > 0)
        return;
    if (schedule->question->yearly_use_h > 0)
        spt_page_say(page, SPT_BODY, "",
                     "Neither a replacement nor a target ends this calendar: %d years are shown.",
                     SPT_SCHEDULE_OPEN_YEARS);
    else
        spt_page_say(page, SPT_BODY, "",
                     "Neither a replacement nor a target ends this calendar: it shows what is due "
                     "at once.");
}

void spt_schedule_calendar_page(struct spt_page *page, const struct spt_schedule_report *report)
{
    int shown = 0;
    while (shown < report->entry_count && report->entries[shown].visit <= VISITS_SHOWN)
        shown++;
    spt_page_open(page, "Calendar");
    show_entries(page, report, shown);
    if (report->entry_count) {
        say_season(page, report->schedule);
        say_visits(page, report->schedule);
        say_open_end(page, report->schedule);
    }
    if (shown < report->entry_count)
        spt_page_say(page, SPT_BODY, "", "%d more%s; --format csv gives them.",
                     report->entry_count - shown,
                     report->cut ? " (and the list was cut short of its end)" : "");
    spt_page_close(page);
}

void spt_schedule_calendar_json(struct spt_json *json, const struct spt_page *page,
                                const struct spt_schedule_report *report)
{
    static const struct spt_column columns[] = {
        {.key = "task", .kind = SPT_WORDS, .at = offsetof(struct entry_row, task)},
        {.key = "bearing", .kind = SPT_WORDS, .at = offsetof(struct entry_row, bearing)},
        {.key = "number", .kind = SPT_FIXED, .at = offsetof(struct entry_row, number)},
        {.key = "visit", .kind = SPT_FIXED, .at = offsetof(struct entry_row, visit)},
        {.key = "at_h", .kind = SPT_HOURS, .at = offsetof(struct entry_row, at_h)},
        {.key = "due_h", .kind = SPT_HOURS, .at = offsetof(struct entry_row, due_h)},
        {.key = "date", .kind = SPT_WORDS, .at = offsetof(struct entry_row, date)},
    };
    struct spt_table calendar = *spt_page_find(page, "calendar");
    calendar.row_count = report->entry_count; /* care has a list of its own */
    calendar.columns = columns;
    calendar.column_count = (int)(sizeof columns / sizeof *columns);
    spt_table_json(&calendar, "calendar", json);
}
