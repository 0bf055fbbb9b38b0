/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/care.h"

#include <math.h>
#include <stddef.h>

#include "base/table.h"
#include "format/page/blocks.h"

/* What is done, when beside the hours and months, and what that rests on. */
struct words {
    const char *what, *when, *source;
};

static const struct words words[] = {
    [SPT_CARE_END_PLAY] = {"check end play and nut lock", "each repacking", "common practice"},
    [SPT_CARE_LOOK] = {"spin, rock, feel for heat; look at seals", "each greasing",
                       "common practice"},
    [SPT_CARE_OPEN] = {"open, wash, inspect, repack, new seal", "after immersion", "trade pages"},
    [SPT_CARE_PURGE_SEAL] = {"purge the seal until clean grease shows", "beside its bearing",
                             "common practice"},
    [SPT_CARE_SAMPLE] = {"sample the oil", NULL, "common practice"},
    [SPT_CARE_BREATHER] = {"look at the breather, new cartridge", "by its colour",
                           "common practice"},
    [SPT_CARE_FILTER] = {"change the filter element", "by pressure drop", "common practice"},
    [SPT_CARE_TURN] = {"turn several turns and a fraction", "standing; shaken: weekly",
                       "storage pages"},
    [SPT_CARE_LAY_UP] = {"purge or fill up, inhibitor, plug, cover", "before 3 months of standing",
                         "lay-up guide of an insurer"},
    [SPT_CARE_FREE_WATER] = {"drain or purge free water", "before start and lay-up",
                             "common practice"},
};
SPT_ONE_EACH(words, SPT_CARE_COUNT);

struct care_row {
    const char *what, *when, *occasion, *source;
    double first_h, every_h, months, every_days;
};

const char *spt_care_what(enum spt_care care)
{
    return words[care].what;
}

const char *spt_care_source(enum spt_care care)
{
    return words[care].source;
}

const char *spt_care_occasion(enum spt_care care)
{
    return words[care].when;
}

const char *spt_care_when(const struct spt_care_task *task, char *told)
{
    const char *occasion = words[task->care].when;
    char hours[SPT_HOURS_LENGTH];
    size_t used = 0;
    *told = 0;
    if (!isnan(task->first_h))
        used += (size_t)snprintf(told, SPT_CARE_LENGTH, "%s h, then ",
                                 spt_text_hours(task->first_h, hours));
    if (!isnan(task->every_h))
        used += (size_t)snprintf(told + used, SPT_CARE_LENGTH - used, "%s h%s",
                                 spt_text_hours(task->every_h, hours), task->months ? " or " : "");
    if (task->months)
        used += (size_t)snprintf(told + used, SPT_CARE_LENGTH - used, "%d month%s", task->months,
                                 task->months > 1 ? "s" : "");
    if (occasion)
        snprintf(told + used, SPT_CARE_LENGTH - used, "%s%s", used ? "; " : "", occasion);
    return told;
}

static struct care_row care_row(struct spt_page *page, const struct spt_care_task *task)
{
    char when[SPT_CARE_LENGTH];
    return (struct care_row){
        .what = spt_care_what(task->care),
        .when = spt_page_words(page, "%s", spt_care_when(task, when)),
        .occasion = spt_care_occasion(task->care),
        .source = spt_care_source(task->care),
        .first_h = task->first_h,
        .every_h = task->every_h,
        .months = task->months ? task->months : (double)NAN,
        .every_days = task->every_days,
    };
}

#define AT(member) .at = offsetof(struct care_row, member)
void spt_care_page(struct spt_page *page, const struct spt_schedule *schedule)
{
    static const struct spt_column columns[] = {
        {.head = "task", .key = "task", .kind = SPT_WORDS, .width = 40, AT(what)},
        {.head = "when", .kind = SPT_WORDS, .width = 38, .gap = 1, AT(when)},
        {.key = "first_h", .kind = SPT_HOURS, AT(first_h)},
        {.key = "every_h", .kind = SPT_HOURS, AT(every_h)},
        {.key = "every_months", .kind = SPT_GENERAL, .digits = 3, AT(months)},
        {.key = "every_days", .kind = SPT_SPAN, AT(every_days)},
        {.key = "occasion", .kind = SPT_WORDS, AT(occasion)},
        {.key = "source", .kind = SPT_WORDS, AT(source)},
    };
    const int count = schedule->care_count;
    struct care_row *rows = spt_page_allocate(page, (size_t)count * sizeof *rows);
    for (int i = 0; rows && i < count; i++)
        rows[i] = care_row(page, &schedule->care[i]);
    if (!count)
        return;
    spt_page_open(page, "Beside the plan");
    spt_page_table(page, "care", &(struct spt_table){SPT_TABLE_OF(columns, rows, count)});
    spt_page_say(page, SPT_BODY, "",
                 "Each at whichever comes first. Common practice without a source; opening from "
                 "trade pages of trailers, standing from the lay-up guide of an insurer and pages "
                 "on storage. The maker comes first.");
    spt_page_close(page);
}
#undef AT
