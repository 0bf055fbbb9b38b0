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
    double first_h, every_h, months;
};

/* "50 h, then 500 h or 3 months" */
static const char *tell_time(struct spt_page *page, const struct spt_care_task *task)
{
    const char *first = "", *hours = "", *months = "";
    if (!isnan(task->first_h))
        first = spt_page_words(page, "%s h, then ", spt_page_hours(page, task->first_h));
    if (!isnan(task->every_h))
        hours = spt_page_words(page, "%s h", spt_page_hours(page, task->every_h));
    if (task->months)
        months = spt_page_words(page, "%s%d month%s", *hours ? " or " : "", task->months,
                                task->months > 1 ? "s" : "");
    return spt_page_words(page, "%s%s%s", first, hours, months);
}

static struct care_row care_row(struct spt_page *page, const struct spt_care_task *task)
{
    const struct words *told = &words[task->care];
    const char *time = tell_time(page, task);
    return (struct care_row){
        .what = told->what,
        .when = spt_page_words(page, "%s%s%s", time, *time && told->when ? "; " : "",
                               told->when ? told->when : ""),
        .occasion = told->when,
        .source = told->source,
        .first_h = task->first_h,
        .every_h = task->every_h,
        .months = task->months ? task->months : (double)NAN,
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
