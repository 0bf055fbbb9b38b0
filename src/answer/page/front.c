/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "answer/page/front.h"

#include <math.h>
#include <string.h>

#include "answer/service/schedule_words.h"
#include "chart/figure.h"
#include "sentence/verdict.h"

#define LINES_MAX 5 /* of the plan; more no wall needs */

static void say_verdict(struct spt_page *page, const struct spt_judgement *judgement)
{
    char headline[SPT_HEADLINE_LENGTH];
    spt_page_judge(page, spt_verdict_mark(judgement), "%s",
                   spt_verdict_headline(judgement, headline));
    spt_page_say(page, SPT_BODY, "life under this plan  ", "%s",
                 spt_page_life(page, judgement->life_h));
    if (judgement->has_target)
        spt_page_say(page, SPT_BODY, "target  ", "%s",
                     spt_page_life(page, judgement->question->target_life_h));
}

static void say_task(struct spt_page *page, const struct spt_schedule *schedule,
                     const struct spt_schedule_task *task)
{
    char what[SPT_WHAT_LENGTH], span[SPT_SPAN_LENGTH];
    const char *every = spt_schedule_every(schedule, task, span);
    spt_schedule_name(schedule, task, what);
    spt_page_say(page, SPT_BODY, "- ", "%s: every %s%s%s%s (%s)", what,
                 spt_page_life(page, task->every_h), strcmp(every, "-") ? ", " : "",
                 strcmp(every, "-") ? every : "", "", spt_governor_name(task->governor));
}

static void say_plan(struct spt_page *page, const struct spt_schedule *schedule)
{
    int said = 0;
    spt_page_open(page, "The plan");
    for (int i = 0; i < schedule->task_count && said < LINES_MAX; i++) {
        if (isnan(schedule->tasks[i].every_h))
            continue;
        say_task(page, schedule, &schedule->tasks[i]);
        said++;
    }
    if (!said)
        spt_page_say(page, SPT_BODY, "", "No task has an interval.");
    spt_page_close(page);
}

/* The bearing with the shortest life; the first one where none has a life. */
static int find_shortest(const struct spt_assessment *assessment)
{
    int shortest = 0;
    for (int i = 1; i < assessment->bearing_count; i++)
        if (assessment->bearings[i].modified_rating_life_h <
            assessment->bearings[shortest].modified_rating_life_h)
            shortest = i;
    return shortest;
}

void spt_front_page(struct spt_page *page, const struct spt_report *report,
                    const struct spt_schedule_report *plan)
{
    static const char *const charts[] = {"stairs", "phases", "film", "survival"};
    const int bearing = find_shortest(report->cases[0].assessment);
    spt_page_open_as(page, SPT_SECTION_FRONT, "The answer");
    if (report->judged)
        say_verdict(page, &report->judged->judgement);
    if (plan && plan->schedule)
        say_plan(page, plan->schedule);
    for (size_t i = 0; i < sizeof charts / sizeof *charts; i++)
        spt_figure_of_front(page, charts[i], report, bearing);
    spt_page_close(page);
}
