/* SPDX-License-Identifier: GPL-3.0-or-later */
#include <stddef.h>

#include "answer/field/fit_parts.h"

#define ROWS_MAX 12 /* in text and HTML, the oldest */

static const struct spt_column columns[] = {
    {.head = "age",
     .key = "age",
     .kind = SPT_AMOUNT,
     .width = 11,
     .at = offsetof(struct spt_fit_running, age)},
    {.head = "units",
     .key = "units",
     .kind = SPT_COUNT,
     .width = 6,
     .gap = 1,
     .at = offsetof(struct spt_fit_running, count)},
    {.head = "90 % run another",
     .key = "left_90",
     .kind = SPT_AMOUNT,
     .width = 17,
     .gap = 1,
     .at = offsetof(struct spt_fit_running, left_90)},
    {.head = "half run another",
     .key = "left_50",
     .kind = SPT_AMOUNT,
     .width = 17,
     .gap = 1,
     .at = offsetof(struct spt_fit_running, left_50)},
};

void spt_fit_page_running(struct spt_page *page, const struct spt_fit_report *report)
{
    const int count = report->running_count < ROWS_MAX ? report->running_count : ROWS_MAX;
    if (!count)
        return;
    spt_page_open(page, "Still running");
    spt_page_say(page, SPT_BODY, "",
                 "How much longer, in %s from its age on, for a %s that got so far, by the law "
                 "%s:",
                 report->unit, spt_fit_noun(report),
                 report->fit.basis == SPT_FIT_LIKELIHOOD ? "as fitted" : "with the assumed slope");
    spt_page_table(page, "running",
                   &(struct spt_table){SPT_TABLE_OF(columns, report->running, count)});
    if (count < report->running_count)
        spt_page_say(page, SPT_BODY, "", "These are the %d greatest ages of %d.", count,
                     report->running_count);
    spt_page_close(page);
}

void spt_fit_json_running(struct spt_json *json, const struct spt_fit_report *report)
{
    const struct spt_table table = {SPT_TABLE_OF(columns, report->running, report->running_count)};
    spt_table_json(&table, "still_running", json);
}
