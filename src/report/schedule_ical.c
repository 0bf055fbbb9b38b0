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

static void write_uid(FILE *out, const struct spt_schedule_report *report,
                      const struct spt_schedule_entry *entry, const char *what)
{
    char uid[64], number[32];
    uint64_t hash = mix(UINT64_C(14695981039346656037), report->schedule->question->title);
    snprintf(number, sizeof number, "/%d/%d", entry->task, entry->number);
    hash = mix(mix(hash, what), number);
    snprintf(uid, sizeof uid, "%016" PRIx64 "-%d-%d@spalltime", hash, entry->task, entry->number);
    spt_ical_line(out, "UID", uid);
}

static void write_description(FILE *out, const struct spt_schedule_report *report,
                              const struct spt_schedule_entry *entry)
{
    const struct spt_schedule_task *task = &report->schedule->tasks[entry->task];
    char words[SPT_WHY_LENGTH + 200], why[SPT_WHY_LENGTH], hours[SPT_HOURS_LENGTH],
        every[SPT_HOURS_LENGTH];
    spt_schedule_why(task, why);
    spt_text_hours(entry->at_h, hours);
    spt_text_hours(task->every_h, every);
    if (task->task == SPT_TASK_REPLACE)
        snprintf(words, sizeof words, "At %s running hours.\n%s\nAn estimate for planning.", hours,
                 why);
    else
        snprintf(words, sizeof words,
                 "Number %d, at %s running hours, every %s h.\n%s\nAn estimate for planning.",
                 entry->number, hours, every, why);
    spt_ical_text(out, "DESCRIPTION", words);
}

static void write_event(FILE *out, const struct spt_schedule_report *report,
                        const struct spt_schedule_entry *entry, const char *stamp)
{
    char what[SPT_WHAT_LENGTH], summary[2 * SPT_WHAT_LENGTH], day[SPT_DATE_LENGTH];
    struct spt_date date;
    const struct spt_case *question = report->schedule->question;
    if (!spt_date_after(&report->start, spt_schedule_days(question, entry->at_h), &date))
        return; /* beyond the year 9999 */
    spt_schedule_what(report->schedule, &report->schedule->tasks[entry->task], what);
    snprintf(summary, sizeof summary, "%s: %s", question->title, what);
    spt_ical_line(out, "BEGIN", "VEVENT");
    write_uid(out, report, entry, what);
    spt_ical_line(out, "DTSTAMP", stamp);
    spt_ical_line(out, "DTSTART;VALUE=DATE", spt_date_text(&date, true, day));
    spt_ical_text(out, "SUMMARY", summary);
    write_description(out, report, entry);
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
    for (int i = 0; i < report->entry_count; i++)
        write_event(out, report, &report->entries[i], stamp);
    spt_ical_line(out, "END", "VCALENDAR");
}
