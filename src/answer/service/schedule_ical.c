/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <inttypes.h>
#include <math.h>
#include <string.h>

#include "answer/service/schedule_words.h"
#include "format/ical.h"
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
#define DESCRIPTION_LENGTH (SPT_SCHEDULE_TASKS_MAX * TOLD_LENGTH + 80)

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

static void write_description(FILE *out, const struct spt_schedule_report *report,
                              const struct visit *visit)
{
    char words[DESCRIPTION_LENGTH], hours[SPT_HOURS_LENGTH];
    size_t used = (size_t)snprintf(words, sizeof words, "At %s running hours.\n",
                                   spt_text_hours(visit->entries[0].at_h, hours));
    for (int i = 0; i < visit->count; i++)
        used += tell_task(report, &visit->entries[i], words + used);
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
