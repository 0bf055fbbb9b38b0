/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <inttypes.h>
#include <math.h>

#include "report/ical.h"
#include "report/schedule_words.h"
#include "spalltime/version.h"

/* FNV-1a, so that an identifier needs no clock and no chance. */
static uint64_t mix(uint64_t hash, const char *text)
{
    for (; *text; text++)
        hash = (hash ^ (unsigned char)*text) * UINT64_C(1099511628211);
    return hash;
}

#define SUMMARY_LENGTH SPT_ICAL_LINE_MAX
#define TOLD_LENGTH (SPT_WHY_LENGTH + SPT_WHAT_LENGTH + 120)
#define DESCRIPTION_LENGTH (SPT_SCHEDULE_TASKS_MAX * TOLD_LENGTH + 80)

/* The entries of one visit. */
struct visit {
    const struct spt_schedule_entry *entries;
    int count;
};

static struct visit take_visit(const struct spt_schedule_report *report, int first)
{
    struct visit visit = {&report->entries[first], 1};
    while (first + visit.count < report->entry_count &&
           visit.entries[visit.count].visit == visit.entries[0].visit)
        visit.count++;
    return visit;
}

static void write_uid(FILE *out, const struct spt_schedule_report *report,
                      const struct visit *visit, const char *summary)
{
    char uid[64], number[32];
    uint64_t hash = mix(UINT64_C(14695981039346656037), report->schedule->question->title);
    snprintf(number, sizeof number, "/%d", visit->entries[0].visit);
    hash = mix(mix(hash, summary), number);
    snprintf(uid, sizeof uid, "%016" PRIx64 "-%d@spalltime", hash, visit->entries[0].visit);
    spt_ical_line(out, "UID", uid);
}

/* One task of a visit, a line for what and one for why. */
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
static void write_summary(const struct spt_schedule_report *report, const struct visit *visit,
                          char *summary)
{
    char what[SPT_WHAT_LENGTH];
    size_t used =
        (size_t)snprintf(summary, SUMMARY_LENGTH, "%s", report->schedule->question->title);
    for (int i = 0; i < visit->count && used < SUMMARY_LENGTH; i++) {
        spt_schedule_dated_what(report->schedule, &visit->entries[i], what);
        used +=
            (size_t)snprintf(summary + used, SUMMARY_LENGTH - used, "%s%s", i ? "; " : ": ", what);
    }
}

static void write_event(FILE *out, const struct spt_schedule_report *report,
                        const struct visit *visit, const char *stamp)
{
    char summary[SUMMARY_LENGTH], day[SPT_DATE_LENGTH];
    struct spt_date date;
    const struct spt_case *question = report->schedule->question;
    if (!spt_date_after(&report->start, spt_schedule_days(question, visit->entries[0].at_h), &date))
        return; /* beyond the year 9999 */
    write_summary(report, visit, summary);
    spt_ical_line(out, "BEGIN", "VEVENT");
    write_uid(out, report, visit, summary);
    spt_ical_line(out, "DTSTAMP", stamp);
    spt_ical_line(out, "DTSTART;VALUE=DATE", spt_date_text(&date, true, day));
    spt_ical_text(out, "SUMMARY", summary);
    write_description(out, report, visit);
    spt_ical_line(out, "TRANSP", "TRANSPARENT");
    spt_ical_line(out, "END", "VEVENT");
}

void spt_schedule_ical(FILE *out, const struct spt_schedule_report *report)
{
    char day[SPT_DATE_LENGTH], stamp[SPT_DATE_LENGTH + 16];
    snprintf(stamp, sizeof stamp, "%sT000000Z", spt_date_text(&report->start, true, day));
    spt_ical_line(out, "BEGIN", "VCALENDAR");
    spt_ical_line(out, "VERSION", "2.0");
    spt_ical_line(out, "PRODID", "-//spalltime//" SPT_VERSION "//EN");
    spt_ical_line(out, "CALSCALE", "GREGORIAN");
    for (int i = 0; i < report->entry_count;) {
        const struct visit visit = take_visit(report, i);
        write_event(out, report, &visit, stamp);
        i += visit.count;
    }
    spt_ical_line(out, "END", "VCALENDAR");
}
