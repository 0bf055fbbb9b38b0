/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "answer/service/care.h"
#include "answer/service/schedule_words.h"
#include "format/ical.h"
#include "spalltime/lubricant.h"
#include "spalltime/version.h"

/* FNV-1a, so that identifiers need neither a clock nor random numbers. */
static uint64_t mix(uint64_t hash, const char *text)
{
    for (; text && *text; text++)
        hash = (hash ^ (unsigned char)*text) * UINT64_C(1099511628211);
    return hash;
}

#define UID_LENGTH 64
#define SUMMARY_LENGTH SPT_ICAL_LINE_MAX
#define TOLD_LENGTH (SPT_WHY_LENGTH + SPT_WHAT_LENGTH + 120)
#define CARE_LENGTH (SPT_CARE_LENGTH + 80)
#define DESCRIPTION_LENGTH                                                                         \
    (SPT_SCHEDULE_TASKS_MAX * TOLD_LENGTH + SPT_CARE_COUNT * CARE_LENGTH + 80)

/* The entries of one visit. */
struct visit {
    const struct spt_schedule_entry *entries;
    int count;
};

static struct visit find_visit(const struct spt_schedule_report *report, int first)
{
    struct visit visit = {&report->entries[first], 1};
    while (first + visit.count < report->entry_count &&
           visit.entries[visit.count].visit == visit.entries[0].visit)
        visit.count++;
    return visit;
}

const char *spt_schedule_plan_id(const struct spt_schedule_report *report, char *id)
{
    const struct spt_case *question = report->schedule->question;
    uint64_t hash = mix(UINT64_C(14695981039346656037), report->file ? report->file : "");
    hash = mix(mix(hash, "/"), question->title);
    for (int i = 0; i < question->bearing_count; i++)
        hash = mix(mix(hash, "/"), question->bearings[i].bearing.name);
    snprintf(id, SPT_PLAN_ID_LENGTH, "%016" PRIx64 "-", hash);
    return id;
}

/* Of a visit; that of a group of machines has its number too, from the second on. */
static const char *make_uid(const struct spt_schedule_report *report, int group, int visit,
                            char *uid)
{
    char id[SPT_PLAN_ID_LENGTH], of[16] = "";
    if (group)
        snprintf(of, sizeof of, "g%d-", group + 1);
    snprintf(uid, UID_LENGTH, "%s%s%d@spalltime", spt_schedule_plan_id(report, id), of, visit);
    return uid;
}

static const char *make_care_uid(const struct spt_schedule_report *report, enum spt_care care,
                                 char *uid)
{
    char id[SPT_PLAN_ID_LENGTH];
    snprintf(uid, UID_LENGTH, "%scare-%d@spalltime", spt_schedule_plan_id(report, id),
             (int)care + 1);
    return uid;
}

/* Days from the start to the first time of a task of care. */
static double find_first_days(const struct spt_schedule *schedule, const struct spt_care_task *task)
{
    const double first_days = spt_schedule_days(schedule->question, task->first_h);
    return fmin(first_days, task->every_days);
}

/* True for a task of care that comes round by the calendar before the last visit. */
static bool is_dated(const struct spt_schedule_report *report, const struct spt_care_task *task)
{
    if (!report->entry_count)
        return false;
    const struct spt_schedule_entry *last = &report->entries[report->entry_count - 1];
    return find_first_days(report->schedule, task) <=
           spt_schedule_entry_days(report->schedule->question, last);
}

/* Writes one task of a visit, with a line for the task and one for the reason. */
static size_t tell_task(const struct spt_schedule_report *report,
                        const struct spt_schedule_entry *entry, char *words)
{
    const struct spt_schedule_task *task = &report->schedule->tasks[entry->task];
    char what[SPT_WHAT_LENGTH], why[SPT_WHY_LENGTH], every[SPT_HOURS_LENGTH];
    spt_schedule_dated_what(report->schedule, entry, what);
    spt_schedule_why(task, why);
    spt_text_hours(task->every_h, every);
    if (task->task == SPT_TASK_REPLACE || isnan(task->every_h))
        return (size_t)snprintf(words, TOLD_LENGTH, "%s.\n%s\n", what, why);
    return (size_t)snprintf(words, TOLD_LENGTH, "%s: number %d, every %s h.\n%s\n", what,
                            entry->number, every, why);
}

/* Writes the tasks of care that have no date: with the first visit, and about a lay-up. */
static size_t tell_care(const struct spt_schedule_report *report, const struct visit *visit,
                        char *words)
{
    bool here = visit->entries == report->entries || visit->entries[0].before;
    size_t used = 0;
    for (int i = 0; i < visit->count; i++)
        here = here || visit->entries[i].ends_season;
    for (int i = 0; here && i < report->schedule->care_count; i++) {
        const struct spt_care_task *task = &report->schedule->care[i];
        char when[SPT_CARE_LENGTH];
        if (!is_dated(report, task))
            used += (size_t)snprintf(words + used, CARE_LENGTH, "Beside the plan: %s (%s).\n",
                                     spt_care_what(task->care), spt_care_when(task, when));
    }
    return used;
}

static void write_description(FILE *out, const struct spt_schedule_report *report,
                              const struct visit *visit)
{
    char words[DESCRIPTION_LENGTH], hours[SPT_HOURS_LENGTH];
    size_t used = (size_t)snprintf(words, sizeof words, "At %s running hours.\n",
                                   spt_text_hours(visit->entries[0].at_h, hours));
    for (int i = 0; i < visit->count; i++)
        used += tell_task(report, &visit->entries[i], words + used);
    used += tell_care(report, visit, words + used);
    snprintf(words + used, sizeof words - used, "An estimate for planning.");
    spt_ical_text(out, "DESCRIPTION", words);
}

/* "Trailer hub: regrease inboard row with 13.1 g; inspect". */
static void write_summary(const struct spt_schedule_report *report, int group,
                          const struct visit *visit, char *summary)
{
    char what[SPT_WHAT_LENGTH], machines[SPT_MACHINES_LENGTH] = "";
    if (report->start_count)
        spt_schedule_machines(&report->starts[group], machines);
    size_t used =
        (size_t)snprintf(summary, SUMMARY_LENGTH, "%s%s%s", report->schedule->question->title,
                         *machines ? ", " : "", machines);
    for (int i = 0; i < visit->count && used < SUMMARY_LENGTH; i++) {
        spt_schedule_dated_what(report->schedule, &visit->entries[i], what);
        used +=
            (size_t)snprintf(summary + used, SUMMARY_LENGTH - used, "%s%s", i ? "; " : ": ", what);
    }
}

/* Values shared by all events of one calendar. */
struct edition {
    char stamp[SPT_DATE_LENGTH + 16];
    long sequence;
};

static void write_edition(FILE *out, const struct edition *edition)
{
    char sequence[24];
    snprintf(sequence, sizeof sequence, "%ld", edition->sequence);
    spt_ical_line(out, "DTSTAMP", edition->stamp);
    spt_ical_line(out, "SEQUENCE", sequence);
}

/* True for an event of this plan, by its UID. */
static bool is_own(const struct spt_schedule_report *report, const struct spt_ical_event *event)
{
    char id[SPT_PLAN_ID_LENGTH];
    spt_schedule_plan_id(report, id);
    return !strncmp(event->uid, id, strlen(id));
}

/* The SEQUENCE: above that of every visit of this plan in the previous calendar. */
static long next_sequence(const struct spt_schedule_report *report)
{
    long next = 0;
    for (int i = 0; i < report->previous_count; i++)
        if (is_own(report, &report->previous[i]) && report->previous[i].sequence >= next)
            next = report->previous[i].sequence + 1;
    return next;
}

static bool is_planned(const struct spt_schedule_report *report, const char *uid)
{
    char own[UID_LENGTH];
    const int groups = report->start_count ? report->start_count : 1;
    for (int group = 0; group < groups; group++)
        for (int i = 0; i < report->entry_count; i++)
            if (!strcmp(make_uid(report, group, report->entries[i].visit, own), uid))
                return true;
    for (int i = 0; i < report->schedule->care_count; i++)
        if (is_dated(report, &report->schedule->care[i]) &&
            !strcmp(make_care_uid(report, report->schedule->care[i].care, own), uid))
            return true;
    return false;
}

/* Writes a visit of the previous calendar that no longer exists. */
static void write_cancelled(FILE *out, const struct spt_ical_event *event,
                            const struct edition *edition)
{
    spt_ical_line(out, "BEGIN", "VEVENT");
    spt_ical_line(out, "UID", event->uid);
    write_edition(out, edition);
    spt_ical_line(out, event->start_name, event->start);
    if (event->summary)
        spt_ical_line(out, "SUMMARY", event->summary);
    spt_ical_line(out, "STATUS", "CANCELLED");
    spt_ical_line(out, "TRANSP", "TRANSPARENT");
    spt_ical_line(out, "END", "VEVENT");
}

static void write_event(FILE *out, const struct spt_schedule_report *report, int group,
                        const struct visit *visit, const struct edition *edition)
{
    const double sooner_days = report->start_count ? 7.0 * report->starts[group].weeks : 0;
    char summary[SUMMARY_LENGTH], day[SPT_DATE_LENGTH], uid[UID_LENGTH];
    struct spt_date date;
    const struct spt_case *question = report->schedule->question;
    const double days = spt_schedule_entry_days(question, &visit->entries[0]) - sooner_days;
    if (!spt_date_after(&report->start, fmax(0, days), &date))
        return; /* beyond the year 9999 */
    write_summary(report, group, visit, summary);
    spt_ical_line(out, "BEGIN", "VEVENT");
    spt_ical_line(out, "UID", make_uid(report, group, visit->entries[0].visit, uid));
    write_edition(out, edition);
    spt_ical_line(out, "DTSTART;VALUE=DATE", spt_date_text(&date, true, day));
    spt_ical_text(out, "SUMMARY", summary);
    write_description(out, report, visit);
    spt_ical_line(out, "TRANSP", "TRANSPARENT");
    spt_ical_line(out, "END", "VEVENT");
}

#define WHOLE 0.05 /* of a month: 61 days are two, 28 or 42 are none */
#define LAST_OF_EACH_MONTH 28

/* "FREQ=MONTHLY;INTERVAL=3;UNTIL=20290301" (RFC 5545, section 3.3.10). */
static void write_rule(FILE *out, double every_days, const struct spt_date *until)
{
    char rule[80], day[SPT_DATE_LENGTH];
    const double months = every_days / SPT_MONTH_DAYS;
    const bool monthly = months > 0.5 && fabs(months - round(months)) < WHOLE;
    snprintf(rule, sizeof rule, "FREQ=%s;INTERVAL=%ld;UNTIL=%s", monthly ? "MONTHLY" : "DAILY",
             lround(monthly ? months : every_days), spt_date_text(until, true, day));
    spt_ical_line(out, "RRULE", rule);
}

/* A task of care as an event that comes round until the last visit. */
static void write_care(FILE *out, const struct spt_schedule_report *report,
                       const struct spt_care_task *task, const struct edition *edition)
{
    const struct spt_case *question = report->schedule->question;
    const struct spt_schedule_entry *last = &report->entries[report->entry_count - 1];
    char words[SUMMARY_LENGTH], when[SPT_CARE_LENGTH], day[SPT_DATE_LENGTH], uid[UID_LENGTH];
    struct spt_date first, until;
    if (!spt_date_after(&report->start, find_first_days(report->schedule, task), &first) ||
        !spt_date_after(&report->start, spt_schedule_entry_days(question, last), &until))
        return; /* beyond the year 9999 */
    if (first.day > LAST_OF_EACH_MONTH)
        first.day = LAST_OF_EACH_MONTH; /* months without that day would be passed over */
    spt_ical_line(out, "BEGIN", "VEVENT");
    spt_ical_line(out, "UID", make_care_uid(report, task->care, uid));
    write_edition(out, edition);
    spt_ical_line(out, "DTSTART;VALUE=DATE", spt_date_text(&first, true, day));
    write_rule(out, task->every_days, &until);
    snprintf(words, sizeof words, "%s: %s", question->title, spt_care_what(task->care));
    spt_ical_text(out, "SUMMARY", words);
    snprintf(words, sizeof words, "%s (%s).\nBeside the plan.", spt_care_when(task, when),
             spt_care_source(task->care));
    spt_ical_text(out, "DESCRIPTION", words);
    spt_ical_line(out, "TRANSP", "TRANSPARENT");
    spt_ical_line(out, "END", "VEVENT");
}

static void write_plan(FILE *out, const struct spt_schedule_report *report)
{
    char day[SPT_DATE_LENGTH];
    struct edition edition = {.sequence = next_sequence(report)};
    const int groups = report->start_count ? report->start_count : 1;
    snprintf(edition.stamp, sizeof edition.stamp, "%sT000000Z",
             spt_date_text(&report->start, true, day));
    for (int group = 0; group < groups; group++)
        for (int i = 0; i < report->entry_count;) {
            const struct visit visit = find_visit(report, i);
            write_event(out, report, group, &visit, &edition);
            i += visit.count;
        }
    for (int i = 0; i < report->schedule->care_count; i++)
        if (is_dated(report, &report->schedule->care[i]))
            write_care(out, report, &report->schedule->care[i], &edition);
    for (int i = 0; i < report->previous_count; i++)
        if (is_own(report, &report->previous[i]) && !is_planned(report, report->previous[i].uid))
            write_cancelled(out, &report->previous[i], &edition);
}

void spt_schedule_ical(FILE *out, const struct spt_schedule_report *const *reports, int count)
{
    spt_ical_line(out, "BEGIN", "VCALENDAR");
    spt_ical_line(out, "VERSION", "2.0");
    spt_ical_line(out, "PRODID", "-//spalltime//" SPT_VERSION "//EN");
    spt_ical_line(out, "CALSCALE", "GREGORIAN");
    for (int i = 0; i < count; i++)
        write_plan(out, reports[i]);
    spt_ical_line(out, "END", "VCALENDAR");
}
