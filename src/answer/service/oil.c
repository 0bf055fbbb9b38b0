/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/service/oil.h"

#include <math.h>

#include "format/page/blocks.h"
#include "sentence/greasing.h"

/* "every 4 000 h or 12 months, whichever is first" */
static const char *tell_every(struct spt_page *page, const struct spt_oil_change *oil)
{
    char span[SPT_SPAN_LENGTH];
    if (isnan(oil->every_days))
        snprintf(span, sizeof span, "%d months", oil->months);
    else
        spt_greasing_span(oil->every_days, span);
    return spt_page_words(page, "every %s h or %s, whichever is first",
                          spt_page_hours(page, oil->every_h), span);
}

static void say_own_life(struct spt_page *page, const struct spt_oil_change *oil)
{
    if (isnan(oil->life_h))
        spt_page_say(page, SPT_BODY, "", "Oil: nothing says how long it lasts; see the flags.");
    else if (isnan(oil->every_h))
        spt_page_say(page, SPT_BODY, "",
                     "Oil: at up to %.3g degC it lasts %s h, which nobody can keep: cool it, or "
                     "use synthetic.",
                     oil->hottest_c, spt_page_hours(page, fmin(oil->life_h, oil->fill_h)));
    else if (isinf(oil->life_h))
        spt_page_say(page, SPT_BODY, "", "Oil: %s; nothing turns in it.", tell_every(page, oil));
    else
        spt_page_say(page, SPT_BODY, "",
                     "Oil: %s; at up to %.3g degC it lasts about %s h (a rule of this tool).",
                     tell_every(page, oil), oil->hottest_c, spt_page_hours(page, oil->life_h));
    if (isfinite(oil->fill_h))
        spt_page_say(page, SPT_BODY, "",
                     "Without a filter the dirt that comes in brings it to its limit after %s h.",
                     spt_page_hours(page, oil->fill_h));
}

/* What the scenario states, where that is another interval or an early first one. */
static void say_stated(struct spt_page *page, const struct spt_schedule *schedule)
{
    const double stated_h = schedule->stated_oil_change_h;
    for (int i = 0; i < schedule->task_count; i++) {
        const struct spt_schedule_task *task = &schedule->tasks[i];
        if (task->task != SPT_TASK_OIL_CHANGE && task->task != SPT_TASK_OIL_OR_FILTER)
            continue;
        if (stated_h > task->own_h)
            spt_page_say(page, SPT_BODY, "! ",
                         "The scenario changes the oil every %s h; this plan asks for %s h: LATER "
                         "than it should be.",
                         spt_page_hours(page, stated_h), spt_page_hours(page, task->own_h));
        if (task->spent_h > 0)
            spt_page_say(page, SPT_BODY, "",
                         "A new gear unit: the first change after %s h (common practice).",
                         spt_page_hours(page, spt_schedule_first_h(task)));
    }
}

void spt_oil_page(struct spt_page *page, const struct spt_schedule *schedule)
{
    if (schedule->question->lubricant.kind == SPT_LUBRICATION_GREASE)
        return;
    say_own_life(page, &schedule->oil);
    say_stated(page, schedule);
}

void spt_oil_json(struct spt_json *json, const struct spt_oil_change *oil)
{
    const bool any = oil->months > 0;
    if (!any) {
        spt_json_text(json, "oil", NULL);
        return;
    }
    spt_json_open(json, "oil", '{');
    spt_json_number(json, "oil_life_h", oil->life_h);
    spt_json_number(json, "hottest_c", oil->hottest_c);
    spt_json_number(json, "filled_with_dirt_h", oil->fill_h);
    spt_json_number(json, "change_every_h", oil->every_h);
    spt_json_number(json, "change_every_days", oil->every_days);
    spt_json_number(json, "at_most_months", oil->months);
    spt_json_close(json, '}');
}
